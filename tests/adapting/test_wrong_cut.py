"""Boards cut wrong: keep, recut, shim, each planned again."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.design.builds import demo
from tutorial_lib.adapting.wrong_cut import Outcome, Way, lines, wrong_cut
from tutorial_lib.design.build_file import change
from tutorial_lib.errors import InputError
from tutorial_lib.plan import plan

BED = plan(demo())


def ways(part: str, off: Fraction | int, count: int | None = None) -> dict[Way, Outcome]:
    return {o.way: o for o in wrong_cut(BED, part, BED.build.part(part).length + off, count)}


def test_long_legs_kept_raise_the_bed() -> None:
    """1 in longer legs: 11 1/2 to 12 1/2 under the rail, 16 to 17 to the slats; the rest as it was."""
    keep = ways("leg", 1)["keep"]
    assert keep.sound and keep.plan
    assert keep.plan.build.heights.underside == Fraction(25, 2)
    assert "floor to slat top: 16 in → 17 in" in keep.consequences


def test_long_legs_are_sawn_without_a_new_board() -> None:
    recut = ways("leg", 1)["recut"]
    assert recut.possible and recut.boards == 0 and "1 in" in recut.what


def test_short_legs_want_a_new_post() -> None:
    """Six of 13 3/4 with kerfs are 83 1/4: one 8-ft 4x4 at 16.90; what is left of the plan's post gives none."""
    recut = ways("leg", -1)["recut"]
    assert (recut.boards, recut.cost) == (1, 1690)


def test_one_short_leg_is_shimmed_not_kept() -> None:
    found = ways("leg", Fraction(-1, 4), 1)
    assert not found["keep"].possible
    assert found["shim"].possible and "1/4 in" in found["shim"].what


def test_an_inch_is_no_shim() -> None:
    assert not ways("leg", -1)["shim"].possible


def test_short_slats_lose_their_seat() -> None:
    """The cleat gives 1 1/2; half of 1 in and the 1/8 play leave 7/8, under the 1 in a screwed end needs."""
    keep = ways("slat", -1)["keep"]
    assert keep.possible and not keep.sound
    assert any("7/8 in" in finding.value for finding in keep.findings)


def test_slats_longer_than_the_opening() -> None:
    assert not ways("slat", Fraction(1, 2))["keep"].possible


def test_wider_end_rails_widen_the_bed() -> None:
    keep = ways("end_rail", Fraction(1, 8))["keep"]
    assert keep.plan and keep.plan.build.opening[0] == BED.build.opening[0] + Fraction(1, 8)


def test_as_planned() -> None:
    assert ways("slat", 0)["keep"].sound


@pytest.mark.parametrize(
    ("part", "length", "count"), [("runner", 10, None), ("leg", 0, None), ("leg", 10, 7), ("leg", 10, 0)]
)
def test_refused(part: str, length: int, count: int | None) -> None:
    with pytest.raises(InputError):
        wrong_cut(BED, part, Fraction(length), count)


def test_lines_say_no() -> None:
    told = list(lines(wrong_cut(BED, "leg", Fraction(59, 4))))
    assert told[0].startswith("keep: Use them") and any(line.startswith("shim: no") for line in told)


def test_half_slats_kept_short_leave_more_play_at_both_their_ends() -> None:
    """3/16 in short: 1/8 of it at the rail, 1/16 over the centre line."""
    halved = {"slats.halves": True, "centre.lines": 1, "centre.kind": "flat", "centre.lumber": "2x6"}
    bed = plan(change(demo(), halved))
    planned = bed.build.part("slat").length
    keep = next(o for o in wrong_cut(bed, "slat", planned - Fraction(3, 16)) if o.way == "keep")
    assert keep.plan is not None
    assert keep.plan.build.part("slat").length == planned - Fraction(3, 16)
    assert keep.plan.options.slats.play == bed.options.slats.play + Fraction(1, 8)
