"""What the creator chose of a headboard between the head posts."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from tutorial_lib.design.fields import Length, Section


class HeadboardOptions(Section):
    """[headboard] Boards across: between head posts that run up, or on uprights bolted to the head rail."""

    kind: Literal["none", "boards"] = "none"
    lumber: str = "1x6"
    battens: str = "1x2"  # inside the posts, behind the boards' ends
    uprights: str = "2x4"  # where the bed has no posts: behind the head rail, bolted to it
    inset: Length = Fraction(6)  # from the bed's sides to these
    over: Length = Fraction(14)  # its top above the mattress
    gap: Length = Fraction(1, 2)  # between boards, at most
