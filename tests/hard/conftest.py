"""Hostile inputs write into a state of their own, never into the clone's."""

from __future__ import annotations

from pathlib import Path

import pytest


@pytest.fixture(autouse=True)
def own_state(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TUTORIAL_STATE", str(tmp_path / "state"))
