"""Labels of several pieces told together."""

from __future__ import annotations

import pytest

from tutorial_lib.design.labels import RUN, in_runs

SLATS = [f"slat {n}" for n in range(1, 10)]


@pytest.mark.parametrize(
    ("numbers", "told"),
    [
        ((3,), "slat 3"),
        ((1, 2, 3, 4), "slat 1, 2, 3, 4"),
        ((1, 2, 3, 4, 5), "slat 1 to 5"),
        ((1, 3, 5, 7, 9), "slat 1, 3, 5, 7, 9"),
        ((1, 2, 3, 4, 5, 8, 9), "slat 1 to 5, 8, 9"),
    ],
)
def test_only_what_stands_in_a_row_is_told_by_its_first_and_last(numbers: tuple[int, ...], told: str) -> None:
    assert RUN == 4
    assert in_runs(SLATS, [f"slat {n}" for n in numbers]) == told
