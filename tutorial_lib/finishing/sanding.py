"""Sanding: the grits in order with the grain sizes of the abrasives standard, and the discs to buy."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from itertools import pairwise
from math import ceil

from tutorial_lib.findings import Finding
from tutorial_lib.records import dataclass
from tutorial_lib.tables.finishing import Grit, grits

DISC = {"in": "5 in", "mm": "125 mm"}  # the sanding disc reckoned with, as sold
DISC_LIFE = (8, 10)  # [sq ft] one 5 in disc, softwood, one grit; from memory
MINUTES = (1, 2)  # [min per sq ft] one grit with a random-orbit sander; common practice, no source
LARGEST_STEP = 1.6  # grain of one grit to the next; our choice: coarser scratches stay
LEAVES_FUZZ, LEAVES_GLAZE = 100, 220  # last grit: coarser shows scratches, finer takes less oil; common practice


@dataclass(frozen=True)
class Sanding:
    """The grits and what they take."""

    grits: tuple[Grit, ...]  # P scale, coarse first
    area: Fraction  # [sq ft] faces that show
    discs: tuple[int, int]  # of each grit, from .. to
    minutes: tuple[int, int]  # all grits
    edges: Fraction  # [ft] edges to break by hand


def grit(number: int, scale: str = "P") -> Grit | None:
    """The grit with this number on one scale, None when the standard has none.

    FEPA 43 / ISO 6344 for P, CAMI otherwise.

    >>> grit(120).micron, grit(120, "CAMI").micron
    (125.0, 116.0)
    """
    return next((g for g in grits() if (g.scale, g.number) == (scale, number)), None)


def sanding(numbers: Iterable[int], area: Fraction, edges: Fraction) -> tuple[Sanding, tuple[Finding, ...]]:
    """The sanding of one bed and what is to be minded about the grits chosen.

    Args:
        numbers: P grits as the creator uses them.
        area: faces that show [sq ft].
        edges: length of edges to break [ft].
    """
    numbers = tuple(numbers)
    known = tuple(g for g in map(grit, numbers) if g)
    discs = tuple(ceil(area / life) for life in reversed(DISC_LIFE))
    minutes = tuple(ceil(area * per * len(known)) for per in MINUTES)
    plan = Sanding(known, area, (discs[0], discs[1]), (minutes[0], minutes[1]), edges)
    return plan, (*_unknown(numbers), *_steps(known), *_last(known))


def _unknown(numbers: Iterable[int]) -> Iterable[Finding]:
    for number in numbers:
        if grit(number) is None:
            near = min((g for g in grits() if g.scale == "P"), key=lambda g: abs(g.number - number))
            yield Finding(
                rule="grit",
                severity="caution",
                what=f"No sandpaper is sold as {number} grit.",
                value=f"{number} grit",
                limit="",
                whose="FEPA 43 / ISO 6344",
                remedy=f"Use {near.number}.",
            )


def _steps(known: tuple[Grit, ...]) -> Iterable[Finding]:
    for first, then in pairwise(known):
        ratio = first.micron / then.micron
        if ratio <= 1:
            yield Finding(
                rule="grit order",
                severity="caution",
                what=f"{then.number} grit after {first.number} is no finer.",
                remedy="Go from the low number to the high one.",
            )
        elif ratio > LARGEST_STEP:
            between = [g for g in grits() if g.scale == "P" and then.micron < g.micron < first.micron]
            add = min(between, key=lambda g: abs(g.micron**2 - first.micron * then.micron))
            yield Finding(
                rule="grit step",
                severity="caution",
                what=f"{then.number} grit doesn't take out the scratches that {first.number} leaves: its grain is "
                f"{ratio:.2f} times finer.",
                value=f"{ratio:.2f} times",
                limit=f"{LARGEST_STEP} times",
                whose="our choice",
                remedy=f"Put {add.number} grit in between.",
            )


def _last(known: tuple[Grit, ...]) -> Iterable[Finding]:
    if known and not LEAVES_FUZZ <= known[-1].number <= LEAVES_GLAZE:
        fine = known[-1].number > LEAVES_GLAZE
        what = "so fine that the wood takes less of the finish" if fine else "coarse: its scratches show under a finish"
        yield Finding(
            rule="last grit",
            severity="note",
            what=f"{known[-1].number} as the last grit is {what}.",
            value=f"{known[-1].number} grit",
            limit=f"{LEAVES_FUZZ} to {LEAVES_GLAZE} grit",
            whose="common practice, no source",
        )
