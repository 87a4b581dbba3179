"""What legs are called by where they stand."""

from __future__ import annotations

import pytest

from tutorial_lib.strength.names import _place


@pytest.mark.parametrize(
    ("count", "said"),
    [(1, ["only"]), (2, ["head", "foot"]), (3, ["head", "middle", "foot"]), (4, ["head", "second", "third", "foot"])],
)
def test_legs_of_a_line_from_the_head(count: int, said: list[str]) -> None:
    assert [_place(number, count) for number in range(1, count + 1)] == said
