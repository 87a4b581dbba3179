"""Lists that would take for ever: fine and mixed grids, every piece another length, prices and lengths beyond sense."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tutorial_lib.cutting.boards import PieceDemand, Stock
from tutorial_lib.cutting.certificate import Problem, check
from tutorial_lib.cutting.coarse import MOST_KINDS, by_length, coarser
from tutorial_lib.cutting.packing import packed
from tutorial_lib.cutting.parts_list import cut_lists
from tutorial_lib.cutting.planner import faults, plan_cuts
from tutorial_lib.errors import InputError
from tutorial_lib.measures import inch, mm

EIGHTH = Fraction(1, 8)
SHOP = [Stock("8", inch(96), 630), Stock("12", inch(144), 972), Stock("16", inch(192), 1250)]


def test_decimals_beside_sixty_fourths_and_millimetres():
    pieces = [
        PieceDemand("a", Fraction("38.12371"), 14), PieceDemand("b", Fraction(3013, 64), 6),
        PieceDemand("c", mm("971.3"), 5), PieceDemand("d", mm("200.2"), 9),
    ]  # fmt: skip
    stocks = [*SHOP[:2], Stock("2400 mm", mm(2400), 600)]
    plan = plan_cuts(pieces, stocks, EIGHTH, Fraction(0))
    assert faults(plan, pieces, stocks) == []
    assert plan.bound <= plan.cost and plan.gap < 0.05


def many(count: int) -> list[PieceDemand]:
    random = Random(5)
    return [PieceDemand(f"p{i}", Fraction(random.randint(16_000, 130_000), 1600), 1) for i in range(count)]


def test_every_piece_another_length_gives_a_list_and_an_honest_gap():
    pieces = many(MOST_KINDS + 50)
    plan = plan_cuts(pieces, SHOP, EIGHTH, Fraction(0), prefer=())
    assert faults(plan, pieces, SHOP) == []
    by_material = sum(p.length for p in pieces) / 192 * 1250  # no list is cheaper than the length at the best price
    assert plan.cost >= plan.bound >= by_material
    assert plan.gap < 0.03


def problem(widths, demand, capacities, prices, available) -> Problem:
    return Problem(widths=tuple(widths), demand=tuple(demand), capacities=tuple(capacities), lengths=tuple(capacities),
                   prices=tuple(prices), available=tuple(available))  # fmt: skip


@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    st.lists(st.tuples(st.integers(3, 40), st.integers(1, 3)), min_size=1, max_size=4, unique_by=lambda w: w[0]),
    st.lists(st.tuples(st.integers(40, 90), st.integers(1, 20)), min_size=1, max_size=3, unique=True),
)
def test_a_quick_list_holds_every_piece_and_costs_no_less_than_the_length(pieces, stocks):
    given = problem([w for w, _ in pieces], [n for _, n in pieces], [c for c, _ in stocks], [p for _, p in stocks],
                    [None] * len(stocks))  # fmt: skip
    boards = packed(given)
    assert boards is not None
    made = [0] * len(pieces)
    for stock, kinds in boards:
        assert sum(given.widths[kind] for kind in kinds) <= given.capacities[stock]
        for kind in kinds:
            made[kind] += 1
    assert tuple(made) == given.demand
    assert sum(given.prices[s] for s, _ in boards) >= by_length(given)


def test_a_quick_list_takes_what_is_free_first_and_no_more_than_there_is():
    boards = packed(problem([30], [5], [60, 60], [0, 7], [1, None]))
    assert boards is not None and sorted(stock for stock, _ in boards) == [0, 1, 1]
    assert packed(problem([30], [5], [60], [7], [2])) is None


def test_coarser_problems_stand_on_either_side():
    fine = problem([1_000_003, 777_777, 333_331], [40, 50, 60], [9_999_999], [5], [None])
    found = coarser(fine)
    if found is not None:
        scale = fine.capacities[0] / found.above.capacities[0]
        for exact, tall, low in zip(fine.widths, found.above.widths, found.below.widths, strict=True):
            assert low * scale <= exact * 1.001 and tall * scale >= exact * 0.999
            assert tall >= low
    assert coarser(problem([30, 20], [5, 5], [100], [5], [None])) is None


def test_the_proof_of_a_coarse_bound_can_be_checked():
    plan = plan_cuts(many(MOST_KINDS + 1), SHOP, EIGHTH, Fraction(0), prefer=())
    certificate = plan.sections[0].certificate
    assert certificate.cost == plan.bound
    if len(certificate.problem.widths) <= 40:
        assert check(certificate).holds


@pytest.mark.parametrize("price", ["1e99999999", "1/0", "1e18", "1000000000000000000", "9" * 5000, "1000000.01"])
def test_prices_beyond_sense_are_refused_by_their_row(price):
    with pytest.raises(InputError) as caught:
        cut_lists("name,length,count\na,20,1\n", f"name,length,price\nten,120,{price}\n")
    assert str(caught.value).startswith("stock row 2: ") and len(str(caught.value)) < 200


def test_a_million_is_still_a_price():
    made = cut_lists("name,length,count\na,20,1\n", "name,length,price\nten,120,1000000\n")
    assert made.as_json()["cost"] == 1_000_000


def test_lengths_beyond_sense_are_refused_by_their_row():
    with pytest.raises(InputError, match="pieces row 2"):
        cut_lists("name,length,count\na,1000000000000000000,1\n", "name,length,price\nten,120,1\n")


def test_the_shelf_and_the_shop_are_two_rows_of_one_board():
    stock = "name,length,price,available\n8 ft,96,0,1\n8 ft,96,4.00,\n"
    report = cut_lists("name,length,count\nleg,90,3\n", stock).as_json()
    assert (report["used"], report["cost"]) == ({"8 ft": 3}, 8)
    with pytest.raises(InputError, match="another length"):
        cut_lists("name,length,count\nleg,90,3\n", "name,length,price\n8 ft,96,1\n8 ft,97,1\n")


@pytest.mark.parametrize(("kinds", "board", "coarse"), [(160, 3750, False), (160, 3751, True), (150, 5000, False)])
def test_more_than_150_widths_on_a_fine_grid_are_too_many(kinds: int, board: int, coarse: bool) -> None:
    """From 600,000 on: their number by the steps in the longest board."""
    found = coarser(problem(range(100, 100 + kinds), [1] * kinds, [board], [5], [None]))
    assert (found is not None) == coarse
