"""The strength notebook driven in a real browser: heavier people and a leg less change the map and the figures."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import pytest

pytestmark = pytest.mark.browser

PICTURES = ".widget-html-content svg[role=img]"


@pytest.fixture
def strength_page(run_notebook: Callable[..., Any]) -> Iterator[Any]:
    page = run_notebook("01b_strength.ipynb", width=1300, height=1800)
    page.locator(PICTURES).first.wait_for(timeout=60_000)
    yield page


def alt(page: Any, words: str) -> str:
    return str(page.locator(f"svg[aria-label^='{words}']").first.get_attribute("aria-label"))


def test_a_leg_taken_away_leaves_the_map(strength_page: Any) -> None:
    page = strength_page
    before = alt(page, "Legs from above")
    page.get_by_role("button", name="Leg L2: take away or put back").first.click()
    page.get_by_text("left out: L2").first.wait_for()
    after = alt(page, "Legs from above")
    assert "L2" in before and "L2" not in after


def test_another_grade_changes_the_bars(strength_page: Any) -> None:
    page = strength_page
    page.get_by_role("button", name="How much of what is allowed is used").first.click()
    before = alt(page, "Greatest use")
    page.get_by_label("Grade on the stamp").first.select_option("Stud")
    page.get_by_text("greatest utilisation, kneeling").first.wait_for(state="attached")
    assert alt(page, "Greatest use") != before
