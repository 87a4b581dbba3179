"""From a control's change to the new drawing: what a panel takes without a browser, and in a real one.

``python -m tests.benchmark redraw``; the browser's part is left out where there is no Chromium.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Sequence
from pathlib import Path
from statistics import median
from typing import Any

from tests.benchmark.measuring import ROOT, Row, processor, timed
from tests.browser.servers import NAMES

# The clock runs in the page: from setting the control to the first painted frame with a new drawing.
WATCH = """([label, value, drawing]) => new Promise(done => {
    const named = [...document.querySelectorAll('.widget-label')].find(e => e.textContent === label);
    const input = named.parentElement.querySelector('input, select');
    const old = document.querySelector(drawing);
    const seen = new MutationObserver(() => { if (document.querySelector(drawing) === old) return; seen.disconnect();
        requestAnimationFrame(() => setTimeout(() => done(performance.now() - start), 0)); });
    seen.observe(document.body, {childList: true, subtree: true});
    const start = performance.now();
    input.value = value;
    input.dispatchEvent(new Event('input', {bubbles: true}));
    input.dispatchEvent(new Event('change', {bubbles: true}));
})"""
# While a slider is dragged: when its value last changed, when the last new drawing was painted.
DRAGGED = """([drawing, label]) => { window.dragged = {move: 0, drawn: 0};
    const rows = [...document.querySelectorAll('.tw-row')];
    const row = rows.find(e => e.querySelector('.widget-label')?.textContent === label);
    new MutationObserver(() => { window.dragged.move = performance.now(); })
        .observe(row.querySelector('.noUi-handle'), {attributes: true, attributeFilter: ['aria-valuenow']});
    let old = document.querySelector(drawing);
    new MutationObserver(() => { const now = document.querySelector(drawing); if (now === old) return; old = now;
        requestAnimationFrame(() => setTimeout(() => { window.dragged.drawn = performance.now(); }, 0));
    }).observe(document.body, {childList: true, subtree: true}); }"""
CHANGES = [
    ("Spacing at most", "1 1/2"),
    ("Set-back, ends", "6"),
    ("Spacing at most", "2"),
    ("That height", "9"),
    ("Set-back, ends", "4 1/2"),
    ("That height", "11 1/2"),
]
KERFS = [("Kerf", f"{3 + step}/128") for step in range(40)]
TIMES = "TUTORIAL_TIMES"  # where the browser's times go [ms]
# What browser, server and kernel take between them: a box of which each change sets a picture made beforehand.
FLOOR = """
import ipywidgets
from tests.benchmark.redraw import pictures
made, box, shown = pictures(), ipywidgets.Text(description="Floor", continuous_update=False), ipywidgets.HTML()
def turn(_):
    made.reverse()
    shown.value = made[0]
box.observe(turn, "value")
turn(None)
ipywidgets.VBox([box, shown])
"""
TURNS = [("Floor", str(step)) for step in range(60)]
SHOWN = {
    "floor": "a text box that sets one ready picture, in a browser (clock)",
    "design": "design panel in a browser, from control to drawing (clock)",
    "pace": "the same at a person's pace, a change every 1.5 s (clock)",
    "cutting": "cutting panel in a browser, from control to drawing (clock)",
    "drag": "a slider dragged in 12 moves, from the last to the last drawing (clock)",
}


def rows() -> Iterator[Row]:
    """Panels by themselves, then the design panel in a browser."""
    yield timed("design panel, without a browser", list(_design()))
    yield timed("strength panel, without a browser", list(_strength()))
    if any(map(shutil.which, NAMES)):
        with tempfile.TemporaryDirectory() as folder:
            kept = Path(folder) / "times"
            call = [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", "tests/browser/time_panels.py"]
            environment = {**os.environ, TIMES: str(kept)}
            subprocess.run(call, cwd=ROOT, env=environment, check=True, stdout=subprocess.DEVNULL)
            yield from _shown({name: list(_kept(f"{kept}-{name}")) for name in SHOWN})


def _kept(path: str) -> Iterator[float]:
    return (float(time) / 1000 for time in Path(path).read_text(encoding="utf-8").split())


def _shown(times: dict[str, list[float]]) -> Iterator[Row]:
    """What the browser showed, beside what a ready picture takes."""
    floor = median(times["floor"])
    for name, taken in times.items():
        yield timed(SHOWN[name], taken, "" if name == "floor" else f"{median(taken) / floor:.2g} times a ready picture")


def pictures() -> list[str]:
    """Two slat plans as the design panel shows them."""
    from tests.design.builds import demo
    from tutorial_lib.workbook.design_panel import DesignPanel

    panel = DesignPanel(demo())
    assert panel.widget is not None
    shown = []
    for gap in ("1 1/2 in", "2 in"):
        panel.set("slats.gap", gap)
        shown.append(panel.widget.children[3].children[1].children[0].children[1].value)
    return shown


def _design() -> Iterator[float]:
    """Plan, draw and write; no gap between slats comes twice."""
    from tutorial_lib.workbook.design_panel import DesignPanel

    panel = DesignPanel()
    assert panel.widget is not None
    for sixteenths in range(40):
        yield processor(_changed, panel, "slats.gap", f"{1 + sixteenths // 16} {sixteenths % 16}/16 in")[0]


def _strength() -> Iterator[float]:
    from tests.design.builds import demo
    from tutorial_lib.workbook.strength_panel import StrengthPanel

    panel = StrengthPanel(demo())
    assert panel.widget is not None
    for step in range(60):
        yield processor(_changed, panel, "person", 150 + 3 * step)[0]


def _changed(panel: Any, key: str, value: object) -> None:
    panel.set(key, value)  # and draws the view on show


def drags(page: Any, drawing: str, label: str, times: int = 12) -> list[float]:
    """Milliseconds from the last of 12 moves of a slider to the last drawing, for each drag."""
    row = page.locator(".tw-row").filter(has=page.get_by_label(label, exact=True)).first
    handle = row.locator(".noUi-handle").bounding_box()
    rail = row.locator(".noUi-base").bounding_box()
    x, y = handle["x"] + handle["width"] / 2, handle["y"] + handle["height"] / 2
    page.evaluate(DRAGGED, [drawing, label])
    found = []
    for turn in range(times):
        end = rail["x"] + rail["width"] * (0.75 if turn % 2 else 0.45)
        page.mouse.move(x, y)
        page.mouse.down()
        for step in range(1, 13):
            page.mouse.move(x + (end - x) * step / 12, y)
            page.wait_for_timeout(16)
        page.mouse.up()
        page.wait_for_timeout(2000)
        at = page.evaluate("window.dragged")
        if at["drawn"] > at["move"]:  # else the last move was too small for another drawing
            found.append(at["drawn"] - at["move"])
        x = end
    return found


def measure(page: Any, drawing: str, changes: Sequence[tuple[str, str]], pause: int = 60) -> list[float]:
    """Milliseconds for each change, from the control to the new drawing.

    Args:
        page: a notebook that has run.
        drawing: which drawing, as CSS.
        changes: labels of controls, and what is typed there.
        pause: how long after each drawing the next change comes [ms].
    """
    times = []
    for label, value in changes:
        times.append(float(page.evaluate(WATCH, [label, value, drawing])))
        page.wait_for_timeout(pause)
    return times
