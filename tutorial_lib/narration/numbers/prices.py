"""Small coins after the large, and prices said without their currency."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from tutorial_lib.narration.numbers.cardinals import Read, cardinal, near
from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.numbers.lexicon import UNITS
from tutorial_lib.narration.numbers.words import Gap, Word


def with_cents(words: Sequence[Word], value: Fraction, at: int) -> Read:
    """The small coins after the large: "four dollars and fifty cents", "73 euro 80", "87 euros and 60"."""
    start = at + 1 if near(words, at) and words[at].low == "and" else at
    rest = coins_at(words, start)
    if rest is None:
        return value, at
    coins, stop = rest
    if near(words, stop) and UNITS.get(words[stop].low) in ("cents", "pence"):
        return value + coins / 100, stop + 1
    bare = value.denominator == 1 and coins >= 10 and near(words, at) and ends_cents(words, stop, start > at)
    return (value + coins / 100, stop) if bare else (value, at)


def coins_at(words: Sequence[Word], at: int) -> Read | None:
    """A whole number below a hundred."""
    rest = cardinal(words, at) if near(words, at, Gap.COMMA) else None
    return rest if rest and 1 <= rest[0] < 100 and rest[0].denominator == 1 else None


def ends_cents(words: Sequence[Word], stop: int, joined: bool) -> bool:
    """Whether cents without their unit end before a word; after "and" only where nothing follows."""
    return not near(words, stop) if joined else ends_price(words, stop)


def ends_price(words: Sequence[Word], at: int) -> bool:
    """Whether the number before a word counts or measures nothing, so that it can be cents."""
    if not near(words, at):
        return True
    low = words[at].low
    counted = low.endswith("s") and low not in ("this", "as", "is", "plus", "was")
    return not (words[at].hyphen or counted or low in UNITS or (low in ("by", "x", "of") and not small_of(words, at)))


def small_of(words: Sequence[Word], at: int) -> bool:
    """Whether "of" goes on about the price ("63 euros 42 of wood")."""
    return (
        words[at].low == "of"
        and near(words, at + 1)
        and words[at + 1].low in ("wood", "timber", "lumber", "it", "that")
    )


ASKED = (
    ("came", "to"),
    ("comes", "to"),
    ("come", "to"),
    ("would", "pay"),
    ("i", "paid"),
    ("cost", "me"),
    ("it", "cost"),
    ("that", "was"),
    ("wood", "was"),
    ("lumber", "was"),
    ("timber", "was"),
)


def priced(words: Sequence[Word], found: Sequence[Expression]) -> list[Expression]:
    """Gives a price said as two numbers its currency ("it came to ninety-four seventy-five")."""
    out: list[Expression] = []
    for item in found:
        if out and is_bare(item) and is_sterling(words, out[-1], item):
            price = out[-1].value + item.value / 100
            out[-1] = replace(out[-1], last=item.last, values=(price,), unit="gbp", decimal=True)
        elif out and is_bare(item) and item.first == out[-1].last and is_paid(words, out[-1]):
            price = out[-1].value + item.value / 100
            out[-1] = replace(out[-1], last=item.last, values=(price,), unit="usd", decimal=True)
        elif item.value >= 1000 and is_paid(words, item) and item.last - item.first > 1 and item.value % 100 >= 10:
            out.append(replace(item, values=(item.value / 100,), unit="usd", decimal=True))
        else:
            out.append(item)
    return out


def is_sterling(words: Sequence[Word], pounds: Expression, item: Expression) -> bool:
    """Whether pounds with pence right after them are money ("a hundred and forty-one pounds seventy")."""
    beside = pounds.unit == "lb" and item.first == pounds.last and pounds.value.denominator == 1
    return beside and near(words, item.first) and ends_price(words, item.last)


def is_paid(words: Sequence[Word], item: Expression) -> bool:
    """Whether a whole number without a unit stands right after "came to", "would pay" and the like."""
    said = tuple(w.low for w in words[max(0, item.first - 2) : item.first])
    return said in ASKED and not item.unit and item.form == "number" and item.value.denominator == 1


def is_bare(item: Expression) -> bool:
    """Whether a number can be cents: two digits without a unit."""
    return item.form == "number" and not item.unit and 10 <= item.value < 100 and item.value.denominator == 1
