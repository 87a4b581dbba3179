"""Notebook 07 driven in a real browser: a king of one's own, and back to the creator's."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def page(run_notebook: Callable[..., Any]) -> Any:
    return run_notebook("07_adapt.ipynb", width=1300, height=1500)


def test_a_king_of_ones_own_and_back(page: Any) -> None:
    page.get_by_text("Nothing changes: this is the creator's own bed.").first.wait_for(timeout=90_000)
    page.get_by_label("My mattress", exact=True).select_option("king")
    page.get_by_text("New: the video does not show it").first.wait_for(timeout=60_000)
    assert page.get_by_text("mattress width: 38 in → 76 in").count() == 1
    assert page.get_by_role("cell", name="→\N{NO-BREAK SPACE}changes").count() > 5
    page.get_by_role("button", name="Back to the creator's").first.click()
    page.get_by_text("mattress width: 76 in → 38 in").first.wait_for(state="attached", timeout=60_000)
    assert page.get_by_text("New: the video does not show it").count() == 0


def test_boards_one_has_are_added_a_row_each(page: Any) -> None:
    page.get_by_role("button", name="Add boards I have").click()
    page.get_by_label("of", exact=True).fill("2x6")
    page.get_by_label("long", exact=True).fill("8 ft")
    page.get_by_label("I have", exact=True).fill("3")
    page.keyboard.press("Tab")
    page.get_by_text("3 of your 3 2x6 are used").first.wait_for(timeout=60_000)
    page.get_by_role("button", name="Remove").click()
    page.get_by_text("3 of your 3 2x6 are used").first.wait_for(state="detached", timeout=60_000)
