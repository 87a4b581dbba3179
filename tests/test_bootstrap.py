"""The first run: what it needs, what it says when it can't."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from tutorial_lib import bootstrap


@pytest.fixture
def clone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A clone that has not been set up."""
    (tmp_path / "pyproject.toml").write_text('[project]\nname = "tutorial-workbook"\n', encoding="utf-8")
    monkeypatch.setattr(bootstrap, "ROOT", str(tmp_path))
    monkeypatch.setattr(bootstrap, "VENV", str(tmp_path / ".venv"))
    monkeypatch.delenv(bootstrap.SKIP, raising=False)
    monkeypatch.setattr(bootstrap, "_is_installed", lambda: False)
    return tmp_path


def set_up(clone: Path, kind: str) -> None:
    """An environment as a finished call leaves it, as far as the next call looks at it."""
    python = Path(bootstrap._python())
    python.parent.mkdir(parents=True)
    python.write_text("", encoding="utf-8")
    python.chmod(0o755)
    (clone / ".venv" / "pyvenv.cfg").touch()
    bootstrap._write_mark(bootstrap._whole(kind))


def test_help_needs_no_set_up(clone: Path) -> None:
    bootstrap.hand_over(["--help"])
    assert not (clone / ".venv").exists()


def test_an_installed_package_needs_no_set_up(clone: Path) -> None:
    (clone / "pyproject.toml").unlink()
    bootstrap.hand_over(["facts", "bed.toml"])
    assert not (clone / ".venv").exists()


def test_an_old_python_is_told_so(
    clone: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "version_info", (3, 9, 2, "final", 0))
    with pytest.raises(SystemExit, match="2"):
        bootstrap.hand_over(["facts", "bed.toml"])
    assert "needs Python 3.11 or newer; this is 3.9" in capsys.readouterr().err


def test_a_missing_venv_module_is_told_so(
    clone: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setitem(sys.modules, "ensurepip", None)
    with pytest.raises(SystemExit, match="2"):
        bootstrap.hand_over(["facts", "bed.toml"])
    assert "sudo apt-get install python3-venv" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("output", "told"),
    [
        ("WARNING: Retrying ... NewConnectionError('...Failed to establish')", "no network"),
        ("ERROR: Could not install packages due to an OSError: No space left on device", "disk is full"),
        ("ERROR: No matching distribution found for pint==0", "No matching distribution"),
    ],
)
def test_a_failed_installation_is_told_in_one_sentence(output: str, told: str) -> None:
    assert told in bootstrap._why_not(output)
    assert "\n" not in bootstrap._why_not(output)


def test_a_set_up_for_tests_also_runs_but_not_the_other_way(clone: Path) -> None:
    set_up(clone, "run")
    assert bootstrap._ready("run")
    assert not bootstrap._ready("test")
    bootstrap._write_mark(bootstrap._whole("test"))
    assert bootstrap._ready("test")
    assert bootstrap._ready("run")


def test_changed_requirements_ask_for_a_new_set_up(clone: Path) -> None:
    set_up(clone, "run")
    (clone / "pyproject.toml").write_text('name = "tutorial-workbook"\ndependencies = []\n', encoding="utf-8")
    assert not bootstrap._ready("run")


def damages(clone: Path) -> dict[str, Callable[[], object]]:
    """What can be wrong with an environment of ours."""
    venv, python = clone / ".venv", Path(bootstrap._python())
    return {
        "interrupted": lambda: bootstrap._write_mark(bootstrap.UNFINISHED),
        "no pyvenv.cfg": (venv / "pyvenv.cfg").unlink,
        "no python": python.unlink,
        "a link to a Python that is gone": lambda: (python.unlink(), python.symlink_to(clone / "gone")),
        "python not executable": lambda: python.chmod(0o644),
        "python a folder": lambda: (python.unlink(), python.mkdir()),
    }


