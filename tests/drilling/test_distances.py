"""End, edge and row distances: stated ones are cautions, forced ones notes; hold-down screws have their own rule."""

from __future__ import annotations

from tests.drilling.builds import drilled
from tutorial_lib.findings import Finding
from tutorial_lib.measures import inch


def found(rule: str, part: str, changes: dict[str, object] | None = None) -> list[Finding]:
    _, drilling = drilled(changes)
    return [f for f in drilling.findings if f.rule == rule and part in f.parts]


def test_a_stated_inset_is_a_caution_until_five_diameters() -> None:
    assert [f.severity for f in found("end distance", "cleat")] == ["caution"]
    assert found("end distance", "cleat", {"screws.cleat.inset": "7/8 in"})[0].value == "7/8 in"
    assert found("end distance", "cleat", {"screws.cleat.inset": "15/16 in"}) == []


def test_corner_screws_have_no_more_room() -> None:
    corner = found("end distance", "corner")[0]
    assert (corner.severity, corner.value, corner.limit) == ("note", "3/4 in", "1.1 in")


def test_bolts_keep_four_diameters_below_the_legs_top_and_one_and_a_half_from_edges() -> None:
    assert found("fastener distance", "leg") == []
    build, drilling = drilled()
    for job in drilling.of("leg"):
        leg = build.pieces[job.joint.far].box
        assert {leg.hi[2] - spot.at[2] for spot in job.spots} == {inch("1 1/2")}
        assert sorted(spot.at[0] - leg.lo[0] for spot in job.spots) == [1, inch("2 1/2")]


def test_a_lap_too_short_for_its_bolts_is_a_stop() -> None:
    """A lap of 1 1/2 in holds a 3/8 in bolt (2 D to the end, 1 1/2 D to the edge: 1 5/16); a 1/2 in one asks 1 3/4."""
    lap = {"support.recess": "1 3/4 in"}
    assert found("fastener distance", "leg", lap) == []
    short = found("fastener distance", "leg", lap | {"screws.leg.diameter": "1/2 in"})
    assert [(f.severity, f.value, f.limit) for f in short] == [("stop", "3/4 in", "at least 1 in")]


def test_the_loaded_edge_of_a_thick_screw_is_four_diameters() -> None:
    assert found("edge distance", "cleat") == []
    thick = found("fastener distance", "cleat", {"screws.cleat.gauge": "#24", "screws.cleat.kind": "structural screw",
                                             "screws.cleat.diameter": "0.372 in", "screws.cleat.root": "0.298 in",
                                             "screws.cleat.head": "0.7 in", "screws.cleat.thread": "1.5 in",
                                             "screws.cleat.yield_strength": 45000})  # fmt: skip
    assert [(f.severity, f.value, f.limit) for f in thick] == [("stop", "3/4 in", "at least 1.488 in")]


def test_screws_of_a_row_need_five_diameters() -> None:
    assert found("screws too close", "cleat") == []
    assert found("screws too close", "cleat", {"screws.cleat.spacing": "3/4 in"})[0].severity == "caution"


def test_a_slat_screw_wants_half_an_inch_to_the_slat_s_end() -> None:
    assert found("end distance", "slat") == []
    assert found("end distance", "slat", {"screws.slat.inset": "3/8 in"})[0].limit == "1/2 in"
