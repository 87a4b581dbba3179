"""The browser part of the redraw benchmark; not collected with the tests (its name does not begin with test)."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import nbformat
import pytest

from tests.benchmark.redraw import CHANGES, FLOOR, KERFS, TIMES, TURNS, drags, measure

SLATS = "svg[aria-label^='Slat plan']"
TIMED = {  # notebook, drawing, changes, pause between them [ms]
    "floor": ("floor.ipynb", SLATS, TURNS, 60),
    "design": ("01_design.ipynb", SLATS, CHANGES * 10, 60),
    "pace": ("01_design.ipynb", SLATS, CHANGES * 5, 1500),
    "cutting": ("02_cutting.ipynb", "svg[aria-label^='Board 1']", KERFS, 60),
}
REST = 6000  # [ms] until what was tried after opening has been tried


@pytest.fixture(autouse=True)
def floor(lab_folder: Path) -> None:
    """The notebook that does nothing but set pictures."""
    kernel = {"kernelspec": {"name": "python3", "display_name": "Python 3", "language": "python"}}
    made = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(FLOOR)], metadata=kernel)
    nbformat.write(made, lab_folder / "notebooks" / "floor.ipynb")


@pytest.mark.parametrize("name", TIMED)
def test_time_from_control_to_drawing(run_notebook: Callable[..., Any], name: str) -> None:
    notebook, drawing, changes, pause = TIMED[name]
    page = run_notebook(notebook, width=1300, height=1900)
    page.locator(drawing).first.wait_for(timeout=60_000)
    page.wait_for_timeout(REST)
    times = measure(page, drawing, changes, pause)
    page.close()  # nothing else is open while the next one is timed
    Path(f"{os.environ[TIMES]}-{name}").write_text("\n".join(map(str, times)), encoding="utf-8")


def test_time_of_a_drag(run_notebook: Callable[..., Any]) -> None:
    page = run_notebook("01_design.ipynb", width=1300, height=1900)
    page.locator(SLATS).first.wait_for(timeout=60_000)
    page.wait_for_timeout(REST)
    times = drags(page, SLATS, "Spacing at most")
    Path(f"{os.environ[TIMES]}-drag").write_text("\n".join(map(str, times)), encoding="utf-8")
