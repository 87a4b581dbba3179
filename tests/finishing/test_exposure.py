"""What shows on a bed, and what is said of it."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.design.builds import changed, demo
from tutorial_lib.design.model import Box
from tutorial_lib.design.platform_bed import design
from tutorial_lib.finishing.exposure import collected, expose, face_maps, listed, total
from tutorial_lib.finishing.sight import Watcher, blocked, seen, solid, touched

BLOCK = ((0.0, 0.0, 0.0), (10.0, 10.0, 10.0))


@pytest.fixture(scope="module")
def bed():
    return design(demo())


@pytest.fixture(scope="module")
def states(bed):
    return expose(bed)


def state(states, label, side):
    return next(s for s in states if s.face.piece.label == label and s.label == side)


@pytest.mark.parametrize(
    ("label", "face", "expected"),
    [
        ("side rail left", "outer face", "seen"),
        ("side rail left", "top edge", "seen"),
        ("side rail left", "head-side end", "seen"),
        ("side rail left", "bottom edge", "touched"),
        ("end rail head", "left end", "contact"),
        ("end rail foot", "outer face", "seen"),
        ("cleat left", "outer face", "contact"),
        ("cleat left", "bottom face", "hidden"),
        ("slat 7", "top face", "touched"),
        ("slat 7", "bottom face", "hidden"),
        ("slat 1", "head-side edge", "contact"),
        ("leg L1", "outer face", "seen"),
        ("leg L2", "bottom end", "hidden"),
    ],
)
def test_faces_of_the_demo_bed(states, label, face, expected):
    assert state(states, label, face).state == expected


def test_seen_area_by_hand(states):
    # outer faces and top edges of four rails, four rail ends, the outer faces of legs below the rail, their sides
    sides = 2 * Fraction(315, 4) * (Fraction(11, 2) + Fraction(3, 2))
    ends = 2 * Fraction(77, 2) * (Fraction(11, 2) + Fraction(3, 2))
    rail_ends = 4 * Fraction(3, 2) * Fraction(11, 2)
    leg_outer = 6 * Fraction(7, 2) * Fraction(23, 2)
    leg_others = (6 * 2 + 4) * Fraction(7, 2) * Fraction(55, 4)
    assert total(states, "seen") * 144 == sides + ends + rail_ends + leg_outer + leg_others


def test_end_grain_is_told_apart(states):
    assert total(states, "seen", end_grain=True) * 144 == 4 * Fraction(3, 2) * Fraction(11, 2)
    assert total(states, "seen") == total(states, "seen", end_grain=True) + total(states, "seen", end_grain=False)


def test_without_a_mattress_the_slats_show():
    bare = expose(design(changed(mattress__thickness=None)))
    assert state(bare, "slat 7", "top face").state == "seen"


def test_steel_legs_get_no_finish():
    bed = design(changed(legs__kind="tube", screws__leg=None))
    labels = {s.face.piece.label for s in expose(bed)}
    assert not any(bed.section_of(label).steel for label in labels)


def test_face_maps_cover_every_wooden_piece_once(bed, states):
    told = [label for found in face_maps(bed, states) for label in found.pieces]
    assert sorted(told) == sorted(bed.pieces)


def test_the_sentence_names_faces_as_people_do(bed, states):
    rail = next(found for found in face_maps(bed, states) if found.part == "side_rail")
    assert rail.sentence == (
        "Finish the outer face, the top edge and both ends. Break the edges of the inner face and the bottom edge."
    )
    cleat = next(found for found in face_maps(bed, states) if found.part == "cleat")
    assert cleat.sentence == "Nothing shows: leave as sawn."


@pytest.mark.parametrize(
    ("words", "said"), [([], ""), (["a"], "a"), (["a", "b"], "a and b"), (["a", "b", "c"], "a, b and c")]
)
def test_lists_in_sentences(words, said):
    assert listed(words) == said


def test_four_faces_are_told_together():
    assert collected([(side, "face") for side in ("outer", "inner", "head-side", "foot-side")]) == ["all four faces"]


def test_a_line_along_a_surface_is_not_blocked():
    assert not blocked((-5.0, 10.0, 5.0), (15.0, 10.0, 5.0), [BLOCK])
    assert blocked((-5.0, 9.9, 5.0), (15.0, 9.9, 5.0), [BLOCK])


def test_a_glance_along_a_face_is_no_sight():
    patch = (0.5, 0.5, 0.0)
    assert seen(patch, 2, 1, [[(0.5, -50.0, 20.0)]], [])
    assert not seen(patch, 2, 1, [[(0.5, -50.0, 2.0)]], [])
    assert not seen(patch, 2, -1, [[(0.5, -50.0, 20.0)]], [])


def test_a_hand_does_not_go_through_a_narrow_gap_or_the_floor():
    patch = (5.0, 5.0, 2.0)
    hull = ((0.0, -10.0, 0.0), (10.0, 20.0, 6.0))
    walls = [
        solid(Box((Fraction(a), Fraction(-10), Fraction(0)), (Fraction(b), Fraction(20), Fraction(6))))
        for a, b in ((0, 4), (6, 10))
    ]
    assert touched(patch, 2, 1, hull, [], Watcher())
    assert not touched(patch, 2, 1, hull, walls, Watcher())
    assert not touched((5.0, 5.0, 0.0), 2, -1, hull, [], Watcher())
