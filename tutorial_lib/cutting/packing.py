"""A quick list for thousands of pieces: each, widest first, on the fullest board that has room for it."""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Iterator, Sequence

from tutorial_lib.cutting.certificate import Problem
from tutorial_lib.cutting.coarse import Filled


def packed(problem: Problem) -> list[Filled] | None:
    """The cheapest of the lists that start from each stock in turn; None if the boards run out."""
    lists = [boards for stock in range(len(problem.prices)) if (boards := _from(problem, stock)) is not None]
    return min(lists, key=lambda boards: _cost(problem, boards), default=None)


def _cost(problem: Problem, boards: Sequence[Filled]) -> tuple[int, int]:
    return sum(problem.prices[s] for s, _ in boards), sum(problem.lengths[s] for s, _ in boards)


def _from(problem: Problem, favourite: int) -> list[Filled] | None:
    """Best fit, new boards of one stock where it has room, free boards first, each changed for a cheaper one after."""
    shelf = [None if n is None else n for n in problem.available]
    order = sorted(range(len(shelf)), key=lambda s: (problem.prices[s] != 0, s != favourite, problem.prices[s]))
    boards: list[Filled] = []
    rooms: list[tuple[int, int]] = []  # room left and board, the tightest first
    for kind in sorted(range(len(problem.widths)), key=lambda k: -problem.widths[k]):
        width = problem.widths[kind]
        for _ in range(problem.demand[kind]):
            place = bisect_left(rooms, (width, -1))
            if place < len(rooms):
                room, board = rooms.pop(place)
            else:
                stock = next((s for s in order if shelf[s] != 0 and problem.capacities[s] >= width), None)
                if stock is None:
                    return None
                _take(shelf, stock, 1)
                room, board = problem.capacities[stock], len(boards)
                boards.append((stock, []))
            boards[board][1].append(kind)
            insort(rooms, (room - width, board))
    return list(_cheaper(problem, boards, shelf))


def _cheaper(problem: Problem, boards: Sequence[Filled], shelf: list[int | None]) -> Iterator[Filled]:
    """Each board replaced by the cheapest, then shortest, that holds its pieces."""
    for stock, pieces in boards:
        need = sum(problem.widths[kind] for kind in pieces)
        fits = [s for s, room in enumerate(problem.capacities) if room >= need and (s == stock or shelf[s] != 0)]
        best = min(fits, key=lambda s: (problem.prices[s], problem.lengths[s], s != stock))
        if best != stock:
            _take(shelf, best, 1)
            _take(shelf, stock, -1)
        yield best, pieces


def _take(shelf: list[int | None], stock: int, count: int) -> None:
    limit = shelf[stock]
    if limit is not None:
        shelf[stock] = limit - count
