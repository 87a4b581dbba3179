"""A headboard for a bed that stands already: it alone is bought, cut, bored, finished and put together."""

from __future__ import annotations

from functools import cache

import pytest

from tests.design.posts import box_spring, on_posts
from tutorial_lib.adapting.adapt import adapt
from tutorial_lib.adapting.comparison import comparison
from tutorial_lib.adapting.telling import text
from tutorial_lib.design.build_file import change
from tutorial_lib.design.model import LATER
from tutorial_lib.design.platform_bed import design
from tutorial_lib.drawing.holes import face_drawing
from tutorial_lib.drawing.scene import Circle, Line
from tutorial_lib.errors import DesignError
from tutorial_lib.facts import facts_of
from tutorial_lib.plan import Plan, plan

ASKED = {"headboard.kind": "slats", "headboard.bed": "stands", "headboard.over": "16 in"}


@cache
def _later() -> Plan:
    return plan(change(box_spring(), ASKED))


@cache
def _new() -> Plan:
    """The same bed with its headboard from the start."""
    return plan(change(box_spring(), ASKED | {"headboard.bed": "new"}))


def test_only_the_headboard_is_bought_cut_and_finished() -> None:
    made = _later()
    cut = {piece for board in made.cutting.plan.boards for piece in board.pieces}
    assert {made.build.part(piece.name).use for piece in cut} == set(LATER)
    assert {item.section for item in made.cutting.shopping} == {"2x4", "1x6", "1x3"}
    assert {made.build.pieces[label].use for face in made.finishing.maps for label in face.pieces} == set(LATER)
    assert {use for buy in made.drilling.buys for use in buy.used_for} == {"panel", "panel_slat", "upright"}
    assert [item.name for item in made.drilling.hardware] == ["nut, 3/8-16 UNC", "flat washer, 3/8 in"]


def test_the_bed_keeps_every_fastener_and_the_bolts_keep_clear_of_them() -> None:
    bare = {(f.joint.label, f.driven) for f in plan(box_spring()).drilling.fastenings}
    assert bare <= {(f.joint.label, f.driven) for f in _later().drilling.fastenings}
    assert [f for f in _later().findings if f.severity == "stop"] == []
    assert _later().drilling.clashes == ()


def test_its_head_rail_gets_the_bolts_holes_only_and_shows_those_that_are_there() -> None:
    made = _later()
    groups = {group.piece.use: group for group in made.drilling.schedule}
    assert set(groups) == {"end_rail", *LATER}
    rail = groups["end_rail"]
    assert rail.pieces == ("end rail head",)
    assert {hole.table for hole in rail.holes} == {"upright"}
    before = next(g for g in plan(box_spring()).drilling.schedule if "end rail head" in g.pieces)
    assert len(rail.there) == len(before.holes) > 0
    drawn = face_drawing(made.build, rail, rail.faces[0]).shapes
    dashed = [shape for shape in drawn if isinstance(shape, Circle | Line) and shape.line == "hidden"]
    assert len(dashed) == len(rail.there)
    assert not any(group.there for group in _new().drilling.schedule)


def test_its_steps_begin_at_the_bed_that_stands() -> None:
    steps = _later().assembly.steps
    assert [step.key for step in steps] == ["bare", "panel slats", "panel", "headboard", "retighten"]
    assert "16 1/4 in above the floor" in " ".join(steps[0].do)
    assert {_later().build.pieces[label].use for step in steps for label in (*step.new, *step.made)} == set(LATER)


def test_its_facts_are_its_own_and_the_beds_rating_is_not_told() -> None:
    mine, whole = facts_of(_later()), facts_of(_new())
    for key in ("upright.length", "headboard.length", "headboard_slat.marks", "upright.bolt_total", "headboard.height"):
        assert mine[key].value == whole[key].value
    assert not {key.split(".")[0] for key in mine} & {"slat.count", "leg", "cleat", "side_rail", "rating", "corner"}
    assert {part for f in _later().findings for part in f.parts} <= {*LATER, "panel", "panel_slat"}


def test_someone_a_year_later_is_told_what_is_new_and_that_the_bed_stays() -> None:
    found = adapt(box_spring(), changes={key: ASKED[key] for key in ("headboard.kind", "headboard.bed")})
    told = text(comparison(found))
    assert "New, not in the video" in told and "14 headboard slats" in told
    assert "Not in yours" not in told and "300 lb" not in told and "Other numbers" not in told


def test_posts_are_no_bed_to_bolt_one_to() -> None:
    with pytest.raises(DesignError, match="two new head posts") as caught:
        design(on_posts(headboard__kind="slats", headboard__bed="stands"))
    assert [fault.where for fault in caught.value.faults] == ["headboard.bed"]
