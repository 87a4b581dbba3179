"""The unit a bare number is in: declared after it, the speaker's running unit, or a length given again in metric."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Collection, Sequence
from dataclasses import replace
from fractions import Fraction

from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.numbers.lexicon import LENGTHS, PLURAL_CARDINALS, UNITS
from tutorial_lib.narration.numbers.transcript import Transcript
from tutorial_lib.narration.numbers.words import Gap
from tutorial_lib.records import dataclass


@dataclass(frozen=True)
class Meant:
    """What a bare number may be measured in."""

    unit: str = ""  # declared beside it, or how the speaker leaves units out
    also: tuple[str, ...] = ()  # other units it may be in
    running: str = ""  # the unit the speaker used last, or leaves out


AS_SAID = Meant()

DECLARED = re.compile(
    r"\b(?:that's|that is|those are|in|all|everything in|work in|these are|it's all|both) (?:all )?"
    r"(centimet(?:re|er)s?|millimet(?:re|er)s?|inches|feet|met(?:re|er)s|mil|mm|cm)\b"
)
SURE = 4  # numbers that are facts of the plan in one unit only, before that unit counts as left out by habit


def units_meant(
    transcript: Transcript, found: Sequence[Expression], units: str, lengths: Collection[Fraction] = ()
) -> list[Meant]:
    """For every number of a talk, the units it may be in; nothing for one said with its unit.

    Args:
        transcript: the words.
        found: all numbers of the talk.
        units: the plan's unit, "in" or "mm".
        lengths: the plan's lengths [in], which show in which unit a speaker leaves it out.
    """
    known = {round(v / LENGTHS["mm"]) for v in lengths}
    left_out = habit(found, known, units)
    mixed = left_out != "mm" and [o.unit for o in found].count("cm") > 1
    out: list[Meant] = []
    running = ""
    for at, item in enumerate(found):
        if item.unit:
            out.append(AS_SAID)
            running = item.unit if item.unit in LENGTHS else running
            continue
        unit = of_bare(transcript, found, at, units, left_out)
        usual = left_out if unit == left_out or item.value * 10 in known else ""
        also = tuple(others(transcript, found, at, units, mixed))
        out.append(Meant(unit, also, usual if left_out else running))
    return out


def of_bare(transcript: Transcript, found: Sequence[Expression], at: int, units: str, left_out: str) -> str:
    """The unit of a bare number: declared after it, or in a metric plan by what it is; "" for the plan's."""
    return declared(transcript, found[at]) or (bare_metric(transcript, found, at, left_out) if units == "mm" else "")


def bare_metric(transcript: Transcript, found: Sequence[Expression], at: int, left_out: str) -> str:
    """The unit of a bare number in a metric plan, by what it is; "" for the plan's."""
    return in_metres(transcript, found, at) or tape_part(found[at]) or in_cm(transcript, found[at], left_out)


def in_cm(transcript: Transcript, item: Expression, left_out: str) -> str:
    """ "cm" for a speaker who leaves it out; not for prices (8.25) and bits, which are in millimetres."""
    after = transcript.words[item.last].low if item.last < len(transcript.words) else ""
    fine = (item.value * 10).denominator > 1 or after in ("drill", "bit", "pilot", "hole")
    return "cm" if left_out == "cm" and not fine else ""


def habit(found: Sequence[Expression], known: Collection[int], units: str) -> str:
    """The unit a speaker of a metric plan leaves out: the one in which bare numbers are the plan's lengths [mm]."""
    if units != "mm":
        return ""
    hits = Counter(unit for item in found if (unit := only_in(item, known)))
    best, rest = ("mm", hits["cm"]) if hits["mm"] >= hits["cm"] else ("cm", hits["mm"])
    named_mm = sum(o.unit == "mm" for o in found)
    if best == "cm" and 3 * named_mm > hits["cm"]:  # speaks of both: the unit of each is to be told from its place
        return ""
    return best if hits[best] >= SURE and hits[best] > 2 * rest else ""


def only_in(item: Expression, known: Collection[int]) -> str:
    """The unit in which a bare number is one of the plan's lengths [mm], if it is in one alone."""
    value = item.value
    if item.unit or item.form != "number" or not 10 <= value < 4000:
        return ""
    as_mm, as_cm = value in known and value >= 100, value >= 12 and value * 10 in known
    return "" if as_mm == as_cm else "mm" if as_mm else "cm"


def in_metres(transcript: Transcript, found: Sequence[Expression], at: int) -> str:
    """ "m" for a stock length in metres without its unit ("five point four metres and just one four point eight")."""
    item, words = found[at], transcript.words
    if not 1 < item.value < 8 or item.value.denominator == 1:
        return ""
    near_metres = any(o.unit == "m" and item.first - o.last < 24 for o in found[max(0, at - 6) : at])
    if not item.decimal:  # "four and a half metres. One of the six by two, also four and a half"
        return "m" if near_metres and words[item.first - 1].low in ("also", "another", "again") else ""
    return "m" if near_metres or is_stock_length(transcript, found, at) else ""


