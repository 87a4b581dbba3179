"""Beds that meet a limit to the hair stay on the side of it where they were."""

from __future__ import annotations

import pytest

from tests.snapshots import limits
from tests.snapshots.sums import moved, read

BEFORE = read(limits.STORED)


@pytest.mark.parametrize("name", BEFORE)
def test_a_bed_at_a_limit_is_what_it_was(name: str) -> None:
    told = moved(limits.of(name), BEFORE[name])
    assert not told, f"{name}: {', '.join(told)}; if that is meant: python -m tests.snapshots.renew"
