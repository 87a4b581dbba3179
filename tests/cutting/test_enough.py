"""Whether pieces come out of boards, the kerf decides."""

from __future__ import annotations

import pytest

from tutorial_lib.cutting import comes_out
from tutorial_lib.measures import inch


@pytest.mark.parametrize(
    ("length", "count", "board", "boards", "kerf", "answer"),
    [
        ("48", 2, "96", 1, "0", True),
        ("48", 2, "96", 1, "1/8", False),  # exactly half: the kerf comes off
        ("47 15/16", 2, "96", 1, "1/8", True),
        ("38 1/4", 14, "120", 4, "1/8", False),
        ("38 1/4", 14, "120", 5, "1/8", True),
        ("121", 1, "120", 5, "1/8", False),
    ],
)
def test_comes_out(length: str, count: int, board: str, boards: int, kerf: str, answer: bool) -> None:
    assert comes_out([(inch(length), count)], [(inch(board), boards)], inch(kerf)) is answer
