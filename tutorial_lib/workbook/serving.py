"""How the notebooks are served: JupyterLab on notebook 00, or the same notebooks without code as an app."""

from __future__ import annotations

import os
import sys
from pathlib import Path

EXTENSIONS = Path(__file__).with_name("lab")  # a plain script: runs our notebooks when opened, keeps code out of sight
TEMPLATES = Path(__file__).with_name("share")
FIRST = "00_start_here.ipynb"
HERE = "127.0.0.1"  # this machine only
CONNECTION = ".".join((f"kernel_websocket_connection_class={__package__}", "connection", "Connection"))


def lab(notebooks: Path, port: int) -> list[str]:
    """The command that serves JupyterLab.

    Args:
        notebooks: the folder of notebooks; its parent is what the server shows.
        port: a free port.
    """
    command = [
        sys.executable, "-m", "jupyterlab", "--no-browser", f"--ServerApp.ip={HERE}", f"--ServerApp.port={port}",
        f"--ServerApp.root_dir={notebooks.parent}", f"--LabServerApp.extra_labextensions_path={EXTENSIONS}",
        f"--ServerApp.{CONNECTION}",
    ]  # fmt: skip
    return command + (["--allow-root"] if _is_root() else [])


def lab_address(notebooks: Path, port: int, token: str) -> str:
    """Where notebook 00 is opened, whatever was open before."""
    return f"http://{HERE}:{port}/doc/tree/{notebooks.name}/{FIRST}?reset&token={token}"


def view(notebooks: Path, port: int, token: str) -> list[str]:
    """The command that serves the notebooks as pages without code, on this machine only.

    Args:
        notebooks: the folder of notebooks.
        port: a free port.
        token: what an address must carry to be answered.
    """
    return [
        sys.executable, "-m", "voila", str(notebooks), "--no-browser", f"--Voila.ip={HERE}", f"--port={port}",
        f"--token={token}", "--template=workbook", f"--Voila.{CONNECTION}",
    ]  # fmt: skip


def view_environment() -> dict[str, str]:
    """What the page server needs to find its template; added to what is set already."""
    return {"JUPYTER_PATH": os.pathsep.join(filter(None, (str(TEMPLATES), os.environ.get("JUPYTER_PATH"))))}


def view_address(port: int, token: str) -> str:
    """Where notebook 00 is shown."""
    return f"http://{HERE}:{port}/voila/render/{FIRST}?token={token}"


def _is_root() -> bool:
    return hasattr(os, "geteuid") and os.geteuid() == 0
