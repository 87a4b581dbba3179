"""The talks with answer keys: whose hand wrote them, their captions, plans and keys."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

from tutorial_lib.facts import Facts, read_facts

DATA = Path(__file__).parents[1] / "data"
TALKS = DATA / "talks"
SET_ASIDE = DATA / "talks_set_aside"
ROUGH = DATA / "talks_rough"
HANDS = {
    "a": "juniper-row-queen paper-kite-twin chalk-tray-full sweet-corn-full-xl third-floor-twin",
    "b": "bog-cotton-three-foot dijkhuis-long-people galah-lane-queen kellerwerk-hundertvierzig "
    "snowfence-box-spring-double tussock-road-king-single",
    "c": "gravel-lot-live-full errata-bench-king-box-spring four-weekends-double-140",
    "d": "grandpa-otis-twin off-shift-twin-xl scene-dock-full slack-tide-three-quarter two-majors-full-xl "
    "vestry-shelf-twin",
    "e": "copper-jar-120 lacquer-and-rush-full lantern-section-double nine-objects-single room-one-forty-twin "
    "saturday-bright-queen",
}


def talks(folder: Path) -> list[Path]:
    """All talks of a folder, each as its path without an ending."""
    return sorted(p.with_name(p.name.removesuffix(".key.json")) for p in folder.glob("*.key.json"))


def of_hand(hand: str) -> list[Path]:
    """The rough talks that one hand wrote."""
    return [ROUGH / name for name in HANDS[hand].split()]


def captions_of(base: Path) -> Path:
    """The captions or script of a talk."""
    return next(p for p in sorted(base.parent.glob(f"{base.name}.*")) if p.suffix in (".vtt", ".srt", ".md", ".txt"))


@cache
def loaded(base: Path, part: str) -> Any:
    """The plan or the key of a talk."""
    return json.loads(base.with_name(f"{base.name}.{part}.json").read_text(encoding="utf-8"))


@cache
def facts_of(base: Path) -> Facts:
    """The plan of a talk as facts."""
    return read_facts(base.with_name(f"{base.name}.plan.json").read_text(encoding="utf-8"), base.name)
