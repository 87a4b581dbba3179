"""What a face is called, and from which end and edge a hole on it is measured."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.drilling.builds import RUNNERS, drilled
from tutorial_lib.design.end_distances import END, ROW
from tutorial_lib.design.model import Box, Piece
from tutorial_lib.drilling import distances
from tutorial_lib.drilling.schedule import face_name, marked
from tutorial_lib.measures import inch

BUILD, _ = drilled()
LENGTH, WIDTH = BUILD.outside[1], BUILD.outside[0]


@pytest.mark.parametrize(
    ("label", "axis", "way", "name"),
    [
        ("side rail left", 1, -1, "outside face"),
        ("side rail left", 1, 1, "inside face"),
        ("side rail right", 1, 1, "outside face"),
        ("side rail right", 1, -1, "inside face"),
        ("side rail left", 0, -1, "head end"),
        ("side rail left", 0, 1, "foot end"),
        ("side rail left", 2, 1, "top"),
        ("side rail left", 2, -1, "underside"),
        ("end rail head", 0, -1, "outside face"),
        ("end rail head", 0, 1, "inside face"),
        ("end rail foot", 0, 1, "outside face"),
        ("end rail foot", 0, -1, "inside face"),
        ("end rail head", 1, -1, "left end"),
        ("end rail head", 1, 1, "right end"),
        ("slat 3", 2, 1, "top"),
        ("slat 3", 1, 1, "right end"),
        ("leg L1", 2, 1, "top end"),
        ("leg L1", 2, -1, "bottom end"),
        ("leg L1", 0, -1, "head face"),
        ("leg L1", 0, 1, "foot face"),
        ("leg L1", 1, -1, "outside face"),
        ("leg R1", 1, 1, "outside face"),
        ("leg R1", 1, -1, "inside face"),
    ],
)
def test_faces_by_where_they_look(label, axis, way, name):
    assert face_name(BUILD, BUILD.pieces[label], axis, way) == name


def _middle(axis: int) -> Piece:
    """A block right in the middle of the bed, long along one axis."""
    half = [Fraction(1)] * 3
    half[axis] = Fraction(4)
    centre = (LENGTH / 2, WIDTH / 2, Fraction(5))
    low, high = (tuple(c + sign * h for c, h in zip(centre, half, strict=True)) for sign in (-1, 1))
    return Piece(label="block", part="block", box=Box(low, high), axis=axis)


@pytest.mark.parametrize(
    ("axis", "way", "name"), [(0, -1, "head face"), (0, 1, "foot face"), (1, -1, "left face"), (1, 1, "right face")]
)
def test_in_the_middle_nothing_looks_outward(axis, way, name):
    assert face_name(BUILD, _middle(2), axis, way) == name


@pytest.mark.parametrize(
    ("label", "axis", "at", "u", "v", "edge"),
    [
        # from the head end and the top edge
        ("side rail left", 1, ("10", "0", "-2"), "10", "2", "top edge"),
        ("side rail right", 1, ("10", "0", "-2"), "10", "2", "top edge"),
        # on the end of a piece: across from the outside, then from the top
        ("end rail head", 1, ("1/2", "0", "-1"), "1/2", "1", "top edge"),
        # a leg from its top end, across from the outside
        ("leg L1", 0, ("0", "1", "-3"), "3", "1", "outside edge"),
        ("leg R1", 0, ("0", "1", "-3"), "3", "5/2", "outside edge"),
        # a slat from its left end and its head-side edge
        ("slat 3", 2, ("1", "7", "0"), "7", "1", "head-side edge"),
    ],
)
def test_distances_from_the_datum(label, axis, at, u, v, edge):
    """A place counted from the piece's lowest x and y and from its top."""
    box = BUILD.pieces[label].box
    spot = (box.lo[0] + inch(at[0]), box.lo[1] + inch(at[1]), box.hi[2] - inch(at[2].lstrip("-")))
    assert marked(BUILD, BUILD.pieces[label], spot, axis) == (inch(u), inch(v), edge)


def test_a_flat_runner_is_marked_from_its_outside_edge():
    build, _ = drilled(RUNNERS)
    for label in ("runner left", "runner right"):
        box = build.pieces[label].box
        spot = (box.lo[0] + 9, box.lo[1] + 1, box.hi[2])
        across = Fraction(1) if label.endswith("left") else box.size[1] - 1
        assert marked(build, build.pieces[label], spot, 2) == (9, across, "outside edge")


def test_what_lies_in_the_bed_s_middle_has_no_outside_edge():
    middle = _middle(0)  # as a centre runner lies
    spot = (middle.box.lo[0] + 9, middle.box.lo[1] + 1, middle.box.hi[2])
    assert marked(BUILD, middle, spot, 2) == (9, 1, "left edge")


def test_a_bolt_s_hole_goes_through_without_a_recess():
    _, drilling = drilled()
    bolts = [hole for group in drilling.schedule for hole in group.holes if hole.purpose == "bolt"]
    assert bolts and all((h.depth, h.countersink, h.head_depth) == (None, None, 0) for h in bolts)


def test_least_distances_of_thick_fasteners():
    """From 1/4 in: end 2 D, edge 1.5 D, loaded edge 4 D, in a row 3 D. NDS 2018 12.5.1, Tables A to D."""
    assert (distances.THICK_EDGE, distances.THICK_LOADED) == (1.5, 4.0)
    assert (END.full, END.least, ROW.full, ROW.least) == (4.0, 2.0, 4.0, 3.0)
