"""Clash distances against the trade's check values and against an independent routine for any two segments."""

from __future__ import annotations

from fractions import Fraction
from math import dist, sqrt
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.drilling.builds import OPEN, RUNNERS, drilled, fastenings_of, rules
from tutorial_lib.drilling.clashes import Placed, Shank, clashes, distance, limit, row
from tutorial_lib.measures import inch

Vec = tuple[float, float, float]


def segment_distance(p1: Vec, q1: Vec, p2: Vec, q2: Vec) -> float:
    """Least distance of two segments in any direction, by clamping along their lines (written for this test)."""
    d1, d2 = _sub(q1, p1), _sub(q2, p2)
    r = _sub(p1, p2)
    a, e, f = _dot(d1, d1), _dot(d2, d2), _dot(d2, r)
    b, c = _dot(d1, d2), _dot(d1, r)
    det = a * e - b * b
    s = min(max((b * f - c * e) / det, 0.0), 1.0) if det > 1e-12 else 0.0
    t = (b * s + f) / e
    if t < 0 or t > 1:
        t = min(max(t, 0.0), 1.0)
        s = min(max((b * t - c) / a, 0.0), 1.0)
    gap = tuple(p1[i] + s * d1[i] - p2[i] - t * d2[i] for i in range(3))
    return sqrt(_dot(gap, gap))  # type: ignore[arg-type]


def _sub(a: Vec, b: Vec) -> Vec:
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def _dot(a: Vec, b: Vec) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def shank(axis: int, place: tuple[Fraction, ...], length: Fraction, diameter: float = 0.19, name: str = "a") -> Shank:
    tip = list(place)
    tip[axis] += length
    return Shank(head=(place[0], place[1], place[2]), tip=(tip[0], tip[1], tip[2]), diameter=diameter, joint=name)


coordinate = st.integers(-64, 64).map(lambda n: Fraction(n, 16))
segments = st.builds(
    shank,
    st.integers(0, 2),
    st.tuples(coordinate, coordinate, coordinate),
    st.integers(1, 96).map(lambda n: Fraction(n, 16)),
)


def _floats(p: tuple[Fraction, Fraction, Fraction]) -> Vec:
    return (float(p[0]), float(p[1]), float(p[2]))


@given(segments, segments)
def test_distance_equals_the_independent_routine(a: Shank, b: Shank) -> None:
    other = segment_distance(_floats(a.head), _floats(a.tip), _floats(b.head), _floats(b.tip))
    assert distance(a, b) == pytest.approx(other, abs=1e-9)


@pytest.mark.parametrize(
    ("corner_z", "along", "wanted"), [("1 1/4", "3/4", 0.0), ("2 1/4", "3/4", 0.75), ("1 1/4", "2", 1.25)]
)
def test_corner_and_runner_screw_check_values(corner_z: str, along: str, wanted: float) -> None:
    """The corner screw runs along x at y = 3/4; the runner screw comes up at x = 3/4, 1 1/2 in into the rail."""
    corner = shank(0, (Fraction(0), inch("3/4"), inch(corner_z)), inch("3"))
    runner = shank(2, (inch("3/4"), inch(along), -inch("1 1/2")), inch("3"))
    assert distance(corner, runner) == pytest.approx(wanted)


def test_the_limit_is_half_of_both_and_a_quarter() -> None:
    assert limit(0.177, 0.164) == pytest.approx(0.4205)
    just = shank(2, (Fraction(0), Fraction(0), Fraction(0)), inch("2"), 0.25, "a")
    for gap, count in ((Fraction(1, 2), 0), (Fraction(31, 64), 1)):
        found = clashes([just, shank(2, (gap, Fraction(0), Fraction(0)), inch("2"), 0.25, "b")])
        assert len(found) == count


def test_placed_names_those_that_meet() -> None:
    placed = Placed([shank(2, (Fraction(i), Fraction(0), Fraction(0)), inch("2")).row for i in range(4)])
    assert placed.meets(shank(1, (Fraction(2), Fraction(-1), Fraction(1)), inch("2")).row) == [2]


def test_the_demo_s_end_slats_meet_the_first_cleat_screw_without_their_shift() -> None:
    _, fine = drilled()
    assert fine.clashes == () and rules(fine, "stop") == []
    _, bad = drilled({"screws.slat.end_slat_shift": "0 in"})
    assert len(bad.clashes) == 4 and min(c.distance for c in bad.clashes) == pytest.approx(0.125)
    stop = next(f for f in bad.findings if f.rule == "fasteners meet")
    assert stop.severity == "stop" and "Move slat 1 to cleat left, screw 1 by 5/8 in toward the foot." in stop.remedy


def test_the_move_that_is_told_cures_it() -> None:
    _, cured = drilled({"screws.slat.end_slat_shift": "5/8 in"})
    assert cured.clashes == ()


@pytest.mark.parametrize("changes", [OPEN, RUNNERS | OPEN], ids=["cleats", "runners"])
def test_open_holes_move_by_themselves_and_say_so(changes: dict[str, object]) -> None:
    _, drilling = drilled(changes)
    assert drilling.clashes == () and "screw moved" in rules(drilling, "note")


def test_corner_screws_rise_above_the_runner_screws() -> None:
    _, drilling = drilled(RUNNERS | OPEN)
    lowest = min(spot.at[2] for job in drilling.of("corner") for spot in job.spots)
    runner_tips = max(line.tip[2] for f in fastenings_of(drilling, "runner") for line in f.driven)
    assert lowest - runner_tips >= Fraction(2, 5)


def test_who_comes_too_near_is_found_as_by_looking_at_all() -> None:
    random, met = Random(1), 0
    rows = []
    for _ in range(300):
        head = tuple(random.uniform(-6, 6) for _ in range(3))
        long = random.choice((0, 1, 2)), random.choice((-3.0, 2.5))
        tip = tuple(x + (long[1] if axis == long[0] else 0.0) for axis, x in enumerate(head))
        rows.append(row((head[0], head[1], head[2]), (tip[0], tip[1], tip[2]), random.choice((0.11, 0.19, 0.5))))
    placed = Placed(rows)
    for one in rows:
        gaps = [[max(o[i] - one[i + 3], one[i] - o[i + 3], 0.0) for i in range(3)] for o in rows]
        far = [dist(gap, (0, 0, 0)) for gap in gaps]
        near = [n for n, (o, gap) in enumerate(zip(rows, far, strict=True)) if gap < one[6] + o[6] + 0.25]
        met += len(near)
        assert placed.meets(one) == near and placed.takes(one) != bool(near)
    assert met > 600
