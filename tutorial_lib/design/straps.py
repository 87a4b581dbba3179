"""What keeps the slats in their places: screws, straps of webbing that set the gaps, or nothing."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib.findings import Finding, Remedy
from tutorial_lib.records import dataclass

if TYPE_CHECKING:
    from tutorial_lib.design.model import Build, Piece
    from tutorial_lib.design.options import Options

TAIL = Fraction(2)  # [in] of webbing past the first and the last slat, to hold and to turn under; our choice
STAPLES = 2  # where a strap crosses a slat; common practice, no source


@dataclass(frozen=True, kw_only=True)
class Straps:
    """Webbing along the bed, stapled on top of the slats; it carries nothing."""

    count: int
    width: Fraction  # [in]
    length: Fraction  # [in] of one, tails included
    places: tuple[Fraction, ...]  # [in] middle of each from the left end of the slats; of each half alike
    marks: tuple[Fraction, ...]  # [in] head-side edge of each slat from the strap's head end
    staples: int  # in all


def straps_of(build: Build) -> Straps | None:
    """The straps of a bed whose slats are held by them, else None."""
    chosen, row = build.options.slats, build.slats
    if chosen.hold != "straps":
        return None
    pieces = build.slat_rows[0]
    step = pieces[0].length / (2 * chosen.straps)
    return Straps(
        count=chosen.straps * len(pieces),
        width=chosen.strap_width,
        length=row.marks[-1] + row.width - row.marks[0] + 2 * TAIL,
        places=tuple(build.grid * round((2 * i + 1) * step / build.grid) for i in range(chosen.straps)),
        marks=tuple(mark - row.marks[0] + TAIL for mark in row.marks),
        staples=chosen.straps * len(pieces) * row.count * STAPLES,
    )


def screwed_down(options: Options, slat: Piece, row: list[Piece]) -> bool:
    """True where a slat's ends are screwed to their seats; of strapped slats only the first and the last are."""
    if options.slats.hold != "straps":
        return options.slats.hold == "screws"
    starts = [piece.box.lo[0] for piece in row]
    return slat.box.lo[0] in (min(starts), max(starts))


def wandering(build: Build) -> Iterator[Finding]:
    """Slats that nothing holds wander."""
    if build.options.slats.hold == "loose":
        yield Finding(
            rule="loose slats",
            severity="caution",
            what="Nothing keeps the slats where they are laid: their gaps wander as people turn over.",
            whose="common practice, no source",
            remedy="Strap them to each other, or screw them down.",
            parts=("slat",),
            remedies=(
                Remedy.setting("Hold the slats by straps", slats__hold="straps"),
                Remedy.setting("Screw the slats down", slats__hold=None),
            ),
        )


__all__ = ["STAPLES", "Straps", "screwed_down", "straps_of", "wandering"]
