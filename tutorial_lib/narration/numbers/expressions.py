"""Numeric expressions: every number said, with the words it covers, its value and its unit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from tutorial_lib.narration.numbers.cardinals import cardinal, near
from tutorial_lib.narration.numbers.compound_measures import inside_unit, unit_as_one, with_eighths
from tutorial_lib.narration.numbers.expression import Expression, Nominals
from tutorial_lib.narration.numbers.fractions_said import ARTICLES, fraction, skip_of
from tutorial_lib.narration.numbers.lexicon import (
    CARDINALS,
    DENOMINATORS,
    DOZENS,
    LENGTHS,
    MONEY_SIGNS,
    ORDINALS,
    PLURAL_CARDINALS,
    UNITS,
)
from tutorial_lib.narration.numbers.lumber_names import nominal, past_s
from tutorial_lib.narration.numbers.named_numbers import GLUED, SHARES, lone, special
from tutorial_lib.narration.numbers.one import is_pronoun
from tutorial_lib.narration.numbers.prices import priced, with_cents
from tutorial_lib.narration.numbers.said_units import add_fraction, point, unit_at
from tutorial_lib.narration.numbers.words import Gap, Word


def expressions(words: Sequence[Word], nominals: Nominals = frozenset(), metric: bool = False) -> list[Expression]:
    """All numeric expressions of a talk, in order.

    Args:
        words: the transcript.
        nominals: sizes the plan names its timber by ("140x45"), beside the common lumber names.
        metric: the plan is in millimetres: sizes in centimetres or old inches are names too, and "20 20" is 2020.
    """
    out: list[Expression] = []
    at = 0
    while at < len(words):
        found = expression(words, at, nominals, metric) if may_begin(words[at]) else None
        if found is None:
            at += 1
            continue
        out.append(found)
        at = max(found.last, at + 1)
    out = priced(words, joined_groups(words, out) if metric else out)
    return mark_pairs(words, with_shared_units(words, out))


def may_begin(word: Word) -> bool:
    """Whether a number may begin at a word: a figure or a sign, a number in words, what is said before one."""
    return word.low in BEGINNINGS or not word.text[0].isalpha() or word.text in GLUED


SAID_BEFORE = "hundred thousand to too minus negative point inch foot metre meter hour another number nr".split()
BEGINNINGS = frozenset(
    (*CARDINALS, *PLURAL_CARDINALS, *DENOMINATORS, *ORDINALS, *DOZENS, *SHARES, *ARTICLES, *SAID_BEFORE)
)


def expression(words: Sequence[Word], at: int, nominals: Nominals, metric: bool) -> Expression | None:
    """The number that begins at a word, whatever its form."""
    if is_pronoun(words, at):
        return None
    return nominal(words, at, nominals, metric) or special(words, at) or quantity(words, at) or lone(words, at)


def with_shared_units(words: Sequence[Word], found: Sequence[Expression]) -> list[Expression]:
    """Gives the first value of a range or choice the unit said after the second ("two or three centimetres")."""
    out = list(found)
    for i, b in enumerate(out[1:]):
        if shares_unit(words, out[i], b):
            out[i] = replace(out[i], unit=b.unit)
    return out


def shares_unit(words: Sequence[Word], a: Expression, b: Expression) -> bool:
    """Whether a bare value and one with its unit are joined by "or" or "to", and of one size."""
    joined = b.first == a.last + 1 and words[a.last].low in ("or", "to") and near(words, a.last)
    bare = a.form == b.form == "number" and not a.unit and b.unit in LENGTHS and not words[b.last - 1].hyphen
    return joined and bare and near(words, b.first) and a.value <= b.value * 2 and b.value <= a.value * 4


def joined_groups(words: Sequence[Word], found: Sequence[Expression]) -> list[Expression]:
    """Figures said in two groups, as millimetres are ("20 20" is 2020, "9 12" is 912)."""
    out: list[Expression] = []
    for item in found:
        before = out[-1] if out else None
        if before is not None and two_groups(words, before, item):
            out[-1] = replace(item, first=before.first, values=(before.value * 100 + item.value,))
        else:
            out.append(item)
    return out


def two_groups(words: Sequence[Word], a: Expression, b: Expression) -> bool:
    """Whether two bare figures side by side are one number ("20 20", "ten 25"), and not a count and a size."""
    if not beside_bare(words, a, b) or not is_two_digits(words[b.first]) or (b.last - b.first > 1 and not b.unit):
        return False  # "2 45s"
    if words[a.first].low == "one" and a.first and words[a.first - 1].low in ("one", "two", "just", "the"):
        return begins_number(words, a.first)
    return a.value >= 10 or not near(words, b.last) or not is_sized(words[b.last].low)


def begins_number(words: Sequence[Word], at: int) -> bool:
    """Whether the "one" of "the one 25" begins a number, and isn't a thing ("just the one, 25 ...")."""
    return words[at - 1].low == "the" and words[at - 2].low not in ("just", "one", "two")


def beside_bare(words: Sequence[Word], a: Expression, b: Expression) -> bool:
    """Whether two plain numbers stand side by side, the first one word below a hundred without a unit."""
    plain = a.form == b.form == "number" and not a.unit and a.last - a.first == 1 and 1 <= a.value < 100
    return plain and b.first == a.last and words[b.first].gap <= Gap.BREAK


