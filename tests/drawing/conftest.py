"""The demo bed and beds of other kinds, for the drawing tests."""

from __future__ import annotations

from pathlib import Path

import pytest

from tutorial_lib.design.build_file import read_build
from tutorial_lib.design.options import Options

BUILD = Path(__file__).parents[2] / "assets" / "builds" / "spare-room-twin.toml"


@pytest.fixture(scope="session")
def demo() -> Options:
    return read_build(BUILD.read_text(encoding="utf-8"))
