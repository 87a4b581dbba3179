"""The cutting notebook driven in a real browser: an own price, another kerf, the boards drawn again."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

pytestmark = pytest.mark.browser


def test_own_prices_and_the_saw_change_list_and_boards(run_notebook: Callable[..., Any]) -> None:
    page = run_notebook("02_cutting.ipynb", width=1300, height=1400)
    board = page.locator("svg[aria-label^='Board 4, 1x4 10 ft, cut 4 times']").first
    board.wait_for(timeout=60_000)
    box = page.get_by_label("1x4 10 ft, each", exact=True)
    box.fill("9.00")
    box.press("Enter")
    page.get_by_text("all lumber: $89.50 → $93.00").wait_for(state="attached")
    trim = page.get_by_label("Lost at the ends", exact=True)
    trim.fill("6")
    trim.press("Enter")
    page.locator("svg[aria-label^='Board 4, 1x4 10 ft, cut 7 times']").first.wait_for()
    taken = "box => box.value === '6 in'"  # only now is the box free for the next
    page.wait_for_function(taken, arg=trim.element_handle())
    trim.fill("-1")
    trim.press("Enter")
    page.get_by_text("Not taken:").first.wait_for()
