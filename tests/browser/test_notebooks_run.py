"""Every notebook, opened in a real browser and run: no cell fails and none warns."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

NOTEBOOKS = sorted(path.name for path in (Path(__file__).parents[2] / "notebooks").glob("*.ipynb"))

pytestmark = pytest.mark.browser


@pytest.mark.parametrize("name", NOTEBOOKS)
def test_runs_without_an_error(name: str, run_notebook: Callable[..., Any], faults: Callable[[Any], list[str]]) -> None:
    assert faults(run_notebook(name)) == []


def test_a_cell_that_fails_is_seen(
    lab_folder: Path, run_notebook: Callable[..., Any], faults: Callable[[Any], list[str]]
) -> None:
    cell = {"cell_type": "code", "execution_count": None, "id": "a", "metadata": {}, "outputs": [], "source": "1 / 0"}
    kernel = {"kernelspec": {"name": "python3", "display_name": "Python 3", "language": "python"}}
    broken = {"cells": [cell], "metadata": kernel, "nbformat": 4, "nbformat_minor": 5}
    (lab_folder / "notebooks").mkdir(exist_ok=True)
    (lab_folder / "notebooks" / "broken.ipynb").write_text(json.dumps(broken), encoding="utf-8")
    assert faults(run_notebook("broken.ipynb")) == ["ZeroDivisionError: division by zero"]
