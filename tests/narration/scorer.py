"""Scores a check report against an answer key, by what it quotes in spoken order."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache
from pathlib import Path
from typing import Any

from tests.narration.talks import captions_of, facts_of, loaded
from tutorial_lib.narration import check, read_captions

INCH = {"in": 1.0, "mm": 1 / 25.4, "cm": 1 / 2.54, "m": 1000 / 25.4, "ft": 12.0}
SURE = ("agrees", "rounded", "conflicts")
Span = tuple[int, int] | None
Entry = dict[str, Any]


def norm(text: str) -> str:
    """Lower case, single spaces."""
    return re.sub(r"\s+", " ", text.replace("\u00a0", " ")).strip().lower()


@cache
def flatten(path: Path) -> str:
    """The words of a file without times, tags and cue numbers."""
    raw = path.read_text(encoding="utf-8-sig").replace("\r\n", "\n")
    rolled = "<c>" in raw  # roll-up captions repeat every line
    if path.suffix in (".vtt", ".srt"):
        kept = [
            line
            for line in raw.split("\n")
            if line.strip()
            and line != "WEBVTT"
            and "-->" not in line
            and not line.strip().isdigit()
            and not line.startswith(("NOTE", "Kind:", "Language:"))
        ]
        kept = [re.sub(r"<[^>]*>", "", line) for line in kept]
        raw = " ".join(line for line, before in zip(kept, ["", *kept], strict=False) if not rolled or line != before)
    return norm(re.sub(r"\[\d+:\d\d\]", " ", raw))


def spans(items: list[Entry], text: str) -> list[Span]:
    """Where each quote stands: whole words, each after the one before."""
    at, out = 0, []
    for item in items:
        quote = norm(str(item["quote"]))
        tail = r"(?!\w|[./]\d)" if quote[-1:].isalnum() else ""
        found = re.compile(r"(?<![\w./-])" + re.escape(quote) + tail).search(text, at) if quote else None
        out.append(found.span() if found else None)
        at = found.end() if found else at
    return out


def overlap(a: Span, b: Span) -> bool:
    """Whether two spans share a character."""
    return bool(a and b and a[0] < b[1] and b[0] < a[1])


def values(item: Entry) -> list[float]:
    """The values of an item as a list."""
    value = item.get("value")
    return [] if value is None else value if isinstance(value, list) else [value]


def same(a: float, b: float, unit_a: str, unit_b: str) -> bool:
    """Whether two values are equal, inches and millimetres alike."""
    if unit_a in INCH and unit_b in INCH:
        a, b = a * INCH[unit_a], b * INCH[unit_b]
    return abs(a - b) <= 2e-5 * max(1.0, abs(b)) + 1e-6


def value_right(key: Entry, hits: list[Entry]) -> bool:
    """Whether all values of a key item are among those reported for it."""
    return all(any(same(v, k, str(h["unit"]), key["unit"]) for h in hits for v in values(h)) for k in values(key))


def report_of(base: Path) -> list[Entry]:
    """The items of the check of a talk against its plan."""
    items: list[Entry] = check(read_captions(captions_of(base)), facts_of(base)).as_json()["items"]
    return items


def score(base: Path) -> Counter[str]:
    """Counts of what was there and what was got right, for one talk."""
    return judged(base, report_of(base))


def judged(base: Path, items: list[Entry]) -> Counter[str]:
    """Counts of what was there and what a report got right, for one talk."""
    keys, text = loaded(base, "key")["items"], flatten(captions_of(base))
    key_spans, spots = spans(keys, text), spans(items, text)
    out: Counter[str] = Counter(talks=1)
    for key, span in zip(keys, key_spans, strict=True):
        assert span is not None, key
        out.update(judge(key, [i for i, s in zip(items, spots, strict=True) if overlap(s, span)]))
    for item, spot in zip(items, spots, strict=True):
        out["unsure"] += item["verdict"] == "unsure"
        if item["verdict"] == "conflicts":
            slip = any(overlap(spot, s) and k["verdict"] == "conflicts" for k, s in zip(keys, key_spans, strict=True))
            out.update(flags=1, alarms=not slip)
    return out


def judge(key: Entry, hits: list[Entry]) -> Counter[str]:
    """What one key item adds to the counts."""
    out: Counter[str] = Counter(n=1, found=bool(hits), claims=bool(key["is_claim"]))
    said = {h["verdict"] for h in hits}
    if values(key) and key["unit"] != "nominal":
        out.update(valued=1, values=bool(hits) and value_right(key, hits))
    if key["checkable"]:
        right = any(h["subject"] == key["subject"] for h in hits)
        offered = right or any(c["subject"] == key["subject"] for h in hits for c in h.get("choices", ()))
        sure = bool(said & set(SURE))
        out.update(checkable=1, linked=right, offered=offered, sure=sure, sure_right=sure and right)
    if key["verdict"] == "conflicts":
        out.update(slips=1, caught="conflicts" in said, seen=bool(said & {"conflicts", "unsure"}))
    return out


def rates(c: Counter[str]) -> dict[str, float]:
    """Counts as shares."""

    def share(a: str, b: str) -> float:
        return c[a] / c[b] if c[b] else 1.0

    return {
        "found": share("found", "n"),
        "values": share("values", "valued"),
        "commits": share("sure", "checkable"),
        "committed rightly": share("sure_right", "sure"),
        "subject right or offered": share("offered", "checkable"),
        "conflicts that are slips": 1 - (c["alarms"] / c["flags"] if c["flags"] else 0.0),
        "slips sure": share("caught", "slips"),
        "slips seen": share("seen", "slips"),
        "unsure": share("unsure", "claims"),
    }


def row(c: Counter[str]) -> str:
    """Counts as a line to print."""
    shares = "  ".join(f"{name} {value:.3f}" for name, value in rates(c).items())
    slips = f"{c['caught']} sure + {c['seen'] - c['caught']} asked of {c['slips']} slips"
    return f"{shares}  ({slips}; {c['alarms']} of {c['flags']} conflicts false)"
