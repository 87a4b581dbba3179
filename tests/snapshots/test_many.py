"""Many beds, held to the numbers they had before, by sums."""

from __future__ import annotations

import pytest

from tests.snapshots import many
from tests.snapshots.sums import Sum, moved, read, sums

BEFORE = read(many.STORED)


@pytest.mark.parametrize("name", BEFORE)
def test_a_bed_has_the_numbers_it_had(name: str) -> None:
    told = moved(many.of(name), BEFORE[name])
    assert not told, f"{name}: {', '.join(told)}; if that is meant: python -m tests.snapshots.renew"


def _sum(numbers: str) -> Sum:
    (found,) = sums([f"use slat bending lying: {numbers}"]).values()
    return found


def test_a_sum_tells_another_number_place_and_sign_and_not_the_ninth_digit() -> None:
    found = _sum("(~0.5, ~2, 30)")
    assert found.same(_sum("(~0.500000001, ~2, 30)"))
    for other in ("(~0.5001, ~2, 30)", "(~2, ~0.5, 30)", "(~0.5, ~-2, 30)", "(~0.5, ~2, 31)", "(~0.5, ~2)"):
        assert not found.same(_sum(other)), other
    assert not found.same(None)


def test_words_don_t_count() -> None:
    assert sums(["fact slat.count = 14 | how many"]) == sums(["fact slat.count = 14 | so many of them"])
