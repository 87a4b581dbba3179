"""Where the first dive sticks, others that turn aside at a step or two lay the boards out."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise
from random import Random
from types import SimpleNamespace
from typing import Any

import pytest

from tests.cutting.test_filling import problem
from tutorial_lib.cutting import search
from tutorial_lib.cutting.lp import Answer, Pattern
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


@pytest.mark.parametrize(("turned", "first"), [({}, 1), ({0: 1}, 2), ({0: 2}, 0)])
def test_the_pattern_nearest_to_one_more_board_is_rounded_up_first(
    monkeypatch: pytest.MonkeyPatch, turned: dict[int, int], first: int
) -> None:
    """5.2, 1.9 and 3.5 boards: 1.9 first, however many there are of the others; a turned dive passes it over."""
    patterns, boards = [Pattern(0, (n,)) for n in (1, 2, 3)], [5.2, 1.9, 3.5]
    fixed: list[tuple[Any, ...]] = []
    layer: Any = SimpleNamespace(patterns=patterns, fix=lambda *told: fixed.append(told))
    monkeypatch.setattr(Search, "_finish", lambda *_: None)
    monkeypatch.setattr(Search, "_regrow", lambda *_: Answer([6.0, 2.0, 4.0], [], [], []))
    made = Search(problem([10, 20], (30,)), 5.0)._dive(layer, [9], Answer(boards, [], [], []), turned)
    assert fixed[0] == (patterns[first], round(boards[first] + 0.5))
    assert made == Counter(dict(zip(patterns, (6, 2, 4), strict=True)))
