"""Notebook 03 in a real browser: a screw is chosen, and the section, the clashes and the facts follow."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

pytestmark = pytest.mark.browser

PICTURES = ".widget-html-content svg[role=img]"


@pytest.fixture(scope="module")
def page(run_notebook: Callable[..., Any]) -> Iterator[Any]:
    shown = run_notebook("03_drilling.ipynb", width=1300, height=2200)
    shown.locator(PICTURES).first.wait_for(timeout=60_000)
    yield shown
    if folder := os.environ.get("KEEP_PICTURES"):
        shown.screenshot(path=str(Path(folder) / "drilling.png"))


def fill(page: Any, label: str, text: str) -> None:
    box = page.get_by_label(label, exact=True)
    box.fill(text)
    box.press("Enter")


def unfold(page: Any) -> None:
    """Shows every row that is folded away."""
    for fold in page.locator("button.tw-fold:visible").all():
        fold.click()


def test_a_long_screw_stops_and_a_shift_of_nothing_crosses_screws_out(page: Any) -> None:
    fill(page, "Cleat: length", "3")
    page.get_by_text("Take a shorter screw.").first.wait_for(state="attached")  # under its finding's line
    fill(page, "Cleat: length", "2 1/2")
    page.get_by_text("Take a shorter screw.").first.wait_for(state="detached", timeout=60_000)
    unfold(page)
    fill(page, "End slats: shift", "0")
    page.locator("svg[aria-label*='4 fasteners meet']").first.wait_for()
    page.get_by_text("Move slat 1 to cleat left, screw 1 by 5/8 in toward the foot").first.wait_for(state="attached")
