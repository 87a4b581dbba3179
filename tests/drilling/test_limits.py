"""Each rule of the holes trips at its limit, with its number, and not on the other side of it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from types import SimpleNamespace
from typing import Any

import pytest

from tests.drilling.builds import OPEN, RUNNERS, drilled
from tutorial_lib.design.model import Box
from tutorial_lib.drilling import bits, distances, over_legs, placing, rules, screws
from tutorial_lib.drilling.job import Job
from tutorial_lib.findings import Finding

DEEP: dict[str, Any] = {"screws.cleat.length": "2 3/4 in"}
WIDE: dict[str, Any] = {"lumber.1x4.width": "4 in"}


def found(rule: str, part: str, changes: dict[str, Any]) -> list[Finding]:
    return [f for f in drilled(changes)[1].findings if f.rule == rule and part in f.parts]


@pytest.mark.parametrize(
    ("rule", "part", "trips", "severity", "value", "limit", "passes"),
    [
        ("screw penetration", "cleat", {"screws.cleat.head_depth": "1/32 in"}, "stop", "1.031 in",
         "at least 1.062 in", {"screws.cleat.length": "3 1/4 in"}),
        ("screw penetration", "cleat", {}, "note", "1.062 in", "1.77 in for the full value",
         {"screws.cleat.length": "3 1/4 in"}),
        ("screw penetration", "slat", {"screws.slat.length": "1 in"}, "stop", "0.25 in", "at least 0.5 in",
         {"screws.slat.length": "1 1/4 in"}),
        ("screw tip", "cleat", DEEP | {"screws.cleat.head_depth": "5/32 in"}, "stop", "0.094 in left",
         "at least 1/8 in of wood before the tip", DEEP | {"screws.cleat.head_depth": "1/8 in"}),
        ("screw length", "cleat", {"screws.cleat.length": "4 in"}, "stop", "4 in", "3 1/2 in is the longest",
         {"screws.cleat.length": "3 1/2 in"}),
        ("pilot bit", "cleat", {"screws.cleat.pilot": "5/32 in"}, "caution", "5/32 in", "0.142 in",
         {"screws.cleat.pilot": "9/64 in"}),
        ("hole outside the part", "cleat", {"screws.cleat.inset": "5/64 in"}, "stop", "", "",
         {"screws.cleat.inset": "3/32 in"}),
        ("screws in a wide slat", "slat", WIDE, "caution", "4 in", "two screws from 4 in on",
         {"lumber.1x4.width": "3 15/16 in"}),
        ("screws in a wide slat", "slat", WIDE, "caution", "4 in", "two screws from 4 in on",
         WIDE | {"screws.slat.count": 2}),
        ("end distance", "cleat", {"screws.cleat.inset": "7/8 in"}, "caution", "7/8 in", "0.885 in",
         {"screws.cleat.inset": "29/32 in"}),
        ("end distance", "slat", {"screws.slat.inset": "15/32 in"}, "caution", "15/32 in", "1/2 in",
         {"screws.slat.inset": "1/2 in"}),
        ("fastener distance", "leg", {"screws.leg.count": 3}, "stop", "1 1/8 in", "at least 1.406 in", {}),
        ("bolt length", "leg", {"screws.leg.length": "5 in"}, "stop", "5 in", "5 in of wood, washer and nut",
         {"screws.leg.length": "5 1/2 in"}),
        ("head under a slat", "leg", RUNNERS | OPEN | {"screws.leg.kind": "lag screw"}, "stop", "", "", RUNNERS | OPEN),
        ("screw moved", "slat", {"screws.slat.end_slat_shift": None}, "note", "5/8 in", "", {}),
        ("hidden screws", "leg", RUNNERS, "note", "", "", {}),
    ],
)  # fmt: skip
def test_a_rule_at_its_limit(
    rule: str, part: str, trips: dict[str, Any], severity: str, value: str, limit: str, passes: dict[str, Any]
) -> None:
    assert [(f.severity, f.value, f.limit) for f in found(rule, part, trips)] == [(severity, value, limit)]
    assert found(rule, part, passes) == []


BUILD, DRILLING = drilled()
CLEAT: Job = DRILLING.of("cleat")[0]
D = CLEAT.fastener.diameter


def at(job: Job, axis: int, *places: Fraction) -> Job:
    """A job with screws at these places along an axis, the rest as its first one's."""
    first = job.spots[0]
    moved = [tuple(x if i == axis else first.at[i] for i in range(3)) for x in places]
    return replace(job, spots=tuple(replace(first, at=place) for place in moved))


@pytest.mark.parametrize(("gravity", "stops"), [(0.30, True), (0.31, False), (0.73, False), (0.74, True)])
def test_wood_the_standard_has_no_formula_for(gravity: float, stops: bool) -> None:
    made = [f for f in rules._wood(BUILD, replace(CLEAT, gravity=gravity)) if f.rule.startswith("wood")]
    assert [(f.severity, f.value, f.limit) for f in made] == [("stop", f"G {gravity}", "0.31 to 0.73")] * stops
    assert bits.covered(gravity) != stops


