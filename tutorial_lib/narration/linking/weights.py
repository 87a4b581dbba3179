"""Weights of the linking features: how much each kind of evidence counts, as log-odds.

Set on talks with answer keys by maximum likelihood (tests/narration/fit_weights.py), the named features with a pull
toward round figures, the words around a number with a pull toward nothing.
"""

from __future__ import annotations

import json
from importlib.resources import files

LEARNED = json.loads((files("tutorial_lib.narration.linking") / "weights.json").read_text(encoding="utf-8"))
WEIGHTS: dict[str, float] = LEARNED["facts"]  # a number and a fact
KINDS: dict[str, float] = LEARNED["kinds"]  # how often a class of facts is spoken of
NONE: dict[str, float] = LEARNED["none"]  # "speaks of nothing in the plan"
WORDS: dict[str, dict[str, float]] = LEARNED["words"]  # a word near the number -> class of fact
AGAIN: dict[str, float] = LEARNED["again"]  # a fact after what the rest of the talk says
SLIPS: dict[str, float] = LEARNED["slips"]  # a number that differs from a fact, as a slip about it
CERTAINTY: list[tuple[float, float]] = [(float(x), y) for x, y in LEARNED["certainty"].items()]  # chance: share right
LIMITS: dict[str, float] = LEARNED["limits"]  # sure: a conflict; ask: unsure; commit: linked
