"""The order of the work: found from joints and driver room, with few turns, the same every time."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from itertools import pairwise, permutations
from pathlib import Path

import pytest
from hypothesis import HealthCheck, assume, given, settings

from tests.design.builds import changed, changes, demo
from tutorial_lib.assembly.order import Before, Operation, precedence, sequence, stance_of
from tutorial_lib.assembly.ranks import rank
from tutorial_lib.assembly.refusals import finding, refused, unreachable
from tutorial_lib.design.build_file import change, read_build
from tutorial_lib.design.platform_bed import design
from tutorial_lib.errors import InputError
from tutorial_lib.plan import Plan

SET_IN = Path(__file__).parents[2] / "assets" / "builds" / "gallery" / "queen-runners-set-in.toml"
RUNNERS = {
    "support__kind": "runners",
    "support__lumber": "2x6",
    "support__recess": None,
    "support__end_play": None,
    "screws": None,
}


@cache
def planned():
    return Plan(demo()).assembly


def keys(order):
    return [operation.key for operation, _ in order.operations]


def operation(key, stance="either", prepares=False):
    return Operation(
        key=key,
        group=key,
        joints=(),
        fastenings=(),
        enters=(),
        needs=(),
        stance=stance,
        likes=stance,
        prepares=prepares,
    )


def test_the_demo_in_order():
    assert keys(planned().order) == ["cleat", "corner", "leg", "slat"]
    assert [way for o, way in planned().order.operations if not o.prepares] == ["upside down"] * 2 + ["upright"]


def test_slats_would_lock_the_leg_screws_away():
    done = Plan(changed(**RUNNERS, legs__place="under", legs__side_setback="2 in")).assembly
    hides = next(s for s in done.steps if s.key == "slat").hides
    assert hides == () or all(" to leg " in joint for joint in hides)


def test_runners_are_screwed_on_before_the_plinth_stands_in_the_driver_s_way():
    options = read_build(SET_IN.read_text(encoding="utf-8"), SET_IN.name)
    locks = [before for before in Plan(options).assembly.before if before.joint]
    assert [(lock.first, lock.then, lock.joint, lock.piece) for lock in locks] == [
        ("runner", "plinth", "runner left to side rail left", "plinth side left")
    ]
    assert locks[0].room == Fraction(25, 8)  # [in] under the screws, too short for a driver


@pytest.mark.parametrize(
    ("order", "rules"),
    [
        (["cleat", "corner", "leg", "slat"], []),
        (["cleat", "leg", "corner", "slat"], ["order"]),
        (["slat", "corner", "cleat", "leg"], ["order"]),
    ],
)
def test_other_orders_are_refused_with_the_reason(order, rules):
    found = planned().refuse(order)
    assert sorted({f.rule for f in found}) == sorted(rules)
    assert all(f.severity == "stop" and f.remedy for f in found)
    assert len({f.what for f in found}) == len(found)  # each says which two


def test_exactly_the_orders_that_keep_every_demand_pass():
    ops, before = planned().operations, planned().before
    for order in permutations([o.key for o in ops]):
        broken = any(order.index(b.first) > order.index(b.then) for b in before)
        assert bool(refused(ops, before, order)) == broken


def test_as_few_turns_as_any_order_has():
    ways = {"a": "upright", "b": "upside down", "c": "either", "d": "upright", "e": "upside down"}
    ops = [operation(k, w) for k, w in ways.items()]
    before = (Before(first="a", then="b", why=""), Before(first="b", then="d", why=""))
    best, _ = sequence(ops, before)
    fewest = min(
        _turns([ways[k] for k in order])
        for order in permutations(ways)
        if all(order.index(b.first) < order.index(b.then) for b in before)
    )
    assert best.turns == fewest


def _turns(ways):
    fixed = [way for way in ways if way != "either"] + ["upright"]
    return sum(a != b for a, b in pairwise(fixed))


def test_demands_in_a_circle_are_dropped_and_told():
    ops = [operation("a"), operation("b")]
    order, dropped = sequence(
        ops,
        (
            Before(first="a", then="b", why="there first"),
            Before(first="b", then="a", why="lock", joint="x to y", piece="z"),
        ),
    )
    assert keys(order) == ["a", "b"]
    assert [d.piece for d in dropped] == ["z"]


def test_a_lock_with_room_for_a_bit_is_a_caution_only():
    near, far = (Before(first="a", then="b", why="", joint="x to y", piece="z", room=room) for room in (0, 4))
    assert (unreachable(near).severity, unreachable(far).severity) == ("stop", "caution")
    assert "long bit" in unreachable(far).remedy
    assert finding(near).rule == "locked away"


@pytest.mark.parametrize(("use", "expected"), [("side_rail", 0), ("cleat", 1), ("mid_leg", 4), ("slat", 6)])
def test_rails_come_first_and_slats_last(use, expected):
    assert rank(use) == expected


def test_screws_driven_up_want_the_frame_upside_down():
    bed = design(
        changed(
            support__kind="runners", support__lumber="2x6", support__recess=None, support__end_play=None, screws=None
        )
    )
    assert {stance_of(j) for j in bed.joints_of("runner")} == {"upside down"}
    assert {stance_of(j) for j in bed.joints_of("slat")} == {"upright"}
    assert {stance_of(j) for j in bed.joints_of("corner")} == {"either"}


@settings(max_examples=12, suppress_health_check=[HealthCheck.filter_too_much])  # many a change can't be built
@given(changes())
def test_any_bed_has_an_order_that_can_be_worked(keys_changed):
    try:
        plan = Plan(change(demo(), keys_changed))
        bed = plan.build
    except InputError:
        assume(False)
    done = plan.assembly
    entered = [label for step in done.steps for label in step.new]
    loose = {f.what.removesuffix(" is joined to nothing.") for f in done.findings if f.rule == "loose piece"}
    assert sorted([*entered, *loose]) == sorted(bed.pieces), "every piece enters exactly once"
    for step in done.steps:
        needed = set(step.operation.needs) if step.operation and not step.operation.prepares else set()
        assert needed <= set(step.present), f"{step.title} needs what is not there yet"
        touching = {label for j in (step.operation.joints if step.operation else ()) for label in (j.near, j.far)}
        assert touching <= set(step.present) | set(step.new) | set(step.made)
    again = Plan(plan.options).assembly
    assert [o.key for o in again.operations] == [o.key for o in done.operations]
    assert done.order == again.order, "the order is always the same"
    made = {label for step in done.steps for label in step.made}
    assert made <= set(bed.pieces)


def test_precedence_knows_pieces_first():
    ops = planned().operations
    found = precedence(Plan(demo()).build, ops, lambda fastening, boxes: ())
    assert {(b.first, b.then) for b in found} == {
        ("cleat", "corner"),
        ("corner", "leg"),
        ("corner", "slat"),
    }


def test_legs_go_onto_runners_first_where_a_rail_would_hide_their_screws():
    done = Plan(changed(**RUNNERS, legs__side_setback="0 in")).assembly
    bench = next(s for s in done.steps if s.made)
    assert bench.title == "Screw the legs to the boards they carry, on the bench"
    runner = next(s for s in done.steps if s.key == "runner")
    assert {label for label in runner.new if label.startswith("leg")} == {
        f"leg {s}{i}" for s in "LR" for i in (1, 2, 3)
    }
    assert bench.number < runner.number


def test_legs_are_never_loose_under_an_upright_frame():
    """Screwed from above, they go onto their runners on the bench, beside the rails as under them."""
    done = Plan(changed(**RUNNERS, legs__side_setback="2 in")).assembly
    assert [s.key for s in done.steps if s.made] == ["leg"]
    assert [(s.key, s.way) for s in done.steps if s.new] == [
        ("corner", "upside down"),
        ("runner", "upside down"),
        ("slat", "upright"),
    ]
    assert done.turns == 1
