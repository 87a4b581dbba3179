"""The house is in order: style, types, the import contract, and a package that loads nothing."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

import tutorial_lib


def run(root: Path, *command: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(command, cwd=root, capture_output=True, text=True, check=False)


@pytest.mark.parametrize(
    "command",
    [("ruff", "check", "--quiet", "."), ("mypy", "--no-error-summary"), ("importlinter.cli", "lint")],
    ids=lambda command: command[0],
)
def test_the_tools_find_nothing(root: Path, command: tuple[str, ...]) -> None:
    if command[0] == "importlinter.cli":
        result = run(root, sys.executable, "-c", "from importlinter.cli import lint_imports_command as c; c()")
    else:
        result = run(root, sys.executable, "-m", *command)
    assert result.returncode == 0, result.stdout + result.stderr


def test_loading_the_package_loads_nothing_else(root: Path) -> None:
    code = "import sys, tutorial_lib; print(sorted(m for m in sys.modules if m.startswith('tutorial_lib')))"
    assert run(root, sys.executable, "-S", "-c", code).stdout.strip() == "['tutorial_lib']"


def test_help_needs_the_standard_library_alone(root: Path) -> None:
    result = run(root, sys.executable, "-S", "-m", "tutorial_lib", "--help")
    assert result.returncode == 0, result.stderr
    assert "COMMAND" in result.stdout


@pytest.mark.parametrize("name", tutorial_lib.__all__)
def test_public_names_resolve(name: str) -> None:
    assert getattr(tutorial_lib, name) is not None


def test_an_unknown_public_name_is_an_attribute_error() -> None:
    with pytest.raises(AttributeError, match="no attribute 'matress'"):
        _ = tutorial_lib.matress


@pytest.mark.parametrize("name", ["__init__.py", "__main__.py", "bootstrap.py"])
def test_an_old_python_can_parse_the_first_run(root: Path, name: str) -> None:
    import ast

    source = (root / "tutorial_lib" / name).read_text(encoding="utf-8")
    ast.parse(source, feature_version=(3, 6))
    assert 'f"' not in source


def test_no_module_outgrows_the_reader(root: Path) -> None:
    long = {
        str(path.relative_to(root)): lines
        for path in (root / "tutorial_lib").rglob("*.py")
        if (lines := len(path.read_text(encoding="utf-8").splitlines())) > 400
    }
    assert not long, f"split by idea: {long}"
