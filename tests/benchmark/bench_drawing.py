"""Time from a control's change to the new drawing in a real browser, for the design panel. Run by hand:

    python tests/benchmark/bench_drawing.py [screenshot.png]

Prints median and p95 of 60 changes (typed lengths, a choice, a count), the writer's own time, and may keep a
screenshot of the panel after "king" was chosen.
"""

from __future__ import annotations

import statistics
import sys
import time
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests" / "browser")]

# The clock runs in the page: from setting the control to the drawing's first painted frame.
WATCH = """([label, value]) => new Promise(done => {
    const named = [...document.querySelectorAll('.widget-label')].find(e => e.textContent === label);
    const input = named.parentElement.querySelector('input, select');
    const drawn = record => [...record.addedNodes].some(n => n.querySelector && n.querySelector('svg[role=img]'));
    const seen = new MutationObserver(records => { if (!records.some(drawn)) return; seen.disconnect();
        requestAnimationFrame(() => setTimeout(() => done(performance.now() - start), 0)); });
    seen.observe(document.body, {childList: true, subtree: true});
    const start = performance.now();
    input.value = value;
    input.dispatchEvent(new Event('input', {bubbles: true}));
    input.dispatchEvent(new Event('change', {bubbles: true}));
})"""
CHANGES = [
    ("Slat spacing at most", "1 1/2"),
    ("Leg set-back, ends", "6"),
    ("Slat spacing at most", "2"),
    ("That height", "9"),
    ("Leg set-back, ends", "4 1/2"),
    ("That height", "11 1/2"),
]


def measure(page: Any, rounds: int = 10) -> list[float]:
    """Milliseconds for each change."""
    times = []
    for _ in range(rounds):
        for label, value in CHANGES:
            times.append(float(page.evaluate(WATCH, [label, value])))
            page.wait_for_timeout(60)
    return times


def writer() -> float:
    """Milliseconds to plan, draw and write the panel without a browser, median."""
    from tutorial_lib.workbook.design_panel import DesignPanel

    panel, times = DesignPanel(), []
    for value in ("1 1/2 in", "2 in") * 15:
        start = time.perf_counter()
        panel.set("slats.gap", value)
        panel.html()
        times.append((time.perf_counter() - start) * 1000)
    return statistics.median(times)


def main(picture: str | None) -> None:
    """Runs the browser part through the browser tests' own fixtures."""
    import pytest

    class Plugin:
        @pytest.fixture
        def keep(self) -> str | None:
            return picture

    code = pytest.main(
        [
            "-q",
            "-s",
            "-p",
            "no:cacheprovider",
            "-c",
            str(ROOT / "pyproject.toml"),
            str(ROOT / "tests" / "browser" / "time_design_panel.py"),
        ],
        plugins=[Plugin()],
    )
    print(f"plan, draw and write, no browser: median {writer():.1f} ms")
    raise SystemExit(code)


if __name__ == "__main__":
    main(sys.argv[1] if len(sys.argv) > 1 else None)
