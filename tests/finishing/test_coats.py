"""How much finish, in which can."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tutorial_lib.finishing.cans import SOLD, Can, choose
from tutorial_lib.finishing.coats import OTHER, coats, kind_of


def made(kind="oil", count=2, side=20, end=1, units="in"):
    return coats(kind, count, Fraction(side), Fraction(end), SOLD[units])


def test_amount_by_hand():
    low, high = made().gallons
    assert low == pytest.approx((20 + 2) * 2 / 400 * 1.10)
    assert high == pytest.approx((20 + 3) * 2 / 200 * 1.15)


def test_the_can_holds_all_coats():
    assert made().can == "2 x 1 quart"  # 0.26 gal at most: over a quart
    assert made(side=15).can == "1 quart"
    assert made(side=15, units="mm").can == "1 litre"


def test_more_than_the_largest_can_is_mixed():
    assert made(side=600).can == "7 x 1 gallon"


def test_several_cans_where_they_cost_less():
    def cans(pint, quart):
        return [Can("1 pint", Fraction(1, 8), Fraction(pint)), Can("1 quart", Fraction(1, 4), Fraction(quart))]

    assert str(choose(0.2, cans(8, 17))) == "2 x 1 pint"
    assert str(choose(0.2, cans(9, 17))) == "1 quart"
    assert str(choose(0.3, cans(9, 17))) == "1 quart and 1 pint", "26 where two quarts are 34 and three pints 27"


def test_an_unknown_finish_says_read_the_can():
    unknown = made("moon dust")
    assert (unknown.known, unknown.gallons, unknown.can, unknown.amount("in")) == (OTHER, None, "", "read the can")


def test_no_coats_need_no_can():
    assert made(count=0).gallons is None


@pytest.mark.parametrize(
    ("name", "oily", "solvent"),
    [
        ("waterborne polyurethane", False, False),
        ("water-based poly", False, False),
        ("acrylic paint", False, False),
        ("polyurethane", True, True),
        ("teak oil", True, True),
        ("shellac", False, True),
        ("milk paint", False, False),
    ],
)
def test_rags_and_fumes_fit_the_finish(name, oily, solvent):
    assert (kind_of(name).oily, kind_of(name).solvent) == (oily, solvent)


@pytest.mark.parametrize(("count", "words"), [(1, "one coat"), (2, "two coats"), (3, "three coats"), (7, "7 coats")])
def test_coats_in_words(count, words):
    assert made(count=count).in_words == words


def test_names_people_use():
    assert kind_of("Danish oil").name == "oil"
    assert kind_of(" Polyurethane ").name == "varnish"


def test_amount_is_written_in_the_plans_units():
    assert made(side=15).amount("in").endswith("fl oz")
    assert made(side=15).amount("mm").endswith("ml")


def test_a_varnish_goes_less_far_than_its_quart_figure():
    # 125 to 150 sq ft a quart are 500 to 600 sq ft a gallon
    assert (made("varnish").coverage.low, made("varnish").coverage.high) == (500, 600)
