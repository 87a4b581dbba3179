"""Captions and scripts read, their numbers checked against the plan."""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tutorial_lib.narration.captions.cues import Cue, Talk
    from tutorial_lib.narration.captions.reading import read_captions
    from tutorial_lib.narration.verdicts.answers import Answer, beside
    from tutorial_lib.narration.verdicts.checking import check
    from tutorial_lib.narration.verdicts.items import Choice, Item, Report

# Public name -> its module; resolved on first use, so that a report can be read where nothing is checked.
_PUBLIC = {
    "Answer": "verdicts.answers",
    "Choice": "verdicts.items",
    "Cue": "captions.cues",
    "Item": "verdicts.items",
    "Report": "verdicts.items",
    "Talk": "captions.cues",
    "beside": "verdicts.answers",
    "check": "verdicts.checking",
    "read_captions": "captions.reading",
}

__all__ = ["Answer", "Choice", "Cue", "Item", "Report", "Talk", "beside", "check", "read_captions"]


def __getattr__(name: str) -> object:
    """Imports a public name the first time it is asked for."""
    if name not in _PUBLIC:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(importlib.import_module(f"{__name__}.{_PUBLIC[name]}"), name)
