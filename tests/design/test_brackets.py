"""A bracket is told a corner that is free in the finished bed, and no wider than the two pieces meet."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from tutorial_lib.design.brackets import corner_of
from tutorial_lib.design.build_file import read_build
from tutorial_lib.design.model import Box, Build, Joint
from tutorial_lib.lists import list_of
from tutorial_lib.measures import writer
from tutorial_lib.plan import Plan

GALLERY = Path(__file__).parents[2] / "assets" / "builds" / "gallery"


def bed(name: str) -> Plan:
    """A bed of the gallery."""
    return Plan(read_build((GALLERY / f"{name}.toml").read_text(encoding="utf-8"), name))


def first(build: Build, kind: str) -> Joint:
    """The first joint of a kind that a bracket holds."""
    return next(joint for joint in build.joints if joint.kind == kind and joint.fastener == "bracket")


@pytest.mark.parametrize(
    ("name", "kind", "ends", "runs", "width"),
    [("queen-corner-posts", "line_end", "centre runner 1", "end rail head", Fraction(3, 2)),
     ("full-bed-bolts", "line_end", "centre beam 1", "end rail head", Fraction(7, 2)),
     ("full-bed-bolts", "line_leg", "leg A1", "centre beam 1", Fraction(3, 2))],
)  # fmt: skip
def test_it_goes_beside_what_ends_and_is_as_wide_as_the_two_meet(
    name: str, kind: str, ends: str, runs: str, width: Fraction
) -> None:
    build = bed(name).build
    corner = corner_of(build, first(build, kind))
    assert corner is not None
    assert (corner.ends, corner.face, corner.runs, corner.width) == (ends, "side", runs, width)


def test_where_both_sides_are_taken_another_face_is_told_or_none() -> None:
    """Blocks beside the line's end leave its top, where the first slat lies 1 1/2 in off: an arm of one inch."""
    build = bed("queen-corner-posts").build
    joint = first(build, "line_end")
    line = build.pieces[joint.near].box
    free = corner_of(_blocked(build, line, Fraction(0)), joint)
    assert free is not None and (free.face, free.arms, free.width) == ("top", 1, Fraction(11, 2))
    assert corner_of(_blocked(build, line, Fraction(1)), joint) is None


def _blocked(build: Build, line: Box, over: Fraction) -> Build:
    """The bed with a board on either side of a line, and over and under it where they stand higher."""
    part = build.part("cleat")
    low, high = line.lo, line.hi
    boards = [
        Box((low[0], low[1] - 3, low[2] - 2), (high[0], low[1], high[2])),
        Box((low[0], high[1], low[2] - 2), (high[0], high[1] + 3, high[2])),
    ]
    if over:
        boards += [Box((low[0], low[1], low[2] - over), (high[0], high[1], low[2])),
                   Box((low[0], low[1], high[2]), (high[0], high[1], high[2] + over))]  # fmt: skip
    more = tuple(replace(part.pieces[0], label=f"board {i}", box=box) for i, box in enumerate(boards))
    return replace(build, parts=(*build.parts, replace(part, key="boards", pieces=more)))


def test_step_and_shopping_list_tell_it() -> None:
    made = bed("queen-corner-posts")
    line = next(step for step in made.assembly.steps if step.key == "line")
    assert line.screws[-1].told(writer("in")) == (
        "Fix 2 × angle bracket for a board 1 1/2 in thick, 1 1/2 in wide at most, in the corner between the centre "
        "runner's side and the end rail: every hole filled with the screws its maker names."
    )
    notes = [str(row[-1]) for row in list_of(made, "shopping").rows]
    assert "centre line to end rail; 1 1/2 in wide at most; with the screws its maker names, not counted here" in notes
