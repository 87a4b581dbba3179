"""Captions and scripts read, their numbers checked against the plan."""

from __future__ import annotations

from tutorial_lib.narration.captions.cues import Cue, Talk
from tutorial_lib.narration.captions.reading import read_captions
from tutorial_lib.narration.verdicts.answers import Answer, beside
from tutorial_lib.narration.verdicts.checking import check
from tutorial_lib.narration.verdicts.items import Choice, Item, Report

__all__ = ["Answer", "Choice", "Cue", "Item", "Report", "Talk", "beside", "check", "read_captions"]
