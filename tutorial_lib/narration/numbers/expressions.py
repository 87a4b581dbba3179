"""Numeric expressions: every number said, with the words it covers, its value and its unit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from tutorial_lib.narration.numbers.cardinals import cardinal, near
from tutorial_lib.narration.numbers.expression import Expression, Nominals
from tutorial_lib.narration.numbers.fractions_said import ARTICLES, fraction, skip_of
from tutorial_lib.narration.numbers.lexicon import (
    CARDINALS,
    LENGTHS,
    LUMBER_THICK,
    LUMBER_WIDE,
    MONEY_SIGNS,
    PLURAL_CARDINALS,
    UNITS,
)
from tutorial_lib.narration.numbers.named_numbers import is_pronoun, lone, special
from tutorial_lib.narration.numbers.said_units import add_fraction, foot_of_bed, point, unit_at
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
        if is_pronoun(words, at):
            at += 1
            continue
        found = nominal(words, at, nominals, metric) or special(words, at) or quantity(words, at) or lone(words, at)
        if found is None:
            at += 1
            continue
        out.append(found)
        at = max(found.last, at + 1)
    return mark_pairs(words, joined_groups(words, out) if metric else out)


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
    """Whether two bare figures side by side are one number, and not a count and a size."""
    plain = a.form == b.form == "number" and not a.unit and b.first == a.last and words[b.first].gap <= Gap.BREAK
    if not plain or not (words[a.first].text.isdigit() and words[b.first].text.isdigit()):
        return False
    if a.last - a.first > 1 or len(words[a.first].text) > 2 or len(words[b.first].text) != 2 or a.value < 1:
        return False
    if b.last - b.first > 1 and not b.unit:  # "2 45s"
        return False
    noun = words[b.last] if near(words, b.last) else None
    return noun is None or a.value >= 10 or not (noun.low.endswith("s") and noun.low not in SMALL_S)


SMALL_S = ("is", "as", "across", "this", "that's", "it's", "plus", "less")


def quantity(words: Sequence[Word], at: int) -> Expression | None:
    """A number with its fraction and unit, in any order they are said in."""
    if words[at].text in "-−" or (words[at].low == "minus" and (at == 0 or not words[at - 1].text[-1:].isdigit())):
        inner = quantity(words, at + 1) if near(words, at + 1, Gap.SPACE) and words[at].low not in CARDINALS else None
        return replace(inner, first=at, values=tuple(-v for v in inner.values)) if inner else None
    sign = MONEY_SIGNS.get(words[at].text)
    if sign:
        inner = quantity(words, at + 1) if near(words, at + 1) else None
        return replace(inner, first=at, unit=sign) if inner else None
    if words[at].low == "point" and starts_decimal(words, at):
        below_one = point(words, Fraction(0), at)
        return replace(finish(words, at, *below_one), decimal=True) if below_one else None
    whole = cardinal(words, at) or unit_as_one(words, at)
    if whole is None:
        part = fraction(words, at)
        return finish(words, at, part[0], part[1]) if part else None
    part = fraction(words, at)
    if part and part[1] > whole[1]:
        return finish(words, at, part[0], part[1])
    value, stop = whole
    decimal = point(words, value, stop)
    if decimal:
        return replace(finish(words, at, *decimal), decimal=True)
    mixed = add_fraction(words, stop, value)
    if mixed:
        return finish(words, at, *mixed)
    return inside_unit(words, at, value, stop) or replace(finish(words, at, value, stop), decimal="." in words[at].text)


def starts_decimal(words: Sequence[Word], at: int) -> bool:
    """Whether "point" opens a decimal below one ("point two five") and isn't a place ("at a point five inches in")."""
    before = words[at - 1].low if at and words[at].gap <= Gap.BREAK else ""
    return before not in ("a", "the", "this", "that", "each", "one", "first", "screw", "bit", "drill", "sharp")


