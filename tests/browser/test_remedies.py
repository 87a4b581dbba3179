"""A remedy in a real browser, on a bed of the gallery: offered when tried, and pressed it changes the bed."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.browser import servers
from tutorial_lib.workbook import current

pytestmark = pytest.mark.browser
BED = servers.ROOT / "assets" / "builds" / "gallery" / "full-oak-strapped.toml"
CAUTION = "Nobody may kneel or stand on a slat"
DRAWN = ".tw-drawing svg"


@pytest.fixture
def design(browser: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Any]:
    """Notebook 01 as a page, on that bed."""
    monkeypatch.setenv("TUTORIAL_STATE", str(tmp_path / "state"))
    current.open_build(str(BED))
    with servers.view(tmp_path, more={"TUTORIAL_STATE": os.environ["TUTORIAL_STATE"]}) as served:
        page = browser.new_page(viewport={"width": 1440, "height": 1000})
        page.goto(served.address("01_design.ipynb"))
        page.locator(DRAWN).first.wait_for(timeout=90_000)
        yield page
        page.close()


def test_a_remedy_takes_its_caution_away_and_draws_the_bed_anew(design: Any) -> None:
    row = design.locator(".tw-finding", has_text=CAUTION).first
    row.locator(".tw-cures button").first.wait_for(timeout=90_000)  # they are tried first
    drawn, result = design.locator(DRAWN).first.inner_html(), design.locator(".tw-result").inner_text()
    row.locator(".tw-cures button").first.click()
    design.locator(".tw-finding", has_text=CAUTION).wait_for(state="hidden", timeout=60_000)
    design.locator(".tw-result .tw-was").first.wait_for()  # what was there before stands beside it
    assert design.locator(".tw-result").inner_text() != result
    assert design.locator(DRAWN).first.inner_html() != drawn
    assert design.locator(".tw-title", has_text="changed and not saved").count() == 1