def is_stock_length(transcript: Transcript, found: Sequence[Expression], at: int) -> bool:
    """Whether a decimal is a board's length: a plural, one of many, or right before a timber's name."""
    item, words = found[at], transcript.words
    named = any(o.form == "nominal" and 0 <= o.first - item.last <= 3 for o in found[at + 1 : at + 2])
    plural = words[item.last - 1].low == "s" or words[item.last - 1].low in PLURAL_CARDINALS
    shared = [w.low for w in words[max(0, item.first - 2) : item.first]] in (["from", "every"], ["of", "every"])
    return named or plural or shared


def tape_part(item: Expression) -> str:
    """ "in" for eighths and smaller parts, which nobody says of millimetres."""
    return "in" if item.value.denominator in (8, 16, 32, 64) and not item.decimal else ""


def others(transcript: Transcript, found: Sequence[Expression], at: int, units: str, mixed: bool) -> list[str]:
    """Units of a speaker who leaves them out: centimetres, metres and centimetres ("one ninety"), feet of stock."""
    value = found[at].value
    if units == "mm":
        in_table = transcript.words[found[at].first].cue.cell is not None
        return ["cm"] if not in_table and (mixed or may_be_cm(found, at)) else []
    out = ["mm"] if 300 <= value < 3000 else []  # "thirteen fifty-two by nineteen oh two"
    return [*out, "ft"] if 4 <= value <= 20 and is_beside_stock(found, at) else out


def may_be_cm(found: Sequence[Expression], at: int) -> bool:
    """Whether a bare number of a metric plan may be in centimetres: by its form, or by the numbers before it."""
    item = found[at]
    metres = any(o.unit == "m" and item.first - o.last < 20 for o in found[max(0, at - 4) : at])
    return (100 <= item.value < 400 and metres) or (item.decimal and item.value >= 10) or said_in_cm(found, at)


def is_beside_stock(found: Sequence[Expression], at: int) -> bool:
    """Whether feet or a timber's name were said just before ("2x4s 8 feet and 2x2s also 8")."""
    before = found[max(0, at - 4) : at]
    return any(abs(o.first - found[at].first) < 14 and (o.unit == "ft" or o.form == "nominal") for o in before)


def said_in_cm(found: Sequence[Expression], at: int) -> bool:
    """Whether the same value was said in centimetres shortly before, or the numbers around it are in centimetres."""
    near = found[max(0, at - 6) : at]
    again = any(o.unit == "cm" and o.value == found[at].value for o in near)
    return again or sum(o.unit == "cm" for o in near) > 1


def declared(transcript: Transcript, item: Expression) -> str:
    """A unit the speaker gives right after a bare pair ("80 by 190. That's centimetres")."""
    if item.unit or not item.pair:
        return ""
    match = DECLARED.search(transcript.text(item.last, item.last + 10))
    unit = UNITS.get(match[1]) if match else None
    return unit if unit in LENGTHS else ""


def restated_bare(transcript: Transcript, found: Sequence[Expression], units: str) -> list[Expression]:
    """Gives a bare number after an inch measure its millimetres ("42 inches, 1067", "54 by 75 (1372 by 1905)")."""
    out = list(found)
    if units != "in":
        return out
    for at, item in enumerate(out):
        if is_bare(transcript, item) and any(
            item.first - o.last < 9 and same_in_metric(item.value, o) for o in out[max(0, at - 2) : at]
        ):
            out[at] = replace(item, unit="mm")
    return out


def is_bare(transcript: Transcript, item: Expression) -> bool:
    """Whether a whole number stands alone after a comma, a bracket or "by", with nothing counted by it."""
    words = transcript.words
    if item.unit or item.form != "number" or item.value.denominator > 1 or item.value < 20:
        return False
    apart = words[item.first].gap in (Gap.COMMA, Gap.STOP) or words[item.first - 1].low in ("that's", "by", "or")
    ends = item.last >= len(words) or words[item.last].gap >= Gap.COMMA or words[item.last].low in ("by", "in", "and")
    return apart and ends


def same_in_metric(value: Fraction, before: Expression) -> bool:
    """Whether a value can be the one before in millimetres, said rightly or wrongly (25.4 and a sixth either way)."""
    if before.unit not in ("", "in", "ft") or before.form != "number" or before.value <= 0:
        return False
    if not (before.unit or before.pair or before.value.denominator > 1 or before.value >= 10):
        return False
    ratio = value / (before.value * LENGTHS[before.unit or "in"])
    return Fraction(21) <= ratio <= Fraction(30)