@pytest.mark.parametrize(
    "damage",
    ["interrupted", "no pyvenv.cfg", "no python", "a link to a Python that is gone", "python not executable",
     "python a folder"],
)  # fmt: skip
def test_a_damaged_environment_of_ours_is_made_again(
    damage: str, clone: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    set_up(clone, "run")
    damages(clone)[damage]()
    assert not bootstrap._ready("run")
    monkeypatch.setattr(bootstrap, "_add_pip", lambda lock: None)
    monkeypatch.setattr(bootstrap, "_install", lambda need, lines, lock: None)
    bootstrap._set_up("run")
    assert bootstrap._ready("run")
    assert "beginning again" in capsys.readouterr().err


def test_a_moved_clone_is_set_up_again(
    clone: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    set_up(clone, "run")
    (clone / ".venv" / "of-the-other-place").touch()
    monkeypatch.setattr(bootstrap, "_place", lambda: b"/elsewhere")
    assert not bootstrap._ready("run")
    monkeypatch.setattr(bootstrap, "_add_pip", lambda lock: None)
    monkeypatch.setattr(bootstrap, "_install", lambda need, lines, lock: None)
    bootstrap._set_up("run")
    assert bootstrap._ready("run")
    assert "was moved or copied" in capsys.readouterr().err
    assert not (clone / ".venv" / "of-the-other-place").exists()


def others_folders(clone: Path) -> dict[str, Callable[[], object]]:
    """What a person may have called .venv."""
    venv, own = clone / ".venv", clone / "own"
    own.mkdir()
    (own / "kept").touch()
    (own / bootstrap.MARK).write_text("another", encoding="utf-8")
    return {
        "an environment": lambda: own.rename(venv),
        "a link to one": lambda: venv.symlink_to(own),
        "a link to nowhere": lambda: venv.symlink_to(clone / "gone"),
        "a file": lambda: venv.write_text("VARIABLE=1", encoding="utf-8"),
        "a mark that is a folder": lambda: ((venv / bootstrap.MARK).mkdir(parents=True), own.rename(venv / "own")),
    }


@pytest.mark.parametrize(
    "kind", ["an environment", "a link to one", "a link to nowhere", "a file", "a mark that is a folder"]
)
def test_what_the_program_did_not_make_is_never_touched(
    kind: str, clone: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    others_folders(clone)[kind]()
    before = {path: path.lstat().st_mtime_ns for path in clone.rglob("*")}
    with pytest.raises(SystemExit, match="2"):
        bootstrap.hand_over(["facts", "bed.toml"])
    told = capsys.readouterr().err
    assert "was not made by this program" in told
    assert "Rename it" in told
    assert {path: path.lstat().st_mtime_ns for path in clone.rglob("*")} == before


def test_a_link_to_an_environment_of_ours_is_not_ours(clone: Path) -> None:
    set_up(clone, "run")
    bootstrap._write_mark(bootstrap.UNFINISHED)
    (clone / ".venv").rename(clone / "elsewhere")
    (clone / ".venv").symlink_to(clone / "elsewhere")
    with pytest.raises(SystemExit, match="2"):
        bootstrap._set_up("run")
    assert (clone / "elsewhere" / "pyvenv.cfg").exists()


def test_a_failure_before_anything_was_changed_leaves_it_whole(clone: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    set_up(clone, "run")
    monkeypatch.setattr(bootstrap, "_can_be_added_to", lambda mark: True)

    def fails(need: str, lines: list[str], lock: int) -> None:
        lines.append(said)
        raise SystemExit(2)

    monkeypatch.setattr(bootstrap, "_install", fails)
    said = "Collecting pint"
    with pytest.raises(SystemExit):
        bootstrap._set_up("test")
    assert bootstrap._ready("run")
    said = "Installing collected packages: pint"
    with pytest.raises(SystemExit):
        bootstrap._set_up("test")
    assert not bootstrap._ready("run")


def test_no_process_is_handed_over_twice(
    clone: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    set_up(clone, "run")
    monkeypatch.setenv(bootstrap.HANDED, str(os.getpid()))
    with pytest.raises(SystemExit, match="2"):
        bootstrap.hand_over(["facts", "bed.toml"])
    assert "does not start as it should" in capsys.readouterr().err


def test_a_python_that_is_no_program_is_told(clone: Path, capsys: pytest.CaptureFixture[str]) -> None:
    set_up(clone, "run")
    Path(bootstrap._python()).write_bytes(b"\x00\x01")
    with pytest.raises(SystemExit, match="2"):
        bootstrap.hand_over(["facts", "bed.toml"])
    assert "Remove that folder and call again" in capsys.readouterr().err


def test_stopping_the_set_up_is_no_traceback(
    clone: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def stopped(need: str) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(bootstrap, "_set_up", stopped)
    with pytest.raises(SystemExit, match="2"):
        bootstrap.hand_over(["facts", "bed.toml"])
    assert "Stopped" in capsys.readouterr().err
