"""Cut lists of every size and shape, held to what they came to before, by sums."""

from __future__ import annotations

import pytest

from tests.snapshots import cuts
from tests.snapshots.sums import moved, read

BEFORE = read(cuts.STORED)


@pytest.mark.parametrize("name", cuts.LISTS)
def test_a_list_is_cut_as_it_was(name: str) -> None:
    told = moved(cuts.of(name), BEFORE[name])
    assert not told, f"{name}: {', '.join(told)}; if that is meant: python -m tests.snapshots.renew"


def test_no_list_is_cut_wrongly() -> None:
    """Counted over from boards and pieces alone, as ``faults`` does."""
    assert not [kind for kinds in BEFORE.values() for kind in kinds if kind == "fault"]


def test_some_lists_are_refused_searched_and_settled_and_some_are_not() -> None:
    kinds = {kind for found in BEFORE.values() for kind in found}
    assert {"refused", "second", "certificate", "batch"} <= kinds
