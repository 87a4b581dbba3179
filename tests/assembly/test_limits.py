"""Each rule of the assembly trips at its limit, with its figures, and not on the other side of it."""

from __future__ import annotations

from fractions import Fraction
from types import SimpleNamespace
from typing import Any

import pytest

from tests.design.builds import changed, demo
from tutorial_lib.assembly.assemble import _door, _heavy, _loose, _stairs, module
from tutorial_lib.assembly.order import Before
from tutorial_lib.assembly.refusals import unreachable
from tutorial_lib.design.platform_bed import design
from tutorial_lib.measures import writer

LONG, WIDE, HIGH = module(design(demo()))


def test_the_frame_by_hand() -> None:
    """Rails 78 3/4 long, 38 1/2 + 2 x 1 1/2 wide; from the floor to the rails' top edge."""
    assert (Fraction(315, 4), Fraction(83, 2)) == (LONG, WIDE)
    assert design(demo()).heights.rail_top == HIGH


@pytest.mark.parametrize(("spare", "severity"), [(Fraction(1), "note"), (Fraction(15, 16), "caution")])
def test_a_door_needs_half_an_inch_on_each_side(spare: Fraction, severity: str) -> None:
    """On its side, through a door only as wide as the frame is high."""
    door = {"room__door_width": f"{HIGH + spare} in", "room__door_height": f"{WIDE + 1} in"}
    (found,) = _door(design(changed(**door)), writer("in"))
    assert (found.rule, found.severity) == ("door", severity)
    assert found.value.startswith("78 3/4 x 41 1/2 x ") and found.limit.endswith(" x 42 1/2 in")


@pytest.mark.parametrize(("headroom", "severity"), [("42 1/2 in", "note"), ("42 7/16 in", "caution")])
def test_stairs_need_half_an_inch_above_and_below(headroom: str, severity: str) -> None:
    wide = {"room__stair_width": "60 in", "room__stair_headroom": headroom}
    (found,) = _stairs(design(changed(**wide)), writer("in"))
    assert (found.rule, found.severity, found.value) == ("stairs", severity, "78 3/4 in")


def test_the_corner_of_the_stairs_is_turned_until_the_frame_is_longer_than_it() -> None:
    """The limit told is the longest frame that turns the corner; a frame of the demo's length goes from there on."""
    stairs = {width: design(changed(room__stair_width=f"{width} in")) for width in range(34, 48)}
    found = {width: next(_stairs(build, writer("in"))) for width, build in stairs.items()}
    for one in found.values():
        assert (one.severity == "caution") == (float(one.limit.split()[0]) < float(LONG))
    assert {one.severity for one in found.values()} == {"caution", "note"}


@pytest.mark.parametrize(("room", "rule", "severity"), [(Fraction(47, 16), "locked away", "stop"),
                                                        (Fraction(3), "driver room", "caution")])  # fmt: skip
def test_three_inches_let_a_long_bit_in(room: Fraction, rule: str, severity: str) -> None:
    found = unreachable(Before(first="leg", then="slat", why="", joint="rail to leg", piece="slat 3", room=room))
    assert (found.rule, found.severity) == (rule, severity)


@pytest.mark.parametrize(("people", "told"), [(1, False), (2, True)])
def test_one_helper_is_told_what_two_carry(people: int, told: bool) -> None:
    turn = SimpleNamespace(people=people, share=60.0, limit=35.0)
    steps: Any = [SimpleNamespace(number=4, turn=turn), SimpleNamespace(number=5, turn=None)]
    heavy = _heavy(design(changed(room__helpers=1)), steps, writer("in"))
    found = [(f.rule, f.severity, f.value, f.limit) for f in heavy]
    assert found == [("lifting", "caution", "60 lb each", "35 lb")] * told


def test_a_piece_that_no_step_brings_is_told() -> None:
    build = design(demo())
    steps: Any = [SimpleNamespace(enters=tuple(label for label in build.pieces if label != "slat 3"))]
    assert [(f.rule, f.severity, f.parts) for f in _loose(build, steps)] == [("loose piece", "stop", ("slat",))]
    assert list(_loose(build, [SimpleNamespace(enters=tuple(build.pieces))])) == []  # type: ignore[list-item]
