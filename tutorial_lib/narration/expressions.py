"""Numeric expressions: every number said, with the words it covers, its value and its unit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from tutorial_lib.narration.cardinals import cardinal, figure, near
from tutorial_lib.narration.fractions_said import ARTICLES, fraction, skip_of
from tutorial_lib.narration.lexicon import (
    CARDINALS,
    DOZENS,
    LENGTHS,
    LUMBER_THICK,
    LUMBER_WIDE,
    MONEY_SIGNS,
    ORDINALS,
    PLURAL_CARDINALS,
    UNITS,
)
from tutorial_lib.narration.words import Gap, Word

Nominals = frozenset[tuple[Fraction, ...]]


@dataclass(frozen=True)
class Expression:
    """One number as said: words[first:last]."""

    first: int
    last: int
    values: tuple[Fraction, ...]
    unit: str = ""  # as said; "" when none
    form: str = "number"  # number, ordinal, nominal, gauge, ratio, clock, label, dozen, one
    pair: int = 0  # 1, 2, 3: place in "A by B (by C)"
    decimal: bool = False  # said with a point

    @property
    def value(self) -> Fraction:
        """Its first (mostly only) value."""
        return self.values[0]


def expressions(words: Sequence[Word], nominals: Nominals = frozenset()) -> list[Expression]:
    """All numeric expressions of a talk, in order.

    Args:
        words: the transcript.
        nominals: sizes the plan names its timber by ("140x45"), beside the common lumber names.
    """
    out: list[Expression] = []
    at = 0
    while at < len(words):
        if is_pronoun(words, at):
            at += 1
            continue
        found = nominal(words, at, nominals) or special(words, at) or quantity(words, at) or lone(words, at)
        if found is None:
            at += 1
            continue
        out.append(found)
        at = max(found.last, at + 1)
    return mark_pairs(words, out)


def quantity(words: Sequence[Word], at: int) -> Expression | None:
    """A number with its fraction and unit, in any order they are said in."""
    if words[at].text in "-−":
        inner = quantity(words, at + 1) if near(words, at + 1, Gap.NONE) else None
        return replace(inner, first=at, values=tuple(-v for v in inner.values)) if inner else None
    sign = MONEY_SIGNS.get(words[at].text)
    if sign:
        inner = quantity(words, at + 1) if near(words, at + 1) else None
        return replace(inner, first=at, unit=sign) if inner else None
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
            "pound",
            "ton",
            "tonne",
        )
        if unit and singular and not (unit == "ft" and foot_of_bed(words, at + 1)):
            return Fraction(1), at + 1
    if low in ("inch", "foot", "metre", "meter", "hour") and (at == 0 or words[at - 1].low not in CARDINALS):
        if add_fraction(words, at + 1, Fraction(1)) or (low in ("metre", "meter") and metre_tail(words, at + 1)):
            return Fraction(1), at
    return None


def foot_of_bed(words: Sequence[Word], at: int) -> bool:
    """Whether "foot" names an end of the bed ("a foot rail", "the foot end")."""
    return (
        near(words, at + 1)
        and words[at + 1].low in ("rail", "rails", "end", "ends", "board", "of", "post")
        and not (
            words[at + 1].low == "of" and near(words, at + 2) and words[at + 2].low not in ("the", "my", "your", "this")
        )
    )


def point(words: Sequence[Word], value: Fraction, at: int) -> tuple[Fraction, int] | None:
    """Decimals in words: "two point four", "two point oh eight"."""
    if not (near(words, at) and words[at].low == "point"):
        return None
    digits, stop = "", at + 1
    while near(words, stop) and len(digits) < 6:
        low = words[stop].low
        number = 0 if low in ("oh", "o") else CARDINALS.get(low, -1)
        if words[stop].text.isdigit():
            number = int(words[stop].text)
        if number < 0 or (number > 9 and digits):
            break
        digits += str(number)
        stop += 1
    return (value + Fraction(int(digits), 10 ** len(digits)), stop) if digits else None


def add_fraction(words: Sequence[Word], at: int, whole: Fraction) -> tuple[Fraction, int] | None:
    """A fraction that belongs to the whole number before it, with or without "and"."""
    if not near(words, at) or whole.denominator != 1:
        return None
    linked = words[at].low in ("and", "&", "n")
    start = at + 1 if linked else at
    if not near(words, start):
        return None
    part = fraction(words, start, after_whole=linked)
    if part is None or part[0] >= 1:
        return None
    if not linked and words[start].low in (*ARTICLES, "half", "quarter", "eighth"):
        return None
    if not linked and counts_fasteners(words, whole, start, part[1]):
        return None
    return whole + part[0], part[1]


def counts_fasteners(words: Sequence[Word], whole: Fraction, start: int, stop: int) -> bool:
    """ "two three-eighths bolts" is a count and a size."""
    tied = start + 1 < stop and words[start + 1].hyphen
    noun = words[stop].low if near(words, stop) else ""
    return tied and whole <= 12 and noun in ("bolts", "screws", "dowels", "lags", "holes", "bits")


def inside_unit(words: Sequence[Word], first: int, value: Fraction, at: int) -> Expression | None:
    """A unit inside the number: "an inch and a half", "12 inches and 3 quarters", "six foot three", "metre forty"."""
    unit = UNITS.get(words[first].low) if at == first else unit_at(words, at, value)
    if unit not in ("in", "ft", "m", "h", "kg", "lb", "mm", "cm"):
        return None
    after = at + 1
    mixed = add_fraction(words, after, value) if value.denominator == 1 else None
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
    """The centimetres after a metre: "metre forty", "two metres ten"."""
    if not near(words, at):
        return None
    joined = words[at].low == "and"
    rest = cardinal(words, at + joined)
    if joined:  # "two metres and twenty": the rest is in millimetres
        plain = rest is not None and 5 <= rest[0] < 1000 and unit_at(words, rest[1], rest[0]) in (None, "mm")
        return (rest[0] / 1000, rest[1]) if rest and plain and not near(words, rest[1]) else None
    if rest is None or not 5 <= rest[0] < 100 or unit_at(words, rest[1], rest[0]) or words[at].low == "one":
        return None
    if near(words, rest[1]) and words[rest[1]].low.endswith("s") and words[rest[1]].low not in ("across", "as", "is"):
        return None
    return rest[0] / 100, rest[1]


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
    rest = cardinal(words, start) if near(words, start) else None
    if rest is None or not 1 <= rest[0] < 100:
        return value, at
    named = near(words, rest[1]) and UNITS.get(words[rest[1]].low) in ("cents", "pence")
    if named:
        return value + rest[0] / 100, rest[1] + 1
    bare = start == at and rest[0] >= 10 and not near(words, rest[1], Gap.BREAK)
    return (value + rest[0] / 100, rest[1]) if bare else (value, at)


def unit_at(words: Sequence[Word], at: int, value: Fraction) -> str | None:
    """The unit a word is, given that a number stands before it."""
    if not near(words, at):
        return None
    word = words[at]
    low = word.low
    unit = UNITS.get(low)
    if unit == "ft" and low in ("foot", "feet") and value <= 2 and not word.hyphen and foot_of_bed(words, at):
        return None
    if low == "per" and near(words, at + 1) and words[at + 1].low == "cent":
        return "pct"
    if low in ("'", "’", "′", '"', "”", "″", "''"):
        return unit if word.gap == Gap.NONE else None
    if low == "m":
        return "m" if word.gap == Gap.NONE or words[at - 1].text[-1].isdigit() else None
    if low in ("in", "h", "k", "p", "min", "g"):
        return short_unit(words, at)
    if low == "below" and not (near(words, at + 1) and words[at + 1].low in ("out", "outside", "zero", "freezing")):
        return None
    if unit == "times" and cardinal(words, at + 1):
        return None
    if low == "second" or (unit == "times" and near(words, at + 1) and words[at + 1].low not in ("out", "a", "the")):
        return None if low == "second" else "times"
    return unit


def short_unit(words: Sequence[Word], at: int) -> str | None:
    """ "in" after a number is a preposition unless glued to it or at the end of a clause."""
    word = words[at]
    if word.low != "in":
        return {"h": "h", "k": "px", "p": "pence", "min": "min", "g": "g"}[word.low] if word.gap == Gap.NONE else None
    if not words[at - 1].text[-1:].isdigit() and words[at - 1].text not in "½¼¾⅛⅜⅝⅞⅓⅔":
        return None
    ends = at + 1 >= len(words) or words[at + 1].gap >= Gap.COMMA or words[at + 1].low in ("x", "by", "long", "wide")
    return "in" if word.gap == Gap.NONE or ends else None


def special(words: Sequence[Word], at: int) -> Expression | None:
    """Numbers that are names, orders or clock times, and dozens and pairs."""
    low, text = words[at].low, words[at].text
    if ":" in text and len(text) > 1:
        return Expression(at, at + 1, (Fraction(int(text.split(":")[0])),), form="clock")
    return label(words, at, low, text) or dozen(words, at, low) or ordinal(words, at, low)


def label(words: Sequence[Word], at: int, low: str, text: str) -> Expression | None:
    """ "number two", "No. 8", "#8", "M8", "T25": a name with a number in it."""
    if low in ("number", "no", "#", "nr") and near(words, at + 1) and low != "no":
        named = cardinal(words, at + 1)
        gauge = low == "#" or (named and near(words, named[1]) and words[named[1]].low in ("screw", "screws"))
        return Expression(at, named[1], (named[0],), form="gauge" if gauge else "label") if named else None
    glued = at + 1 < len(words) and words[at + 1].gap == Gap.NONE and not words[at + 1].hyphen
    if text in ("M", "m", "T", "TX", "PH", "PZ", "P", "FFP", "C") and glued:
        size = figure(words[at + 1].text)
        if size is not None:
            return Expression(at, at + 2, (size,), "mm" if text in "Mm" else "", "number" if text in "Mm" else "label")
    return None


def dozen(words: Sequence[Word], at: int, low: str) -> Expression | None:
    """ "a dozen", "two dozen", "half a dozen", "a pair", "a couple"."""
    if low in DOZENS:
        return Expression(at, at + 1, (Fraction(DOZENS[low]),), form="dozen") if low not in ("score",) else None
    if low == "half" and near(words, at + 2) and words[at + 1].low == "a" and words[at + 2].low == "dozen":
        return Expression(at, at + 3, (Fraction(6),), form="dozen")
    if low in ("a", "another") and near(words, at + 1) and words[at + 1].low in ("dozen", "pair", "couple"):
        return Expression(at if low == "a" else at + 1, at + 2, (Fraction(DOZENS[words[at + 1].low]),), form="dozen")
    several = cardinal(words, at)
    if several and near(words, several[1]) and words[several[1]].low in ("dozen", "pair", "pairs"):
        return Expression(at, several[1] + 1, (several[0] * DOZENS[words[several[1]].low],), form="dozen")
    return None


def ordinal(words: Sequence[Word], at: int, low: str) -> Expression | None:
    """ "first", "third", "fourteenth", "2nd"; not where it is the lower half of a fraction."""
    if low in ORDINALS:
        part = fraction(words, at)
        return None if part else Expression(at, at + 1, (Fraction(ORDINALS[low]),), form="ordinal")
    tens = cardinal(words, at)
    if (
        tens
        and near(words, tens[1])
        and words[tens[1]].gap == Gap.NONE
        and words[tens[1]].low in ("st", "nd", "rd", "th")
    ):
        return Expression(at, tens[1] + 1, (tens[0],), form="ordinal")
    if (
        tens
        and tens[0] in (20, 30)
        and near(words, tens[1])
        and words[tens[1]].low in ORDINALS
        and not fraction(words, at)
    ):
        number = ORDINALS[words[tens[1]].low]
        if number < 10:
            return Expression(at, tens[1] + 1, (tens[0] + number,), form="ordinal")
    return None


def lone(words: Sequence[Word], at: int) -> Expression | None:
    """Shares and times over without a measure: "half", "halfway", "twice", "a podcast and a half"."""
    low = words[at].low
    if low in ("half", "halfway", "halves", "quarter", "quarters"):
        clock = near(words, at + 1) and low == "half" and words[at + 1].low in CARDINALS
        if clock:
            return Expression(at, at + 2, (CARDINALS[words[at + 1].low] + Fraction(1, 2),), form="clock")
        return Expression(at, at + 1, (Fraction(1, 4 if "quarter" in low else 2),), form="ratio")
    if low in ("twice", "thrice"):
        return Expression(at, at + 1, (Fraction(2 if low == "twice" else 3),), form="times")
    if (
        low == "a"
        and at + 4 < len(words)
        and words[at + 1].low not in CARDINALS
        and [w.low for w in words[at + 2 : at + 5]] == ["and", "a", "half"]
    ):
        return Expression(at, at + 5, (Fraction(3, 2),), form="ratio")
    return None


def nominal(words: Sequence[Word], at: int, nominals: Nominals) -> Expression | None:
    """A size timber is sold under: "2x4", "two by sixes", "one-forty by forty-five"."""
    if at >= len(words):
        return None
    text = words[at].low.replace("×", "x").replace(" ", "")
    if "x" in text and text[0].isdigit():
        values = tuple(Fraction(part) for part in text.split("x") if "/" not in part or not part.endswith("/0"))
        stop = at + 1 + (near(words, at + 1) and words[at + 1].gap == Gap.NONE and words[at + 1].low == "s")
        known = values[:2] in nominals or (values[0] in LUMBER_THICK and values[1] in LUMBER_WIDE)
        return Expression(at, stop, values, form="nominal" if known else "pair")
    first = cardinal(words, at)
    if first is None or not near(words, first[1]) or words[first[1]].low not in ("by", "x", "×"):
        return None
    second = cardinal(words, first[1] + 1) if near(words, first[1] + 1) else None
    if second is None or not is_name(words, first[0], second, nominals):
        return None
    stop = second[1]
    if near(words, stop) and words[stop].gap == Gap.NONE and words[stop].low == "s":
        stop += 1
    return Expression(at, stop, (first[0], second[0]), form="nominal")


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


DETERMINERS = frozenset(
    "the this that these those each every which any another no first last next other same big small long short middle "
    "inside outside my your our like such some good bad right left single spare proper".split()
)
GOES_ON = frozenset("in at on under down halfway through of into per".split())


def is_pronoun(words: Sequence[Word], at: int) -> bool:
    """Whether "one" stands for a thing ("the short one", "I built one for a cousin") and isn't a number."""
    if words[at].low == "ones":
        return True
    if words[at].low != "one" or (at + 1 < len(words) and words[at + 1].hyphen) or fraction(words, at):
        return False
    if add_fraction(words, at + 1, Fraction(1)):
        return False
    before = words[at - 1].low if at and words[at].gap < Gap.SENTENCE else ""
    after = words[at + 1].low if near(words, at + 1) else ""
    if cardinal(words, at) != (Fraction(1), at + 1) or after in UNITS or after in ("dozen", "pair", "by"):
        return False
    if before == "and" and after in ("that's", "at", "more", "in", "goes", "is"):
        return False
    if before in DETERMINERS:
        return not after or after in PRONOUN_TAILS or words[at - 1].low in ("another", "each", "every", "like")
    return not after or (after in PRONOUN_TAILS and after not in GOES_ON)


PRONOUN_TAILS = frozenset(
    "is and that's was with without for to from goes sits gets on in at will would you i we he she they so because "
    "but that which or has had can then as if out like and's really here there again".split()
)
