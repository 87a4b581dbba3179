"""When a panel tells what takes long: after a pause, room by room, and no more of it than a new move leaves."""

from __future__ import annotations

import asyncio
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from tests.design.builds import demo
from tutorial_lib.plan import Plan, plan
from tutorial_lib.workbook import view
from tutorial_lib.workbook.design_panel import DesignPanel

pytest.importorskip("ipywidgets")


def test_a_new_move_ends_the_rooms_of_the_last_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TUTORIAL_STATE", str(tmp_path))
    monkeypatch.setattr(view, "PAUSE", 0.0)
    panel = DesignPanel(demo())
    assert panel.widget is not None
    worked: list[Plan] = []

    def ahead(plan: Plan) -> Iterator[None]:
        for _ in range(3):
            worked.append(plan)
            if len(worked) == 1:
                panel.set("slats.gap", "2 in")
            yield

    async def person() -> None:
        panel.set("slats.gap", "1 in")
        while not panel._view or not panel._view.waiting.task.done():
            await asyncio.sleep(0)

    monkeypatch.setattr(panel, "ahead", ahead)
    with ThreadPoolExecutor(1) as elsewhere:  # a browser test of the same process may have left a loop in this thread
        elsewhere.submit(asyncio.run, person()).result()
    first, *others = worked
    assert first is not panel.plan and others == [panel.plan] * 3
    assert panel._view is not None and "15</span> slats" in panel._view.result.value


def test_rooms_one_by_one_find_what_the_plan_finds() -> None:
    made = plan(demo())
    rooms = list(made.found_by_room())
    assert len(rooms) == 6 and {finding for room in rooms for finding in room} >= set(made.findings)
