"""JupyterLab and the page server over copies of the notebooks, for tests and for looking by hand."""

from __future__ import annotations

import json
import os
import shutil
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tutorial_lib.cli.project import quiet_lab
from tutorial_lib.workbook import serving

ROOT = Path(__file__).parents[2]
TOKEN = "test"
NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
QUIET = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
]  # fmt: skip
DARK = {"theme": "JupyterLab Dark"}


def chromium() -> str | None:
    """The browser of this machine, if it has one."""
    return next(filter(None, map(shutil.which, NAMES)), None)


def free_port() -> int:
    """A port nobody listens on."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@dataclass(frozen=True)
class Served:
    """A running server and how a notebook is addressed there."""

    base: str  # "http://127.0.0.1:8888"
    path: str  # "/doc/tree/notebooks/{}?..."

    def address(self, notebook: str) -> str:
        """Where a notebook is shown."""
        return self.base + self.path.format(notebook)


def copied(folder: Path) -> None:
    """The notebooks and what they need, in a folder that may be written."""
    for name in ("notebooks", "assets"):
        if (ROOT / name).is_dir() and not (folder / name).exists():
            shutil.copytree(ROOT / name, folder / name)


@contextmanager
def lab(folder: Path, *, dark: bool = False, more: dict[str, str] | None = None) -> Iterator[Served]:
    """JupyterLab over a folder of copies; stopped at the end."""
    copied(folder)
    port = free_port()
    settings = quiet_lab(folder)
    if dark:
        kept = Path(settings["JUPYTERLAB_SETTINGS_DIR"]) / "@jupyterlab" / "apputils-extension"
        (kept / "themes.jupyterlab-settings").write_text(json.dumps(DARK), encoding="utf-8")
    command = [
        sys.executable, "-m", "jupyterlab", "--no-browser", "--allow-root", "--ip=127.0.0.1", f"--port={port}",
        f"--IdentityProvider.token={TOKEN}", "--LabApp.expose_app_in_browser=True",
        "--LabApp.extension_manager=readonly", f"--ServerApp.root_dir={folder}",
        f"--LabServerApp.extra_labextensions_path={serving.EXTENSIONS}", f"--ServerApp.{serving.CONNECTION}",
    ]  # fmt: skip
    with _running(command, settings | (more or {}), folder, f"http://127.0.0.1:{port}/api?token={TOKEN}"):
        yield Served(f"http://127.0.0.1:{port}", f"/doc/tree/notebooks/{{}}?token={TOKEN}&reset")


@contextmanager
def view(folder: Path, *, dark: bool = False, more: dict[str, str] | None = None) -> Iterator[Served]:
    """The notebooks as pages without code; stopped at the end."""
    copied(folder)
    port = free_port()
    command = serving.view(folder / "notebooks", port, TOKEN) + (["--theme=dark"] if dark else [])
    environment = serving.view_environment() | (more or {})
    with _running(command, environment, folder, f"http://127.0.0.1:{port}/voila/static/x"):
        yield Served(f"http://127.0.0.1:{port}", f"/voila/render/{{}}?token={TOKEN}")


@contextmanager
def _running(command: list[str], more: dict[str, str], folder: Path, known: str) -> Iterator[None]:
    paths = os.pathsep.join(filter(None, [str(ROOT), os.environ.get("PYTHONPATH", "")]))
    environment: dict[str, Any] = {**os.environ, "PYTHONPATH": paths, **more}
    log = folder / "server.log"
    with log.open("w") as told:
        server = subprocess.Popen(command, stdout=told, stderr=told, env=environment, cwd=folder)
        try:
            _wait_for(known, log)
            yield
        finally:
            server.terminate()
            server.wait(60)


def _wait_for(address: str, log: Path, seconds: float = 60) -> None:
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        try:
            urllib.request.urlopen(address, timeout=2).close()
            return
        except urllib.error.HTTPError:
            return  # it answers
        except OSError:
            time.sleep(0.3)
    raise RuntimeError(f"the server did not start:\n{log.read_text()[-2000:]}")
