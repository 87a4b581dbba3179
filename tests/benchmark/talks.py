"""Numbers in talks: this library beside general quantity parsers, on the same rough talks with answer keys.

``python -m tests.benchmark talks``. Parsers that aren't installed are told so (pip install quantulum3 text2num; both
permissive). For every reader: expressions found, values read rightly; a parser calls a number wrong when its value is
nowhere in the plan, this library by its own verdicts. Then an hour of captions and more against a plan of over a
hundred facts. The shipped weights saw these talks: what unseen talks get is printed by
``python -m tests.narration.fit_weights``.
"""

from __future__ import annotations

import re
import statistics
from collections import Counter
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from tests.benchmark.measuring import Row, exponent, processor, written
from tests.narration.scorer import flatten, overlap, rates, same, score, spans, value_right, values
from tests.narration.talks import ROUGH, SET_ASIDE, TALKS, captions_of, facts_of, loaded, talks
from tutorial_lib.narration import check, read_captions
from tutorial_lib.publishing.corrections import stamp

Found = list[tuple[tuple[int, int], float, str]]
UNITS = {"inch": "in", "foot": "ft", "millimetre": "mm", "centimetre": "cm", "metre": "m"}
INCHES = {"in": 1.0, "ft": 12.0, "mm": 1 / 25.4, "cm": 1 / 2.54, "m": 1000 / 25.4}


def quantities(text: str) -> Found:
    """quantulum3's quantities."""
    from quantulum3 import parser

    return [(q.span, q.value, UNITS.get(q.unit.name, "")) for q in parser.parse(text)]


def numerals(text: str) -> Found:
    """text2num: number words turned into figures, then every figure."""
    from text_to_num import alpha2digit

    out, at = [], 0
    for word in re.finditer(r"\S+(?:[ -]\S+){0,4}?(?=[ ,.;]|$)", text):
        turned = alpha2digit(word.group(), "en")
        number = re.search(r"\d+(?:\.\d+)?", turned)
        if number and word.start() >= at:
            out.append((word.span(), float(number[0]), ""))
            at = word.end()
    return out


def figures(text: str) -> Found:
    """A plain regular expression for figures."""
    return [(m.span(), float(m[0]), "") for m in re.finditer(r"\d+(?:\.\d+)?", text)]


def hits_in(key: dict[str, Any], found: Found, span: Any, units: str) -> list[dict[str, Any]]:
    """What a parser found on an expression, a bare number in the plan's unit."""
    out = []
    for place, value, unit in found:
        if overlap(place, span):
            length = key["unit"] in ("in", "mm")
            out.append(
                {
                    "value": value * INCHES[unit] if unit else value,
                    "unit": "in" if unit else (units if length else key["unit"]),
                }
            )
    return out


def rate(parse: Callable[[str], Found], bases: list[Path]) -> Counter[str]:
    """Counts as the scorer's, a value that is nowhere in the plan called a conflict."""
    out: Counter[str] = Counter()
    for base in bases:
        text, plan = flatten(captions_of(base)), loaded(base, "plan")
        keys, found = loaded(base, "key")["items"], parse(text)
        told = ((v, q["unit"]) for q in plan["quantities"].values() for v in values(q))
        known = [(float(v), unit) for v, unit in told if isinstance(v, int | float)]  # some facts are words
        for key, span in zip(keys, spans(keys, text), strict=True):
            out.update(counted(key, hits_in(key, found, span, plan["units"]), known))
    return out


def counted(key: dict[str, Any], hits: list[dict[str, Any]], known: list[tuple[float, str]]) -> Counter[str]:
    """What one key item adds to the counts."""
    out: Counter[str] = Counter(n=1, found=bool(hits))
    if values(key) and key["unit"] != "nominal":
        out.update(valued=1, values=bool(hits) and value_right(key, hits))
    flagged = bool(hits) and not any(same(v, k, h["unit"], u) for h in hits for v in values(h) for k, u in known)
    slip = key["verdict"] == "conflicts"
    out.update(flags=flagged, alarms=flagged and not slip, slips=slip, caught=slip and flagged, seen=slip and flagged)
    return out


HOURS = (1, 2, 4, 8)
SHOWN = {"found": "found", "values": "values right", "conflicts that are slips": "of those called wrong are slips",
         "slips seen": "of slips seen"}  # fmt: skip


def rows() -> Iterator[Row]:
    """Readers beside each other, then how the time grows with the length of a talk."""
    bases = talks(ROUGH)
    yield told("this library", score, bases)
    yield told("this library, on its own and set-aside talks", score, [*talks(TALKS), *talks(SET_ASIDE)])
    for label, parse in (("quantulum3", quantities), ("text2num", numerals), ("figures only", figures)):
        try:
            yield told(label, lambda base, parse=parse: rate(parse, [base]), bases)
        except ImportError:
            yield Row(what=f"{len(bases)} talks, {label}", runs=0, median="not installed here")
    yield growth()


def told(label: str, counted_in: Callable[[Path], Counter[str]], bases: list[Path]) -> Row:
    """One reader over all talks: processor time of a talk, and what it made of them."""
    each = [processor(counted_in, base) for base in bases]
    times, found = [took for took, _ in each], rates(sum((counts for _, counts in each), Counter[str]()))
    shares = ", ".join(f"{found[name]:.0%} {words}" for name, words in SHOWN.items())
    return Row(
        what=f"{len(bases)} talks, {label}",
        runs=len(bases),
        median=written(statistics.median(times)),
        p95=written(max(times)),
        beside=shares,
    )


def growth(name: str = "juniper-row-queen") -> Row:
    """Captions of one hour and more against one plan."""
    plan, times, count = facts_of(ROUGH / name), [], 0
    for hours in HOURS:
        text = lasting(name, hours)
        took, report = processor(lambda text: check(read_captions(text), plan), text)
        times.append(took)
        count = len(report.items)
    return Row(
        what=f"check of captions of {HOURS[0]} to {HOURS[-1]} h against {len(plan)} facts",
        runs=len(HOURS),
        median=f"{written(times[0])} to {written(times[-1])}",
        beside=f"{count:,} numbers in {HOURS[-1]} h; grows with hours^{exponent(HOURS, times):.2f}",
    )


def lasting(name: str, hours: float) -> str:
    """The captions of a talk again and again, until so many hours are full."""
    talk = read_captions(captions_of(ROUGH / name))
    blocks, shift = ["WEBVTT\n"], 0.0
    while shift < 3600 * hours:
        blocks += [f"{stamp((c.start or 0) + shift)} --> {stamp((c.end or 0) + shift)}\n{c.text}\n" for c in talk.cues]
        shift += talk.duration
    return "\n".join(blocks)