def unit_as_one(words: Sequence[Word], at: int) -> tuple[Fraction, int] | None:
    """ "a foot", "an inch", "a mil", "a metre", and "inch and a half" without the article."""
    low = words[at].low
    if low in ARTICLES and near(words, at + 1):
        unit = UNITS.get(words[at + 1].low)
        singular = words[at + 1].low in (
            "inch",
            "foot",
            "metre",
            "meter",
            "mil",
            "mill",
            "millimetre",
            "hour",
            "kilo",
            "centimetre",
            "centimeter",
            "millimeter",
            "yard",
            "day",
            "night",
            "pound",
            "ton",
            "tonne",
        )
        if words[at + 1].low in ("day", "night"):
            return (Fraction(1), at + 1) if near(words, at + 2) and words[at + 2].low in WAITS else None
        if unit and singular and not (unit == "ft" and foot_of_bed(words, at + 1)):
            return Fraction(1), at + 1
    alone = low in ("inch", "foot", "metre", "meter", "hour") and (
        at == 0 or words[at].gap >= Gap.COMMA or words[at - 1].low not in CARDINALS
    )
    tailed = alone and (
        add_fraction(words, at + 1, Fraction(1)) or (low in ("metre", "meter") and metre_tail(words, at + 1))
    )
    return (Fraction(1), at) if tailed else None


WAITS = ("apart", "between", "after", "before", "in")


def inside_unit(words: Sequence[Word], first: int, value: Fraction, at: int) -> Expression | None:
    """A unit inside the number: "an inch and a half", "12 inches and 3 quarters", "six foot three", "metre forty"."""
    unit = UNITS.get(words[first].low) if at == first else unit_at(words, at, value)
    if unit not in ("in", "ft", "m", "h", "kg", "lb", "mm", "cm"):
        return None
    after = at + 1
    mixed = add_fraction(words, after, value) if value.denominator == 1 else None
    if mixed and unit == "ft" and unit_at(words, mixed[1], mixed[0]) == "in":  # "six foot and a half inch"
        return Expression(first, mixed[1] + 1, (value * 12 + mixed[0] - value,), "in")
    if mixed and not starts_new_measure(words, mixed[1], unit):
        return Expression(first, take_unit(words, mixed[1], unit), (mixed[0],), unit)
    if unit == "ft":
        inches = feet_tail(words, after, value)
        return Expression(first, inches[1], (value * 12 + inches[0],), "in") if inches else None
    if unit == "m":
        tail = metre_tail(words, after)
        return Expression(first, tail[1], (value + tail[0],), "m") if tail else None
    return None


def starts_new_measure(words: Sequence[Word], at: int, unit: str) -> bool:
    """After "80 inches and a half inch" a second unit shows that the fraction was a measure of its own."""
    return near(words, at) and UNITS.get(words[at].low) not in (None, unit)


def take_unit(words: Sequence[Word], at: int, unit: str) -> int:
    """Past a unit said again at the end."""
    return at + 1 if near(words, at) and UNITS.get(words[at].low) == unit else at


def feet_tail(words: Sequence[Word], at: int, feet: Fraction) -> tuple[Fraction, int] | None:
    """The inches after feet ("six foot three and a half", 6' 3-1/2\"), unless they begin something else."""
    if not near(words, at, Gap.BREAK) or feet > 12:
        return None
    start = at + 1 if words[at].low == "and" else at
    if not near(words, start) or nominal(words, start, frozenset()):
        return None
    whole = cardinal(words, start)
    if whole is None or nominal(words, whole[1], frozenset()):
        return None
    value, stop = add_fraction(words, whole[1], whole[0]) or whole
    unit = unit_at(words, stop, value)
    if unit == "in":
        return (value, stop + 1) if value < 12 else None
    bare = (
        start == at
        and value < 12
        and unit is None
        and (stop >= len(words) or words[stop].low not in ("by", "of", "slats", "screws", "boards", "legs", "x"))
    )
    return (value, stop) if bare else None


