"""The bed's lumber: list, alternatives, transport, cliffs, and pieces no board can hold."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import HealthCheck, assume, given, settings

from tests.design.builds import changed, changes, demo
from tutorial_lib.cutting.bed import cut_bed
from tutorial_lib.cutting.planner import faults
from tutorial_lib.cutting.report import bed_text
from tutorial_lib.design.platform_bed import design
from tutorial_lib.errors import InputError
from tutorial_lib.facts import facts_of
from tutorial_lib.measures import inch
from tutorial_lib.plan import Plan

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
    assert [f.rule for f in bed.findings if f.severity != "note"] == ["transport"]


def test_store_cuts_bring_the_boards_home():
    bed = cut({"shop.carry": "100 in", "shop.store_cuts": 5})
    assert len(bed.store_cuts) == 5
    assert all(c.carry <= 100 for c in bed.store_cuts)
    assert [f for f in bed.findings if f.severity != "note"] == []


def test_boards_that_no_rough_cut_brings_into_the_car_are_told_apart():
    bed = cut({"shop.carry": "72 in"})
    whole, helped = [f for f in bed.findings if f.rule == "transport"]
    assert whole.parts == ("side_rail", "cleat")
    assert (whole.value, whole.limit) == ("96 in", "72 in")
    assert "no rough cut" in whole.what
    assert helped.remedy == "They do after 11 rough cuts at the store."
    told = cut({"shop.carry": "72 in", "shop.store_cuts": 11})
    assert [f.what for f in told.findings if f.rule == "transport"] == [whole.what]
    fewer = cut({"shop.carry": "72 in", "shop.store_cuts": 10})
    assert len([f for f in fewer.findings if f.rule == "transport"]) == 2


def test_what_is_left_of_own_boards_and_spares_is_there_for_a_second_try():
    own = {"length": "8 ft", "available": 5}
    bed = cut({"lumber.2x6.stock": [own], "shop.spare_boards": 1})
    (boards,) = bed.own_boards
    assert (boards.count, boards.there) == (3, 5)
    tries = {t.name: [str(board) for board in t.untouched] for t in bed.second_tries}
    assert tries["side_rail"] == ["2 x own 8 ft", "1 x spare 8 ft"]
    assert tries["slat"] == ["1 x spare 10 ft"]


def test_a_hand_saw_has_words_of_its_own():
    low = {"heights.underside": "5 in"}
    power, hand = (cut(low | {"saw.kind": kind}) for kind in ("power", "hand"))
    assert "small piece at the saw" in [f.rule for f in power.findings]
    assert "small piece at the saw" not in [f.rule for f in hand.findings]
    assert "Stop-block" in bed_text(power)
    assert "top-block" not in bed_text(hand)


def test_spares_are_bought_and_told():
    bed = cut({"shop.spare_boards": 1})
    assert [(p.count, p.spares) for p in bed.shopping] == [(4, 1), (3, 1), (6, 1), (2, 1)]
    assert bed.cost == 8950 + 810 + 340 + 830 + 1690


def test_without_prices_the_least_length_is_planned():
    bed = cut({"lumber.1x4.stock": [{"length": "10 ft"}, {"length": "12 ft"}]})
    assert bed.unpriced == {"1x4"}
    bought = [f" x {p.section} {p.stock}" for p in bed.shopping]
    lines = [line for line in bed_text(bed).split("\n") if any(words in line for words in bought)]
    assert lines and all(line.endswith("  no price") == (" 1x4 " in line) for line in lines)
    assert any("$" in line for line in lines)
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
    assert [(p.stock, p.count) for p in bed.shopping if p.section == "1x4"] == [("10 ft", 4)]
    assert [(b.stock, b.count) for b in bed.own_boards] == [("offcut 80 in", 1)]


def test_measured_boards_are_planned_as_they_are_and_not_bought():
    short = ["119 in", "119 in", "114 in"]  # the last gives two slats only
    bed = cut({"lumber.1x4.stock": [TEN | {"measured": short}]})
    lengths = sorted(b.length for b in bed.plan.boards if b.section == "1x4")
    assert lengths[-2:] == [120, 120]
    assert {inch(119)} < set(lengths)
    assert faults(bed.plan, bed.pieces, bed.stocks) == []
    assert [(p.stock, p.count, p.cost) for p in bed.shopping if p.section == "1x4"] == [("10 ft", 2, 2 * 830)]
    assert sum(b.count for b in bed.own_boards) == 3
    assert bed.weight == pytest.approx(cutting().weight - 3 * 120 * 2.625 / 1728 * 28.5, rel=0.03)


def own(section, **row):
    stock = demo().raw()["lumber"][section]["stock"]
    return {f"lumber.{section}.stock": [*stock, row]}


def test_boards_at_hand_are_neither_bought_nor_priced_nor_carried():
    bed = cut(own("2x6", length="8 ft", available=3))
    assert "2x6" not in {p.section for p in bed.shopping}
    assert [(b.section, b.stock, b.count) for b in bed.own_boards] == [("2x6", "own 8 ft", 3)]
    assert bed.cost == 8950 - 3 * 810
    assert bed.board_feet == cutting().board_feet - 3 * 8


def test_a_price_says_that_the_shop_has_so_many():
    two = {"length": "8 ft", "price": "6", "available": 2}
    bed = cut({"lumber.2x6.stock": [two, {"length": "8 ft", "price": "8"}]})
    lines = [(p.stock, p.count, p.price) for p in bed.shopping if p.section == "2x6"]
    assert lines == [("8 ft", 2, 600), ("8 ft", 1, 800)]
    assert facts_of(Plan(bed.build.options), ["cutting"])["stock.2x6x8.count"].value == 3


def test_what_is_at_hand_costs_nothing_in_every_way_to_buy():
    bed = cut(own("1x4", length="8 ft", available=2) | {"lumber.2x6.stock": [{"length": "8 ft"}]})
    eight = bed.alternatives[0]
    assert eight.plan is None and "can't hold" in eight.why  # 10 slats more, and no 8-ft 1x4 in the list
    bed = cut(own("1x4", length="8 ft", price="7.10"))
    eight = bed.alternatives[0]
    assert (eight.cost, eight.unpriced) == (3 * 810 + 2 * 340 + 7 * 710 + 1690, frozenset())


@pytest.mark.parametrize(("width", "severity"), [("3 7/16 in", "note"), ("3 5/16 in", "caution"), ("3 1/2 in", None)])
def test_own_boards_of_another_width_are_told_and_change_no_other(width, severity):
    bed = cut(own("1x4", length="10 ft", available=2, width=width))
    found = [f.severity for f in bed.findings if f.rule == "own boards"]
    assert found == ([severity] if severity else [])
    assert bed.build.part("slat").section.width == Fraction(7, 2)


def test_a_long_post_for_two_short_pieces_is_told_with_the_length_that_holds_them():
    assert not [f for f in cutting().findings if f.rule == "long board"]
    (found,) = [f for f in cut({"legs.per_side": 4}).findings if f.rule == "long board"]
    # 6 of 8 legs of 13 3/4 in fill one post; 1/4 + 2 x 13 3/4 + 1/8 = 27 7/8 of the second
    assert "2 x leg" in found.what and found.limit == "3 ft"


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
    assert all(c.shorter < c.length and (c.boards_saved > 0 or c.cost_saved > 0) for c in bed.cliffs)


def test_measured_boards_without_a_price_are_not_for_sale():
    """Beside priced rows they are at hand alone: the section keeps its price; each board's own width is its alone."""
    rows = [{"length": "8 ft", "price": "6.30"}, {"length": "8 ft", "measured": ["94 1/2 in", "90 in"]}]
    narrow = [rows[0], rows[1] | {"width": "3 7/16 in"}]
    for stock in (rows, narrow):
        bed = cut({"lumber.1x4.stock": stock})
        (bought,) = [p for p in bed.shopping if p.section == "1x4"]
        assert (bought.price, "1x4" in bed.unpriced) == (630, False)
        assert {(b.length, b.count) for b in bed.own_boards} == {(Fraction(189, 2), 1), (Fraction(90), 1)}
    (own,) = [f for f in bed.findings if f.rule == "own boards"]
    assert "3 7/16 in" in own.value and "4 x slat" in own.what


