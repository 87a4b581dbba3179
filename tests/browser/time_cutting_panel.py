"""The browser part of the cutting benchmark; not collected with the tests (its name does not begin with test)."""

from __future__ import annotations

import os
import statistics
from collections.abc import Callable
from typing import Any

# From the slider's move to the first painted frame of the new boards.
WATCH = """([label, value]) => new Promise(done => {
    const named = [...document.querySelectorAll('.widget-label')].find(e => e.textContent === label);
    const input = named.parentElement.querySelector('input');
    const host = document.querySelector('svg[aria-label^="Board 1"]').closest('.widget-html-content');
    const seen = new MutationObserver(() => { seen.disconnect();
        requestAnimationFrame(() => setTimeout(() => done(performance.now() - start), 0)); });
    seen.observe(host, {childList: true, subtree: true});
    const start = performance.now();
    input.value = value;
    input.dispatchEvent(new Event('input', {bubbles: true}));
    input.dispatchEvent(new Event('change', {bubbles: true}));
})"""


def test_time_from_control_to_new_plan_and_boards(run_notebook: Callable[..., Any]) -> None:
    page = run_notebook("02_cutting.ipynb", width=1300, height=1900)
    page.locator("svg[aria-label^='Board 1']").first.wait_for(timeout=60_000)
    page.wait_for_timeout(1500)
    times = []
    for step in range(60):
        value = f"{4 + step % 12}/64"
        times.append(float(page.evaluate(WATCH, ["Kerf", value])))
        page.wait_for_timeout(60)
    times.sort()
    print(
        f"\nkerf to new plan and boards, {len(times)} changes: median {statistics.median(times):.0f} ms, "
        f"p95 {times[int(len(times) * 0.95)]:.0f} ms, longest {times[-1]:.0f} ms"
    )
    if keep := os.environ.get("KEEP_PICTURE"):
        page.screenshot(path=keep)
