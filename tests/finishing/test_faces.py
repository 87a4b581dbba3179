"""Faces are found, their contacts subtracted exactly, and they are named as the trade names them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.design.builds import changed, demo
from tutorial_lib.design.model import Box, Piece
from tutorial_lib.design.platform_bed import design
from tutorial_lib.finishing.faces import Face, area, contacts, faces, patches, side

F = Fraction


@pytest.fixture(scope="module")
def bed():
    return design(demo())


def piece(lo, hi, axis=0, label="a"):
    return Piece(label=label, part="x", box=Box(tuple(map(F, lo)), tuple(map(F, hi))), axis=axis)


def test_a_board_has_two_ends_two_edges_two_faces():
    board = piece((0, 0, 0), (40, F(3, 2), F(11, 2)))
    assert sorted(face.part for face in faces(board)) == ["edge", "edge", "end", "end", "face", "face"]


def test_a_square_post_has_no_edges():
    post = piece((0, 0, 0), (F(7, 2), F(7, 2), 14), axis=2)
    assert sorted(face.part for face in faces(post)) == ["end", "end", "face", "face", "face", "face"]


def test_contact_is_the_shared_rectangle_only():
    low, high = piece((0, 0, 0), (10, 4, 2)), piece((6, 1, 2), (20, 9, 4), label="b")
    ((label, shared),) = contacts(Face(low, 2, 1), [low, high])
    assert (label, area(shared, 2)) == ("b", F(4 * 3))
    assert contacts(Face(low, 2, -1), [low, high]) == ()


def test_pieces_that_touch_along_an_edge_have_no_contact():
    low, high = piece((0, 0, 0), (10, 4, 2)), piece((0, 4, 2), (10, 8, 4), label="b")
    assert contacts(Face(low, 2, 1), [low, high]) == ()


def test_patches_fill_exactly_what_is_open():
    low, high = piece((0, 0, 0), (30, 4, 2)), piece((6, 1, 2), (20, 9, 4), label="b")
    face = Face(low, 2, 1)
    covered = [box for _, box in contacts(face, [high])]
    assert sum(patch.area for patch in patches(face, covered)) == face.area - F(14 * 3)


@pytest.mark.parametrize(
    ("label", "axis", "sign", "named"),
    [
        ("side rail left", 1, -1, "outer"),
        ("side rail left", 1, 1, "inner"),
        ("side rail right", 1, 1, "outer"),
        ("end rail head", 0, -1, "outer"),
        ("end rail foot", 0, -1, "inner"),
        ("slat 7", 0, 1, "foot-side"),
        ("slat 7", 1, -1, "left"),
        ("leg L1", 0, -1, "head-side"),
        ("side rail left", 2, 1, "top"),
    ],
)
def test_faces_are_named_by_where_they_look(bed, label, axis, sign, named):
    assert side(Face(bed.pieces[label], axis, sign), bed) == named


def test_every_contact_is_counted_on_both_pieces():
    bed = design(changed(legs__per_side=4))
    pieces = tuple(bed.pieces.values())
    found = [
        (p.label, other, area(box, face.axis))
        for p in pieces
        for face in faces(p)
        for other, box in contacts(face, pieces)
    ]
    assert {(a, b, size) for a, b, size in found} == {(b, a, size) for a, b, size in found}


@pytest.mark.parametrize(("long", "count"), [(F(8), 1), (F(129, 16), 2), (F(16), 2), (F(17), 3)])
def test_a_patch_is_at_most_eight_inches_long(long, count):
    board = piece((0, 0, 0), (long, 1, 1))
    top = next(face for face in faces(board) if (face.axis, face.sign) == (2, 1))
    assert len(list(patches(top, []))) == count
