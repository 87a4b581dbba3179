"""Spoken numbers read as the test tables of published, permissively licensed parsers read them.

240 expressions with their values in tests/data/spoken_gold.csv, each with the repository, commit and file of its source
and that file's licence (duckling, Recognizers-Text, NeMo text processing, text2num-rs, numerizer, compromise,
quantulum3, WeTextProcessing, and phrases of the AMI meeting corpus in QMSum). Values are exact; lengths are compared
as lengths, so that 7 ft 10 in may be 94 in.
"""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from tutorial_lib.narration.captions.cues import Cue, Talk
from tutorial_lib.narration.numbers.expressions import expressions
from tutorial_lib.narration.numbers.lexicon import LENGTHS
from tutorial_lib.narration.numbers.words import words_of

MILE = {"mile": Fraction(63360)}
READ_OTHERWISE: dict[str, str] = {}  # expression: why it is read in another way here
with (Path(__file__).parents[1] / "data" / "spoken_gold.csv").open(encoding="utf-8") as file:
    ROWS = list(csv.DictReader(file))


def values(text: str, measured: bool) -> list[Fraction]:
    """The values read in a sentence, in inches where a length is meant."""
    found = expressions(words_of(Talk(name="", form="script", cues=(Cue(number=1, text=text, line=1),))))
    return [e.value * (LENGTHS | MILE).get(e.unit, 1) if measured else e.value for e in found]


@pytest.mark.parametrize("frame", ["{}", "It is {}."])
def test_spoken_numbers_of_published_tables(frame: str) -> None:
    wrong = []
    for row in ROWS:
        scale = (LENGTHS | MILE).get(row["unit"], Fraction(1))
        wanted = [Fraction(v) * scale for v in row["value"].split()]
        if values(frame.format(row["expression"]), bool(row["unit"])) != wanted:
            wrong.append(row["expression"])
    assert len(ROWS) == 240 and all(row["source"] and row["licence"] for row in ROWS)
    assert set(wrong) <= set(READ_OTHERWISE), wrong
