"""Rules of a headboard: no gap that a small child's body goes through."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from tutorial_lib.design.mattress_rules import Rule, written
from tutorial_lib.design.model import Build
from tutorial_lib.findings import Finding, Remedy

CHILD = Fraction(19, 8)  # [in] between a crib's slats at most, 16 CFR 1219 (6 cm), from memory; for a bed our choice


def widest(build: Build) -> Fraction:
    """The widest gap between a headboard's boards or slats [in]; 0 of a bed without one."""
    slats = [piece.box for piece in build.pieces.values() if piece.use == "headboard_slat"]
    boards = [piece.box for piece in build.pieces.values() if piece.use == "headboard"]
    axis = 1 if slats else 2
    row = sorted(slats or boards, key=lambda box: box.lo[axis])
    ends = [boards[0].lo[1], *(y for box in row for y in (box.lo[1], box.hi[1])), boards[0].hi[1]] if slats else []
    beside = [b - a for a, b in (ends[:2], ends[-2:])] if slats else []
    return max([*beside, *(b.lo[axis] - a.hi[axis] for a, b in pairwise(row))], default=Fraction(0))


def _child(build: Build) -> Iterator[Finding]:
    """The gaps of a headboard stay under those of a crib's slats."""
    gap = widest(build)
    if gap > CHILD:
        limit = written(build, CHILD)
        yield Finding(
            rule="headboard gap",
            severity="caution",
            what=f"The gaps in the headboard are {written(build, gap)} wide: a small child's body goes through, and "
            "its head doesn't.",
            value=written(build, gap),
            limit=f"{limit}, as between a crib's slats",
            whose="16 CFR 1219; for a bed our choice",
            remedy="Leave smaller gaps between its boards.",
            parts=("headboard",),
            remedies=(Remedy.setting(f"Keep the headboard's gaps to {limit}", headboard__gap=limit),),
        )


RULES: tuple[Rule, ...] = (_child,)
