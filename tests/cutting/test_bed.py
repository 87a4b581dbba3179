"""The bed's lumber: list, alternatives, transport, cliffs, and pieces no board can hold."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import HealthCheck, assume, given, settings

from tests.design.builds import changed, changes, demo
from tutorial_lib.cutting.bed import cut_bed
from tutorial_lib.cutting.planner import faults
from tutorial_lib.design.platform_bed import design
from tutorial_lib.errors import InputError
from tutorial_lib.measures import inch

TEN, TWELVE = {"length": "10 ft", "price": "8.30"}, {"length": "12 ft", "price": "9.90"}


def cutting(**changes):
    options = demo() if not changes else changed(**changes)
    return cut_bed(design(options))


def cut(changes):
    from tutorial_lib.design.build_file import change

    return cut_bed(design(change(demo(), changes)))


def test_the_demo_comes_to_what_its_video_says():
    bed = cutting()
    assert [(p.section, p.stock, p.count) for p in bed.shopping] == [
        ("2x6", "8 ft", 3), ("2x2", "8 ft", 2), ("1x4", "10 ft", 5), ("4x4", "8 ft", 1),
    ]  # fmt: skip
    assert (bed.cost, bed.slats_per_board) == (8950, 3)
    assert bed.plan.proven
    assert faults(bed.plan, bed.pieces, bed.stocks) == []


def test_board_feet_and_weight_by_hand():
    bed = cutting()
    # 3 x 8 ft of 2x6, 2 x 8 ft of 2x2, 5 x 10 ft of 1x4, 8 ft of 4x4
    assert bed.board_feet == Fraction(3 * 8 * 12 + 2 * 8 * 4 + 5 * 10 * 4 + 8 * 16, 12)
    cubic = (3 * 96 * 8.25 + 2 * 96 * 2.25 + 5 * 120 * 2.625 + 96 * 12.25) / 1728
    assert bed.weight == pytest.approx(cubic * 28.5, rel=0.03)


def test_a_slat_just_too_long_is_offered_shorter():
    bed = cut(
        {"clearance.side": "1 in", "slats.play": "1/8 in"}
    )  # 40 in opening, 39 3/4 slat: 10 ft gives three up to 39 13/16
    assert bed.cliffs == ()
    bed = cut({"clearance.side": "1 3/32 in", "slats.play": "1/8 in"})
    (cliff,) = bed.cliffs
    assert cliff.shorter <= inch("39 13/16")
    assert cliff.boards_saved == 2
    assert cliff.cost_saved == 2 * 830
    assert any(f.rule == "yield cliff" and "3 from one" in f.what for f in bed.findings)


def test_the_cliff_stops_at_the_bearing():
    bed = cut({"clearance.side": "1 3/32 in", "slats.play": "7/16 in"})
    least = bed.build.opening[0] - 2 * (Fraction(3, 2) - 1)
    assert all(c.shorter >= least for c in bed.cliffs)


def test_what_fits_the_car_costs_more():
    bed = cut({"shop.carry": "100 in", "lumber.1x4.stock": [TEN, {"length": "8 ft", "price": "7.10"}]})
    eight, car = bed.alternatives
    assert eight.plan is not None
    assert car.plan is not None
    assert car.plan.cost >= bed.plan.cost
    assert max(b.length for b in car.plan.boards) <= 100
    assert [f.rule for f in bed.findings] == ["transport"]


def test_store_cuts_bring_the_boards_home():
    bed = cut({"shop.carry": "100 in", "shop.store_cuts": 5})
    assert len(bed.store_cuts) == 5
    assert all(c.carry <= 100 for c in bed.store_cuts)
    assert bed.findings == ()


def test_spares_are_bought_and_told():
    bed = cut({"shop.spare_boards": 1})
    assert [(p.count, p.spares) for p in bed.shopping] == [(4, 1), (3, 1), (6, 1), (2, 1)]
    assert bed.cost == 8950 + 810 + 340 + 830 + 1690


def test_without_prices_the_least_length_is_planned():
    bed = cut({"lumber.1x4.stock": [{"length": "10 ft"}, {"length": "12 ft"}]})
    assert bed.unpriced == {"1x4"}
    assert not bed.priced
    assert {p.price for p in bed.shopping if p.section == "1x4"} == {None}


def test_a_section_without_stock_takes_the_usual_lengths():
    bed = cut({"lumber.2x2.stock": []})
    assert any(p.section == "2x2" and p.price is None for p in bed.shopping)


def test_a_piece_no_board_can_hold_is_a_stop_and_the_rest_is_planned():
    bed = cut({"lumber.2x6.stock": [{"length": "6 ft", "price": "5"}]})
    stops = [f for f in bed.findings if f.severity == "stop"]
    assert [f.parts for f in stops] == [("side_rail",)]
    assert {b.section for b in bed.plan.boards} == {"2x6", "2x2", "1x4", "4x4"}


def test_an_offcut_on_the_shelf_is_used_before_a_board_is_bought():
    bed = cut({"lumber.1x4.stock": [TEN, {"length": "80 in", "offcut": True}]})
    lines = [(p.stock, p.count, p.offcut) for p in bed.shopping if p.section == "1x4"]
    assert lines == [("offcut 80 in", 1, True), ("10 ft", 4, False)]


def test_measured_boards_are_planned_as_they_are_and_still_listed():
    short = ["119 in", "119 in", "114 in"]  # the last gives two slats only
    bed = cut({"lumber.1x4.stock": [TEN | {"measured": short}]})
    lengths = sorted(b.length for b in bed.plan.boards if b.section == "1x4")
    assert lengths[-2:] == [120, 120]
    assert {inch(119)} < set(lengths)
    assert faults(bed.plan, bed.pieces, bed.stocks) == []
    assert [(p.stock, p.count, p.cost) for p in bed.shopping if p.section == "1x4"] == [("10 ft", 5, 5 * 830)]


@settings(max_examples=40, suppress_health_check=[HealthCheck.filter_too_much, HealthCheck.too_slow])
@given(changes())
def test_every_bed_that_can_be_built_can_be_bought(change_set):
    from tutorial_lib.design.build_file import change

    try:
        build = design(change(demo(), change_set))
    except InputError:
        assume(False)
    bed = cut_bed(build)
    assert bed.plan.proven
    assert faults(bed.plan, bed.pieces, bed.stocks) == []
    left_out = sum(len(f.parts) for f in bed.left_out)
    assert len(bed.pieces) + left_out == sum(not p.section.steel for p in build.parts)
    assert sum(p.count for p in bed.shopping) >= len(bed.plan.boards)
    assert all(c.shorter < c.length and c.boards_saved > 0 for c in bed.cliffs)
