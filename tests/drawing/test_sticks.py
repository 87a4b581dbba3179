"""Story sticks by their own coordinates in inches: every mark once, joins clear of all, strips without a gap."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.drawing.crowded import overlapping_words
from tests.drilling.builds import demo
from tutorial_lib.design.build_file import change, read_build
from tutorial_lib.drawing import sticks
from tutorial_lib.drawing.scene import Line, Mark, Rect, Text
from tutorial_lib.drawing.templates import STICKS, ends, served
from tutorial_lib.measures import inch, mm
from tutorial_lib.plan import Plan

BUILDS = Path(__file__).parents[2] / "assets" / "builds"
BEDS = ("spare-room-twin", "guest-bed-90", "gallery/king-two-lines", "gallery/queen-corner-posts",
        "gallery/uk-king-over-boxes")  # fmt: skip
QUARTER = Fraction(1, 4)


def _all(scene, kind):
    return [shape for shape in scene.shapes if isinstance(shape, kind)]


@cache
def bed(name: str) -> Plan:
    return Plan(read_build((BUILDS / f"{name}.toml").read_text(encoding="utf-8")))


PLAN = Plan(demo())
CLEAT = next(stick for stick in sticks.sticks(PLAN) if stick.groups[0].part in STICKS)

places = st.integers(0, 80 * 16).map(lambda n: Fraction(n, 16))


@given(length=places.filter(bool), marks=st.lists(places, max_size=40))
def test_joins_are_clear_of_every_mark_wherever_they_can_be(length: Fraction, marks: list[Fraction]) -> None:
    found = sticks.joins(length, marks, QUARTER)
    reaches = [b - a for a, b in pairwise((Fraction(0), *found, length))]
    assert all(0 < reach <= sticks.STRIP for reach in reaches)
    assert all(join % QUARTER == 0 for join in found)
    near = [join for join in found if any(abs(join - mark) < sticks.CLEAR for mark in marks)]
    assert bool(near) != _clear_joins(length, marks)


def _clear_joins(length: Fraction, marks: list[Fraction]) -> bool:
    """Whether the far end can be reached over joins that are all clear, tried from the datum end on."""
    reached = {Fraction(0)}
    at = QUARTER
    while at < length:
        if all(abs(at - mark) >= sticks.CLEAR for mark in marks) and any(at - b <= sticks.STRIP for b in reached):
            reached.add(at)
        at += QUARTER
    return any(length - at <= sticks.STRIP for at in reached)


@given(length=places.filter(bool))
def test_a_stick_without_marks_has_the_fewest_strips_and_even_ones(length: Fraction) -> None:
    found = sticks.joins(length, [], QUARTER)
    reaches = [b - a for a, b in pairwise((Fraction(0), *found, length))]
    assert len(reaches) == -(-length // sticks.STRIP)
    assert max(reaches) - min(reaches) <= QUARTER


def test_a_join_half_an_inch_from_a_mark_is_clear_and_one_nearer_is_not() -> None:
    """By hand: 12 in are joined in the middle; a mark there moves the join by 1/2 in, one 1/2 in off lets it be."""
    assert sticks.joins(Fraction(12), [], QUARTER) == (6,)
    assert sticks.joins(Fraction(12), [Fraction(6)], QUARTER) == (inch("5 1/2"),)
    assert sticks.joins(Fraction(12), [inch("6 1/2")], QUARTER) == (6,)
    assert sticks.joins(Fraction(12), [inch("6 7/16")], QUARTER) == (inch("5 3/4"),)


@pytest.mark.parametrize("name", BEDS)
def test_no_join_of_a_real_bed_is_near_a_mark(name: str) -> None:
    for stick in sticks.sticks(bed(name)):
        near = min(abs(at - join) for join in stick.joins for at, _, _ in stick.marks)
        assert near >= sticks.CLEAR and stick.clear


def test_a_stick_whose_joins_are_near_marks_doesn_t_say_they_are_clear() -> None:
    crowded = tuple((Fraction(n, 2), "cleat hole", True) for n in range(1, 160))
    assert not replace(CLEAT, marks=crowded).clear


@pytest.mark.parametrize("name", BEDS)
def test_pieces_alike_along_share_a_stick_that_holds_every_hole_of_each(name: str) -> None:
    made = bed(name)
    found = sticks.sticks(made)
    assert [stick.number for stick in found] == list(range(1, len(found) + 1))
    drawn = [id(group) for stick in found for group in stick.groups]
    assert len(drawn) == len(set(drawn))
    kinds = {(stick.groups[0].part, stick.datum, stick.length, stick.marks) for stick in found}
    assert len(kinds) == len(found)  # no two are the same paper
    on_paper = {(id(end.group), hole) for end in ends(made) for hole in served(end)}
    for group in made.drilling.schedule:
        mine = next((stick for stick in found if group in stick.groups), None)
        marks = {at for at, _, is_hole in mine.marks if is_hole} if mine else set()
        for hole in group.holes:
            assert hole.end_face or hole.u in marks or (id(group), hole) in on_paper
        assert mine is None or marks == {hole.u for hole in group.holes if not hole.end_face}


def test_both_rails_of_a_king_are_marked_from_one_stick() -> None:
    (rails,) = (stick for stick in sticks.sticks(bed("gallery/king-two-lines")) if stick.groups[0].part == "side_rail")
    assert len(rails.groups) == 2 and rails.which == "side rail left, right" and rails.datum == "head end"


def test_strips_of_a_stick_follow_each_other_without_a_gap() -> None:
    scenes = sticks.strips(CLEAT)
    lengths = [_all(scene, Rect)[0].width for scene in scenes]
    assert sum(lengths) == CLEAT.length and max(lengths) <= sticks.STRIP
    told = [text.text for text in _all(scenes[0], Text)]
    assert "the head end, 0 in" in told
    assert any(text.text.startswith("the far end") for text in _all(scenes[-1], Text))


def test_both_strips_of_a_join_have_its_number_inside() -> None:
    """Inside, since what stands over the strip is cut off: 1/4 in from the join, half way up."""
    scenes = sticks.strips(CLEAT)
    for n, (before, after) in enumerate(pairwise(scenes), 1):
        words, wide = f"{CLEAT.number}.{n}", _all(before, Rect)[0].width
        assert [t.at for t in _all(before, Text) if t.text == words] == [(wide - QUARTER, Fraction(7, 16))]
        assert [t.at for t in _all(after, Text) if t.text == words] == [(QUARTER, Fraction(7, 16))]
    assert len(scenes) > 5


@pytest.mark.parametrize("name", BEDS)
def test_no_words_of_a_strip_lie_on_others(name: str) -> None:
    for stick in sticks.sticks(bed(name)):
        for scene in sticks.strips(stick):
            assert overlapping_words(scene) == []


@pytest.mark.parametrize(("units", "step"), [("in", Fraction(1, 4)), ("mm", mm(5))])
def test_strips_are_joined_at_places_that_a_tape_shows(units: str, step: Fraction) -> None:
    plan = Plan(change(demo(), {"build.units": units}))
    for stick in sticks.sticks(plan):
        assert stick.joins and all(join % step == 0 for join in stick.joins)


def test_marks_of_a_stick_stand_where_they_are_said() -> None:
    """Holes from the top edge down a third, slat edges from the lower edge up a third, on a strip 7/8 in high."""
    high, start, found = Fraction(7, 8), Fraction(0), []
    for scene in sticks.strips(CLEAT):
        (strip,) = _all(scene, Rect)
        assert strip.height == high
        for line in _all(scene, Line):
            (x0, y0), (x1, y1) = line.points
            assert x0 == x1 and (y0, y1) in ((high, high * 2 / 3), (0, high / 3))
            found.append((start + x0, y0 == high))
        start += strip.width
    assert sorted(found) == sorted((at, is_hole) for at, _, is_hole in CLEAT.marks)


def test_words_of_a_mark_stand_on_the_side_that_has_room() -> None:
    """To the right of it as a rule, else to the left, 8 points from a hole and 4 from a slat's edge."""
    for words, left in (("hole", False), ("hole", True), ("slat", False), ("slat", True)):
        shapes = sticks._stick_mark(Fraction(3), words, words == "hole", left)
        (text,) = [shape for shape in shapes if isinstance(shape, Text)]
        away = 8 if words == "hole" else 4
        assert (text.anchor, text.shift[0]) == (("end", -away) if left else ("start", away))
        assert all((dx < 0) == left and abs(dx) == away for dx, _ in text.tries)
        level = -3 if words == "hole" else 6  # [pt] half a capital below a cross's middle; off the lower edge
        assert text.shift[1] == level


