"""Each strength rule is silent at its limit and tells its figure just over it, whatever bed it comes from."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from itertools import pairwise
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from tests.drilling.builds import OPEN, RUNNERS, bed, demo
from tutorial_lib.design.build_file import change, read_build
from tutorial_lib.findings import Finding
from tutorial_lib.plan import Plan
from tutorial_lib.strength import loads, rules, slat
from tutorial_lib.strength.fixings import ASSUMED_SPACING, Fixings
from tutorial_lib.strength.joint_checks import pulled
from tutorial_lib.strength.line_checks import LineChecks
from tutorial_lib.strength.members import shear_limit
from tutorial_lib.strength.sections import Size
from tutorial_lib.strength.slat_checks import SlatChecks
from tutorial_lib.strength.use import Effect
from tutorial_lib.tables import design_values

BUILD = bed()
Rule = Callable[[Any], Iterable[Finding]]


def outcome(**known: Any) -> Any:
    """What a rule looks at of a worked-out bed."""
    uses = known.get("uses", [])
    parts = dict.fromkeys(("uses", "knees", "lifted", "joints", "pushed", "alone"), uses)
    rest = {"build": BUILD, "fell": None, "found": ((), ()), "tippings": [], "sag": None}
    return SimpleNamespace(**(rest | parts | known))


def use(ratio: float, key: str = "", kind: str = "lying", what: str = "") -> Any:
    case = SimpleNamespace(name="lying", key="left")
    return SimpleNamespace(ratio=ratio, key=key, kind=kind, what=what, label="the runner", case=case, part="runner")


@pytest.mark.parametrize(
    ("rule", "name", "severity", "known"),
    [
        (rules._racking, "racking", "stop", {"what": "racking"}),
        (rules._racking, "racking", "stop", {"what": "racking", "kind": "sitting"}),
        (rules._moving, "moving", "caution", {"what": "racking", "kind": "moving"}),
        (rules._kneeling, "kneeling", "caution", {"key": "kneeling"}),
        (rules._kneeling, "bare slats", "note", {"key": "bare-315"}),
        (rules._across, "across the grain", "caution", {"key": "cross-grain"}),
        (rules._across, "across the grain", "caution", {"key": "cross-grain-slat"}),
        (rules._hold_down, "hold-down screws", "caution", {"key": "hold-down"}),
    ],
)
def test_over_one_is_told_and_one_is_not(rule: Rule, name: str, severity: str, known: dict[str, str]) -> None:
    assert list(rule(outcome(uses=[use(1.0, **known)]))) == []
    (found,) = rule(outcome(uses=[use(0.5, **known), use(1.01, **known)]))
    assert (found.rule, found.severity, found.value, found.limit) == (name, severity, "1.01", "1")


def test_a_use_of_another_kind_trips_no_rule_but_its_own() -> None:
    other = outcome(uses=[use(2.0, key="slat-bending", what="bending")])
    for rule in (rules._racking, rules._moving, rules._kneeling, rules._across, rules._hold_down):
        assert list(rule(other)) == []


@pytest.mark.parametrize(("ratio", "told"), [(1.49, True), (1.5, False)])
def test_tipping_wants_one_and_a_half_times(ratio: float, told: bool) -> None:
    tips = [SimpleNamespace(ratio=ratio, name="to the left"), SimpleNamespace(ratio=9.0, name="to the right")]
    found = [(f.rule, f.severity, f.value, f.limit) for f in rules._balance(outcome(tippings=tips))]
    assert found == [("tipping", "stop", "1.49", "1.5 times")] * told


@pytest.mark.parametrize(("sag", "told"), [(0.25, False), (0.26, True)])
def test_a_soft_deck_is_told_over_a_quarter_inch(sag: float, told: bool) -> None:
    deepest = SimpleNamespace(value=sag, case=SimpleNamespace(name="lying, all in the middle"))
    found = [(f.severity, f.value, f.limit) for f in rules._comfort(outcome(sag=deepest)) if "sags" in f.what]
    assert found == [("note", "0.26 in", "0.25 in")] * told


QUEEN = {"mattress.size": None, "mattress.width": "60 in", "mattress.length": "80 in", "centre.lines": 1,
         "centre.kind": "beam"}  # fmt: skip


def test_bearing_less_than_three_inches_from_a_beam_s_end_has_no_factor() -> None:
    """NDS 2018 3.10.4: the beam begins at 1 17/32 in, its head leg's face at 4 1/2: 2 31/32 in; the middle leg has it.

    SPF: 425 psi on 1 1/2 x 1 1/2 in; Cb = (1.5 + 0.375) / 1.5.
    """
    known = Plan(change(demo(), QUEEN | {"legs.lumber": "2x2"})).strength
    limits = {use.label: use.limit.value for use in known.uses if use.key == "line-leg"}
    head, middle = (next(value for label, value in limits.items() if f"the {place} leg" in label)
                    for place in ("head", "middle"))  # fmt: skip
    assert head == pytest.approx(425 * 2.25) and middle == pytest.approx(425 * 2.25 * 1.25)
    assert any(use.key == "hold-down" for use in known.uses), "a slat over three lines lifts its far end"


def test_a_slat_over_two_lines_lifts_no_end() -> None:
    assert not [use for use in Plan(demo()).strength.uses if use.key == "hold-down"]


def test_the_loads_are_those_that_were_chosen() -> None:
    """Typed a second time: whoever changes one changes what is printed."""
    assert (loads.HARD, loads.HARD_DURATION, loads.KNEE, loads.BARE) == (1.5, 1.6, 0.4, 315.0)
    assert (loads.SEAT, loads.SLEEPER, loads.SAFETY) == ((36.0, 8.0), (60.0, 20.0), 1.5)
    assert (loads.PUSH, loads.MOVING_SHARE, loads.MOVING_LEAST) == ({"lying": 0.05, "sitting": 0.10}, 0.4, 100.0)


def test_a_short_load_may_shear_more() -> None:
    """135 psi on 5 1/4 sq in, two thirds of it: 472.5 lb; 1.6 times as much for ten minutes."""
    wood, size = design_values("SPF", "No.2", 4), Size(1.5, 3.5, False)
    assert [shear_limit(wood, size, duration).value for duration in (1.0, 1.6)] == pytest.approx([472.5, 756.0])


def test_a_row_that_nobody_placed_runs_from_an_inch_within_one_end_to_an_inch_within_the_other() -> None:
    joint = next(iter(BUILD.joints_of("cleat")))
    low, high = float(joint.contact.lo[0]), float(joint.contact.hi[0])
    found = Fixings().row(joint)
    assert found is not None
    assert (found.places[0], found.places[-1]) == pytest.approx((low + 1, high - 1))
    steps = [b - a for a, b in pairwise(found.places)]
    assert steps == pytest.approx([steps[0]] * len(steps)) and steps[0] <= ASSUMED_SPACING


@pytest.mark.parametrize("side", ["left", "right"])
def test_a_runner_counts_as_wide_as_it_stands_over_its_legs(side: str) -> None:
    """A 2x6 runner over 4x4 legs set in: 3 1/2 in of it, on either side."""
    wide = RUNNERS | OPEN | {"support.lumber": "2x6", "legs.lumber": "4x4"}
    known = Plan(change(demo(), wide)).strength
    assert known.outcome is not None
    found = known.outcome.bed
    line = next(line for line in found.lines if line.name == side)
    legs = [leg for leg in found.build.legs if leg.line == side]
    runner = found.build.pieces[f"runner {side}"].box
    over = min(min(leg.y + leg.size[1] / 2, runner.hi[1]) - max(leg.y - leg.size[1] / 2, runner.lo[1]) for leg in legs)
    assert found.width_over_legs(line) == pytest.approx(float(over)) and over == 3.5


def test_a_beam_does_not_sag_over_its_supports_and_by_the_book_between() -> None:
    """P b x (L2 - b2 - x2) / 6 L, with a = 30, b = 10, L = 40: at 20 in 10 x 20 x (1600 - 100 - 400) / 240."""
    assert [slat._sag(x, 30.0, 40.0) for x in (0.0, 40.0)] == [0.0, 0.0]
    assert slat._sag(20.0, 30.0, 40.0) == pytest.approx(10 * 20 * 1100 / 240)
    assert slat._sag(0.5, 30.0, 40.0) == pytest.approx(10 * 0.5 * (1600 - 100 - 0.25) / 240)


def test_sleepers_are_told_by_their_strip() -> None:
    assert [case.stands_for for case in loads.cases(BUILD) if "20 x 60 in" in case.stands_for]


@pytest.mark.parametrize(
    ("central", "halves", "area"), [(True, True, 3.0), (True, False, 8.0), (False, True, 8.0), (False, False, 8.0)]
)
def test_only_where_halves_meet_does_the_smaller_seat_count_alone(central: bool, halves: bool, area: float) -> None:
    seats = [SimpleNamespace(contact=SimpleNamespace(size=size)) for size in ((1, 3), (1, 5))]
    options = SimpleNamespace(slats=SimpleNamespace(halves=halves))
    bed = SimpleNamespace(seats_on=lambda line, slat: seats, build=SimpleNamespace(options=options))
    assert SlatChecks._area(SimpleNamespace(bed=bed), SimpleNamespace(central=central), 0) == area


def test_the_pulls_on_ties_are_kept_with_the_bed_s_and_the_person_s_share() -> None:
    found = pulled([(5.0, 0.01), (1.0, 0.5), (-400.0, 0.1)], 200.0)
    assert found == (Effect(5.0, 0.01), Effect(1.0, 0.5))


def test_a_bar_held_at_one_place_is_unbraced_all_along() -> None:
    def link(x: float, below: int | None = None) -> Any:
        return SimpleNamespace(x=x, below=below)

    checks = LineChecks.__new__(LineChecks)
    bars = [SimpleNamespace(start=1.5, end=79.5)]
    checks.lines = [SimpleNamespace(bars=bars, links=links) for links in  # type: ignore[misc]
                    ([link(40.0)], [link(4.0), link(60.0, below=0), link(30.0), link(74.0)])]  # fmt: skip
    assert [checks._span(number) for number in (0, 1)] == [78.0, 44.0]


def test_what_has_no_way_to_the_floor_is_told_by_its_name_and_a_seat_by_its_line() -> None:
    gaps = [SimpleNamespace(what="slat 1", why="seat", leg="left"), SimpleNamespace(what="leg L1", why="leg", leg="L1"),
            SimpleNamespace(what="cleat right", why="screws", leg="")]  # fmt: skip
    apart, loose = rules._path(outcome(gaps=gaps))
    assert apart.rule == "rail and leg apart"
    assert loose.what == "The right cleat and slat 1 on the left side have nothing to stand on."


@pytest.mark.parametrize(("ratio", "value"), [(1.5, "1.50"), (float("inf"), "no value")])
def test_a_part_that_holds_nothing_has_no_figure(ratio: float, value: str) -> None:
    known = use(ratio)
    known.title = "runner, bending"
    assert rules._weak(outcome(), [known], "strength", "stop").value == value


@pytest.mark.parametrize(("depth", "left"), [(5.5, 4.0), (3.0, 1.5), (2.5, 1.25)])
def test_a_rail_s_fasteners_not_yet_known_leave_all_but_an_inch_and_a_half_or_half(depth: float, left: float) -> None:
    checks = LineChecks.__new__(LineChecks)
    checks.bed = SimpleNamespace(legs={"L1": None}, rail_joint=lambda _leg: None)  # type: ignore[assignment]
    assert checks._left("L1", SimpleNamespace(size=SimpleNamespace(depth=depth))) == left  # type: ignore[arg-type]


@pytest.mark.parametrize(("push", "held"), [(0.01, 1), (0.0, 0), (-0.01, 0)])
def test_a_slat_s_far_end_is_held_down_only_where_it_is_lifted(push: float, held: int) -> None:
    checks: Any = SlatChecks.__new__(SlatChecks)
    checks.person, checks.slat = 200.0, SimpleNamespace(lines=(0.0, 20.0, 40.0))
    checks._softest, checks._knee_loads, checks._held_down = lambda: [0], lambda _slat: [None], lambda worst: [worst]
    pushes = SimpleNamespace(pushes=[[0.0]])
    checks.responder = SimpleNamespace(dead=pushes, added=lambda _load: SimpleNamespace(pushes=[[-push]]))
    assert len(list(checks.hold_downs())) == held


def test_wood_across_the_grain_gets_nothing_for_a_short_time() -> None:
    path = Path(__file__).parents[2] / "assets" / "builds" / "gallery" / "queen-runners-set-in.toml"
    uses = Plan(read_build(path.read_text(encoding="utf-8"), path.name)).strength.uses
    across = [use for use in uses if use.key == "cross-grain"]
    assert across and {(use.duration, use.rates) for use in across} == {(1.0, False)}
