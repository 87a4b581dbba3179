"""Values as they stand in boxes, and what is typed as the build file states it."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tutorial_lib.measures import Units
from tutorial_lib.workbook.values import shown, stated


@pytest.mark.parametrize(
    ("kind", "typed", "units", "meant"),
    [
        ("length", "1 1/2", "in", "1 1/2 in"), ("length", "40", "mm", "40 mm"), ("length", "wide", "in", "wide"),
        ("weight", "200", "in", "200 lb"), ("weight", "90", "mm", "90 kg"), ("weight", "14 st", "in", "14 st"),
        ("hours", "6", "in", "6 h"), ("hours", "30 min", "in", "30 min"), ("money", "$ 7.25", "in", "7.25"),
        ("number", "14", "in", 14), ("number", "90000.5", "in", 90000.5), ("number", "some", "in", "some"),
        ("words", "rail, side board ,", "in", ["rail", "side board"]), ("text", "  oak ", "in", "oak"),
        ("lengths", "95 7/8; 96 1/4 in;", "in", ["95 7/8 in", "96 1/4 in"]), ("lengths", "long", "in", ["long"]),
        ("length", "  ", "in", None), ("money", "", "in", None),
    ],
)  # fmt: skip
def test_what_is_typed_is_stated(kind: str, typed: str, units: Units, meant: object) -> None:
    assert stated(kind, typed, units) == meant


@pytest.mark.parametrize(
    ("kind", "value", "units", "text"),
    [
        ("length", Fraction(3, 2), "in", "1 1/2 in"), ("weight", Fraction(275), "in", "275 lb"),
        ("hours", Fraction(1, 2), "in", "0.5 h"), ("money", Fraction(29, 4), "in", "7.25"), ("number", 14, "in", "14"),
        ("words", ("rail", "side"), "in", "rail, side"), ("number", 0, "in", "0"), ("length", None, "in", ""),
        ("lengths", (Fraction(119), Fraction(114)), "in", "119 in; 114 in"), ("words", (), "in", ""),
        ("length", "wide", "in", "wide"),
    ],
)  # fmt: skip
def test_what_stands_in_a_box(kind: str, value: object, units: Units, text: str) -> None:
    assert shown(kind, value, units) == text
