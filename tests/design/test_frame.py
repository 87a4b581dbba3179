"""How rails, blocks and slats are placed, by their own coordinates."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.design.builds import changed
from tutorial_lib.design.model import Box, Piece
from tutorial_lib.design.parts import refuse_overlaps
from tutorial_lib.design.platform_bed import design
from tutorial_lib.design.slats import DEFAULT_GAP, wanted_gap
from tutorial_lib.errors import DesignError


def test_a_beam_on_a_block_rests_on_top_of_it() -> None:
    """A line on edge, on a block: held by brackets, its weight straight down."""
    build = design(changed(mattress__width="60 in", centre__lines=1, centre__ends="block", centre__kind="beam",
                           frame__rail="2x8"))  # fmt: skip
    held = [joint for joint in build.joints_of("line_end") if "block" in joint.far]
    assert [(joint.axis, joint.sign, joint.fastener, joint.bears) for joint in held] == [(2, -1, "bracket", True)] * 2
    blocks = [joint for joint in build.joints_of("line_end") if "block" in joint.near]
    found = [(joint.axis, joint.sign, joint.far) for joint in blocks]
    assert found == [(0, -1, "end rail head"), (0, 1, "end rail foot")]


@pytest.mark.parametrize(("limit", "gap"), [("2 in", Fraction(15, 8)), ("4 in", DEFAULT_GAP)])
def test_a_gap_left_open_keeps_an_eighth_under_the_maker_s_limit(limit, gap) -> None:
    assert wanted_gap(changed(mattress__gap_limit=limit, slats__gap=None)) == gap


@pytest.mark.parametrize("past", [True, False])
def test_rails_frame_the_opening(past) -> None:
    corners = "side rails run past" if past else "end rails cap"
    build = design(changed(frame__corners=corners))
    width, length = build.outside
    end, side = build.pieces["end rail head"].box, build.pieces["side rail left"].box
    thick = side.size[1]
    assert (end.lo[1], end.hi[1]) == ((thick, width - thick) if past else (0, width))
    assert (side.lo[0], side.hi[0]) == ((0, length) if past else (thick, length - thick))


@pytest.mark.parametrize("kind", ["corner L", "doubled"])
def test_the_two_boards_of_a_leg_stand_against_each_other(kind) -> None:
    """Of a corner leg: a board along the rail, the other behind it, flush with its edge toward the bed's end."""
    build = design(changed(legs__kind=kind, legs__lumber="2x4", screws__leg=None))
    thick, wide = Fraction(3, 2), Fraction(7, 2)
    for leg in build.legs:
        first, second = (build.pieces[label].box for label in leg.pieces)
        assert (first.size[0], first.size[1]) == (wide, thick)
        assert (second.size[0], second.size[1]) == ((wide, thick) if kind == "doubled" else (thick, wide))
        assert first.contact(second) is not None
        head = first.centre[0] <= build.outside[1] / 2
        assert second.lo[0] == first.lo[0] if head or kind == "doubled" else second.hi[0] == first.hi[0]


def test_six_pairs_of_pieces_in_one_place_are_named_and_none_that_only_touch() -> None:
    def piece(label: str, x: int) -> Piece:
        box = Box((Fraction(x), Fraction(0), Fraction(0)), (Fraction(x + 4), Fraction(9), Fraction(1)))
        return Piece(label=label, part="slat", box=box, axis=1)

    refuse_overlaps([piece("a", 0), piece("b", 4)])
    with pytest.raises(DesignError) as error:
        refuse_overlaps([piece(f"slat {i}", i // 5) for i in range(5)])
    assert [fault.where for fault in error.value.faults] == [
        "slat 0 and slat 1", "slat 0 and slat 2", "slat 0 and slat 3", "slat 0 and slat 4", "slat 1 and slat 2",
        "slat 1 and slat 3",
    ]  # fmt: skip


def test_a_line_between_the_end_rails_meets_each_from_within() -> None:
    build = design(changed(mattress__width="60 in", centre__lines=1, centre__ends="hanger", centre__kind="beam"))
    found = [(joint.far, joint.axis, joint.sign) for joint in build.joints_of("line_end")]
    assert found == [("end rail head", 0, -1), ("end rail foot", 0, 1)]


def test_the_first_leg_of_a_line_on_blocks_stands_clear_of_the_driver() -> None:
    """1 1/2 in of rail, 1 1/2 of block, its screws up to 1/2 from its far face, the driver 1 1/4 about them: 3 3/4."""
    build = design(changed(mattress__width="60 in", centre__lines=1, centre__ends="block", centre__kind="flat",
                           legs__setback=None))  # fmt: skip
    first = min((leg for leg in build.legs if leg.line not in ("left", "right")), key=lambda leg: leg.near_edge)
    assert build.options.driver.radius == Fraction(5, 4)
    assert first.near_edge == Fraction(15, 4)
