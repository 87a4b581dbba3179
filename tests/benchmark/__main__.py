"""Measures groups of the benchmark and writes the table: ``python -m tests.benchmark [GROUP ...]``; all without one.

Each group's rows are kept in ``measured.json``, so that a long run can be made in parts.
"""

from __future__ import annotations

import importlib
import sys
import time
from pathlib import Path
from typing import Any

from tests.benchmark.measuring import keep, kept

TABLE = Path(__file__).with_name("README.md")
GROUPS = {
    "commands": "Commands on the demo, each in a fresh process",
    "redraw": "Redraw, from a control to the new drawing",
    "cuts": "Cut plans, beside general solvers",
    "packing": "Bin packing, boards of one length",
    "talks": "The check of a talk, beside general parsers",
    "sizes": "All sizes",
    "families": "Families of beds",
    "page": "The viewers' page",
}
HEAD = """# The benchmark

`python3 -m tutorial_lib bench [GROUP ...]` measures and writes this table; groups: {groups}.
Times are processor time unless "clock" stands there; a busy machine lengthens those too, up to twice, so each group has
its load, and the time of a yardstick: 4,000 fractions added in plain Python. What stands beside one another in a group
was measured in one run. A power told as "grows with" comes from least squares on logarithms. A group "first in line"
ran as `chrt -r 1 python3 -m tests.benchmark GROUP`: before all that ran beside it, so that a clock on a busy machine
goes nearly as on a quiet one.
"""


def table() -> str:
    """All that was measured so far."""
    lines, known = [HEAD.format(groups=", ".join(f"`{group}`" for group in GROUPS))], kept()
    for group, title in GROUPS.items():
        if group in known:
            found: Any = known[group]
            lines += [f"## {title}", "", f"{found['when']}, {found['where']}", "", "| what | runs | median | p95 | |"]
            lines += ["|---|---|---|---|---|"]
            lines += [
                f"| {r['what']} | {r['runs'] or ''} | {r['median']} | {r['p95']} | {r['beside']} |"
                for r in found["rows"]
            ]
            lines.append("")
    return "\n".join(lines).rstrip() + "\n"


def main(wanted: list[str]) -> int:
    """Measures, keeps and writes; 2 for a group that isn't there."""
    if unknown := [name for name in wanted if name not in GROUPS]:
        print(f"tutorial: no group {', '.join(unknown)}; there are {', '.join(GROUPS)}.", file=sys.stderr)
        return 2
    for number, group in enumerate(wanted or GROUPS, 1):
        print(f"{number} of {len(wanted or GROUPS)}: {group}", file=sys.stderr, flush=True)
        rows, started = [], time.perf_counter()
        for row in importlib.import_module(f"tests.benchmark.{group}").rows():
            print(" | ".join(filter(None, (row.what, row.median, row.p95, row.beside))), flush=True)
            rows.append(row)
        keep(group, rows)
        TABLE.write_text(table(), encoding="utf-8")
        print(f"{time.perf_counter() - started:.0f} s", file=sys.stderr)
    print(f"wrote {TABLE}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
