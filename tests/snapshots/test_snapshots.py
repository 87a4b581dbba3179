"""Whole plans of different beds, held to what they said before: no number, word or place changes unnoticed."""

from __future__ import annotations

from itertools import zip_longest
from math import isclose

import pytest

from tests.snapshots import written
from tests.snapshots.written import CALCULATED

NEAR = 1e-6


def same(line: str, stored: str) -> bool:
    """The same words and exact numbers, calculated ones as near as machines are."""
    if line == stored:
        return True
    ours, theirs = CALCULATED.findall(line), CALCULATED.findall(stored)
    near = all(isclose(float(a), float(b), rel_tol=NEAR, abs_tol=NEAR) for a, b in zip(ours, theirs, strict=False))
    return near and CALCULATED.sub("~", line) == CALCULATED.sub("~", stored)


@pytest.mark.parametrize("name", written.builds())
def test_a_plan_says_what_it_said(name: str) -> None:
    now = written.text(written.read(written.builds()[name])).splitlines()
    before = (written.STORED / f"{name}.txt").read_text(encoding="utf-8").splitlines()
    differing = [(a, b) for a, b in zip_longest(now, before, fillvalue="") if not same(a, b)]
    told = "\n".join(f"now:    {a}\nbefore: {b}" for a, b in differing[:5])
    assert not differing, f"{len(differing)} lines; if that is meant: python -m tests.snapshots.renew\n{told}"


def test_what_differs_in_the_seventh_digit_is_the_same_and_in_the_fifth_is_not() -> None:
    assert same("use ~0.12345678 of 3", "use ~0.12345679 of 3")
    assert not same("use ~0.12345678 of 3", "use ~0.12346 of 3")
    assert not same("use ~0.12345678 of 3", "use ~0.12345678 of 4")
