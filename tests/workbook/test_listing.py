"""A list of the plan in a notebook: it follows its panel, sorts numbers as numbers, narrows, and goes out as CSV."""

from __future__ import annotations

import base64
import re
from pathlib import Path

import pytest

from tutorial_lib.design.build_file import read_build
from tutorial_lib.lists import NAMES, csv_text
from tutorial_lib.workbook.design_panel import DesignPanel
from tutorial_lib.workbook.listing import AS_LISTED, Listing

pytest.importorskip("ipywidgets")
BUILD = Path(__file__).parents[2] / "assets" / "builds" / "spare-room-twin.toml"


@pytest.fixture
def panel() -> DesignPanel:
    return DesignPanel(read_build(BUILD.read_text(encoding="utf-8")))


def column(html: str, index: int) -> list[str]:
    rows = re.findall(r"<tr>(.*?)</tr>", html, re.DOTALL)
    return [re.findall(r"<td>(.*?)</td>", row, re.DOTALL)[index].replace("\u00a0", " ") for row in rows]


def test_it_follows_the_panel(panel: DesignPanel) -> None:
    parts = Listing("parts", panel)
    assert parts.widget is not None
    before = parts._table.value
    panel.set("mattress.size", "king")
    assert parts._table.value != before
    assert parts._table.value == parts.html()


def test_lengths_are_sorted_as_numbers(panel: DesignPanel) -> None:
    parts = Listing("parts", panel)
    head = next(h for h in parts.list.heads if h.startswith("length"))
    index = parts.list.heads.index(head)
    parts._set(sort=head)
    lengths = sorted(row[index] for row in parts.list.rows)  # type: ignore[type-var]
    assert column(parts.html(), index) == [str(length) for length in lengths]
    parts._set(sort=AS_LISTED)
    assert column(parts.html(), 0) == [str(row[0]) for row in parts.list.rows]


def test_words_narrow_it(panel: DesignPanel) -> None:
    parts = Listing("parts", panel)
    parts._set(contains="SLAT 1x4")
    assert len(column(parts.html(), 0)) == 1
    parts._set(contains="no such part")
    assert column(parts.html(), 0) == []


@pytest.mark.parametrize("name", NAMES)
def test_every_list_is_shown_and_goes_out_as_csv(panel: DesignPanel, name: str) -> None:
    listing = Listing(name, panel)
    assert "<table" in listing.widget.children[-1].value
    data = listing._file.value.split("base64,")[1].split('"')[0]
    assert base64.b64decode(data).decode() == csv_text(listing.list)
