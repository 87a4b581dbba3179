"""Numbers in talks: this library beside general quantity parsers, on the same talks with answer keys.

Run by hand: python tests/benchmark/bench_narration.py [TALK ...]; without names, on the talks set aside. Parsers that
aren't installed are left out (pip install quantulum3 text2num; both permissive). For every reader: expressions found,
values read rightly, and, by "is this value anywhere in the plan", slips caught and false alarms; for this library, by
its own verdicts. Then the time for an hour of captions.
"""

from __future__ import annotations

import re
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.narration.scorer import (
    SET_ASIDE,
    captions_of,
    flatten,
    loaded,
    names,
    overlap,
    same,
    score,
    spans,
    value_right,
    values,
)
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


def rate(parse: Callable[[str], Found], talks: list[str]) -> dict[str, float]:
    """Found, values, and slips and alarms by "anywhere in the plan"."""
    c = dict.fromkeys(("n", "found", "valued", "values", "slips", "caught", "alarms"), 0)
    for name in talks:
        text, plan = flatten(captions_of(name)), loaded(name, "plan")
        keys = loaded(name, "key")["items"]
        found = parse(text)
        known = [(float(q["value"]), q["unit"]) for q in plan["quantities"].values()]
        for key, span in zip(keys, spans(keys, text), strict=True):
            hits = hits_in(key, found, span, plan["units"])
            c["n"] += 1
            c["found"] += bool(hits)
            if values(key) and key["unit"] != "nominal":
                c["valued"] += 1
                c["values"] += bool(hits) and value_right(key, hits)
            flagged = bool(hits) and not any(
                same(v, k, h["unit"], u) for h in hits for v in values(h) for k, u in known
            )
            slip = key["verdict"] == "conflicts"
            c["slips"] += slip
            c["caught"] += slip and flagged
            c["alarms"] += flagged and not slip
    return {
        "found": c["found"] / c["n"],
        "values": c["values"] / c["valued"],
        "linked": float("nan"),
        "slips": c["caught"] / c["slips"],
        "alarms": c["alarms"] / c["n"],
    }


def ours(talks: list[str]) -> dict[str, float]:
    """This library."""
    c = sum((score(name) for name in talks[1:]), score(talks[0]))
    return {
        "found": c["found"] / c["n"],
        "values": c["values"] / c["valued"],
        "linked": c["linked"] / c["checkable"],
        "slips": c["caught"] / c["slips"],
        "alarms": c["alarms"] / c["n"],
    }


def hour(name: str = "tern-lane-queen-three-lines") -> tuple[float, int]:
    """Seconds of processor time to check an hour of captions, and how many numbers it held."""
    talk, plan = read_captions(captions_of(name)), loaded(name, "plan")
    blocks, shift = ["WEBVTT\n"], 0.0
    while shift < 3600:
        blocks += [f"{stamp((c.start or 0) + shift)} --> {stamp((c.end or 0) + shift)}\n{c.text}\n" for c in talk.cues]
        shift += talk.duration
    text = "\n".join(blocks)
    start = time.process_time()
    report = check(read_captions(text), plan)
    return time.process_time() - start, len(report.items)


def main(talks: list[str]) -> None:
    """Prints the table."""
    rows = {"this library": ours(talks)}
    for label, parse in (("quantulum3", quantities), ("text2num", numerals), ("figures only", figures)):
        try:
            rows[label] = rate(parse, talks)
        except ImportError:
            print(f"{label}: not installed, left out")
    print(f"{'':14}{'found':>8}{'values':>8}{'linked':>8}{'slips':>8}{'alarms':>8}")
    for label, r in rows.items():
        print(f"{label:14}" + "".join(f"{r[k]:8.3f}" for k in ("found", "values", "linked", "slips", "alarms")))
    seconds, count = hour()
    print(f"an hour of captions, {count} numbers: {seconds:.2f} s")


if __name__ == "__main__":
    main(sys.argv[1:] or names(SET_ASIDE))
