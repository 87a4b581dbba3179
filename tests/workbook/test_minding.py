"""Findings under the drawing: a tried remedy is a button, and pressing it cures what it stands beside."""

from __future__ import annotations

from pathlib import Path

import pytest

from tutorial_lib.design.build_file import read_build
from tutorial_lib.workbook.design_panel import DesignPanel
from tutorial_lib.workbook.minding import tried

pytest.importorskip("ipywidgets")
BUILD = Path(__file__).parents[2] / "assets" / "builds" / "spare-room-twin.toml"


@pytest.fixture
def panel() -> DesignPanel:
    made = DesignPanel(read_build(BUILD.read_text(encoding="utf-8")))
    assert made.widget is not None
    return made


def test_a_remedy_is_a_button_that_cures(panel: DesignPanel) -> None:
    minding = panel._view.minding  # type: ignore[union-attr]
    finding = next(f for f in panel.plan.findings if f.rule == "kneeling" and f.severity == "caution")
    assert minding.cures[finding].children == ()  # nothing is told before it was tried
    minding.offer(finding, tried(panel.plan, finding))
    button = minding.cures[finding].children[0]
    assert "of what is allowed" in button.tooltip
    button.click()
    assert panel.errors == {}
    assert not any(f.rule == "kneeling" and f.severity == "caution" for f in panel.plan.findings)


def test_notes_ask_for_no_remedy(panel: DesignPanel) -> None:
    minding = panel._view.minding  # type: ignore[union-attr]
    assert minding.cures
    assert all(finding.severity != "note" for finding in minding.cures)
