"""The unit a bare number is in: declared after it, the speaker's running unit, or a length given again in metric."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.numbers.lexicon import LENGTHS, UNITS
from tutorial_lib.narration.numbers.transcript import Transcript
from tutorial_lib.narration.numbers.words import Gap


@dataclass(frozen=True)
class Meant:
    """What a bare number may be measured in."""

    unit: str = ""  # declared beside it
    also: tuple[str, ...] = ()  # other units it may be in
    running: str = ""  # the unit the speaker used last


AS_SAID = Meant()

DECLARED = re.compile(
    r"\b(?:that's|those are|in|all|everything in|work in|these are|it's all|both) (?:all )?"
    r"(centimet(?:re|er)s|millimet(?:re|er)s|inches|feet|met(?:re|er)s|mil|mm|cm)\b"
)


def meant(transcript: Transcript, found: Sequence[Expression], at: int, units: str) -> Meant:
    """The units a number without one may be in; nothing for a number said with its unit."""
    item = found[at]
    if item.unit:
        return AS_SAID
    spoken = [o for o in found[:at] if o.unit in LENGTHS]
    running = spoken[-1].unit if spoken else ""
    return Meant(declared(transcript, found, at), tuple(others(transcript, found, at, units)), running)


def others(transcript: Transcript, found: Sequence[Expression], at: int, units: str) -> list[str]:
    """Units of a speaker who leaves them out: centimetres, metres and centimetres ("one ninety"), feet of stock."""
    item, out = found[at], []
    before = found[max(0, at - 4) : at]
    if units == "mm" and transcript.words[item.first].cue.cell is None:
        in_metres = 100 <= item.value < 400 and any(o.unit == "m" and item.first - o.last < 20 for o in before)
        if sum(o.unit == "cm" for o in found) > 1 or in_metres:
            out.append("cm")
    beside = any(abs(o.first - item.first) < 14 and (o.unit == "ft" or o.form == "nominal") for o in before)
    if units == "in" and 4 <= item.value <= 20 and beside:  # "2x4s 8 feet and 2x2s also 8"
        out.append("ft")
    return out


def declared(transcript: Transcript, found: Sequence[Expression], at: int) -> str:
    """A unit the speaker gives right after a bare pair ("80 by 190. That's centimetres")."""
    item = found[at]
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
