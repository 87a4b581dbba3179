"""Notebook 07 driven in a real browser: a king of one's own, and back to the creator's."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

pytestmark = pytest.mark.browser


def test_a_king_of_ones_own_and_back(run_notebook: Callable[..., Any]) -> None:
    page = run_notebook("07_adapt.ipynb", width=1300, height=1500)
    page.get_by_text("Nothing changes: this is the creator's own bed.").first.wait_for(timeout=90_000)
    page.get_by_label("My mattress", exact=True).select_option("king")
    page.get_by_text("New: the video does not show it").first.wait_for(timeout=60_000)
    assert page.get_by_text("mattress width: 38 in → 76 in").count() == 1
    assert page.get_by_role("cell", name="→\N{NO-BREAK SPACE}changes").count() > 5
    page.get_by_role("button", name="Back to the creator's").first.click()
    page.get_by_text("mattress width: 76 in → 38 in").first.wait_for(state="attached", timeout=60_000)
    assert page.get_by_text("New: the video does not show it").count() == 0