def is_sized(low: str) -> bool:
    """Whether a figure before a word is a size, so that the one before it counts ("2 45 square", "3 45 posts")."""
    return low in ("square", "by", "x") or (low.endswith("s") and low not in SMALL_S)


def is_two_digits(word: Word) -> bool:
    """Whether a word is a figure of two digits."""
    return len(word.text) == 2 and word.text.isdecimal()


SMALL_S = ("is", "as", "across", "this", "that's", "it's", "plus", "less")


def quantity(words: Sequence[Word], at: int) -> Expression | None:
    """A number with its fraction and unit, in any order they are said in."""
    if is_minus(words, at):
        inner = unsigned(words, at + 1) if near(words, at + 1, Gap.SPACE) else None
        return replace(inner, first=at, values=tuple(-v for v in inner.values)) if inner else None
    sign = MONEY_SIGNS.get(words[at].text)
    if sign:
        inner = unsigned(words, at + 1) if near(words, at + 1) else None
        return replace(inner, first=at, unit=sign) if inner else None
    return unsigned(words, at)


def is_minus(words: Sequence[Word], at: int) -> bool:
    """Whether a word is a sign of a negative number and no subtraction ("20 minus 2")."""
    if words[at].low in ("minus", "negative"):
        return at == 0 or not words[at - 1].text[-1:].isdecimal()
    return words[at].text in ("-", "−")


def unsigned(words: Sequence[Word], at: int) -> Expression | None:
    """A number without sign, with its fraction and unit."""
    if words[at].low == "point" and starts_decimal(words, at):
        below_one = point(words, Fraction(0), at)
        return replace(finish(words, at, *below_one), decimal=True) if below_one else None
    whole, part = cardinal(words, at) or unit_as_one(words, at), fraction(words, at)
    if part and (whole is None or part[1] > whole[1]):
        return finish(words, at, *part)
    return after_whole(words, at, *whole) if whole else None


def after_whole(words: Sequence[Word], first: int, value: Fraction, stop: int) -> Expression:
    """A whole number with what follows it: decimals, a fraction, a unit with its parts."""
    decimal = point(words, value, stop)
    if decimal:
        return replace(finish(words, first, *decimal), decimal=True)
    mixed = add_fraction(words, stop, value)
    if mixed:
        return with_eighths(words, finish(words, first, *mixed))
    found = inside_unit(words, first, value, stop)
    return found or replace(finish(words, first, value, stop), decimal="." in words[first].text)


def starts_decimal(words: Sequence[Word], at: int) -> bool:
    """Whether "point" opens a decimal below one ("point two five") and isn't a place ("at a point five inches in")."""
    before = words[at - 1].low if at and words[at].gap <= Gap.BREAK else ""
    return before not in ("a", "the", "this", "that", "each", "one", "first", "screw", "bit", "drill", "sharp")


def past_plus(words: Sequence[Word], at: int) -> int:
    """Past the "plus" of "300 plus feet", and the "of a" of "two and a half of an inch"."""
    plus = near(words, at + 1) and words[at].low == "plus" and words[at + 1].low in UNITS
    return at + 1 if plus else at


def finish(words: Sequence[Word], first: int, value: Fraction, stop: int) -> Expression:
    """Takes the unit that follows and makes the expression."""
    at = skip_of(words, stop) if value < 1 else past_plus(words, stop)
    unit = unit_at(words, at, value)
    if unit is None:
        return Expression(first=first, last=max(past_s(words, stop), first + 1), values=(value,))
    if unit in SMALL_COINS:
        return Expression(first=first, last=at + 1, values=(value / 100,), unit=SMALL_COINS[unit])
    end = at + 1
    if unit in ("usd", "eur", "gbp"):
        value, end = with_cents(words, value, end)
    elif unit == "ft" and near(words, end) and words[end].low in ("er", "ers"):
        end += 1
    return Expression(first=first, last=end, values=(-value if unit == "f_below" else value,), unit=unit)


SMALL_COINS = {"cents": "usd", "pence": "gbp"}


def mark_pairs(words: Sequence[Word], found: list[Expression]) -> list[Expression]:
    """Numbers joined by "by" know their place; the unit of the last one holds for those before it."""
    out = list(found)
    for i in range(len(out) - 1):
        a, b = out[i], out[i + 1]
        if joined_by(words, a, b):
            out[i] = replace(a, pair=max(1, a.pair), unit=a.unit or unit_of_both(a, b))
            out[i + 1] = replace(b, pair=max(1, a.pair) + 1)
    return out


def joined_by(words: Sequence[Word], a: Expression, b: Expression) -> bool:
    """Whether "by" stands between two numbers."""
    beside = b.first == a.last + 1 and words[a.last].low in ("by", "x", "×") and words[b.first].gap <= Gap.BREAK
    return beside and a.form == b.form == "number"


def unit_of_both(a: Expression, b: Expression) -> str:
    """The length unit of the second number of a pair, for the first; centimetres in "one forty by two metres"."""
    shared = b.unit if b.unit in LENGTHS and a.pair <= 1 else ""
    return "cm" if shared == "m" and a.value >= 40 else shared
