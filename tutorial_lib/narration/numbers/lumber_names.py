"""Sizes that timber is sold under: "2x4", "two by sixes", "one-forty by forty-five", "five-quarter"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from tutorial_lib.narration.numbers.cardinals import Read, cardinal, near
from tutorial_lib.narration.numbers.expression import Expression, Nominals
from tutorial_lib.narration.numbers.lexicon import (
    LENGTHS,
    LUMBER_THICK,
    LUMBER_WIDE,
    PLURAL_CARDINALS,
    UNITS,
)
from tutorial_lib.narration.numbers.said_units import add_fraction, unit_at
from tutorial_lib.narration.numbers.words import Gap, Word

BY = ("by", "x", "×")


def nominal(words: Sequence[Word], at: int, nominals: Nominals, metric: bool = False) -> Expression | None:
    """A size timber is sold under, or one the plan names its timber by.

    Args:
        words: the transcript.
        at: where to look.
        nominals: sizes the plan names its timber by ("140x45"), beside the common lumber names.
        metric: the plan is in millimetres: sizes in centimetres or old inches are names too.
    """
    if at >= len(words):
        return None
    return (
        written_size(words, at, nominals)
        or (square_stock(words, at, nominals) if metric else None)
        or rough_size(words, at)
        or said_size(words, at, nominals, metric)
    )


def written_size(words: Sequence[Word], at: int, nominals: Nominals) -> Expression | None:
    """ "2x4", "2x4s", "3/8x6"."""
    text = words[at].low.replace("×", "x").replace(" ", "")
    if "x" not in text or not text[0].isdecimal() or len(text) > 24:
        return None
    values = tuple(Fraction(part) for part in text.split("x") if not part.endswith("/0"))
    values = in_plans_order(values, nominals)
    known = values[:2] in nominals or (values[0] in LUMBER_THICK and values[1] in LUMBER_WIDE)
    return Expression(first=at, last=past_s(words, at + 1), values=values, form="nominal" if known else "pair")


def said_size(words: Sequence[Word], at: int, nominals: Nominals, metric: bool) -> Expression | None:
    """ "two by four", "to by sixes" (misheard), "hundred by fifty"."""
    sides = two_sides(words, at)
    if sides is None:
        return None
    first, second = sides
    old = old_name(words, first[0], second, nominals) if metric else None
    if old is not None:
        return replace(old, first=at)
    screw = first[0] <= 12 and second[0] >= 25  # "five by eighties": gauge and length
    if screw or not is_name(words, first[0], second, nominals):
        return None
    values = in_plans_order((first[0], second[0]), nominals)
    return Expression(first=at, last=past_s(words, second[1]), values=values, form="nominal")


def in_plans_order(sides: tuple[Fraction, ...], nominals: Nominals) -> tuple[Fraction, ...]:
    """A size said the other way round as the plan has it ("95 by 45" of 45x95)."""
    turned = (sides[1], sides[0], *sides[2:]) if len(sides) > 1 else sides
    return turned if turned[:2] in nominals and sides[:2] not in nominals else sides


def two_sides(words: Sequence[Word], at: int) -> tuple[Read, Read] | None:
    """The two numbers of "A by B"."""
    first = misheard_two(words, at) or cardinal(words, at) or hundred_by(words, at)
    second = (side_after(words, first[1]) or misheard_four(words, *first)) if first else None
    return (first, second) if first and second else None


def side_after(words: Sequence[Word], at: int) -> Read | None:
    """The other side of a size, after the "by" that stands here."""
    joined = near(words, at + 1) and words[at].low in BY and words[at].gap <= Gap.BREAK
    return cardinal(words, at + 1) if joined else None


def misheard_four(words: Sequence[Word], first: Fraction, at: int) -> Read | None:
    """The "for" of "two by for"; nobody says "two by" of anything else."""
    said = first in LUMBER_THICK and near(words, at + 1) and words[at].low == "by" and words[at + 1].low in FOR
    return (Fraction(4), at + 2) if said else None


FOR = ("for", "fore", "fors", "force")


def past_s(words: Sequence[Word], at: int) -> int:
    """Past a plural ending glued to what stands before it."""
    return at + (near(words, at) and words[at].gap == Gap.NONE and words[at].low == "s")


def misheard_two(words: Sequence[Word], at: int) -> Read | None:
    """The "to" of "to by sixes"; nobody says "to by" of anything but timber."""
    if words[at].low not in ("to", "too") or not near(words, at + 2) or words[at + 1].low != "by":
        return None
    wide = cardinal(words, at + 2) or misheard_four(words, Fraction(2), at + 1)
    return (Fraction(2), at + 1) if wide and wide[0] in LUMBER_WIDE else None


def hundred_by(words: Sequence[Word], at: int) -> Read | None:
    """ "hundred by fifty", without the article."""
    joined = words[at].low == "hundred" and near(words, at + 1) and words[at + 1].low in BY
    return (Fraction(100), at + 1) if joined else None


def square_stock(words: Sequence[Word], at: int, nominals: Nominals) -> Expression | None:
    """The name of square timber ("a length of 70 square"), which isn't a measure ("it's 70 square")."""
    side = cardinal(words, at)
    if side is None or (side[0], side[0]) not in nominals:
        return None
    named = at > 0 and words[at].gap <= Gap.BREAK and words[at - 1].low in ("of", "the", "length", "lengths", "that")
    square = near(words, side[1]) and words[side[1]].low == "square"
    return (
        Expression(first=at, last=side[1] + 1, values=(side[0], side[0]), form="nominal") if named and square else None
    )


