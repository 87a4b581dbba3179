"""Facts of the row of slats: gaps, marks, spacers, play."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import floor
from typing import TYPE_CHECKING

from tutorial_lib.design.slats import wanted_gap
from tutorial_lib.design.straps import STAPLES, TAIL, straps_of
from tutorial_lib.facts.fact import Fact
from tutorial_lib.facts.teller import Teller

if TYPE_CHECKING:
    from tutorial_lib.design.model import Build, SlatRow

WHY_EDGE = {  # the first gap
    "equal": "as the gaps between", "fixed": "stated", "flush": "the posts stand so far into the opening",
}  # fmt: skip


def facts(tell: Teller, build: Build) -> Iterator[Fact]:
    """All facts of the slats."""
    row, options = build.slats, build.options
    spaces, room = _spaces(build)
    against = "posts" if row.edge else "end rails"
    ends = f", first and last against the {against}" if options.slats.edge == "flush" else ""
    rounding = "" if tell.w.metric else ", given to 1/32 in"
    yield tell.length(
        "slat.gap", row.gap, "gap", f"gap between slats{ends}",
        f"({tell.fine(room)} − {row.count} × {tell.fine(row.width)}) / {spaces} = {tell.fine(row.gap)}{rounding}",
    )  # fmt: skip
    yield tell.count("slat.gap_count", spaces, "gap_count", "gaps between slats", f"{row.count} slats")
    if row.edge:
        yield tell.length("slat.gap.edge", row.edge, "gap", "first gap, from the end rail to the first slat",
                          WHY_EDGE[options.slats.edge])  # fmt: skip
    yield tell.marks("slat.marks", row.marks, "near edge of each slat from the head rail's inner face",
                     "each from the one end, so that errors never add up")  # fmt: skip
    yield from _spacers(tell, row, spaces, tell.w.grid)
    share = round(float(100 * (1 - row.count * row.width / row.opening)))
    yield tell.bare("slat.open_share", share, "%", "share", "of the deck is open between the slats",
                    "1 − slats × width ÷ opening", said=("open", "air"))  # fmt: skip
    if options.slats.halves:
        left, right = build.slat_rows[0]
        yield tell.count("slat.row_count", row.count, "part_count", "rows of two half slats", "two to each mark")
        apart = right.box.lo[1] - left.box.hi[1]
        yield tell.length("slat.middle_gap", apart, "gap", "between two half slats over the centre line",
                          "what play and the line's mark leave")  # fmt: skip
    yield from _limits(tell, build)
    yield from _straps(tell, build)
    yield tell.length("slat.play", options.slats.play, "gap", "slat end to rail, each end", "stated")


def _straps(tell: Teller, build: Build) -> Iterator[Fact]:
    """Webbing that sets the gaps."""
    straps = straps_of(build)
    if straps is None:
        return
    yield tell.count("strap.count", straps.count, "part_count", "straps of webbing along the slats", "stated or usual")
    yield tell.length("strap.width", straps.width, "section", "strap of webbing, width", "stated or usual")
    tail = tell.fine(TAIL)
    yield tell.length("strap.length", straps.length, "length", "one strap of webbing",
                      f"from the first slat to the last + 2 × {tail} to hold and to trim")  # fmt: skip
    yield tell.marks("strap.places", straps.places, "middle of each strap from the slats' left ends", "evenly")
    yield tell.marks("strap.marks", straps.marks, "near edge of each slat from the strap's head end",
                     f"the slats' own marks, {tail} of strap before the first")  # fmt: skip
    yield tell.count("strap.staples", straps.staples, "part_count", "staples or tacks through the straps",
                     f"{STAPLES} where a strap crosses a slat")  # fmt: skip


def _spaces(build: Build) -> tuple[int, Fraction]:
    """Gaps between the slats, and the room that slats and gaps share [in]."""
    row, edge = build.slats, build.options.slats.edge
    spaces = row.count + 1 if edge == "equal" else row.count - 1
    return spaces, row.opening - (0 if edge == "equal" else 2 * row.edge)


def _spacers(tell: Teller, row: SlatRow, spaces: int, grid: Fraction) -> Iterator[Fact]:
    """Two spacers on the tape that fill the row without a remainder: so many wide, so many narrow gaps."""
    marks = row.gap / grid
    narrow = floor(marks)
    wide_count = marks * spaces - narrow * spaces
    if not narrow or not wide_count or wide_count.denominator > 1:
        return
    working = f"{spaces} gaps of {tell.fine(row.gap)}, filled with whole marks of the tape"
    for name, size, count in (("wide", narrow + 1, int(wide_count)), ("narrow", narrow, spaces - int(wide_count))):
        what = f"{name} spacer, where slats are set by spacers"
        yield tell.length(f"spacer.{name}", size * grid, "gap", what, working, said=("spacer",))
        yield tell.count(f"spacer.{name}.count", count, "gap_count", f"gaps set with the {name} spacer", working,
                         said=("spacer",))  # fmt: skip


def _limits(tell: Teller, build: Build) -> Iterator[Fact]:
    options = build.options
    if options.mattress.gap_limit is not None:
        yield tell.length("slat.gap.max", options.mattress.gap_limit, "gap_limit", "largest gap allowed",
                          options.mattress.gap_limit_from)  # fmt: skip
    elif options.slats.count is None and options.slats.carries == "mattress":
        yield tell.length("slat.gap.wanted", wanted_gap(options), "gap_limit", "largest gap wanted", "our choice")
