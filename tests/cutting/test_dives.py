"""Where the first dive sticks, others that turn aside at a step or two lay the boards out."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise
from random import Random

import pytest

from tests.cutting.test_filling import problem
from tutorial_lib.cutting import search
from tutorial_lib.cutting.search import Search


def full(random: Random, boards: int, board: int) -> list[int]:
    """Two or three pieces that fill each of so many boards to its end."""
    pieces: list[int] = []
    for _ in range(boards):
        ends = [0, *sorted(random.sample(range(5, board - 5), random.choice((1, 1, 2, 2)))), board]
        pieces += [end - start for start, end in pairwise(ends)]
    return pieces


@pytest.fixture(autouse=True)
def _by_dives_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Search, "_exact", lambda _search, _mix: (None, False))
    monkeypatch.setattr(search, "filled_any_way", lambda *_: None)


@pytest.mark.parametrize(("boards", "board", "seed"), [(24, 200, 2), (32, 60, 0)])
def test_boards_cut_to_their_ends(boards: int, board: int, seed: int) -> None:
    pieces = full(Random(seed), boards, board)
    found = Search(problem(pieces, (board,)), 5.0).run()
    assert found is not None
    assert sum(found.boards.values()) == boards == found.bound
    made: Counter[int] = Counter()
    kinds = sorted(set(pieces), reverse=True)
    for pattern, count in found.boards.items():
        for kind, n in enumerate(pattern.counts):
            made[kind] += n * count
    assert all(made[kind] >= pieces.count(width) for kind, width in enumerate(kinds))
