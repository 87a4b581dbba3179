"""The set-up killed at random moments, moved, and called twice at once: the next call always ends with a whole one.

The clone is a small one whose project needs no packages, so that the real venv and pip are quick and need no network.
"""

from __future__ import annotations

import os
import random
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

pytestmark = pytest.mark.skipif(os.name == "nt", reason="kills by signal")

KILLS = int(os.environ.get("TUTORIAL_KILLS", "2"))  # by hand: 24
PROJECT = """
[build-system]
requires = []
build-backend = "backend"
backend-path = ["."]
[project]
name = "tutorial-workbook"
version = "1"
"""
BACKEND = """
import zipfile, pathlib
NAME = "tutorial_workbook-1"
def _wheel(folder):
    path = pathlib.Path(folder, NAME + "-py3-none-any.whl")
    with zipfile.ZipFile(path, "w") as wheel:
        wheel.writestr("tutorial_workbook.pth", "")
        wheel.writestr(NAME + ".dist-info/METADATA", "Metadata-Version: 2.1\\nName: tutorial-workbook\\nVersion: 1\\n")
        wheel.writestr(NAME + ".dist-info/WHEEL", "Wheel-Version: 1.0\\nRoot-Is-Purelib: true\\nTag: py3-none-any\\n")
        wheel.writestr(NAME + ".dist-info/RECORD", "")
    return path.name
def build_editable(folder, config_settings=None, metadata_directory=None):
    return _wheel(folder)
def build_wheel(folder, config_settings=None, metadata_directory=None):
    return _wheel(folder)
"""
CLI = """
import sys, tutorial_lib
def main(arguments):
    sys.stdout.reconfigure(errors="replace")
    print(sys.prefix, tutorial_lib.__file__, *arguments, sep="|")
    return 0
"""


@pytest.fixture
def clone(root: Path, tmp_path: Path) -> Path:
    """A clone in a folder whose name has a space and letters of another alphabet."""
    made = tmp_path / "ma scierie Ω"
    package = made / "tutorial_lib"
    package.mkdir(parents=True)
    for name in ("__init__.py", "__main__.py", "bootstrap.py"):
        shutil.copy(root / "tutorial_lib" / name, package)
    (package / "cli.py").write_text(CLI, encoding="utf-8")
    (made / "pyproject.toml").write_text(PROJECT, encoding="utf-8")
    (made / "backend.py").write_text(BACKEND, encoding="utf-8")
    return made


def start(clone: Path, **more: str) -> subprocess.Popen[str]:
    """The program as a person calls it, with the Python that the tests run on, in a group of its own."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("TUTORIAL_", "PYTHONPATH"))}
    python = getattr(sys, "_base_executable", sys.executable)
    return subprocess.Popen(
        [python, "-m", "tutorial_lib", "facts", "x"], cwd=clone, env={**kept, **more}, start_new_session=True,
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip


def answer(process: subprocess.Popen[str]) -> list[str]:
    """What the command printed, after it ended well: its environment, its package, its arguments."""
    out, err = process.communicate(timeout=300)
    assert process.returncode == 0, err
    return out.strip().split("|")


def right(clone: Path) -> list[str]:
    return [str(clone / ".venv"), str(clone / "tutorial_lib" / "__init__.py"), "facts", "x"]


def test_a_set_up_killed_at_any_moment_recovers(clone: Path) -> None:
    began = time.monotonic()
    assert answer(start(clone)) == right(clone)
    whole = time.monotonic() - began
    chance = random.Random(20)
    for _ in range(KILLS):
        (clone / ".venv" / "pyvenv.cfg").unlink()  # damaged, so that the next call begins again
        process = start(clone)
        time.sleep(chance.uniform(0.05, whole))
        alone = chance.random() < 0.5  # the call alone, its installer going on; or all at once
        (os.kill if alone else os.killpg)(process.pid, signal.SIGKILL)
        process.wait()
        process.stdout.close()  # type: ignore[union-attr]
        process.stderr.close()  # type: ignore[union-attr]
        assert answer(start(clone)) == right(clone)
        assert answer(start(clone)) == right(clone)


def test_two_calls_at_once_make_one_environment(clone: Path) -> None:
    first, second = start(clone), start(clone)
    assert answer(first) == answer(second) == right(clone)


def test_a_copied_and_a_moved_clone_run_their_own_code(clone: Path, tmp_path: Path) -> None:
    assert answer(start(clone)) == right(clone)
    copy = tmp_path / "copy"
    shutil.copytree(clone, copy, symlinks=True)
    assert answer(start(copy)) == right(copy)
    assert answer(start(clone)) == right(clone)
    moved = clone.rename(tmp_path / "moved")
    assert answer(start(moved)) == right(moved)


def test_odd_surroundings_do_not_lead_the_set_up_astray(clone: Path, tmp_path: Path) -> None:
    odd = {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONIOENCODING": "ascii", "PIP_USER": "1", "PIP_TARGET": str(tmp_path)}
    assert answer(start(clone, **odd))[2:] == ["facts", "x"]
    assert (clone / ".venv" / "bin" / "python").exists()
