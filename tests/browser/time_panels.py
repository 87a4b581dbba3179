"""The browser part of the redraw benchmark; not collected with the tests (its name does not begin with test)."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.benchmark.redraw import CHANGES, KERFS, TIMES, drags, measure

PANELS = {
    "design": ("01_design.ipynb", "svg[aria-label^='Slat plan']", CHANGES * 10),
    "cutting": ("02_cutting.ipynb", "svg[aria-label^='Board 1']", KERFS),
}


@pytest.mark.parametrize("panel", PANELS)
def test_time_from_control_to_drawing(run_notebook: Callable[..., Any], panel: str) -> None:
    notebook, drawing, changes = PANELS[panel]
    page = run_notebook(notebook, width=1300, height=1900)
    page.locator(drawing).first.wait_for(timeout=60_000)
    page.wait_for_timeout(1500)
    times = measure(page, drawing, changes)
    page.close()  # nothing else is open while the next one is timed
    Path(f"{os.environ[TIMES]}-{panel}").write_text("\n".join(map(str, times)), encoding="utf-8")


def test_time_of_a_drag(run_notebook: Callable[..., Any]) -> None:
    notebook, drawing, _ = PANELS["design"]
    page = run_notebook(notebook, width=1300, height=1900)
    page.locator(drawing).first.wait_for(timeout=60_000)
    page.wait_for_timeout(1500)
    times = drags(page, drawing, "Spacing at most")
    Path(f"{os.environ[TIMES]}-drag").write_text("\n".join(map(str, times)), encoding="utf-8")
