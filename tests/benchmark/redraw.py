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
# While a slider is dragged: when the last move was made, when the last new drawing was painted.
DRAGGED = """drawing => { window.dragged = {move: 0, drawn: 0};
    document.addEventListener('pointermove', () => { window.dragged.move = performance.now(); }, true);
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
            for panel in ("design", "cutting"):
                times = Path(f"{kept}-{panel}").read_text(encoding="utf-8").split()
                what = f"{panel} panel in a browser, from control to drawing (clock)"
                yield timed(what, [float(time) / 1000 for time in times])
            times = Path(f"{kept}-drag").read_text(encoding="utf-8").split()
            yield timed("a slider dragged in 12 moves, from the last to the last drawing (clock)",
                        [float(time) / 1000 for time in times])  # fmt: skip


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
    page.evaluate(DRAGGED, drawing)
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


def measure(page: Any, drawing: str, changes: Sequence[tuple[str, str]]) -> list[float]:
    """Milliseconds for each change, from the control to the new drawing."""
    times = []
    for label, value in changes:
        times.append(float(page.evaluate(WATCH, [label, value, drawing])))
        page.wait_for_timeout(60)
    return times
