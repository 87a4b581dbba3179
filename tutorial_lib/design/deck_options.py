"""Rails, slats and heights as the build file states them."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from pydantic import model_validator

from tutorial_lib.design.fields import Count, Length, Section


class FrameOptions(Section):
    """[frame] The four rails."""

    rail: str = "2x6"
    corners: Literal["side rails run past", "end rails cap"] = "side rails run past"


class SlatOptions(Section):
    """[slats] The deck."""

    lumber: str = "1x4"
    carries: Literal["mattress", "box spring"] = "mattress"
    gap: Length | None = None  # at most, as the creator wants it; decides the count unless that is stated
    count: Count | None = None  # stated count, in place of gap
    edge: Literal["flush", "equal", "fixed"] = "flush"
    edge_gap: Length | None = None
    play: Length = Fraction(1, 8)  # slat end to rail, per end
    spacing_limit: Length = Fraction(16)  # box spring: centre to centre at most


class HeightOptions(Section):
    """[heights] Exactly one is given; the others follow."""

    underside: Length | None = None  # floor to the underside of rail or runner (storage height)
    sleeping: Length | None = None  # floor to the top of the slats
    leg: Length | None = None  # the side leg's length

    @model_validator(mode="after")
    def _one(self) -> HeightOptions:
        given = [name for name in ("underside", "sleeping", "leg") if getattr(self, name) is not None]
        if len(given) != 1:
            raise ValueError(f"give exactly one of underside, sleeping, leg (given: {', '.join(given) or 'none'})")
        return self
