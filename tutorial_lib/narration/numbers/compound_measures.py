"""Measures said in two units or with their unit inside: "an inch and a half", "six foot three", "metre forty"."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from tutorial_lib.narration.numbers.cardinals import Read, cardinal, near, whole_figure, word_before
from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.numbers.fractions_said import ARTICLES, fraction
from tutorial_lib.narration.numbers.lexicon import CARDINALS, UNITS
from tutorial_lib.narration.numbers.lumber_names import nominal
from tutorial_lib.narration.numbers.prices import ends_price
from tutorial_lib.narration.numbers.said_units import add_fraction, foot_of_bed, point, unit_at
from tutorial_lib.narration.numbers.words import Gap, Word

SINGULAR = frozenset(
    "inch foot metre meter mil mill millimetre hour kilo centimetre centimeter millimeter yard day night pound ton "
    "tonne".split()
)
WAITS = ("apart", "between", "after", "before", "in")


def unit_as_one(words: Sequence[Word], at: int) -> Read | None:
    """ "a foot", "an inch", "every metre", and "inch and a half" without the article."""
    low = words[at].low
    if low in ARTICLES:
        return article_unit(words, at) if near(words, at + 1) else None
    if low not in ("inch", "foot", "metre", "meter", "hour"):
        return None
    before = word_before(words, at)
    if before == "every" and low != "hour":
        return (Fraction(1), at) if every_unit(words, at) else None
    return (Fraction(1), at) if before not in CARDINALS and has_tail(words, at) else None


def every_unit(words: Sequence[Word], at: int) -> bool:
    """Whether "every foot" is a length, and "foot" no part of the bed."""
    return words[at].low != "foot" or not foot_has(words, at + 1)


def has_tail(words: Sequence[Word], at: int) -> bool:
    """Whether a unit goes on with a part of it ("inch and a half", "metre forty")."""
    tail = add_fraction(words, at + 1, Fraction(1))
    return bool(tail or (words[at].low in ("metre", "meter") and metre_tail(words, at + 1)))


def foot_has(words: Sequence[Word], at: int) -> bool:
    """Whether "every foot" is a part of the bed ("every foot gets four screws")."""
    return near(words, at) and words[at].low in ("gets", "has", "needs", "takes", "stands", "sits", "of", "is", "goes")


def article_unit(words: Sequence[Word], at: int) -> Read | None:
    """The article of "a foot", "an inch", "a day apart" as one."""
    named = words[at + 1].low
    if named in ("day", "night"):
        return (Fraction(1), at + 1) if near(words, at + 2) and words[at + 2].low in WAITS else None
    part = named == "foot" and foot_of_bed(words, at + 1)
    return (Fraction(1), at + 1) if named in SINGULAR and not part else None


def inside_unit(words: Sequence[Word], first: int, value: Fraction, at: int) -> Expression | None:
    """A unit inside the number: "an inch and a half", "12 inches and 3 quarters", "six foot three", "metre forty"."""
    unit = UNITS.get(words[first].low) if at == first else unit_at(words, at, value)
    if unit not in ("in", "ft", "yd", "m", "h", "kg", "lb", "mm", "cm") or (unit == "ft" and is_stock(words, at)):
        return None
    found = with_part(words, first, value, unit, at + 1)
    return found if found or value.denominator != 1 else with_smaller(words, first, value, unit, at + 1)


def with_smaller(words: Sequence[Word], first: int, value: Fraction, unit: str, after: int) -> Expression | None:
    """A measure that goes on in a smaller unit: inches after feet and yards, hundredths of a metre."""
    if unit == "h":
        tail = minutes(words, after)
    elif unit in INCHES:
        tail = yard_tail(words, after) if unit == "yd" else feet_tail(words, after, value)
        value, unit = value * INCHES[unit], "in"
    else:
        tail = metre_tail(words, after) if unit == "m" else None
    return Expression(first=first, last=tail[1], values=(value + tail[0],), unit=unit) if tail else None


def is_stock(words: Sequence[Word], at: int) -> bool:
    """Whether feet name a length of timber ("an 8-foot two by four", "10-footer"), with no inches after them."""
    tied = words[at].hyphen and not (near(words, at + 1) and words[at + 1].hyphen)
    return tied or words[at].low.startswith("footer")


INCHES = {"ft": 12, "yd": 36}


def with_part(words: Sequence[Word], first: int, value: Fraction, unit: str, after: int) -> Expression | None:
    """A fraction after the unit: of the unit itself, or of an inch after feet ("5 feet and three eighths")."""
    mixed = add_fraction(words, after, value) if value.denominator == 1 else None
    if mixed is None:
        return None
    part = mixed[0] - value
    if unit == "ft" and (part.denominator >= 8 or unit_at(words, mixed[1], mixed[0]) == "in"):
        return Expression(first=first, last=take_unit(words, mixed[1], "in"), values=(value * 12 + part,), unit="in")
    if starts_new_measure(words, mixed[1], unit):
        return None
    return Expression(first=first, last=take_unit(words, mixed[1], unit), values=(mixed[0],), unit=unit)


def with_eighths(words: Sequence[Word], found: Expression) -> Expression:
    """Adds parts of an inch said after feet and a half ("six and a half feet and three eighths")."""
    at = found.last
    if found.unit != "ft" or found.value.denominator == 1 or not near(words, at + 1) or words[at].low != "and":
        return found
    part = fraction(words, at + 1, after_whole=True)
    if part is None or part[0].denominator < 8 or part[0] >= 1:
        return found
    return Expression(
        first=found.first, last=take_unit(words, part[1], "in"), values=(found.value * 12 + part[0],), unit="in"
    )


def starts_new_measure(words: Sequence[Word], at: int, unit: str) -> bool:
    """After "80 inches and a half inch" a second unit shows that the fraction was a measure of its own."""
    return near(words, at) and UNITS.get(words[at].low) not in (None, unit)


def take_unit(words: Sequence[Word], at: int, unit: str) -> int:
    """Past a unit said again at the end."""
    return at + 1 if near(words, at) and UNITS.get(words[at].low) == unit else at


def yard_tail(words: Sequence[Word], at: int) -> Read | None:
    """The feet and inches after yards, in inches ("2 yards and 7 feet", "2 yards, 7 feet, 10 in")."""
    start = at + 1 if near(words, at) and words[at].low == "and" else at
    feet = cardinal(words, start) if near(words, start, Gap.COMMA) else None
    if feet is None or unit_at(words, feet[1], feet[0]) != "ft":
        return None
    inches = feet_tail(words, feet[1] + 1, feet[0])
    return (feet[0] * 12 + inches[0], inches[1]) if inches else (feet[0] * 12, feet[1] + 1)


def feet_tail(words: Sequence[Word], at: int, feet: Fraction) -> Read | None:
    """The inches after feet ("six foot three and a half", "7 feet, 10 inches"), unless they begin something else."""
    if not near(words, at, Gap.COMMA) or feet > 12 or feet.denominator != 1:
        return None
    start = at + 1 if words[at].low == "and" else at
    inches = inches_at(words, start) if near(words, start, Gap.BREAK if start > at else Gap.COMMA) else None
    if inches is None:
        return None
    unit = unit_at(words, inches[1], inches[0])
    return with_inches(words, at, inches) if unit == "in" else None if unit else bare_inches(words, at, start, inches)


def with_inches(words: Sequence[Word], at: int, inches: Read) -> Read | None:
    """Inches with their unit; "7 feet, 10-inch pieces" are two things."""
    apart = words[at].gap == Gap.COMMA and words[inches[1]].hyphen
    return None if apart else (inches[0], inches[1] + 1)


def bare_inches(words: Sequence[Word], at: int, start: int, inches: Read) -> Read | None:
    """Inches without their unit, right after the feet."""
    return inches if words[at].gap <= Gap.BREAK and ends_feet(words, inches[1], start > at) else None


def inches_at(words: Sequence[Word], at: int) -> Read | None:
    """A number below twelve with its fraction; no name of a timber, and none right after it."""
    if nominal(words, at, frozenset()):
        return None
    whole = cardinal(words, at) or (unit_as_one(words, at) if words[at].low in ARTICLES else None)
    if whole is None or nominal(words, whole[1], frozenset()):
        return None
    inches = add_fraction(words, whole[1], whole[0]) or whole
    return inches if inches[0] < 12 else None


def ends_feet(words: Sequence[Word], stop: int, joined: bool) -> bool:
    """Whether inches without their unit end before a word ("four foot six by ...") and count nothing."""
    if not near(words, stop):
        return True
    low = words[stop].low
    if joined:  # "a foot and 8"
        return low in ("which", "that", "so", "and", "from", "off")
    place = low in ("in", "under") and near(words, stop + 1) and words[stop + 1].low in ("the", "each")
    return not place and low not in ("of", "slats", "screws", "boards", "legs", "x")


def minutes(words: Sequence[Word], at: int) -> Read | None:
    """What follows an hour, in hours: "one hour fifty"."""
    rest = cardinal(words, at) if near(words, at) else None
    told = rest is not None and 5 <= rest[0] < 60 and not words[at].hyphen and ends_price(words, rest[1])
    return (rest[0] / 60, rest[1]) if told and rest is not None else None


def metre_tail(words: Sequence[Word], at: int) -> Read | None:
    """What follows a metre, in metres: "metre forty", "two metres ten", "two metre 016", "a metre and sixteen mil"."""
    if not near(words, at):
        return None
    joined = words[at].low == "and"
    rest = cardinal(words, at + joined)
    if rest is None or words[at + joined].low == "one":
        return None
    unit = unit_at(words, rest[1], rest[0])
    if unit:
        parts = {"mm": 1000, "cm": 100}.get(unit, 0)
        return (rest[0] / parts, rest[1] + 1) if rest[0] < parts else None
    return joined_tail(words, rest) if joined else hundredths(words, at, rest)


def joined_tail(words: Sequence[Word], rest: Read) -> Read | None:
    """The millimetres of "two metres and twenty"."""
    value, stop = rest
    return (value / 1000, stop) if 5 <= value < 1000 and not near(words, stop) else None


def hundredths(words: Sequence[Word], at: int, rest: Read) -> Read | None:
    """The centimetres of "metre forty"; three figures are millimetres ("two metre 016")."""
    if len(words[at].text) == 3 and whole_figure(words[at].text, 3) is not None:
        return rest[0] / 1000, rest[1]
    value, stop = point(words, *rest) or rest
    if value >= 100 or counts_things(words, stop) or (value < 5 and not ends_metres(words, stop)):
        return None
    return value / 100, stop


def counts_things(words: Sequence[Word], at: int) -> bool:
    """Whether a plural or "of" follows, so that the number before it is a count."""
    if not near(words, at):
        return False
    low = words[at].low
    return low == "of" or (low.endswith("s") and low not in ("across", "as", "is", "plus", "this", "that's"))


def ends_metres(words: Sequence[Word], at: int) -> bool:
    """Whether a height like "two metres four" ends here: nothing follows that the last number could count."""
    return not near(words, at) or words[at].low in ("and", "or", "so", "tall", "long", "high", "wide", "by")
