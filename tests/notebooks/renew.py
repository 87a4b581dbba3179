"""Runs all notebooks in fresh kernels and stores what they print; the same cells on the metric demo beside the tests.

    python -m tests.notebooks.renew [NAME ...]
"""

from __future__ import annotations

import json
import os
import sys
import tempfile
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
METRIC = Path(__file__).parent / "metric"
# The first cell of a metric twin: a state of its own, so that nobody's choice of a bed is touched.
CHOOSE = (
    "import os, tempfile\n"
    "\n"
    'os.environ["TUTORIAL_STATE"] = tempfile.mkdtemp()\n'
    "from tutorial_lib.workbook import current\n"
    "\n"
    'current.choose("guest-bed-90").name'
)


def twin(book: dict[str, Any]) -> dict[str, Any]:
    """The same notebook, on the metric demo."""
    first = {"cell_type": "code", "execution_count": None, "id": "metric", "metadata": {}, "outputs": [],
             "source": CHOOSE.splitlines(keepends=True)}  # fmt: skip
    return {**book, "cells": [first, *book["cells"]]}


def run(book: dict[str, Any], folder: Path) -> dict[str, Any]:
    """The notebook with its cells run in a fresh kernel."""
    import nbformat
    from nbclient import NotebookClient

    made = nbformat.reads(json.dumps(book), as_version=4)
    NotebookClient(made, timeout=600, kernel_name="python3", resources={"metadata": {"path": str(folder)}}).execute()
    made.metadata.pop("widgets", None)
    made.metadata["language_info"] = {"name": "python"}
    for cell in made.cells:
        cell.metadata.pop("execution", None)
    return dict(json.loads(nbformat.writes(made)))


def main(names: list[str]) -> None:
    """Runs and stores them all, or those named."""
    with tempfile.TemporaryDirectory() as state:
        os.environ["TUTORIAL_STATE"] = state
        os.environ["PYTHONPATH"] = os.pathsep.join(filter(None, (str(ROOT), os.environ.get("PYTHONPATH"))))
        for path in sorted((ROOT / "notebooks").glob("*.ipynb")):
            if names and path.stem not in names:
                continue
            book = json.loads(path.read_text(encoding="utf-8"))
            _store(path, run(book, path.parent))
            _store(METRIC / path.name, run(twin(book), path.parent))
            print(path.stem)


def _store(path: Path, book: dict[str, Any]) -> None:
    path.parent.mkdir(exist_ok=True)
    path.write_text(json.dumps(book, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
