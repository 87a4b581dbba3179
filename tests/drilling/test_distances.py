"""End, edge and row distances: stated ones are cautions, forced ones notes; hold-down screws have their own rule."""

from __future__ import annotations

from tests.drilling.builds import drilled
from tutorial_lib.findings import Finding


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


def test_bolts_in_the_lap_hold_the_leg_in_place() -> None:
    bolt = found("end distance", "leg")[0]
    assert bolt.severity == "note" and bolt.value == "3/4 in" and "12.5.1" in bolt.whose


def test_an_edge_is_two_and_a_half_diameters() -> None:
    assert found("edge distance", "cleat") == []
    thick = found("edge distance", "cleat", {"screws.cleat.gauge": "#24", "screws.cleat.kind": "structural screw",
                                             "screws.cleat.diameter": "0.372 in", "screws.cleat.root": "0.298 in",
                                             "screws.cleat.head": "0.7 in", "screws.cleat.thread": "1.5 in",
                                             "screws.cleat.yield_strength": 45000})  # fmt: skip
    assert [f.value for f in thick] == ["3/4 in"]


def test_screws_of_a_row_need_five_diameters() -> None:
    assert found("screws too close", "cleat") == []
    assert found("screws too close", "cleat", {"screws.cleat.spacing": "3/4 in"})[0].severity == "caution"


def test_a_slat_screw_wants_half_an_inch_to_the_slat_s_end() -> None:
    assert found("end distance", "slat") == []
    assert found("end distance", "slat", {"screws.slat.inset": "3/8 in"})[0].limit == "1/2 in"
