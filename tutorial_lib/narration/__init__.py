"""Captions and scripts read, their numbers checked against the plan."""

from __future__ import annotations

from tutorial_lib.narration.captions.cues import Cue, Talk
from tutorial_lib.narration.captions.reading import read_captions
from tutorial_lib.narration.verdicts.checking import Item, Report, check

__all__ = ["Cue", "Item", "Report", "Talk", "check", "read_captions"]
