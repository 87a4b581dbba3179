"""A JupyterLab server and a browser to drive it with; skipped, with the reason, where there is no browser."""

from __future__ import annotations

import os
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from tutorial_lib.cli.project import quiet_lab

ROOT = Path(__file__).parents[2]
EXTENSIONS = ROOT / "tutorial_lib" / "workbook" / "lab"
TOKEN = "test"
NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
QUIET = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
]  # fmt: skip
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
    found = next(filter(None, map(shutil.which, NAMES)), None)
    if found is None:
        pytest.skip("no Chromium on this machine; on Debian: sudo apt-get install chromium")
    sync_api = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
    with sync_api.sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=found, args=QUIET)
        yield chromium
        chromium.close()


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@pytest.fixture(scope="session")
def lab(browser: Any, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of a JupyterLab over copies of the notebooks and assets."""
    folder = tmp_path_factory.mktemp("lab")
    for name in ("notebooks", "assets"):
        if (ROOT / name).is_dir():
            shutil.copytree(ROOT / name, folder / name)
    port = free_port()
    command = [
        sys.executable, "-m", "jupyterlab", "--no-browser", "--allow-root", "--ip=127.0.0.1", f"--port={port}",
        f"--IdentityProvider.token={TOKEN}", "--LabApp.expose_app_in_browser=True",
        "--LabApp.extension_manager=readonly", f"--ServerApp.root_dir={folder}",
        f"--LabServerApp.extra_labextensions_path={EXTENSIONS}",
    ]  # fmt: skip
    paths = os.pathsep.join(filter(None, [str(ROOT), os.environ.get("PYTHONPATH", "")]))
    environment = {**os.environ, **quiet_lab(folder), "PYTHONPATH": paths}
    with (folder / "server.log").open("w") as log:
        server = subprocess.Popen(command, stdout=log, stderr=log, env=environment, cwd=folder)
        try:
            wait_for(f"http://127.0.0.1:{port}/api?token={TOKEN}", folder / "server.log")
            yield f"http://127.0.0.1:{port}"
        finally:
            server.terminate()
            server.wait(20)


def wait_for(address: str, log: Path, seconds: float = 60) -> None:
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        try:
            urllib.request.urlopen(address, timeout=2).close()
            return
        except OSError:
            time.sleep(0.3)
    raise RuntimeError(f"JupyterLab did not start:\n{log.read_text()[-2000:]}")


@pytest.fixture
def faults() -> Callable[[Any], list[str]]:
    """What went wrong in the cells of a page: errors, warnings, cells not run; read from the notebook's model,
    since cells out of sight are not in the page."""
    return lambda page: list(page.evaluate(FAULTS))


@pytest.fixture
def lab_folder(lab: str, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder the server shows."""
    return tmp_path_factory.getbasetemp() / "lab0"


@pytest.fixture
def run_notebook(browser: Any, lab: str) -> Iterator[Callable[[str], Any]]:
    """Open a notebook by name; hand back the page when it has run."""
    pages = []

    def run(name: str, width: int = 1400, height: int = 1000) -> Any:
        page = browser.new_page(viewport={"width": width, "height": height})
        pages.append(page)
        page.goto(f"{lab}/doc/tree/notebooks/{name}?token={TOKEN}&reset")
        page.wait_for_function(KERNEL_READY, timeout=60_000)
        if page.evaluate(OURS):  # runs itself
            page.wait_for_function(RAN, timeout=90_000)
        else:
            page.evaluate(RUN_ALL)
        return page

    yield run
    for page in pages:
        page.close()
