"""Lists of many pieces with little waste: boards filled nearly to their ends."""

from __future__ import annotations

from fractions import Fraction
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from tutorial_lib.cutting.boards import PieceDemand, Stock
from tutorial_lib.cutting.certificate import Problem
from tutorial_lib.cutting.counting import made_of, mix_of
from tutorial_lib.cutting.filling import filled
from tutorial_lib.cutting.planner import faults, plan_cuts


def problem(pieces: list[int], boards: tuple[int, ...]) -> Problem:
    """Pieces one by one, boards without end."""
    widths = tuple(sorted(set(pieces), reverse=True))
    prices = tuple(range(1, len(boards) + 1))
    return Problem(
        widths=widths, demand=tuple(map(pieces.count, widths)), capacities=boards, lengths=boards, prices=prices,
        available=(None,) * len(boards),
    )  # fmt: skip


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 10**6), st.integers(1, 6), st.integers(0, 3))
def test_what_is_filled_is_the_list_and_all_the_pieces(seed: int, long: int, short: int) -> None:
    """Boards cut up at random: a list that is known to come out."""
    random, pieces = Random(seed), []
    for board in [100] * long + [60] * short:
        while board:
            piece = min(board, random.randint(10, 45))
            pieces.append(piece)
            board -= piece
    known = problem(pieces, (100, 60))
    found = filled(known, (long, short), 2.0)
    if found is not None:
        assert mix_of(known, found) == [long, short] and tuple(made_of(known, found)) == known.demand
        for pattern in found:
            used = sum(w * n for w, n in zip(known.widths, pattern.counts, strict=True))
            assert used <= known.capacities[pattern.stock]


def test_more_than_the_boards_hold_is_not_filled() -> None:
    assert filled(problem([50, 51, 30], (100,)), (1,), 1.0) is None
    assert filled(problem([51, 51, 51], (100,)), (2,), 1.0) is None  # enough length, no way to cut it


def test_many_alike_pieces_are_proven() -> None:
    """A hundred pieces of 150 to 200 on boards of 1,000: too many layouts to list, all boards nearly full."""
    random = Random("Schwerin 100 0")
    pieces = [random.randint(150, 200) for _ in range(100)]
    demand = [PieceDemand(str(n), Fraction(n), pieces.count(n)) for n in sorted(set(pieces))]
    stocks = [Stock("board", Fraction(1000), 1)]
    plan = plan_cuts(demand, stocks, Fraction(0), Fraction(0), prefer=())
    assert plan.proven and not faults(plan, demand, stocks)
    assert len(plan.boards) == -(-sum(pieces) // 1000)


def test_an_order_at_random_finds_what_the_fixed_ones_miss_and_the_same_each_time() -> None:
    """Eight boards of 90 cut to their ends: nothing of the first five tries, all of it within twenty."""
    pieces = [6, 14, 18, 23, 23, 23, 25, 27, 29, 30, 33, 37, 38, 39, 40, 42, 52, 61, 76, 84]
    full = problem(pieces, (90,))
    assert filled(full, (8,), 9.0, tries=5) is None
    found = filled(full, (8,), 9.0, tries=20)
    assert found is not None and tuple(made_of(full, found)) == full.demand
    assert found == filled(full, (8,), 9.0, tries=20)
