"""The planner: cheapest, then least waste, then as the user likes; never a board over-filled or a piece missed."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.cutting.cases import CASES, lists
from tutorial_lib.cutting.boards import PieceDemand, Stock
from tutorial_lib.cutting.certificate import Certificate, Problem, check
from tutorial_lib.cutting.planner import _filled_up, faults, plan_cuts
from tutorial_lib.cutting.search import Search
from tutorial_lib.errors import InputError
from tutorial_lib.measures import inch

EIGHTH = Fraction(1, 8)
BEDS = [c for c in CASES if c["cls"] == "own_bed"]
EDGES = [c for c in CASES if c["cls"] == "own_kerf"]
PLANTED = [c for c in CASES if c["cls"] not in ("own_bed", "own_kerf")]


@pytest.mark.parametrize("case", BEDS + EDGES, ids=lambda c: c["name"])
def test_bed_like_cases_are_solved_proven_and_certified(case):
    pieces, stocks, kerf, trim = lists(case)
    plan = plan_cuts(pieces, stocks, kerf, trim, prefer=())
    assert (plan.cost, plan.bound) == (case["optimum"], case["optimum"])
    if "optimum_stock_length" in case:
        assert sum(b.length for b in plan.boards) * 16 == case["optimum_stock_length"]
    assert faults(plan, pieces, stocks) == []
    proof = plan.sections[0].certificate
    assert check(proof).holds
    assert not check(Certificate(proof.problem, proof.cost + 1, proof.values)).holds


@pytest.mark.parametrize("case", PLANTED, ids=lambda c: c["name"])
def test_planted_cases_are_found_without_waste(case):
    pieces, stocks, kerf, trim = lists(case)
    plan = plan_cuts(pieces, stocks, kerf, trim, prefer=())
    assert plan.cost == case["optimum"]
    assert faults(plan, pieces, stocks) == []


lengths = st.integers(8, 200).map(lambda n: Fraction(n, 4))
demands = st.lists(st.tuples(lengths, st.integers(1, 6)), min_size=1, max_size=5)
shelves = st.lists(
    st.tuples(
        st.integers(200, 600).map(lambda n: Fraction(n, 4)),
        st.integers(0, 900),
        st.one_of(st.none(), st.integers(0, 4)),
    ),
    min_size=1,
    max_size=4,
)


@settings(max_examples=120, deadline=None)
@given(
    demands,
    shelves,
    st.sampled_from([Fraction(0), EIGHTH, Fraction(3, 16)]),
    st.sampled_from([Fraction(0), Fraction(1, 4)]),
)
def test_no_plan_overfills_misses_or_invents(demand, shelf, kerf, trim):
    pieces = [
        PieceDemand(f"p{i}", length, n, together="g" if i == 3 and n < 3 else "")
        for i, (length, n) in enumerate(demand)
    ]
    stocks = [Stock(f"s{i}", length, price, limit) for i, (length, price, limit) in enumerate(shelf)]
    try:
        plan = plan_cuts(pieces, stocks, kerf, trim)
    except InputError:
        return
    assert faults(plan, pieces, stocks) == []
    assert plan.bound <= plan.cost
    for section in plan.sections:
        assert check(section.certificate).holds or section.searched


def test_the_tie_breaks_follow_their_order():
    case = next(c for c in BEDS if c["name"] == "own_bed_20")
    pieces, stocks, kerf, trim = lists(case)
    few = plan_cuts(pieces, stocks, kerf, trim, prefer=("layouts", "offcut"))
    long = plan_cuts(pieces, stocks, kerf, trim, prefer=("offcut", "layouts"))
    assert (len(few.layouts), len(long.layouts)) == (4, 5)
    longest = [max(b.offcut for b in plan.boards) for plan in (few, long)]
    assert longest[0] < longest[1]
    assert few.cost == long.cost == case["optimum"]


def test_equal_costs_take_the_least_wood():
    plan = plan_cuts(
        [PieceDemand("leg", inch(14), 6)],
        [Stock("10 ft", inch(120), 500), Stock("8 ft", inch(96), 500)],
        EIGHTH,
        inch(0),
    )
    assert plan.used() == {"8 ft": 1}


def test_pieces_that_belong_together_come_from_one_board():
    stocks = [Stock("8 ft", inch(96), 400), Stock("16 ft", inch(192), 900)]
    apart = plan_cuts([PieceDemand("rail", inch(79), 2)], stocks, EIGHTH, inch(0))
    joined = plan_cuts([PieceDemand("rail", inch(79), 2, together="pair")], stocks, EIGHTH, inch(0))
    assert apart.used() == {"8 ft": 2}
    assert joined.used() == {"16 ft": 1}


def test_a_shelf_offcut_goes_first_and_only_once():
    stocks = [Stock("offcut", inch(40), 0, 1), Stock("8 ft", inch(96), 400)]
    plan = plan_cuts([PieceDemand("slat", inch(38), 3)], stocks, EIGHTH, inch(0))
    assert plan.used() == {"8 ft": 1, "offcut": 1}
    assert plan.cost == 400


def test_a_measured_board_is_planned_as_it_is():
    exact = [Stock("8 ft", inch(96), 400)]
    over = [*exact, Stock("8 ft, measured 96 1/4 in", inch("96 1/4"), 0, 1, own=True)]
    pieces = [PieceDemand("half", inch(48), 2)]
    assert len(plan_cuts(pieces, exact, EIGHTH, inch(0)).boards) == 2
    plan = plan_cuts(pieces, over, EIGHTH, inch(0))
    assert [(b.length, b.own) for b in plan.boards] == [(inch("96 1/4"), True)]


def test_boards_without_any_price_are_chosen_by_length():
    plan = plan_cuts(
        [PieceDemand("leg", inch(14), 6)], [Stock("12 ft", inch(144), 0), Stock("8 ft", inch(96), 0)], EIGHTH, inch(0)
    )
    assert plan.used() == {"8 ft": 1}


def test_thousands_of_pieces_keep_a_bound():
    pieces = [PieceDemand(f"p{i}", Fraction(n, 16), 700 + 40 * i) for i, n in enumerate((1190, 855, 636, 411, 169))]
    stocks = [Stock("8", inch(96), 630), Stock("12", inch(144), 972), Stock("16", inch(192), 1250)]
    plan = plan_cuts(pieces, stocks, EIGHTH, inch(0), prefer=())
    assert faults(plan, pieces, stocks) == []
    assert 0 <= plan.gap < 0.001


@pytest.mark.parametrize(("seed", "kinds", "most"), [(1, 5, 900), (7, 8, 400)])
def test_of_thousands_of_pieces_the_last_boards_are_worked_out_exactly(seed, kinds, most):
    """Too many lists to try: rounding the divisible answer alone misses the least cost, which is proven here."""
    random = Random(seed)
    pieces = [
        PieceDemand(f"p{i}", Fraction(random.randint(150, 1200), 16), random.randint(most // 2, most))
        for i in range(kinds)
    ]
    sold = (7, 8, 10, 12, 14, 16)
    stocks = [Stock(f"{feet} ft", inch(12 * feet), 70 * feet + random.randint(0, 40)) for feet in sold]
    plan = plan_cuts(pieces, stocks, EIGHTH, inch(0), prefer=())
    assert faults(plan, pieces, stocks) == []
    assert plan.cost == plan.bound


class TestFailures:
    def test_a_piece_longer_than_any_board_names_both(self):
        with pytest.raises(InputError, match="rail: 100 in long, but the longest board is 96 in"):
            plan_cuts([PieceDemand("rail", inch(100), 1)], [Stock("8 ft", inch(96), 1)], EIGHTH, inch(0))

    def test_the_trim_counts(self):
        with pytest.raises(InputError, match="1/4 in go at the ends"):
            plan_cuts([PieceDemand("rail", inch(96), 1)], [Stock("8 ft", inch(96), 1)], EIGHTH, inch("1/4"))

    def test_nothing_to_cut(self):
        with pytest.raises(InputError, match="no pieces"):
            plan_cuts([], [Stock("8 ft", inch(96), 1)], EIGHTH, inch(0))

    def test_too_few_boards(self):
        with pytest.raises(InputError, match="can't hold all pieces"):
            plan_cuts([PieceDemand("rail", inch(90), 3)], [Stock("8 ft", inch(96), 1, 2)], EIGHTH, inch(0))

    def test_no_list_found_in_time_is_not_told_as_impossible(self):
        lengths = [5, 6, 7, 8, 8, 9, 10, 10, 13, 14, 15, 15]  # three fill a board, but not by taking the longest first
        pieces = [PieceDemand(f"piece {i}", Fraction(n), 1) for i, n in enumerate(lengths)]
        boards = [Stock("short", Fraction(30), 1, 4)]
        with pytest.raises(InputError, match=r"no way was found to get all 12 pieces out of .*120 in together"):
            plan_cuts(pieces, boards, Fraction(0), Fraction(0), seconds=0.0)
        plan = plan_cuts(pieces, boards, Fraction(0), Fraction(0))
        assert len(plan.boards) == 4 and plan.proven

    @pytest.mark.parametrize(
        ("length", "price", "there", "why"),
        [(0, 1, 1, "length must be more than 0"), (96, -1, 1, "price is below 0"), (96, 1, -1, "-1 boards available")],
    )
    def test_boards_are_refused_from_just_below_what_can_be(self, length, price, there, why):
        piece = [PieceDemand("rail", inch(30), 1)]
        with pytest.raises(InputError, match=why):
            plan_cuts(piece, [Stock("8 ft", inch(length), price, there)], EIGHTH, inch(0))
        just = [Stock("8 ft", inch(96), 0, 0), Stock("10 ft", inch(120), 0, 1)]
        assert plan_cuts(piece, just, EIGHTH, inch(0)).used() == {"10 ft": 1}

    def test_all_faults_at_once(self):
        with pytest.raises(InputError) as caught:
            plan_cuts([PieceDemand("a", inch(0), 0)], [Stock("b", inch(9), -1, -2)], Fraction(-1), inch(0))
        assert len(caught.value.faults) == 5


def test_many_pieces_that_fill_boards_of_one_length_need_no_shadow_prices(monkeypatch: pytest.MonkeyPatch) -> None:
    def unwanted(_: Search) -> None:
        raise AssertionError("the tries should do")

    monkeypatch.setattr(Search, "run", unwanted)
    random = Random(4)
    pieces = [PieceDemand(f"p{i}", Fraction(random.randint(20, 100)), 1) for i in range(120)]
    boards = [Stock("board", Fraction(150), 7)]
    plan = plan_cuts(pieces, boards, Fraction(0), Fraction(0), prefer=())
    length = sum(piece.length for piece in pieces)
    assert plan.proven and faults(plan, pieces, boards) == []
    assert (len(plan.boards) - 1) * 150 < length <= len(plan.boards) * 150
    with pytest.raises(AssertionError, match="should do"):  # fewer pieces take the whole search
        plan_cuts(pieces[:59], boards, Fraction(0), Fraction(0), prefer=())


def test_boards_of_one_priced_length_are_filled_for_a_cost_and_others_are_not():
    problem = Problem(
        widths=(6, 5, 4, 3), demand=(1, 2, 1, 1), capacities=(12,), lengths=(12,), prices=(700,), available=(None,)
    )
    found = _filled_up(problem, 1400, 1.0)
    assert found is not None and sorted(sorted(kinds) for _, kinds in found) == [[0, 1], [1, 2, 3]]
    two = replace(problem, capacities=(12, 12), lengths=(12, 12), prices=(700, 700), available=(None, None))
    assert _filled_up(two, 1400, 1.0) is None and _filled_up(replace(problem, prices=(0,)), 1400, 1.0) is None
