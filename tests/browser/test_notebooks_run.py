"""Every notebook, opened in a real browser and run: no cell fails and none warns. Those that the panels' tests open
are held to it there, when they have run.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

HERE = Path(__file__).parent
NOTEBOOKS = sorted(path.name for path in (HERE.parents[1] / "notebooks").glob("*.ipynb"))
PANELS = "".join(path.read_text(encoding="utf-8") for path in HERE.glob("test_*_panel.py"))
ELSEWHERE = [name for name in NOTEBOOKS if f'run_notebook("{name}"' in PANELS]

pytestmark = pytest.mark.browser


@pytest.mark.parametrize("name", [name for name in NOTEBOOKS if name not in ELSEWHERE])
def test_runs_without_an_error(name: str, run_notebook: Callable[..., Any], faults: Callable[[Any], list[str]]) -> None:
    assert faults(run_notebook(name)) == []


def test_the_panels_tests_open_the_others() -> None:
    assert len(ELSEWHERE) >= 6


def test_a_cell_that_fails_is_seen(
    lab_folder: Path, run_notebook: Callable[..., Any], faults: Callable[[Any], list[str]]
) -> None:
    cell = {"cell_type": "code", "execution_count": None, "id": "a", "metadata": {}, "outputs": [], "source": "1 / 0"}
    kernel = {"kernelspec": {"name": "python3", "display_name": "Python 3", "language": "python"}}
    broken = {"cells": [cell], "metadata": kernel, "nbformat": 4, "nbformat_minor": 5}
    (lab_folder / "notebooks").mkdir(exist_ok=True)
    (lab_folder / "notebooks" / "broken.ipynb").write_text(json.dumps(broken), encoding="utf-8")
    assert faults(run_notebook("broken.ipynb")) == ["ZeroDivisionError: division by zero"]
