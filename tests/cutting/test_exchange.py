"""Boards filled by exchange hold every piece once, and find what boards filled one after another miss."""

from __future__ import annotations

from random import Random

import pytest

from tests.cutting.test_filling import problem
from tutorial_lib.cutting.exchange import exchanged
from tutorial_lib.cutting.filling import filled


def full(random: Random, boards: int, board: int) -> list[int]:
    """Pieces that fill so many boards to their ends."""
    pieces: list[int] = []
    for _ in range(boards):
        first = random.randint(board // 4, board // 3)
        second = random.randint(board // 4, board // 3)
        pieces += [first, second, board - first - second]
    return pieces


@pytest.mark.parametrize("seed", range(6))
def test_what_comes_out_fits_and_makes_every_piece(seed: int) -> None:
    known = problem(full(Random(seed), 5, 100), (104,))
    found = exchanged(known, (5,), 5.0)
    assert found is not None and sum(found.values()) == 5
    for pattern in found:
        assert sum(n * w for n, w in zip(pattern.counts, known.widths, strict=True)) <= 104
    made = [sum(p.counts[kind] * n for p, n in found.items()) for kind in range(len(known.widths))]
    assert tuple(made) == known.demand


def test_it_finds_what_filling_one_board_after_another_misses() -> None:
    random = Random("Schwerin 100 2")
    known = problem([random.randint(150, 200) for _ in range(100)], (1000,))
    assert filled(known, (18,), 5.0) is None
    assert exchanged(known, (18,), 5.0) is not None


def test_what_has_no_room_is_given_up_in_time() -> None:
    assert exchanged(problem([51, 51, 51], (100,)), (2,), 0.05) is None
    assert exchanged(problem([51, 51], (100,)), (1,), 0.05) is None
