"""Findings under the drawing: a tried remedy is a button, and pressing it cures what it stands beside."""

from __future__ import annotations

import pickle
from fractions import Fraction
from pathlib import Path
from unittest.mock import Mock

import pytest

from tutorial_lib.design.build_file import read_build
from tutorial_lib.findings import Remedy
from tutorial_lib.workbook import beside
from tutorial_lib.workbook.design_panel import DesignPanel
from tutorial_lib.workbook.sections import finding_line

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
    assert minding.cures[finding].cures.children == ()  # nothing is told before it was tried
    minding.offer(finding, beside.tried(panel.plan, finding))
    button = minding.cures[finding].cures.children[0]
    assert "of what is allowed" in button.tooltip
    button.click()
    assert panel.errors == {}
    assert not any(f.rule == "kneeling" and f.severity == "caution" for f in panel.plan.findings)


def test_notes_ask_for_no_remedy(panel: DesignPanel) -> None:
    minding = panel._view.minding  # type: ignore[union-attr]
    assert minding.cures
    assert all(finding.severity != "note" for finding in minding.cures)


def test_the_next_bed_is_told_by_the_same_widgets(panel: DesignPanel) -> None:
    from ipywidgets.widgets.widget import _instances

    minding = panel._view.minding  # type: ignore[union-attr]
    panel.set("mattress.size", "king")
    before = len(_instances)
    panel.set("mattress.size", "twin")
    told = [row.line.value for row in minding.rows[: len(panel.plan.findings)]]
    assert len(_instances) == before and told == list(map(finding_line, panel.remarks(panel.plan)))


def test_a_line_that_says_something_else_offers_nothing_untried(panel: DesignPanel) -> None:
    minding = panel._view.minding  # type: ignore[union-attr]
    finding = next(iter(minding.cures))
    row = minding.cures[finding]
    row.offer((Remedy.setting("Do it", slats__gap="2 in"), Remedy.setting("Do that", slats__gap="1 in")))
    assert [button.description for button in row.cures.children] == ["Do it", "Do that"]
    row.say(finding)
    assert row.cures.children == ()
    row.offer((Remedy.setting("Do that", slats__gap="1 1/2 in"),))
    row.cures.children[0].click()
    assert panel.options.slats.gap == Fraction(3, 2)


def test_another_process_tries_the_same(panel: DesignPanel) -> None:
    finding = next(f for f in panel.plan.findings if f.rule == "kneeling" and f.severity == "caution")
    there = beside.remedies(*pickle.loads(pickle.dumps((panel.options, finding))))
    assert there and there == beside.tried(panel.plan, finding)


def test_it_ends_with_the_notebook(monkeypatch: pytest.MonkeyPatch) -> None:
    ended: list[int] = []
    parent = Mock(join=lambda: ended.append(-1))
    monkeypatch.setattr(beside, "parent_process", lambda: parent)
    monkeypatch.setattr(beside.os, "_exit", ended.append)
    beside._end_with_notebook()
    assert ended == [-1, 0]
