"""Every notebook, opened in a real browser and run: no cell fails and the pictures are there."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

NOTEBOOKS = sorted(path.name for path in (Path(__file__).parents[2] / "notebooks").glob("*.ipynb"))

pytestmark = pytest.mark.browser


@pytest.mark.parametrize("name", NOTEBOOKS)
def test_runs_without_an_error(name: str, run_notebook: Callable[..., Any]) -> None:
    page = run_notebook(name)
    page.wait_for_function(
        "() => window.jupyterapp.shell.currentWidget.sessionContext.session.kernel.status === 'idle'", timeout=60_000
    )
    assert page.locator(".jp-RenderedText[data-mime-type='application/vnd.jupyter.stderr']").count() == 0
    assert page.locator(".jp-OutputArea-output.jp-mod-error").count() == 0
