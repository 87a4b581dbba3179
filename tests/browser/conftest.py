"""A JupyterLab server and a browser to drive it with; skipped, with the reason, where there is no browser."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.browser import servers
from tests.browser.servers import QUIET, TOKEN

KERNEL_READY = """() => {
    const kernel = window.jupyterapp?.shell?.currentWidget?.sessionContext?.session?.kernel;
    return kernel && kernel.connectionStatus === 'connected' && kernel.status === 'idle';
}"""
FAULTS = """() => [...window.jupyterapp.shell.currentWidget.content.model.cells]
    .filter(cell => cell.type === 'code')
    .flatMap(cell => cell.executionCount === null ? [{ename: 'not run'}] : cell.toJSON().outputs)
    .filter(output => output.ename || output.name === 'stderr')
    .map(output => output.ename ? `${output.ename}: ${output.evalue}` : [output.text].flat().join(''))"""
RAN = "() => window.jupyterapp.shell.currentWidget.node.dataset.ran === 'yes'"
OURS = "() => window.jupyterapp.shell.currentWidget.content.model.getMetadata('tutorial_workbook') !== undefined"
RUN_ALL = "async () => { await window.jupyterapp.commands.execute('notebook:run-all-cells'); }"


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """A headless Chromium from the system."""
    found = servers.chromium()
    if found is None:
        pytest.skip("no Chromium on this machine; on Debian: sudo apt-get install chromium")
    sync_api = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
    with sync_api.sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=found, args=QUIET)
        yield chromium
        chromium.close()


@pytest.fixture(scope="session")
def lab(browser: Any, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of a JupyterLab over copies of the notebooks and assets."""
    with servers.lab(tmp_path_factory.mktemp("lab")) as served:
        yield served.base


@pytest.fixture
def faults() -> Callable[[Any], list[str]]:
    """What went wrong in the cells of a page: errors, warnings, cells not run; read from the notebook's model,
    since cells out of sight are not in the page."""
    return lambda page: list(page.evaluate(FAULTS))


@pytest.fixture
def lab_folder(lab: str, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder the server shows."""
    return tmp_path_factory.getbasetemp() / "lab0"


@pytest.fixture(scope="module")
def run_notebook(browser: Any, lab: str) -> Iterator[Callable[..., Any]]:
    """Open a notebook by name; hand back the page when it has run: one of ours without an error or a warning.

    The tests of a module may share the page: opening one takes seconds.
    """
    pages = []

    def run(name: str, width: int = 1400, height: int = 1000) -> Any:
        page = browser.new_page(viewport={"width": width, "height": height})
        pages.append(page)
        page.goto(f"{lab}/doc/tree/notebooks/{name}?token={TOKEN}&reset")
        page.wait_for_function(KERNEL_READY, timeout=60_000)
        if page.evaluate(OURS):  # runs itself
            page.wait_for_function(RAN, timeout=90_000)
            assert page.evaluate(FAULTS) == []
        else:
            page.evaluate(RUN_ALL)
        return page

    yield run
    for page in pages:
        page.close()