def metre_tail(words: Sequence[Word], at: int) -> tuple[Fraction, int] | None:
    """What follows a metre, in metres: "metre forty", "two metres ten", "two metres and sixteen mil"."""
    if not near(words, at):
        return None
    joined = words[at].low == "and"
    rest = cardinal(words, at + joined)
    if rest is None or words[at + joined].low == "one":
        return None
    value, stop = rest
    unit = unit_at(words, stop, value)
    if unit in ("mm", "cm") and value < (1000 if unit == "mm" else 100):
        return value / (1000 if unit == "mm" else 100), stop + 1
    if unit or value < 5:
        return None
    if joined:  # "two metres and twenty": the rest is in millimetres
        return (value / 1000, stop) if value < 1000 and not near(words, stop) else None
    counts = near(words, stop) and words[stop].low.endswith("s") and words[stop].low not in ("across", "as", "is")
    return (value / 100, stop) if value < 100 and not counts else None


def finish(words: Sequence[Word], first: int, value: Fraction, stop: int) -> Expression:
    """Takes the unit that follows and makes the expression."""
    at = skip_of(words, stop)
    unit = unit_at(words, at, value)
    if unit is None:
        glued_s = near(words, stop) and words[stop].gap == Gap.NONE and words[stop].low == "s"
        return Expression(first, max(stop + glued_s, first + 1), (value,))
    if unit in ("cents", "pence"):
        return Expression(first, at + 1, (value / 100,), "usd" if unit == "cents" else "gbp")
    end = at + 1
    if unit in ("usd", "eur", "gbp"):
        value, end = with_cents(words, value, end)
    if unit == "ft" and near(words, end) and words[end].low in ("er", "ers"):
        end += 1
    return Expression(first, end, (-value if unit == "f_below" else value,), unit)


def with_cents(words: Sequence[Word], value: Fraction, at: int) -> tuple[Fraction, int]:
    """The small coins after the large: "four dollars and fifty cents", "three pounds fifty"."""
    start = at + 1 if near(words, at) and words[at].low == "and" else at
    rest = cardinal(words, start) if near(words, start, Gap.COMMA) else None
    if rest is None or not 1 <= rest[0] < 100:
        return value, at
    named = near(words, rest[1]) and UNITS.get(words[rest[1]].low) in ("cents", "pence")
    if named:
        return value + rest[0] / 100, rest[1] + 1
    bare = start == at and rest[0] >= 10 and not near(words, rest[1], Gap.BREAK) and near(words, at)
    return (value + rest[0] / 100, rest[1]) if bare else (value, at)


def nominal(words: Sequence[Word], at: int, nominals: Nominals, metric: bool = False) -> Expression | None:
    """A size timber is sold under: "2x4", "two by sixes", "one-forty by forty-five"."""
    if at >= len(words):
        return None
    text = words[at].low.replace("×", "x").replace(" ", "")
    if "x" in text and text[0].isdigit():
        values = tuple(Fraction(part) for part in text.split("x") if "/" not in part or not part.endswith("/0"))
        stop = at + 1 + (near(words, at + 1) and words[at + 1].gap == Gap.NONE and words[at + 1].low == "s")
        known = values[:2] in nominals or (values[0] in LUMBER_THICK and values[1] in LUMBER_WIDE)
        return Expression(at, stop, values, form="nominal" if known else "pair")
    rough = quarters(words, at)
    first = rough or cardinal(words, at) or hundred_by(words, at)
    if first and not rough and metric and (first[0], first[0]) in nominals and square_stock(words, at, first[1]):
        return Expression(at, first[1] + 1, (first[0], first[0]), form="nominal")
    if first is None or not near(words, first[1]) or words[first[1]].low not in ("by", "x", "×"):
        return Expression(at, rough[1], (rough[0],), form="nominal") if rough else None
    second = cardinal(words, first[1] + 1) if near(words, first[1] + 1) else None
    if rough and second is not None:
        return Expression(at, second[1], (rough[0], second[0]), form="nominal")
    if second is not None and metric:
        old = old_name(words, first[0], second, nominals)
        if old is not None:
            return replace(old, first=at)
    if second is None or not is_name(words, first[0], second, nominals):
        return None
    if first[0] <= 12 and second[0] >= 25:  # "five by eighties": gauge and length of a screw
        return None
    stop = second[1]
    if near(words, stop) and words[stop].gap == Gap.NONE and words[stop].low == "s":
        stop += 1
    return Expression(at, stop, (first[0], second[0]), form="nominal")


