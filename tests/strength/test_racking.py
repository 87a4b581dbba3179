"""A bed pushed sideways: its legs' couples or its weight, whichever holds more; legs get screws enough for it."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from tests.design.builds import NO_DEMO, demo
from tutorial_lib.design.build_file import change
from tutorial_lib.plan import Plan
from tutorial_lib.strength.fixings import Fixings
from tutorial_lib.strength.joints import capacity
from tutorial_lib.strength.outcome import Outcome
from tutorial_lib.strength.racking import WAYS, Racking, Tipping
from tutorial_lib.strength.use import Use

OPEN = NO_DEMO | {"screws": None}


@cache
def outcome(*changes: tuple[str, object]) -> Outcome:
    found = Plan(change(demo(), OPEN | dict(changes))).strength.outcome
    assert found is not None
    return found


def sideways(known: Outcome) -> dict[str, Use]:
    return {use.case.key.removeprefix("racking-"): use for use in known.racking.uses()}


def test_what_holds_more_counts_and_the_two_are_not_added() -> None:
    known = outcome(("legs.place", "under"), ("screws.leg.kind", "carriage bolt"), ("screws.leg.diameter", "3/8 in"))
    racking, bare = known.racking, Racking(known.bed, known.weight, known.racking.empty, known.racking.sleepers)
    bare.couples = lambda way: ()  # type: ignore[method-assign]
    joined = sideways(known)
    for way in WAYS:
        couples = sum(couple.value for couple in racking.couples(way))
        leaning = {use.case.key.removeprefix("racking-"): use for use in bare.uses()}[f"sitting-{way}"]
        best = max(min(300.0, leaning.holds), min(300.0, couples / leaning.effects[0].live))
        assert min(300.0, joined[f"sitting-{way}"].holds) == pytest.approx(best)


def test_weight_on_the_legs_tops_by_hand() -> None:
    """1.5 x .1 x 2 P z against W w + 2 P v, half widths of the tops by what presses on them."""
    known = outcome(("legs.place", "under the rail"), ("heights.underside", "8 in"))
    use, z = sideways(known)["sitting-across"], float(known.build.heights.slat_top)
    half = known.racking.half_width("across", known.racking.empty)
    assert half in (pytest.approx(0.75), pytest.approx(1.5)) and not known.racking.couples("across")
    by_hand = 1.5 * 0.1 * 2 * 200 * z / (known.weight * half + 2 * 200 * use.relief / 2)
    assert use.at(200.0) == pytest.approx(by_hand)


def test_the_empty_bed_is_pushed_whoever_sleeps_in_it() -> None:
    under = ("legs.place", "under the rail")
    light, heavy = (sideways(outcome(under, ("load.person", person))) for person in ("120 lb", "290 lb"))
    for way in WAYS:
        assert light[f"moving-{way}"].ratio == pytest.approx(heavy[f"moving-{way}"].ratio)


def test_legs_get_screws_until_they_hold_the_bed_upright() -> None:
    """Posts beside a rail high above the floor: what the load alone asks for would rock over."""
    high = {"legs.place": "inside", "heights.underside": "14 in", "load.person": "250 lb", "mattress.size": "queen",
            "mattress.width": None, "mattress.length": None}  # fmt: skip
    plan = Plan(change(demo(), OPEN | high))
    beside = [f for f in plan.drilling.fastenings if f.joint.kind == "leg" and f.joint.axis == 1]
    demand = plan.demand
    assert beside and all(demand.upright(fastening) for fastening in beside)
    few = [replace(fastening, driven=fastening.driven[:2]) for fastening in beside]
    assert any(fastening.count > 2 for fastening in beside) and not all(map(demand.upright, few))


def test_a_short_piece_is_assumed_to_hang_on_two_screws_apart() -> None:
    build = outcome(("legs.place", "inside")).build
    for joint in build.joints_of("cleat"):
        row = Fixings().row(joint)
        assert row is not None and max(row.places) - min(row.places) > 0.4 * float(joint.contact.size[0])


@pytest.mark.parametrize(
    ("table", "kind", "left"),
    [
        ("leg", {"kind": "carriage bolt", "diameter": "3/8 in"}, 0.4),
        ("cleat", {"kind": "lag screw", "diameter": "1/4 in", "length": "3 in"}, 1.0),
        ("cleat", {"gauge": "#10"}, 0.7),
    ],
)
def test_wet_wood_by_the_rows_of_its_fasteners(table: str, kind: dict[str, str], left: float) -> None:
    """C_M: two bolts where grains cross .4; one row along both grains 1; thin screws .7. NDS Table 11.3.3."""
    changes = OPEN | {"legs.place": "under", f"screws.{table}": kind}
    values = []
    for moisture in (15.0, 25.0):
        plan = Plan(change(demo(), changes | {"wood.moisture_bought": moisture}))
        fastening = next(f for f in plan.drilling.fastenings if f.joint.kind == table and f.joint.axis == 1)
        values.append(capacity(plan.build, fastening))
    dry, wet = values
    assert wet.lateral / dry.lateral == pytest.approx(left)
    assert wet.pull / dry.pull == pytest.approx(0.7)


def test_tipping_counts_from_the_least_overhang_on_and_not_inside_the_legs() -> None:
    assert Tipping("edge", 0.01, righting=2.0, tipping=0.5).ratio == 4
    assert Tipping("edge", 0.0, righting=2.0, tipping=0.0).ratio == float("inf")
    known = outcome(("legs.place", "under the rail"))
    within = [tip for tip in known.tippings if tip.outside <= 0]
    assert within and {(tip.tipping, tip.ratio) for tip in within} == {(0.0, float("inf"))}
