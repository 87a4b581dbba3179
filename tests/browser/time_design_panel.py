"""The browser part of the drawing benchmark; not collected with the tests (its name does not begin with test)."""

from __future__ import annotations

import statistics
from collections.abc import Callable
from pathlib import Path
from typing import Any


def test_time_from_control_to_drawing(run_notebook: Callable[..., Any], keep: str | None) -> None:
    from tests.benchmark.bench_drawing import measure

    page = run_notebook("01_design.ipynb", width=1300, height=1500)
    page.locator("svg[aria-label^='Slat plan']").first.wait_for(timeout=60_000)
    page.wait_for_timeout(1500)
    times = sorted(measure(page))
    print(
        f"\ncontrol to new drawing, {len(times)} changes: median {statistics.median(times):.0f} ms, "
        f"p95 {times[int(len(times) * 0.95)]:.0f} ms, longest {times[-1]:.0f} ms"
    )
    if keep:
        page.get_by_label("Size", exact=True).select_option("king")
        page.locator(".tw-result").get_by_text("was 14").wait_for()
        page.wait_for_timeout(500)
        page.screenshot(path=str(Path(keep)))
