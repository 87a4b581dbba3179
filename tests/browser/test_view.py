"""The notebooks as pages without code: run, fitting a phone, with nothing serious found by an accessibility engine.

The engine is axe-core (MPL-2.0, unmodified), as axe-playwright-python carries it.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.browser import servers
from tests.browser.servers import ROOT

pytestmark = pytest.mark.browser
NOTEBOOKS = sorted(path.name for path in (ROOT / "notebooks").glob("*.ipynb"))
# The slider library leaves its handles without a name; each stands beside a box that has one.
KNOWN = ("noUi-handle",)


@pytest.fixture(scope="module")
def pages(browser: Any, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Any]:
    """A notebook's page at some width; opened once."""
    folder = tmp_path_factory.mktemp("view")
    opened: dict[str, Any] = {}
    with servers.view(folder, more={"TUTORIAL_STATE": str(folder / "state")}) as served:

        def visit(name: str, width: int, height: int) -> Any:
            if name in opened:
                opened[name].set_viewport_size({"width": width, "height": height})
                return opened[name]
            page = opened[name] = browser.new_page(viewport={"width": width, "height": height})
            page.goto(served.address(name))
            page.locator(".tw-panel").first.wait_for(timeout=90_000)
            page.wait_for_function("() => document.querySelector('#rendered_cells')?.style.display !== 'none'")
            return page

        yield visit
        for page in opened.values():
            page.close()


@pytest.mark.parametrize("name", NOTEBOOKS)
def test_nothing_serious_is_found(name: str, pages: Any) -> None:
    axe = pytest.importorskip("axe_playwright_python.sync_playwright").Axe()
    page = pages(name, 1280, 900)
    found = axe.run(page).response["violations"]
    serious = [
        f"{rule['id']}: {node['html'][:160]}"
        for rule in found
        if rule["impact"] in ("serious", "critical")
        for node in rule["nodes"]
        if not any(known in node["html"] for known in KNOWN)
    ]
    assert serious == []
    assert page.locator(".jp-RenderedText[data-mime-type='application/vnd.jupyter.stderr']").count() == 0


@pytest.mark.parametrize("name", ["00_start_here.ipynb", "01_design.ipynb"])
def test_it_fits_a_phone(name: str, pages: Any) -> None:
    page = pages(name, 390, 844)
    drawing = page.locator(".tw-drawing svg").first
    drawing.wait_for(timeout=90_000)
    page.wait_for_function("document.documentElement.scrollWidth <= 390")  # it was wider before
    box = drawing.bounding_box()
    assert box["x"] >= 0 and box["x"] + box["width"] <= 390
    keep = os.environ.get("TUTORIAL_PICTURES")  # a folder, to look at them
    if keep:
        page.screenshot(path=str(Path(keep) / f"{name}-390.png"), full_page=True)


def test_the_timeline_is_read_on_a_phone_by_scrolling_in_its_own_box(pages: Any) -> None:
    page = pages("06_said_on_camera.ipynb", 390, 844)
    chart = page.locator("svg[aria-label^='Timeline']").first
    chart.wait_for(timeout=90_000)
    page.wait_for_function("document.documentElement.scrollWidth <= 390")
    letters = chart.locator("text").all()
    assert letters and min(text.bounding_box()["height"] for text in letters) >= 10  # [px]
    assert chart.evaluate("e => { const b = e.parentElement; return b.scrollWidth > b.clientWidth + 200; }")
