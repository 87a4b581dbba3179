"""Hole schedule: one datum, pieces drilled alike together, nothing outside its piece."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from tests.drilling.builds import OPEN, RUNNERS, drilled
from tutorial_lib.design.build_file import read_build
from tutorial_lib.drilling.schedule import PieceHoles
from tutorial_lib.measures import inch
from tutorial_lib.plan import Plan


def group(groups: tuple[PieceHoles, ...], label: str) -> PieceHoles:
    return next(g for g in groups if label in g.pieces)


def test_the_demo_s_cleats_are_drilled_alike() -> None:
    _, drilling = drilled()
    cleat = group(drilling.schedule, "cleat left")
    assert set(cleat.pieces) == {"cleat left", "cleat right"} and cleat.turned == (
        "cleat right: turned half round, its top still up"
    )
    face = cleat.on("inside face")
    assert [h.u for h in face] == [inch("3/4") + 9 * i for i in range(9)]
    assert {(h.v, h.diameter, h.depth) for h in face} == {(inch("3/4"), Fraction(13, 64), None)}
    assert cleat.method == "story stick" and cleat.datum_end == "head end"


def test_end_slats_are_a_group_of_their_own() -> None:
    _, drilling = drilled()
    slat = group(drilling.schedule, "slat 1")
    assert slat.pieces == ("slat 1", "slat 14")
    assert [h.v for h in slat.on("top")] == [inch("2 3/4")] * 2
    inner = group(drilling.schedule, "slat 2")
    assert len(inner.pieces) == 12 and inner.method == "clamp together and square across"


def test_left_and_right_are_turned_round_not_mirrored() -> None:
    _, drilling = drilled()
    assert group(drilling.schedule, "side rail left").pieces == ("side rail left",), "each rail has its own table"
    assert len(group(drilling.schedule, "leg L1").pieces) == 6


def test_pilots_are_as_deep_as_the_screw_reaches() -> None:
    _, drilling = drilled()
    rail = group(drilling.schedule, "side rail left")
    assert {h.depth for h in rail.on("inside face")} == {inch("1 1/16")}
    assert all(h.depth is None for h in rail.on("outside face"))


def test_end_holes_are_told_from_the_outside_and_the_top() -> None:
    _, drilling = drilled()
    end = group(drilling.schedule, "end rail head")
    assert [(h.u, h.v) for h in end.on("left end")] == [(inch("3/4"), inch(v)) for v in ("1 1/4", "2 3/4", "4 1/4")]


@pytest.mark.parametrize("changes", [{}, OPEN, RUNNERS | OPEN], ids=["demo", "open", "runners"])
def test_every_hole_lies_on_its_face_and_inside(changes: dict[str, object]) -> None:
    _build, drilling = drilled(changes)
    for found in drilling.schedule:
        size = found.piece.box.size
        for hole in found.holes:
            assert 0 < hole.u < max(size) and 0 < hole.v < max(size)
            if hole.depth is not None:
                assert 0 < hole.depth <= size[hole.axis] - Fraction(1, 8)


def test_both_pieces_of_a_joint_get_a_hole_for_every_fastener() -> None:
    _, drilling = drilled()
    holes = sum(len(g.holes) * len(g.pieces) for g in drilling.schedule)
    assert holes == 2 * sum(f.count for f in drilling.fastenings)


def test_a_mirror_image_is_told() -> None:
    _, drilling = drilled(RUNNERS | OPEN | {"screws.leg.count": 3})
    for found in drilling.schedule:
        if found.mirrored:
            assert found.mirrored not in found.pieces


def test_pieces_of_a_group_with_gaps_are_no_run() -> None:
    """Two rows of slats over boxes: some of them only stand turned half round."""
    build = Path(__file__).parents[2] / "assets" / "builds" / "gallery" / "uk-king-over-boxes.toml"
    inner = next(g for g in Plan(read_build(build.read_text(encoding="utf-8"))).drilling.schedule if len(g.pieces) > 12)
    assert inner.which == "slat 2 left to 4 right, 7 left, 7 right, 10 left to 13 right"
    assert inner.turned == "slat 2, 3, 4, 7, 10, 11, 12, 13 right: turned half round, its top still up"
