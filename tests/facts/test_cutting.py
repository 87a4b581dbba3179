"""Cutting facts of the demo, as its own facts file states them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.design.builds import demo
from tutorial_lib.cutting.bed import Purchase
from tutorial_lib.cutting.money import Money
from tutorial_lib.facts import facts_of
from tutorial_lib.facts.cutting import _stock
from tutorial_lib.facts.teller import Teller
from tutorial_lib.plan import Plan

STATED = {
    "stock.2x6x8.count": 3, "stock.2x6x8.length": 96, "stock.1x4x10.count": 5, "stock.1x4x10.length": 120,
    "stock.2x2x8.count": 2, "stock.2x2x8.length": 96, "stock.4x4x8.count": 1, "stock.4x4x8.length": 96,
    "slat.per_board": 3, "kerf": 0.125,
}  # fmt: skip


@pytest.fixture(scope="module")
def found():
    return facts_of(Plan(demo()), ["cutting"])


@pytest.mark.parametrize("key", STATED)
def test_the_demos_lumber(found, key):
    assert found[key].value == STATED[key]


def test_kinds_and_units(found):
    assert (found["stock.2x6x8.count"].unit, found["stock.2x6x8.count"].kind) == ("count", "stock_count")
    assert [found[f"stock.{key}.count"].what for key in ("2x6x8", "1x4x10")] == ["8-ft 2x6", "10-ft 1x4"]
    assert (found["slat.per_board"].kind, found["slat.per_board"].what) == (
        "pieces_per_board",
        "slats out of one 10-ft 1x4",
    )
    assert (float(found["lumber.cost"].value), found["lumber.cost"].unit) == (89.5, "usd")
    assert all(f.working for f in found.values())


def test_a_board_of_whole_feet_is_told_by_them_and_another_by_its_own_name():
    def told(name, length):
        bought = Purchase(section="2x4", stock=name, length=length, count=2)
        return [fact.what for fact in _stock(Teller(demo()), [bought], "usd", Money())]

    assert told("8 ft", Fraction(96)) == ["8-ft 2x4"] * 2
    assert told("stud", Fraction(185, 2)) == ["stud 2x4"] * 2
