"""Rails, slats and heights as the build file states them."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Annotated, Any, Literal

from pydantic import Field, field_validator, model_validator

from tutorial_lib.design.fields import Count, Length, Positive, Section, Size

MITRED = re.compile(r"mit[er]{2}", re.IGNORECASE)
HEIGHT_KEYS = ("underside", "storage", "sleeping", "mattress_top", "leg")


class FrameOptions(Section):
    """[frame] The four rails."""

    rail: str = "2x6"
    corners: Literal["side rails run past", "end rails cap", "rails die into posts"] = "side rails run past"

    @property
    def posts(self) -> bool:
        """True for corner posts that the rails end at."""
        return self.corners == "rails die into posts"

    @field_validator("corners", mode="before")
    @classmethod
    def _no_mitre(cls, corners: Any) -> Any:
        """A mitre is asked for by its name, so it is refused with its reason, not as an unknown word."""
        if isinstance(corners, str) and MITRED.match(corners):
            raise ValueError(
                f'"{corners}" is not built here: both rails end on a slant of end grain, where screws pull out and '
                "glue starves, so the corner opens when the bed is pushed. "
                'Use "side rails run past" or "end rails cap", with a leg at each corner.'
            )
        return corners


class SlatOptions(Section):
    """[slats] The deck."""

    lumber: str = "1x4"
    carries: Literal["mattress", "box spring"] = "mattress"
    gap: Length | None = None  # at most, as the creator wants it; decides the count unless that is stated
    count: Count | None = None  # stated count, in place of gap
    edge: Literal["flush", "equal", "fixed"] = "flush"
    edge_gap: Length | None = None
    play: Length = Fraction(1, 8)  # slat end to rail, per end
    spacing_limit: Positive = Fraction(16)  # box spring: centre to centre at most
    hold: Literal["screws", "straps", "loose"] = "screws"  # what keeps them in their places
    middle: Literal["screwed", "unscrewed"] = "screwed"  # on the centre lines
    halves: bool = False  # in two halves that meet over the one centre line
    straps: Annotated[int, Field(ge=2, le=5)] = 2  # webbing along the bed, of slats held by straps
    strap_width: Length = Fraction(1)


class HeightOptions(Section):
    """[heights] One is given, or follows from the boxes under the bed; the others follow."""

    underside: Length | None = None  # floor to the underside of rail or runner
    storage: Length | None = None  # floor to the lowest wood anywhere between the legs, centre lines too
    sleeping: Length | None = None  # floor to the top of the slats
    mattress_top: Length | None = None  # floor to the top of the mattress, its box spring under it
    leg: Length | None = None  # the side leg's length

    @property
    def given(self) -> tuple[str, ...]:
        """The keys that are stated."""
        return tuple(name for name in HEIGHT_KEYS if getattr(self, name) is not None)

    @model_validator(mode="after")
    def _one(self) -> HeightOptions:
        if len(self.given) > 1:
            raise ValueError(f"give exactly one of {', '.join(HEIGHT_KEYS)} (given: {', '.join(self.given)})")
        return self


class PlinthOptions(Section):
    """[plinth] Boards round legs that are set back under a wider deck: clear of floor and deck, or an inner frame."""

    lumber: str | None = None
    carries: bool = False  # they stand on the floor and reach up to the deck, beside the legs


class StorageOptions(Section):
    """[storage] Boxes under the bed, all alike; what is stated of them is minded."""

    width: Size | None = None  # of one, along the bed: the side legs make room for it
    depth: Size | None = None  # from the bed's side in
    height: Size | None = None  # gives the bed's height where none is stated
    count: Count = 2
    sides: Literal["both", "left", "right"] = "both"  # they are drawn out by
