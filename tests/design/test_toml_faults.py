"""What a person gets wrong in a build file, and what they are told: the line, the reason, how it is written."""

from __future__ import annotations

import pytest

from tutorial_lib.cli.starting import template
from tutorial_lib.design.build_file import read_build
from tutorial_lib.design.options import NAMED
from tutorial_lib.design.toml_faults import _read_on
from tutorial_lib.errors import InputError
from tutorial_lib.facts.words import TRADE

TEXT = template()
SIZE, THICK, GAP = 'size = "queen"', 'thickness = "10 in"', 'gap = "2 1/4 in"'


def told(was: str, now: str) -> str:
    assert TEXT.count(was) >= 1
    with pytest.raises(InputError) as caught:
        read_build(TEXT.replace(was, now, 1), "my-bed.toml")
    (fault,) = caught.value.faults
    assert fault.where.startswith("my-bed.toml:")
    return fault.what


@pytest.mark.parametrize(
    ("was", "now", "words", "written"),
    [
        (SIZE, "size = queen", "in quotes", SIZE),
        (SIZE, 'size = "queen', "quote at the end", SIZE),
        (SIZE, 'size = queen"', "quote at the beginning", SIZE),
        (SIZE, "size = “queen”", "curly", SIZE),
        (THICK, 'thickness = "10""', "inch mark", THICK),
        (THICK, 'thickness = 10"', "inch mark", THICK),
        (THICK, "thickness = 10 in", "in quotes", THICK),
        (GAP, "gap = 2 1/4 in", "in quotes", GAP),
        (GAP, 'gap : "2 1/4 in"', "equals sign", GAP),
        ("per_side = 3", "per_side = three", "in figures", "per_side = 3"),
        ('\nprice = "8.10"', "\nprice = 8,10", "a point before its cents", 'price = "8.10"'),
        ("[legs]", "[legs", "bracket", "[legs]"),
        ("[[lumber.2x6.stock]]\n", "[[lumber.2x6.stock]\n", "two brackets", "[[lumber.2x6.stock]]"),
        ("grits = [120, 180]", "grits = 120, 180", "in brackets", "grits = [120, 180]"),
        ('title = "My bed"', 'my title = "My bed"', "no spaces", 'my_title = "My bed"'),
    ],
)
def test_a_line_that_cannot_be_read_is_told_with_how_it_is_written(
    was: str, now: str, words: str, written: str
) -> None:
    what = told(was, now)
    assert words in what
    assert what.endswith(f"Write {written}")


@pytest.mark.parametrize(
    ("was", "now", "words"),
    [
        (GAP, f"{GAP}\n{GAP}", "gap stands here for the second time"),
        ("[load]", "[saw]", "[saw] stands here for the second time"),
        ("people = 2", "people =", "not readable"),
        ('name = "my-bed"', 'name = "My bed"', 'no spaces, such as "my-bed"'),
        ('currency = "usd"', 'currency = "USD"', 'three small letters, such as "usd"'),
        ('currency = "usd"', 'currency = "€"', 'such as "eur"'),
        ("side_rail = [", "side_rial = [", 'Did you mean side_rail? Parts with names: side_rail, end_rail'),
        ('slat = ["slat"]', 'slat = "slat"', 'write ["slat"]'),
        ("\n[lumber.2x6]\n", '\n[lumber.2x6]\nthickness = "0 in"\n', "more than 0"),
        ('length = "12 ft"', 'length = "0 ft"', "more than 0"),
        ('gauge = "#8"', 'gauge = "8"', 'such as "#8"'),
    ],
)  # fmt: skip
def test_a_value_that_cannot_be_taken_is_told_with_one_that_can(was: str, now: str, words: str) -> None:
    assert words in told(was, now)


def test_a_remedy_that_reads_no_better_is_not_told() -> None:
    with pytest.raises(InputError, match="not readable"):
        read_build('[build]\nname = "a" = "b"\n')


def test_a_file_that_ends_too_early_is_told_without_a_line() -> None:
    with pytest.raises(InputError, match="ends too early|bed.toml"):
        read_build('[build]\nnames = ["a",', "bed.toml")


def test_parts_with_names_are_those_with_words_of_the_trade() -> None:
    assert set(NAMED) == set(TRADE)


def test_a_very_long_line_is_not_looked_into() -> None:
    spaces = " " * 200_000
    with pytest.raises(InputError, match="not readable") as caught:
        read_build(f"[build]\nname = a{spaces}x\n")
    assert len(str(caught.value)) < 500


def test_a_line_that_no_file_can_be_read_past_is_not_taken_for_mended() -> None:
    good, endless = "a = 1\nb = 2", f"a = 1\nb = {'9' * 5000}"
    assert _read_on(good, 1, "a = 3") and _read_on("a = =\nb = 2", 1, "a = 3")
    assert not _read_on(good, 1, "a = =") and not _read_on(endless, 1, "a = 3")
