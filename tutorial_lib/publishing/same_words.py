"""A right value in the manner the wrong one was said: in words or figures, with or without its unit."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from tutorial_lib.measures import say_length, say_number, write_inches
from tutorial_lib.narration.numbers.lexicon import LENGTHS, MONEY, plural
from tutorial_lib.narration.verdicts.items import Item
from tutorial_lib.narration.verdicts.writing import timber, written


def in_the_same_words(item: Item, units: str) -> str:
    """The right value of a slip as its captions are worded."""
    spelled = not re.search(r"\d", item.quote)
    if item.unit in LENGTHS:
        return length(item, units, spelled)
    text = named(item, spelled) if item.unit in ("nominal", "gauge") else number(item, spelled)
    return text[0].upper() + text[1:] if item.quote[:1].isupper() else text


def number(item: Item, spelled: bool) -> str:
    """A count, a time or a price, with the unit where the wrong one had one."""
    value = item.plan_value[0]
    if item.unit in MONEY:
        return written(value, item.unit, "in")
    text = say_number(int(value)) if spelled and value.denominator == 1 else f"{float(value):g}"
    tail = re.search(r"\b(hours?|minutes?|days?|weeks?|months?|grit)$", item.quote)
    return f"{text} {tail[1]}" if tail else text


def named(item: Item, spelled: bool) -> str:
    """A timber's name or a gauge: "two by sixes" for "two by fours", "#8" for "#12"."""
    several = bool(re.search(r"[a-z0-9]s$", item.quote)) and item.quote.lower() != "six"
    if item.unit == "gauge":
        number = saying(item.plan_value[0], several) if spelled else f"{item.plan_value[0]}{'s' * several}"
        before = re.match(r"(?:number |no\.? ?|#)?", item.quote, re.IGNORECASE)
        return (before.group() if before else "") + number
    if not spelled:
        return timber(item.plan_value) + "s" * several
    return by(item.plan_value, several, "-" if "-" in item.quote else " ")


def by(sides: Sequence[Fraction], several: bool, between: str) -> str:
    """A timber's name in words: "two by four", "one-by-sixes"."""
    *first, last = sides
    said = [*(saying(side, False) for side in first), saying(last, several)]
    return f"{between}by{between}".join(said)


def saying(value: Fraction, several: bool) -> str:
    """A whole number in words, or in its plural; others in figures."""
    if value.denominator > 1:
        return str(value)
    text = say_number(int(value))
    return plural(text) if several else text


def length(item: Item, units: str, spelled: bool) -> str:
    """A right length in words or figures, with the unit where the wrong one had one."""
    value = item.plan_value[0]
    figures = write_inches(value) if units == "in" else f"{float(value):g}"
    text = say_length(value * LENGTHS[units], units) if spelled else figures
    unit = re.search(r"(?:[ -])(inch|inches|mm|mil|millimetres|millimeters)$|(mm|\")$", item.quote)
    if unit:
        return text + (" " + unit[1] if unit[1] else unit[2])
    other = re.search(r"(feet|foot|cm|cent|metre|meter|'|\bm)\b", item.quote)
    return f"{text} {'inches' if units == 'in' else 'millimetres'}" if other else text
