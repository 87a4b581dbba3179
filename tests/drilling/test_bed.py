"""The whole step gives every drilling quantity of the demo."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.drilling.builds import OPEN, RUNNERS, bed, demo, drilled, fastenings_of, rules
from tutorial_lib.drilling.bed import drill
from tutorial_lib.drilling.screws import TABLE_OF
from tutorial_lib.facts.drilling import facts
from tutorial_lib.measures import inch, writer
from tutorial_lib.plan import plan
from tutorial_lib.tables import drill_bits

WANTED = {
    "cleat.screw_length": "2 1/2",
    "cleat.screw_spacing": "9",
    "cleat.screw_inset": "3/4",
    "cleat.screws_each": "9",
    "cleat.screw_total": "18",
    "slat.screws_per_end": "1",
    "slat.screw_total": "28",
    "slat.screw_length": "1 1/2",
    "slat.hole_inset": "3/4",
    "leg.bolts_each": "2",
    "leg.bolt_total": "12",
    "bolt.length": "5 1/2",
    "bolt.diameter": "3/8",
    "corner.screws_each": "3",
    "corner.screw_total": "12",
    "corner.screw_length": "4",
    "pilot.diameter": "1/8",
}


def test_the_demo_s_quantities() -> None:
    found = {fact.key: fact for fact in facts(plan(demo()))}
    assert {key: found[key].value for key in WANTED} == {key: inch(text) for key, text in WANTED.items()}
    assert all(fact.working and fact.what and fact.kind for fact in found.values())


def test_the_demo_shows_its_cautions_and_no_stop() -> None:
    drilling = plan(demo()).drilling
    assert rules(drilling, "stop") == [] and rules(drilling, "caution") == ["end distance"]


def test_bolts_stand_side_by_side_in_the_lap() -> None:
    build, drilling = drilled()
    for job in drilling.of("leg"):
        (x0, _, z0), (x1, _, z1) = (spot.at for spot in job.spots)
        assert abs(x1 - x0) == inch("1 1/2") and z1 == z0
        assert z0 - build.heights.rail_bottom == inch("3/4")


def test_fastenings_say_what_strength_needs() -> None:
    _, drilling = drilled()
    cleat = fastenings_of(drilling, "cleat")[0]
    assert (cleat.count, cleat.near_thickness, cleat.penetration, cleat.pilot) == (
        9,
        inch("1 1/2"),
        inch("1 1/16"),
        0.125,
    )
    bolt = fastenings_of(drilling, "leg")[0]
    assert bolt.penetration == inch("3 1/2")


METRIC = {
    "build.units": "mm", "mattress.size": "EU double 160", "mattress.width": None, "mattress.length": None,
    "frame.rail": "45x145", "support.lumber": "45x45", "support.recess": None, "support.end_play": None,
    "slats.lumber": "22x95", "legs.lumber": "95x95", "centre.lines": 1, "centre.lumber": "45x95", "screws": None,
    "screws.leg.kind": "carriage bolt", "legs.setback": "100 mm", "heights.underside": "300 mm",
}  # fmt: skip


def test_a_metric_bed_takes_the_metric_series() -> None:
    """95 + 45 mm of wood, washer 2.5 and nut 8.4 make 155.9: M10 x 160; cleats 45 mm on 45 mm rails: 4.5 x 80."""
    _, drilling = drilled(METRIC)
    w = writer("mm")
    bolt = fastenings_of(drilling, "leg")[0].fastener
    assert w.bolt(bolt.shank, bolt.length) == "M10 x 160 mm"
    cleat = fastenings_of(drilling, "cleat")[0].fastener
    assert w.screw(cleat.gauge, cleat.length) == "4.5 x 80 mm"
    sold = {bit.diameter for bit in drill_bits("mm")}
    for group in drilling.schedule:
        assert {hole.diameter for hole in group.holes} <= sold
        assert all(hole.bit.endswith(" mm") for hole in group.holes)


def test_every_joint_kind_has_a_table() -> None:
    assert set(TABLE_OF) >= {joint.kind for joint in drilled()[0].joints}


@pytest.mark.parametrize("kind", ["post", "doubled", "corner L", "tube"])
def test_every_leg_kind_is_drilled_on_runners(kind: str) -> None:
    _build, drilling = drilled(
        RUNNERS | OPEN | {"legs.kind": kind, "legs.lumber": "4x4" if kind == "post" else "2x4", "support.lumber": "2x6"}
    )
    assert drilling.of("flange" if kind == "tube" else "leg")
    assert rules(drilling, "stop") == []
    assert all(0 < f.pilot < 0.5 for f in drilling.fastenings)
    assert all(f.penetration >= Fraction(1, 2) for f in drilling.fastenings)


def test_of_a_bed_with_other_screws_only_those_are_chosen_again() -> None:
    _, before = drilled()
    build = bed({"screws.slat.length": "1 1/4 in"})
    after = drill(build, like=before)
    assert after.chosen == drill(build).chosen
    kept = {job.table: job in before.chosen and any(job is known for known in before.chosen) for job in after.chosen}
    assert {table for table, same in kept.items() if not same} == {"slat"} and len(kept) > 2