@pytest.mark.parametrize(("carry", "told"), [("120 in", False), ("119 15/16 in", True)])
def test_a_board_as_long_as_the_car_fits_it(carry, told):
    found = [f for f in cut({"shop.carry": carry}).findings if f.rule == "transport"]
    assert [(f.value, f.limit) for f in found] == [("120 in", "119 15/16 in")] * told


@pytest.mark.parametrize(("leg", "told"), [("10 in", False), ("9 15/16 in", True)])
def test_a_piece_of_ten_inches_is_held_by_hand(leg, told):
    bed = cut({"heights.underside": None, "heights.leg": leg})
    found = [f for f in bed.findings if f.rule == "small piece at the saw"]
    short = min(part.length for part in bed.build.parts)
    assert bool(found) == (short < 10) == told
    assert all((f.severity, f.limit) == ("caution", "10 in") for f in found)


def test_each_part_the_store_hands_over_may_be_short_by_its_own_cuts() -> None:
    """Cut at 39 3/4 and 80 in, 1/4 in either way, 1/4 in of kerf: the middle part has a rough cut at both its ends."""
    twice = [c for c in cut({"shop.carry": "60 in", "shop.store_cuts": 30}).store_cuts if len(c.at) == 2]
    assert twice and {(c.at, c.board.length, c.tolerance) for c in twice} == {
        ((inch("39 3/4"), Fraction(80)), Fraction(120), inch("1/4"))
    }
    assert {tuple(part.length for part in c.parts()) for c in twice} == {(inch("39 1/2"),) * 3}


def test_a_spare_of_a_length_that_is_not_bought_otherwise_is_bought_alone() -> None:
    stock = [{"length": f"{feet} ft", "price": price} for feet, price in ((8, "4"), (10, "4.5"), (16, "6"))]
    bought = [p for p in cut({"shop.spare_boards": 1, "lumber.1x4.stock": stock}).shopping if p.section == "1x4"]
    assert [(p.stock, p.count, p.spares) for p in bought] == [("8 ft", 1, 1), ("16 ft", 3, 0)]
