"""The driver's room: a thin bit, then a thick body."""

from __future__ import annotations

from fractions import Fraction

from tests.drilling.builds import drilled
from tutorial_lib.design.fasteners import Driven, Fastener, Fastening
from tutorial_lib.design.model import Box, Joint
from tutorial_lib.drilling.access import DriverRoom, reach
from tutorial_lib.measures import inch

ZERO = Fraction(0)
SCREW = Fastener(
    kind="wood screw", gauge="#9", length=inch("2 1/2"), diameter=0.177, root=0.142, head=0.337, thread=Fraction(5, 3),
    yield_strength=90000,
)  # fmt: skip
BOLT = Fastener(
    kind="carriage bolt", gauge="", length=inch("5 1/2"), diameter=0.375, root=0.375, head=0.84, thread=ZERO,
    yield_strength=45000,
)  # fmt: skip


def driven_down(fastener: Fastener = SCREW) -> Fastening:
    """A screw straight down at the origin, its head at z = 0."""
    flat = Box((ZERO, ZERO, ZERO), (ZERO, ZERO, ZERO))
    line = Driven((ZERO, ZERO, ZERO), (ZERO, ZERO, -fastener.length))
    return Fastening(
        joint=Joint(kind="slat", near="a", far="b", axis=2, sign=-1, contact=flat), fastener=fastener, driven=(line,),
        head_depth=ZERO, near_thickness=ZERO, penetration=ZERO, pilot=0.125,
    )  # fmt: skip


def wall(x: str, lo: str, hi: str) -> Box:
    """A wall from x on, between two heights."""
    return Box((inch(x), Fraction(-5), Fraction(lo)), (inch(x) + 1, Fraction(5), Fraction(hi)))


def test_a_wall_beside_the_bit_is_no_matter_but_stops_the_body() -> None:
    low, high = wall("3/4", "0", "2"), wall("3/4", "0", "4")
    assert reach(driven_down(), [low])[0].free
    found = reach(driven_down(), [low, high])[0]
    assert not found.free and found.blocked_by == 1 and found.room == 3.0


def test_the_bit_itself_needs_three_eighths() -> None:
    assert reach(driven_down(), [wall("3/8", "0", "1")])[0].free
    assert reach(driven_down(), [wall("5/16", "0", "1")])[0].blocked_by == 0


def test_a_short_driver_fits_under_a_shelf() -> None:
    shelf = Box((Fraction(-5), Fraction(-5), Fraction(6)), (Fraction(5), Fraction(5), Fraction(7)))
    assert not reach(driven_down(), [shelf])[0].free
    assert reach(driven_down(), [shelf], DriverRoom(inch("5"), inch("1 1/4")))[0].free


def test_what_lies_behind_the_head_is_no_obstacle() -> None:
    below = Box((Fraction(-5), Fraction(-5), Fraction(-9)), (Fraction(5), Fraction(5), Fraction(-1)))
    assert reach(driven_down(), [below])[0].free


def test_a_bolt_is_tightened_at_its_nut() -> None:
    below = Box((Fraction(-5), Fraction(-5), Fraction(-9)), (Fraction(5), Fraction(5), Fraction(-7)))
    above = Box((Fraction(-5), Fraction(-5), Fraction(1)), (Fraction(5), Fraction(5), Fraction(2)))
    assert reach(driven_down(BOLT), [above])[0].free
    assert reach(driven_down(BOLT), [below])[0].blocked_by == 0


def test_slats_hide_the_demo_s_cleat_screws() -> None:
    _, drilling = drilled()
    count, covers = drilling.hidden["cleat"]
    assert 0 < count <= 18 and covers == ("slat",)
    assert any("can't be retightened" in f.what for f in drilling.findings)
