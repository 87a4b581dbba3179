"""What the creator chose of a headboard between the head posts, or bolted to the head rail."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from tutorial_lib.design.fields import Length, Section

USUAL_GAPS = {"none": Fraction(1, 2), "boards": Fraction(1, 2), "slats": Fraction(2)}  # [in] at most; our choice


class HeadboardOptions(Section):
    """[headboard] Boards across, or two rails with upright slats: between head posts, or on uprights bolted on."""

    kind: Literal["none", "boards", "slats"] = "none"
    bed: Literal["new", "stands"] = "new"  # "stands": the bed is there; the headboard alone is made and bolted to it
    lumber: str = "1x6"  # of the boards across; under slats, of their two rails
    slats: str = "1x3"
    battens: str = "1x2"  # inside the posts, behind the boards' ends
    uprights: str = "2x4"  # where the bed has no posts: behind the head rail, bolted to it
    inset: Length = Fraction(6)  # from the bed's sides to these
    over: Length = Fraction(14)  # its top above the mattress
    gap: Length | None = None  # between boards or slats, at most; left out: see at_most

    @property
    def at_most(self) -> Fraction:
        """The greatest gap between boards or slats [in]: as stated, or usual."""
        return USUAL_GAPS[self.kind] if self.gap is None else self.gap
