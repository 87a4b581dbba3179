"""Single functions, held to what they answered before."""

from __future__ import annotations

import pytest

from tests.snapshots import answers
from tests.snapshots.sums import moved, read

BEFORE = read(answers.STORED)


@pytest.mark.parametrize("name", answers.ASKED)
def test_functions_answer_as_they_did(name: str) -> None:
    told = moved(answers.of(name), BEFORE[name])
    assert not told, f"{name}: {', '.join(told)}; if that is meant: python -m tests.snapshots.renew"