def hundred_by(words: Sequence[Word], at: int) -> tuple[Fraction, int] | None:
    """ "hundred by fifty", without the article."""
    joined = words[at].low == "hundred" and near(words, at + 1) and words[at + 1].low in ("by", "x")
    return (Fraction(100), at + 1) if joined else None


def square_stock(words: Sequence[Word], at: int, stop: int) -> bool:
    """Whether a size is the name of square timber ("a length of 70 square") and not a measure ("it's 70 square")."""
    said = near(words, stop) and words[stop].low == "square"
    return (
        said
        and at > 0
        and words[at].gap <= Gap.BREAK
        and words[at - 1].low in ("of", "the", "length", "lengths", "that")
    )


def quarters(words: Sequence[Word], at: int) -> tuple[Fraction, int] | None:
    """A rough thickness named in quarters of an inch ("five-quarter", "eight quarter", "5/4" before "by")."""
    whole = cardinal(words, at)
    if whole and whole[0] in (4, 5, 6, 8) and near(words, whole[1]) and words[whole[1]].low == "quarter":
        return whole[0] / 4, whole[1] + 1
    named = words[at].text == "5/4" and near(words, at + 1) and words[at + 1].low in ("by", "x", "×")
    return (Fraction(5, 4), at + 1) if named else None


def old_name(
    words: Sequence[Word], first: Fraction, second: tuple[Fraction, int], nominals: Nominals
) -> Expression | None:
    """A metric timber called by its old inches ("six by one and a half") or in centimetres ("18 by 2.7")."""
    value, stop = add_fraction(words, second[1], second[0]) or second
    if unit_at(words, stop, value) in LENGTHS:
        return None
    if (first * 10, value * 10) in nominals or (value * 10, first * 10) in nominals:
        return Expression(0, stop, (first * 10, value * 10), form="nominal")
    inches = first in LUMBER_WIDE | LUMBER_THICK and value <= 12 and (value * 2).denominator == 1
    return Expression(0, stop, (first, value), form="nominal") if inches else None


def is_name(words: Sequence[Word], first: Fraction, second: tuple[Fraction, int], nominals: Nominals) -> bool:
    """Whether "A by B" names a timber size: a plural, a common lumber size, or one of the plan's; no fraction after."""
    value, stop = second
    last = words[stop - 1].low
    if add_fraction(words, stop, value) or unit_at(words, stop, value) in LENGTHS:
        return False
    if last in PLURAL_CARDINALS or (near(words, stop) and words[stop].gap == Gap.NONE and words[stop].low == "s"):
        return True
    return (first, value) in nominals or (first in LUMBER_THICK and value in LUMBER_WIDE)


def mark_pairs(words: Sequence[Word], found: list[Expression]) -> list[Expression]:
    """Numbers joined by "by" know their place; the unit of the last one holds for those before it."""
    out = list(found)
    for i in range(len(out) - 1):
        a, b = out[i], out[i + 1]
        joined = b.first == a.last + 1 and words[a.last].low in ("by", "x", "×") and words[b.first].gap <= Gap.BREAK
        if joined and a.form == b.form == "number":
            place = max(1, a.pair)
            out[i] = replace(a, pair=place, unit=a.unit or (b.unit if b.unit in LENGTHS and place == 1 else ""))
            out[i + 1] = replace(b, pair=place + 1)
    return out
