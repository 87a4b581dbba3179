"""The strength notebook driven in a real browser: heavier people and a leg less change the map and the figures."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import pytest

pytestmark = pytest.mark.browser

# Where the focus is: marked, and whether one sees it.
REACHED = """() => { const e = document.activeElement; e.dataset.reached = 'yes';
    const style = getComputedStyle(e).outlineStyle;
    return [e.closest('.tw-panel') !== null, style === 'none' ? e.outerHTML.slice(0, 120) : '']; }"""
MISSED = """() => [...document.querySelector('.tw-panel').querySelectorAll('select, input, button, .noUi-handle')]
    .filter(e => e.offsetParent && !e.disabled && e.type !== 'file' && !e.dataset.reached)
    .map(e => e.outerHTML.slice(0, 120))"""
PICTURES = ".widget-html-content svg[role=img]"


@pytest.fixture(scope="module")
def strength_page(run_notebook: Callable[..., Any]) -> Iterator[Any]:
    page = run_notebook("01b_strength.ipynb", width=1300, height=1800)
    page.locator(PICTURES).first.wait_for(timeout=60_000)
    yield page


def alt(page: Any, words: str) -> str:
    return str(page.locator(f"svg[aria-label^='{words}']").first.get_attribute("aria-label"))


def test_another_grade_changes_the_bars(strength_page: Any) -> None:
    page = strength_page
    page.get_by_role("button", name="How much of what is allowed is used").first.click()
    before = alt(page, "Greatest use")
    page.get_by_label("Grade on the stamp").first.select_option("Stud")
    page.get_by_text("greatest utilisation, kneeling").first.wait_for(state="attached")
    assert alt(page, "Greatest use") != before
    page.get_by_role("button", name="Which legs may go").first.click()


def test_a_leg_taken_away_leaves_the_map(strength_page: Any) -> None:
    page = strength_page
    before = alt(page, "Legs from above")
    page.get_by_role("button", name="Leg L2: take away or put back").first.click()
    page.get_by_text("left out: L2").first.wait_for()
    after = alt(page, "Legs from above")
    assert "L2" in before and "L2" not in after


def test_the_keyboard_alone_is_enough(strength_page: Any) -> None:
    page, press = strength_page, strength_page.keyboard.press
    page.get_by_label("save as").focus()
    unseen = []
    for _ in range(60):
        inside, without_outline = page.evaluate(REACHED)
        if not inside:
            break
        unseen += [without_outline] if without_outline else []
        press("Tab")
    assert (page.evaluate(MISSED), unseen) == ([], [])
    box = page.locator(".tw-panel").first
    box.locator("button.tw-fold").first.focus()
    press("Enter")  # in Lab it would open a cell
    tick = page.get_by_label("Careful: every duration factor 1")
    tick.wait_for()  # unfolded
    tick.focus()
    press("Space")
    assert tick.is_checked()
    people = box.locator(".widget-slider", has_text="People")
    before = people.locator(".widget-readout").inner_text()
    people.locator(".noUi-handle").focus()
    press("ArrowLeft")
    page.wait_for_function("([e, was]) => e.textContent !== was", arg=[
        people.locator(".widget-readout").element_handle(), before])  # fmt: skip
    page.get_by_label("Species", exact=True).focus()
    press("ArrowDown")
    page.locator(".tw-was", has_text="was").first.wait_for()
    page.get_by_role("button", name="Leg L2: take away or put back").first.focus()
    press("x")  # in Lab it would cut the cell
    press("Enter")
    page.get_by_text("left out: L2").first.wait_for(state="detached")
