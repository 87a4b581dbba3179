"""Notebooks are stored as run, define nothing, and say no number that is not the plan's."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).parents[2]
NOTEBOOKS = sorted((ROOT / "notebooks").glob("*.ipynb"))
METRIC = Path(__file__).parent / "metric"

# A figure with a unit, or a plain fraction: what prose must take from the plan.
FIGURE = re.compile(
    r"\d+(?:[./]\d+)?(?:\s+\d+/\d+)?\s*(?:\"|″|in\b|inch|ft\b|feet|foot|mm\b|cm\b|m\b|lbs?\b|pounds?|kg\b|%|psi\b|\$)|\d+/\d+"
)

pytestmark = pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)


def cells(path: Path, kind: str) -> list[dict[str, Any]]:
    found = json.loads(path.read_text(encoding="utf-8"))["cells"]
    return [cell for cell in found if cell["cell_type"] == kind and "".join(cell["source"]).strip()]


def test_every_cell_is_stored_as_run_in_order(path: Path) -> None:
    counts = [cell["execution_count"] for cell in cells(path, "code")]
    assert counts == list(range(1, len(counts) + 1)), "run all cells of a fresh kernel, then save"


def test_no_cell_is_stored_with_an_error(path: Path) -> None:
    for cell in cells(path, "code"):
        assert all(output["output_type"] != "error" for output in cell["outputs"])


def test_notebooks_define_no_functions(path: Path) -> None:
    for cell in cells(path, "code"):
        source = "".join(cell["source"])
        assert not re.search(r"^\s*(def|class|lambda)\b", source, re.MULTILINE), "put it into the library"


def test_prose_says_no_figure_of_its_own(path: Path) -> None:
    for cell in cells(path, "markdown"):
        prose = re.sub(r"`[^`]*`|\]\([^)]*\)", "", "".join(cell["source"]))
        assert not FIGURE.findall(prose), "prose takes its numbers from the plan"


def test_no_cell_leaves_the_library(path: Path) -> None:
    for cell in cells(path, "code"):
        source = "".join(cell["source"])
        assert not re.search(r"NBVAL_(IGNORE|SKIP)", source), "every output is compared"


def test_no_machine_path_is_stored(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert not re.search(r"/(home|root|tmp|work|Users)/", text)


def test_the_metric_twin_has_the_same_cells_stored_as_run(path: Path) -> None:
    first, *rest = cells(METRIC / path.name, "code")
    assert "guest-bed-90" in "".join(first["source"])
    assert ["".join(cell["source"]) for cell in rest] == ["".join(c["source"]) for c in cells(path, "code")]
    assert all(cell["execution_count"] for cell in rest), "python -m tests.notebooks.renew"
