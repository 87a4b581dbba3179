"""Scores a check report against an answer key, by what it quotes in spoken order."""

from __future__ import annotations

import json
import re
from collections import Counter
from pathlib import Path
from typing import Any

from tutorial_lib.narration import check, read_captions

TALKS = Path(__file__).parents[1] / "data" / "talks"
SET_ASIDE = TALKS.with_name("talks_set_aside")  # no part in any weight or rule
INCH = {"in": 1.0, "mm": 1 / 25.4, "cm": 1 / 2.54, "m": 1000 / 25.4, "ft": 12.0}
Span = tuple[int, int] | None


def names(folder: Path = TALKS) -> list[str]:
    """All talks with a key: names, or paths without an ending where they aren't in the usual folder."""
    found = sorted(p.with_name(p.name.removesuffix(".key.json")) for p in folder.glob("*.key.json"))
    return [p.name if folder == TALKS else str(p) for p in found]


def captions_of(name: str) -> Path:
    """The captions or script of a talk (a name in the test data, or a path without its ending)."""
    base = TALKS / name
    return next(p for p in sorted(base.parent.glob(f"{base.name}.*")) if p.suffix in (".vtt", ".srt", ".md", ".txt"))


def loaded(name: str, part: str) -> Any:
    """The plan or the key of a talk."""
    return json.loads((TALKS / f"{name}.{part}.json").read_text(encoding="utf-8"))


def norm(text: str) -> str:
    """Lower case, single spaces."""
    return re.sub(r"\s+", " ", text.replace("\u00a0", " ")).strip().lower()


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


def spans(items: list[dict[str, Any]], text: str) -> list[Span]:
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


def values(item: dict[str, Any]) -> list[float]:
    """The values of an item as a list."""
    value = item.get("value")
    return [] if value is None else value if isinstance(value, list) else [value]


def same(a: float, b: float, unit_a: str, unit_b: str) -> bool:
    """Whether two values are equal, inches and millimetres alike."""
    if unit_a in INCH and unit_b in INCH:
        a, b = a * INCH[unit_a], b * INCH[unit_b]
    return abs(a - b) <= 2e-5 * max(1.0, abs(b)) + 1e-6


def value_right(key: dict[str, Any], hits: list[dict[str, Any]]) -> bool:
    """Whether all values of a key item are among those reported for it."""
    return all(any(same(v, k, str(h["unit"]), key["unit"]) for h in hits for v in values(h)) for k in values(key))


def score(name: str) -> Counter[str]:
    """Counts of what was there and what was got right, for one talk."""
    return judged(name, check(read_captions(captions_of(name)), loaded(name, "plan")).as_json()["items"])


def judged(name: str, items: list[dict[str, Any]]) -> Counter[str]:
    """Counts of what was there and what a report got right, for one talk."""
    keys, text = loaded(name, "key")["items"], flatten(captions_of(name))
    key_spans, spots = spans(keys, text), spans(items, text)
    out: Counter[str] = Counter(talks=1)
    for key, span in zip(keys, key_spans, strict=True):
        assert span is not None, key
        hits = [i for i, s in zip(items, spots, strict=True) if overlap(s, span)]
        out.update(judge(key, hits))
    for item, spot in zip(items, spots, strict=True):
        if item["verdict"] == "conflicts":
            out["alarms"] += not any(
                overlap(spot, s) and k["verdict"] == "conflicts" for k, s in zip(keys, key_spans, strict=True)
            )
    return out


def judge(key: dict[str, Any], hits: list[dict[str, Any]]) -> Counter[str]:
    """What one key item adds to the counts."""
    out: Counter[str] = Counter(n=1, found=bool(hits))
    if values(key) and key["unit"] != "nominal":
        out.update(valued=1, values=bool(hits) and value_right(key, hits))
    if key["checkable"]:
        out.update(checkable=1, linked=any(h["subject"] == key["subject"] for h in hits))
    if key["verdict"] == "conflicts":
        out.update(slips=1, caught=any(h["verdict"] == "conflicts" for h in hits))
    return out


def row(c: Counter[str]) -> str:
    """Counts as a line to print."""
    r = rates(c)
    return (
        f"found {r['found']:.3f}  values {r['values']:.3f}  linked {r['linked']:.3f}  "
        f"slips {c['caught']}/{c['slips']} = {r['slips']:.3f}  alarms {r['alarms']:.4f}"
    )


def rates(c: Counter[str]) -> dict[str, float]:
    """Counts as shares."""
    return {
        "found": c["found"] / c["n"],
        "values": c["values"] / c["valued"],
        "linked": c["linked"] / c["checkable"],
        "slips": c["caught"] / c["slips"],
        "alarms": c["alarms"] / c["n"],
    }