def rough_size(words: Sequence[Word], at: int) -> Expression | None:
    """A rough thickness in quarters of an inch ("five-quarter", "8/4"), alone or by a width."""
    rough = quarters(words, at)
    if rough is None:
        return None
    wide = side_after(words, rough[1])
    if wide is None:
        return Expression(first=at, last=rough[1], values=(rough[0],), form="nominal")
    return Expression(first=at, last=wide[1], values=(rough[0], wide[0]), form="nominal")


def quarters(words: Sequence[Word], at: int) -> Read | None:
    """Quarters of an inch as rough boards are sold: "five-quarter", "eight quarter", "8/4", "5/4" before "by"."""
    top, bar, below = words[at].text.partition("/")
    if bar and below == "4" and top in ("4", "5", "6", "8", "10", "12"):
        return None if is_fraction_of(words, at) else (Fraction(int(top), 4), at + 1)
    whole = cardinal(words, at)
    if whole and whole[0] in (4, 5, 6, 8) and near(words, whole[1]) and words[whole[1]].low == "quarter":
        return whole[0] / 4, whole[1] + 1
    return None


def is_fraction_of(words: Sequence[Word], at: int) -> bool:
    """Whether a unit follows a written fraction, or a whole number stands before it."""
    measured = near(words, at + 1) and UNITS.get(words[at + 1].low) in LENGTHS
    return measured or (at > 0 and near(words, at) and words[at - 1].text[-1:].isdecimal())


def old_name(
    words: Sequence[Word], first: Fraction, second: tuple[Fraction, int], nominals: Nominals
) -> Expression | None:
    """A metric timber called by its old inches ("six by one and a half") or in centimetres ("18 by 2.7")."""
    value, stop = add_fraction(words, second[1], second[0]) or second
    if unit_at(words, stop, value) in LENGTHS:
        return None
    if (first * 10, value * 10) in nominals or (value * 10, first * 10) in nominals:
        return Expression(first=0, last=stop, values=(first * 10, value * 10), form="nominal")
    inches = first in LUMBER_WIDE | LUMBER_THICK and value <= 12 and (value * 2).denominator == 1
    return Expression(first=0, last=stop, values=(first, value), form="nominal") if inches else None


def is_name(words: Sequence[Word], first: Fraction, second: tuple[Fraction, int], nominals: Nominals) -> bool:
    """Whether "A by B" names a timber size: a plural, a common lumber size, or one of the plan's; no fraction after."""
    value, stop = second
    last = words[stop - 1].low
    if add_fraction(words, stop, value) or unit_at(words, stop, value) in LENGTHS:
        return False
    if last in PLURAL_CARDINALS or past_s(words, stop) > stop:
        return True
    return in_plans_order((first, value), nominals) in nominals or (first in LUMBER_THICK and value in LUMBER_WIDE)
