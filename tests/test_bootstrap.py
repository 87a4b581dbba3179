"""The first run: what it needs, what it says when it can't."""

from __future__ import annotations

import sys
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
    python = Path(bootstrap._python())
    python.parent.mkdir(parents=True)
    python.write_text("", encoding="utf-8")
    (clone / ".venv" / f"{bootstrap.STAMP}-{kind}").write_text(bootstrap._wanted(), encoding="utf-8")


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
    assert bootstrap._stamp("run") == bootstrap._wanted()
    assert bootstrap._stamp("test") == ""
    set_up_test = clone / ".venv" / f"{bootstrap.STAMP}-test"
    set_up_test.write_text(bootstrap._wanted(), encoding="utf-8")
    assert bootstrap._stamp("test") == bootstrap._stamp("run") == bootstrap._wanted()


def test_changed_requirements_ask_for_a_new_set_up(clone: Path) -> None:
    set_up(clone, "run")
    (clone / "pyproject.toml").write_text('name = "tutorial-workbook"\ndependencies = []\n', encoding="utf-8")
    assert bootstrap._stamp("run") != bootstrap._wanted()


def test_stopping_the_set_up_is_no_traceback(
    clone: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def stopped(need: str) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(bootstrap, "_set_up", stopped)
    with pytest.raises(SystemExit, match="2"):
        bootstrap.hand_over(["facts", "bed.toml"])
    assert "Stopped" in capsys.readouterr().err
