"""The start and design notebooks driven in a real browser: choose king, and slats, legs and facts change."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import pytest

pytestmark = pytest.mark.browser

PICTURES = ".widget-html-content svg[role=img]"


@pytest.fixture(scope="module")
def design_page(run_notebook: Callable[..., Any]) -> Iterator[Any]:
    page = run_notebook("01_design.ipynb", width=1300, height=1400)
    page.locator(PICTURES).first.wait_for(timeout=60_000)
    yield page


def alt(page: Any, words: str) -> str:
    found = page.locator(f"svg[aria-label^='{words}']").first.get_attribute("aria-label")
    return str(found)


def test_choosing_king_changes_slats_legs_and_facts(design_page: Any) -> None:
    page = design_page
    slats = alt(page, "Slat plan")
    page.get_by_role("button", name="Leg map").click()
    legs = alt(page, "Leg map")
    page.get_by_label("Size", exact=True).select_option("king")
    page.locator(".tw-result").get_by_text("was 14").wait_for()
    assert page.locator(".tw-result").inner_text().startswith("15 slats")
    assert alt(page, "Leg map") != legs
    page.get_by_role("button", name="Slat plan").click()
    page.locator("svg[aria-label^='Slat plan']").wait_for()
    assert alt(page, "Slat plan") != slats
    assert page.get_by_label("Measured width").input_value() == ""


def test_a_bad_value_explains_itself_and_keeps_the_drawing(design_page: Any) -> None:
    page = design_page
    before = alt(page, "Slat plan")
    box = page.get_by_label("Spacing at most", exact=True)
    box.fill("wide")
    box.press("Enter")
    page.get_by_text("Not taken:").wait_for()
    assert alt(page, "Slat plan") == before
    box.fill("1 1/2")
    box.press("Enter")
    page.get_by_text("Not taken:").wait_for(state="detached")
    assert alt(page, "Slat plan") != before


def test_the_start_notebook_shows_the_chosen_bed(run_notebook: Callable[..., Any]) -> None:
    page = run_notebook("00_start_here.ipynb")
    page.locator(PICTURES).first.wait_for(timeout=60_000)
    assert page.get_by_label("Bed", exact=True).input_value()
    assert "slats" in alt(page, "The bed")


@pytest.mark.parametrize(("width", "height"), [(1440, 820), (820, 1000)])
def test_the_drawing_stays_in_view_at_the_lowest_control(design_page: Any, width: int, height: int) -> None:
    page = design_page
    page.set_viewport_size({"width": width, "height": height})
    page.wait_for_timeout(300)
    box = page.get_by_label("That height", exact=True)
    box.scroll_into_view_if_needed()
    drawing = page.locator(".tw-drawing svg").first.bounding_box()
    assert drawing["y"] >= 0  # under Lab's own bars
    assert drawing["y"] + drawing["height"] <= height