@pytest.mark.parametrize(
    ("away", "severity", "limit"),
    [("1/4", "stop", "0.265 in"), ("9/32", "caution", "0.443 in"), ("7/16", "caution", "0.443 in"),
     ("15/32", None, "")],
)  # fmt: skip
def test_edges_of_thin_screws(away: str, severity: str | None, limit: str) -> None:
    """Under 1 1/2 diameters it splits, under 2 1/2 it may; the first screw's end is another rule."""
    edge = BUILD.pieces[CLEAT.joint.near].box.lo[2]
    job = replace(at(CLEAT, 2, edge + Fraction(away)), joint=CLEAT.joint)
    made = [f for f in distances.distances(BUILD, "cleat", "cleat", [job]) if f.rule == "edge distance"]
    assert [(f.severity, f.limit) for f in made] == ([] if severity is None else [(severity, limit)])


@pytest.mark.parametrize(("apart", "close"), [("7/8", True), ("29/32", False)])
def test_screws_of_a_row_keep_five_diameters(apart: str, close: bool) -> None:
    middle = sum((side[0] for side in (BUILD.pieces[CLEAT.joint.near].box.lo, BUILD.pieces[CLEAT.joint.near].box.hi)),
                 Fraction(0)) / 2  # fmt: skip
    job = at(CLEAT, 0, middle, middle + Fraction(apart))
    made = [f for f in distances.distances(BUILD, "cleat", "cleat", [job]) if f.rule == "screws too close"]
    assert [(f.severity, f.value, f.limit) for f in made] == [("caution", f"{apart} in", "0.885 in")] * close


def test_a_driver_has_no_room_inside_a_leg_and_has_it_at_the_leg_s_edge() -> None:
    start = BUILD.pieces[CLEAT.joint.near].box.lo[0]
    leg = (start + 20, start + 24)
    for place, stops in ((leg[0], False), (leg[0] + Fraction(1, 16), True), (leg[1], False)):
        made = list(rules._over_legs(BUILD, [replace(at(CLEAT, 0, place), taken=(leg,))]))
        assert [(f.rule, f.severity, f.value) for f in made] == [("screw over a leg", "stop", "20 1/16 in")] * stops
        assert not stops or "nearest free place is 20 in from the head end" in made[0].remedy


def test_a_screw_keeps_three_quarters_of_an_inch_from_a_seam() -> None:
    build, drilling = drilled(RUNNERS | OPEN | {"legs.kind": "doubled", "legs.lumber": "2x4"})
    job = next(job for job in drilling.of("leg") if rules.seams_of(build, job.joint))
    seam = rules.seams_of(build, job.joint)[0]
    across = next(axis for axis in range(3) if seam.lo[axis] == seam.hi[axis])
    for room, stops in (("3/4", False), ("23/32", True)):
        made = list(rules._seams(build, [at(job, across, seam.lo[across] - Fraction(room))]))
        assert [(f.severity, f.value, f.limit) for f in made] == [("stop", "0.719 in", "3/4 in")] * stops


@pytest.mark.parametrize(("grip", "length"), [("9/2", 5), ("73/16", 6)])
def test_a_bolt_that_just_reaches_is_long_enough(grip: str, length: int) -> None:
    quarter, sold = Fraction(1, 4), (Fraction(4), Fraction(5), Fraction(6))
    found = screws.bolt_length(sold, Fraction(grip), quarter, quarter)
    assert found.length == length
    assert found.shorter.startswith(f"{length - 1} in is short of grip, washer and nut, ")


@pytest.mark.parametrize(("width", "count"), [("3 15/16 in", 1), ("4 in", 2)])
def test_a_slat_of_four_inches_gets_two_screws_an_end(width: str, count: int) -> None:
    made = drilled({"lumber.1x4.width": width, "screws.slat": None})[1]
    assert {len(job.spots) for job in made.of("slat")} == {count}


def test_ends_and_edges_are_measured_along_both_axes_of_the_face() -> None:
    """A runner's screw into the end rail: from the runner's long edges and end, and from the rail's edges and ends."""
    build, drilling = drilled(RUNNERS | OPEN)
    job = next(job for job in drilling.of("runner") if build.pieces[job.joint.far].use == "end_rail")
    for where, is_end in (("end", True), ("edge", False)):
        expected = sorted(
            min(spot.at[axis] - piece.box.lo[axis], piece.box.hi[axis] - spot.at[axis])
            for piece in (build.pieces[job.joint.near], build.pieces[job.joint.far])
            for spot in job.spots
            for axis in (0, 1)
            if (axis == piece.axis) == is_end
        )
        found = distances._nearest(build, job, where)  # type: ignore[arg-type]
        assert sorted(near.distance for near in found) == expected and expected


@pytest.mark.parametrize("side", ["left", "right"])
def test_legs_of_its_own_side_take_a_driver_s_room_along_a_runner(side: str) -> None:
    build, _ = drilled(RUNNERS | OPEN)
    joint = next(j for j in build.joints_of("runner") if j.near == f"runner {side}" and j.far == f"side rail {side}")
    radius = build.options.driver.radius
    legs = [build.pieces[label].box for leg in build.legs if leg.line == side for label in leg.pieces]
    assert over_legs.taken(build, joint) == tuple(sorted((box.lo[0] - radius, box.hi[0] + radius) for box in legs))


