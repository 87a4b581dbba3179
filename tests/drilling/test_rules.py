"""What is stated is checked, never replaced; a stop still draws the bed."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import pytest

from tests.design.builds import changed
from tests.drilling.builds import OPEN, RUNNERS, bed, drilled, fastenings_of, rules
from tutorial_lib.design.fasteners import Fastener
from tutorial_lib.design.model import Joint
from tutorial_lib.drilling.bed import drill
from tutorial_lib.errors import InputError
from tutorial_lib.measures import inch
from tutorial_lib.plan import plan


@pytest.mark.parametrize(
    ("changes", "rule"),
    [
        ({"screws.cleat.length": "2 1/4 in"}, "screw penetration"),
        ({"screws.cleat.length": "3 in"}, "screw tip"),
        ({"screws.cleat.length": "7 in"}, "screw length"),
        ({"screws.slat.length": "1 in"}, "screw penetration"),
        ({"screws.slat.inset": "4 in"}, "hole outside the part"),
        ({"screws.leg.length": "5 in"}, "bolt length"),
        ({"screws.slat.end_slat_shift": "0 in"}, "fasteners meet"),
    ],
)
def test_stops(changes: dict[str, Any], rule: str) -> None:
    _, drilling = drilled(changes)
    assert rule in rules(drilling, "stop")
    assert len(drilling.fastenings) == 40, "the bed is still drilled"


def test_a_stated_screw_is_kept_though_it_is_wrong() -> None:
    _, drilling = drilled({"screws.cleat.length": "7 in"})
    assert {f.fastener.length for f in fastenings_of(drilling, "cleat")} == {inch("7")}


def test_the_demo_s_first_cleat_screw_is_a_caution() -> None:
    _, drilling = drilled()
    found = [f for f in drilling.findings if f.severity == "caution"]
    assert [(f.rule, f.value, f.limit) for f in found] == [("end distance", "3/4 in", "0.885 in")]


def test_open_rows_keep_the_end_distance() -> None:
    build, drilling = drilled(OPEN)
    assert "end distance" not in rules(drilling, "caution")
    for job in drilling.of("cleat"):
        box = build.pieces[job.joint.near].box
        places = [spot.at[0] for spot in job.spots]
        assert float(min(min(places) - box.lo[0], box.hi[0] - max(places))) >= 10 * job.fastener.diameter


def test_a_wide_pilot_is_a_caution() -> None:
    _, drilling = drilled({"screws.cleat.pilot": "5/32 in"})
    assert "pilot bit" in rules(drilling, "caution")


def test_one_screw_in_a_wide_slat_is_a_caution() -> None:
    _, drilling = drilled({"slats.lumber": "1x6"})
    assert "screws in a wide slat" in rules(drilling, "caution")


def test_proud_heads_under_slats_stop() -> None:
    _, drilling = drilled(RUNNERS | OPEN | {"screws.leg.kind": "lag screw"})
    assert "head under a slat" in rules(drilling, "stop")


def test_wood_outside_the_standard_stops() -> None:
    _, drilling = drilled({"wood.species": "SPF-S"})
    assert "wood too light or dense for the rules" not in rules(drilling, "stop")
    with pytest.raises(InputError, match="not a known species"):
        drilled({"wood.species": "Unobtainium"})


@dataclass(frozen=True)
class Pull:
    """A load that allows a spacing of its own."""

    widest: float

    def spacing(self, joint: Joint, lateral: float, pull: float) -> float:
        return self.widest


def worth(fastener: Fastener, near: float, penetration: float, gravity: float, end_grain: bool) -> tuple[float, float]:
    return 80.0, 90.0


def test_a_stated_spacing_is_kept_whatever_the_load() -> None:
    """The strength step says what it carries."""
    close, wide = (drill(bed(), Pull(room), worth) for room in (6.0, 9.5))
    assert close.of("cleat")[0].spots == wide.of("cleat")[0].spots
    assert rules(close, "caution") == rules(wide, "caution")


def test_an_open_spacing_follows_the_load() -> None:
    wide, close = (drill(bed(OPEN), Pull(room), worth).of("cleat")[0] for room in (20.0, 5.0))
    assert len(close.spots) > len(wide.spots)
    places = sorted(spot.at[0] for spot in close.spots)
    assert max(float(b - a) for a, b in pairwise(places)) <= 5.0 + 1 / 16


def test_without_loads_rows_follow_common_practice() -> None:
    job = drill(bed(OPEN)).of("cleat")[0]
    places = sorted(spot.at[0] for spot in job.spots)
    assert 4 < max(float(b - a) for a, b in pairwise(places)) <= 8.0625


def test_of_holes_outside_a_part_the_first_is_named_and_all_are_counted() -> None:
    found = [f for f in plan(changed(screws__cleat__inset="5/64 in")).findings if f.rule == "hole outside the part"]
    told = "Cleat hole number 1 of cleat left to side rail left lies outside cleat left (2 in all)."
    assert [f.what for f in found] == [told]
