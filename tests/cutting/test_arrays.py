"""The two ways of counting, by numpy and in plain Python, come to the same everywhere."""

from __future__ import annotations

from types import ModuleType

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from tutorial_lib.cutting import arrays, arrays_numpy, arrays_plain
from tutorial_lib.cutting.certificate import Problem
from tutorial_lib.cutting.values import whole


@some.composite
def problems(draw: some.DrawFn) -> Problem:
    """A few kinds of pieces and boards, as beds have them."""
    kinds = draw(some.integers(1, 5))
    boards = draw(some.integers(1, 4))
    return Problem(
        widths=tuple(draw(some.integers(5, 90)) for _ in range(kinds)),
        demand=tuple(draw(some.integers(1, 9)) for _ in range(kinds)),
        capacities=(lengths := tuple(draw(some.integers(90, 200)) for _ in range(boards))),
        lengths=lengths,
        prices=tuple(draw(some.integers(0, 900)) for _ in range(boards)),
        available=tuple(draw(some.none() | some.integers(0, 6)) for _ in range(boards)),
    )


@settings(max_examples=60, deadline=None)
@given(problems(), some.data())
def test_fillings_and_cuts_are_the_same(problem: Problem, data: some.DataObject) -> None:
    worth = data.draw(
        some.lists(
            some.floats(0, 5).map(lambda x: round(x, 6)), min_size=len(problem.widths), max_size=len(problem.widths)
        )
    )
    values = whole(worth)
    ours, numpys = arrays_plain.Knapsack(problem), arrays_numpy.Knapsack(problem)
    assert ours.places == list(numpys.places)
    table, same = ours.table(values), numpys.table(values)
    assert table == [list(row) for row in same]
    cut = ours.cut(values, table)
    assert cut == numpys.cut(values, same)
    for stock in range(len(problem.lengths)):
        assert ours.filling(values, table, stock) == numpys.filling(values, same, stock)
        mine, theirs = (k.fillings(cut, stock, cut.holds[stock] // 10, 400) for k in (ours, numpys))
        assert mine == (None if theirs is None else [tuple(int(n) for n in row) for row in theirs])


@settings(max_examples=60, deadline=None)
@given(problems(), some.integers(0, 4000))
def test_the_lists_come_in_the_same_order(problem: Problem, most: int) -> None:
    cuts = [arrays_plain.Knapsack(problem).cut(problem.widths)]
    plain, numpys = (room.all_mixes(problem, most, cuts, 3000) for room in (arrays_plain, arrays_numpy))
    assert (plain is None) == (numpys is None)
    while plain is not None and numpys is not None and len(plain):
        assert len(plain) == len(numpys)
        assert plain.first() == numpys.first()
        for mixes in (plain, numpys):
            mixes.drop_first()


@settings(max_examples=30, deadline=None)
@given(
    some.lists(some.tuples(some.integers(1, 60), some.integers(1, 6)), min_size=1, max_size=6), some.integers(1, 200)
)
def test_sums_are_listed_alike(pieces: list[tuple[int, int]], top: int) -> None:
    widths, bounds = zip(*pieces, strict=True)
    by_bits, listed = (f(widths, bounds, top) for f in (arrays_plain.reachable, arrays_numpy.reachable))
    assert by_bits == list(listed)
    assert arrays_plain.listed_sums(widths, bounds, top, 10_000) == by_bits
    assert arrays_plain.listed_sums(widths, bounds, top, len(by_bits) - 1) is None or len(by_bits) == 1


@settings(max_examples=30, deadline=None)
@given(problems(), some.integers(0, 4000))
def test_a_cut_strikes_the_same_lists(problem: Problem, most: int) -> None:
    wide, even = (arrays_plain.Knapsack(problem).cut(values) for values in (problem.widths, (1,) * len(problem.widths)))
    plain, numpys = (room.all_mixes(problem, most, [wide], 3000) for room in (arrays_plain, arrays_numpy))
    if plain is None or numpys is None:
        return
    rows = list(plain.rows)
    for mixes in (plain, numpys):
        mixes.strike(even)
    assert plain.rows == [row for row in rows if not even.refutes(row[2])]
    assert len(plain) == len(numpys)


@pytest.mark.parametrize(
    ("numpy", "pieces", "room"),
    [(True, 9, arrays_plain), (True, 99, arrays_numpy), (False, 9, arrays_plain), (False, 99, arrays_plain)],
)
def test_many_fillings_are_counted_by_numpy_where_there_is_one(
    monkeypatch: pytest.MonkeyPatch, numpy: bool, pieces: int, room: ModuleType
) -> None:
    """Ten times ten of two kinds are few, a hundred times a hundred are not; a browser counts all in plain Python."""
    monkeypatch.setattr(arrays, "NUMPY", numpy)
    problem = Problem(widths=(2, 3), demand=(pieces, pieces), capacities=(900,), lengths=(900,), prices=(1,),
                      available=(None,))  # fmt: skip
    assert type(arrays.knapsack(problem)) is room.Knapsack


def test_as_many_lists_as_are_allowed_are_given_and_one_more_are_too_many() -> None:
    """Boards of 3 and 2 for at most 6: none to two of the one, up to three of the other, seven lists in all."""
    problem = Problem(widths=(10,), demand=(9,), capacities=(90, 60), lengths=(90, 60), prices=(3, 2),
                      available=(None, None))  # fmt: skip
    for room in (arrays_plain, arrays_numpy):
        found = room.all_mixes(problem, 6, [], 7)
        assert found is not None and len(found) == 7
        assert room.all_mixes(problem, 6, [], 6) is None
