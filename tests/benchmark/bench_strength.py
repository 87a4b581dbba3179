"""Control to new blocks in the strength panel, by hand: python -m tests.benchmark.bench_strength."""

from __future__ import annotations

import statistics
import time

from tests.design.builds import demo
from tutorial_lib.workbook.strength_panel import StrengthPanel


def main() -> None:
    """Prints the median and the 95th percentile over 60 moves, clock and processor time."""
    panel = StrengthPanel(demo())
    clock, processor = [], []
    for i in range(60):
        t, c = time.perf_counter(), time.process_time()
        panel.set("person", 150 + 3 * i)
        panel.html()
        clock.append(1000 * (time.perf_counter() - t))
        processor.append(1000 * (time.process_time() - c))
    for name, found in (("clock", clock), ("processor", processor)):
        print(f"{name}: median {statistics.median(found):.0f} ms, p95 {sorted(found)[56]:.0f} ms")


if __name__ == "__main__":
    main()
