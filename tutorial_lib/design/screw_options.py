"""Screws and bolts as the build file states them: a table for each kind of joint; what is left out is chosen."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Annotated, Any, Literal

from pydantic import Field, model_validator

from tutorial_lib.design.fields import Count, Length, Money, Positive, Section

EITHER = re.compile(r"^(?P<one>.*?\d[^a-z]*?)\s*(?P<unit>[a-z\"]*)\s+or\s+(?P<other>.*?\s*(?P<last>[a-z\"]+))\s*$")

MOST = 80  # fasteners of one joint: a row of them an inch apart along a bed (our choice)


class ScrewOptions(Section):
    """[screws.JOINT] One kind of fastener; what is left out is chosen."""

    kind: Literal["wood screw", "structural screw", "lag screw", "carriage bolt"] = "wood screw"
    gauge: Annotated[str, Field(pattern=r"^(#\d{1,2}|\d{1,2}(\.\d)? mm)$")] | None = None
    length: Positive | None = None  # "3 or 3 1/2 in" states two: the first that the wood takes is used
    or_length: Positive | None = None
    diameter: Positive | None = None  # bolts, lags, and screws with their own data
    root: Positive | None = None
    head: Positive | None = None
    thread: Positive | None = None
    yield_strength: Annotated[float, Field(gt=0)] | None = None  # [psi] bending yield, from its report
    count: Annotated[int, Field(ge=1, le=MOST)] | None = None  # per joint (per corner, per slat end, per leg and rail)
    inset: Length | None = None  # from the near piece's end to the first
    spacing: Positive | None = None
    end_slat_shift: Length | None = None  # slats: those of the two end slats off the slat's centre line
    head_depth: Length = Fraction(0)  # head below the surface
    pilot: Positive | None = None  # pilot bit stated
    price: Money | None = None  # of a box; of one where `box` is left out
    box: Count | None = None  # how many a box has

    @model_validator(mode="before")
    @classmethod
    def _either(cls, table: Any) -> Any:
        """Two lengths said in one breath, as two keys."""
        text = table.get("length") if isinstance(table, dict) else None
        found = EITHER.match(text) if isinstance(text, str) else None
        if found is None:
            return table
        one = f"{found['one'].strip()} {found['unit'] or found['last']}"
        return table | {"length": one, "or_length": found["other"]}

    @property
    def lengths(self) -> tuple[Fraction, ...]:
        """The lengths that are stated [in]: none, one or two."""
        return tuple(length for length in (self.length, self.or_length) if length is not None)


class ScrewsOptions(Section):
    """[screws] A table for each kind of joint."""

    corner: ScrewOptions = ScrewOptions()
    block: ScrewOptions = ScrewOptions()  # corner block to the rail beside it
    bed_bolt: ScrewOptions = ScrewOptions()  # post to the rail's end, with a barrel nut: diameter and length only
    batten: ScrewOptions = ScrewOptions()  # batten of a headboard to its post
    upright: ScrewOptions = ScrewOptions(kind="carriage bolt")  # of a headboard's uprights through the head rail
    panel: ScrewOptions = ScrewOptions()  # through the batten into the headboard's boards
    panel_slat: ScrewOptions = ScrewOptions()  # through a headboard's rails into the slats in front
    post: ScrewOptions = ScrewOptions()  # corner block to its post
    cleat: ScrewOptions = ScrewOptions()
    runner: ScrewOptions = ScrewOptions()
    runner_end: ScrewOptions | None = None  # up into the end rails; as the others of a runner when left out
    slat: ScrewOptions = ScrewOptions()
    leg: ScrewOptions = ScrewOptions()
    ply: ScrewOptions = ScrewOptions()
    line: ScrewOptions = ScrewOptions()
    flange: ScrewOptions = ScrewOptions()
    plinth: ScrewOptions = ScrewOptions()

    @model_validator(mode="before")
    @classmethod
    def _bolted(cls, tables: Any) -> Any:
        """What is bolted unless said otherwise stays so where only its price, length or place is stated."""
        stated = tables.get("upright") if isinstance(tables, dict) else None
        if not isinstance(stated, dict):
            return tables
        return tables | {"upright": {"kind": cls.model_fields["upright"].default.kind} | stated}