def test_a_short_strip_has_its_words_at_its_start() -> None:
    """Under 3 in the strip's two ends are told in one line, from its left edge on."""
    bare = replace(CLEAT, marks=())
    for long, words in ((Fraction(23, 8), 1), (Fraction(3), 2)):
        scene = sticks._strip(bare, (Fraction(8), 8 + long), 1, 3)
        texts = [text for text in _all(scene, Text) if text.shift == (0, 5)]
        assert [text.at[0] for text in texts] == [0, long][:words]


def test_a_mark_on_a_join_is_on_the_next_strip_and_one_on_the_far_end_on_the_last() -> None:
    marked = replace(CLEAT, marks=tuple((Fraction(at), "cleat hole", True) for at in (0, 8, 16)))
    for i, seen in enumerate((1, 2)):
        scene = sticks._strip(marked, (Fraction(8 * i), Fraction(8 * i + 8)), i, 2)
        assert len(_all(scene, Mark)) == seen


def test_a_cleat_s_stick_has_the_slat_that_starts_where_the_cleat_starts() -> None:
    plan = Plan(change(demo(), {"legs.place": "under the rail", "support.end_play": "0 in", "screws": None}))
    group = next(g for g in plan.drilling.schedule if g.part == "cleat")
    edges = {what: at for at, what, is_hole in sticks.stick_marks(plan, group) if not is_hole}
    assert edges["slat 1"] == plan.build.slats.start - group.piece.box.lo[0] == 0


def test_the_stick_carries_every_hole_and_every_slat_it_meets() -> None:
    marks = CLEAT.marks
    assert [at for at, what, _ in marks if what == "cleat hole"] == [inch("3/4") + 9 * i for i in range(9)]
    assert sum(what == "slat hole" for _, what, _ in marks) == 14
    edges = {what: at for at, what, hole in marks if not hole}
    assert "slat 1" not in edges and edges["slat 2"] == inch("3 1/2") + Fraction(107, 52) - inch("1 1/8")
    assert len(edges) == 13