@pytest.mark.parametrize("lumber", ["2x3", "2x4", "2x6"])
def test_screws_from_a_runner_into_the_end_rail_stand_clear_of_the_legs(lumber: str) -> None:
    build, drilling = drilled(RUNNERS | OPEN | {"support.lumber": lumber, "legs.lumber": "2x4"})
    legs = [piece.box for piece in build.pieces.values() if piece.axis == 2]
    spots = [spot for job in drilling.of("runner") for spot in job.spots
             if build.pieces[job.joint.far].use == "end_rail"]  # fmt: skip
    assert spots
    for spot in spots:
        assert over_legs.stands_clear(spot.at[0], spot.at[1], legs, build.options.driver.radius)


def test_the_edge_a_load_presses_to_is_measured_on_level_pieces_that_hang_or_carry() -> None:
    """A rail 5 1/2 in high, bolted 2 in from its top: 2 in hanging, 3 1/2 in pressed down; an upright has no such."""
    hung = SimpleNamespace(kind="leg", near="rail", axis=1)
    bolt, spot = SimpleNamespace(diameter=0.375), SimpleNamespace(at=(0, 0, Fraction(10)))
    job = SimpleNamespace(joint=hung, spots=[spot], fastener=bolt)
    box = SimpleNamespace(lo=(0, 0, Fraction(13, 2)), hi=(90, 2, Fraction(12)))
    found = {
        (label, axis): [float(short.distance) for short in distances._loaded_edge(job, piece, label)]  # type: ignore[arg-type]
        for label in ("rail", "leg")
        for axis in (0, 1, 2)
        for piece in [SimpleNamespace(label=label, axis=axis, box=box)]
    }
    assert found == {("rail", 0): [2], ("rail", 1): [2], ("rail", 2): [],
                     ("leg", 0): [3.5], ("leg", 1): [3.5], ("leg", 2): []}  # fmt: skip
    hung.kind = "slat"
    assert not list(distances._loaded_edge(job, SimpleNamespace(label="rail", axis=0, box=box), ""))  # type: ignore[arg-type]


@pytest.mark.parametrize(("share", "stops"), [(Fraction(31, 32), True), (Fraction(1), False)])
def test_a_head_stands_under_a_slat_as_far_as_it_is_wide(share: Fraction, stops: bool) -> None:
    """Its middle off the slat's edge by nearly half the head: the slat rocks; by half of it, the slat lies beside."""
    build, drilling = drilled(RUNNERS | OPEN | {"screws.leg.kind": "lag screw"})
    job = next(job for job in drilling.of("leg") if job.joint.axis == 2)
    edge = build.part("slat").pieces[0].box.lo[0]
    moved = at(job, 0, edge - Fraction(job.fastener.head) / 2 * share)
    assert [finding.rule for finding in rules._proud(build, [moved])] == ["head under a slat"] * stops


@pytest.mark.parametrize(("wide", "levels"), [("3/2", 5), ("1", 1), ("3/4", 1)])
def test_rows_beside_the_best_keep_both_edges_of_a_face(wide: str, levels: int) -> None:
    """Half an inch from either edge, a mark of 1/8 in each; a face too narrow for that has its middle."""
    face = Box((Fraction(0), Fraction(2), Fraction(0)), (Fraction(9), 2 + Fraction(wide), Fraction(0)))
    middle = face.centre[1]
    free = placing.Room({1: middle}, {1: middle}, {1: Fraction(1)})
    found = over_legs._levels(free, SimpleNamespace(contact=face), 1, Fraction(1, 2), Fraction(1, 8))  # type: ignore[arg-type]
    assert found[0] == middle and len(set(found)) == levels
    kept = min(Fraction(1, 2), Fraction(wide) / 2)
    assert all(min(level - face.lo[1], face.hi[1] - level) >= kept for level in found)


def test_a_slat_s_screw_over_a_doubled_leg_keeps_off_the_seam_by_itself() -> None:
    build, drilling = drilled({"legs.kind": "doubled", "legs.lumber": "2x4", "legs.place": "inside", "screws": None})
    over = [job for job in drilling.of("slat") if rules.seams_of(build, job.joint)]
    assert len(over) == 4 and not [f for f in drilling.findings if f.rule == "screw in the seam"]
    assert {spot.at[1] for job in over for spot in job.spots} == {Fraction(9, 4), build.outside[0] - Fraction(9, 4)}


def test_screws_into_thin_boards_of_a_doubled_leg_stand_off_the_seam_from_the_first() -> None:
    """Of 35 mm the middle is nearer to the seam than 3/4 in: none is placed there and told as moved."""
    build, drilling = drilled(RUNNERS | OPEN | {"legs.kind": "doubled", "legs.lumber": "35x90"})
    jobs = [job for job in drilling.of("leg") if rules.seams_of(build, job.joint)]
    assert len(jobs) == 12 and not any(job.moved for job in jobs)
    assert list(rules._seams(build, jobs)) == []
