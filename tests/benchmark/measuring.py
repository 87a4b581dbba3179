"""Rows of the benchmark's table: how they are timed, told, and kept between runs."""

from __future__ import annotations

import json
import os
import platform
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterable, Sequence
from dataclasses import asdict, dataclass
from datetime import date
from fractions import Fraction
from math import log
from pathlib import Path
from typing import TypeVar

Made = TypeVar("Made")
ROOT = Path(__file__).parents[2]
KEPT = Path(__file__).with_name("measured.json")
BUILD = ROOT / "assets" / "builds" / "spare-room-twin.toml"
CAPTIONS = ROOT / "assets" / "captions" / "spare-room-twin.vtt"


@dataclass(frozen=True, kw_only=True)
class Row:
    """One line of the table; what isn't measured is empty."""

    what: str
    runs: int
    median: str
    p95: str = ""
    beside: str = ""  # ratios, exponents, shares


def processor(work: Callable[..., Made], *arguments: object) -> tuple[float, Made]:
    """Seconds of processor time, and what was made."""
    start = time.process_time()
    made = work(*arguments)
    return time.process_time() - start, made


def clock(work: Callable[..., Made], *arguments: object) -> tuple[float, Made]:
    """Seconds by the clock, and what was made."""
    start = time.perf_counter()
    made = work(*arguments)
    return time.perf_counter() - start, made


def command(*arguments: str | Path, memory: Path | None = None) -> float:
    """Seconds of processor time of one command in a fresh process, with nothing kept by others, or what is kept there.

    Args:
        arguments: of the command line.
        memory: the cache folder (as Linux has it) for what a command keeps for the next one.
    """
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    call = [sys.executable, "-m", "tutorial_lib", *map(str, arguments)]
    # compiled modules are kept, as they are for whoever uses it; 1 is a question answered no
    environment = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    environment["PYTHONPYCACHEPREFIX"] = str(Path(tempfile.gettempdir()) / "tutorial-benchmark")
    environment |= {"TUTORIAL_NO_MEMORY": "" if memory else "1", "XDG_CACHE_HOME": str(memory or "")}
    quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    done = subprocess.run(call, cwd=ROOT, env=environment, check=False, **quiet)
    assert done.returncode in (0, 1), call
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def p95(times: Sequence[float]) -> float:
    """The time that one in twenty takes longer than."""
    return sorted(times)[min(int(0.95 * len(times)), len(times) - 1)]


def timed(what: str, times: Sequence[float], beside: str = "") -> Row:
    """A row of times in seconds."""
    return Row(
        what=what, runs=len(times), median=written(statistics.median(times)), p95=written(p95(times)), beside=beside
    )


def written(seconds: float) -> str:
    """A time with three figures: "12.3 ms", "1.42 s", "12 min"."""
    if seconds < 1:
        return f"{1000 * seconds:.3g} ms"
    return f"{seconds:.3g} s" if seconds < 600 else f"{seconds / 60:.3g} min"


def exponent(sizes: Sequence[float], times: Sequence[float]) -> float:
    """The power of the size that times grow with, by least squares on logarithms.

    >>> round(exponent((10, 100, 1000), (0.1, 10, 1000)), 6)
    2.0
    """
    return statistics.linear_regression([log(s) for s in sizes], [log(t) for t in times]).slope


def yardstick() -> Fraction:
    """The same plain work everywhere: 4,000 fractions added, so that runs on other machines can be compared."""
    return sum((Fraction(1, 1 + n % 12) for n in range(4000)), Fraction(0))


def keep(group: str, rows: Iterable[Row]) -> None:
    """Keeps a group's rows, with when and where they were measured; the others stay."""
    known = kept()
    machine = f"Python {platform.python_version()}, {os.cpu_count()} cores, load {os.getloadavg()[0]:.0f}, "
    machine += f"yardstick {written(min(processor(yardstick)[0] for _ in range(5)))}"
    machine += ", first in line" if _first_in_line() else ""
    known[group] = {"when": date.today().isoformat(), "where": machine, "rows": [asdict(row) for row in rows]}
    KEPT.write_text(json.dumps(known, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")


def _first_in_line() -> bool:
    """Whether it was given the machine before all that runs beside it, as ``chrt -r 1`` does."""
    return hasattr(os, "sched_getscheduler") and os.sched_getscheduler(0) == os.SCHED_RR


def kept() -> dict[str, dict[str, object]]:
    """What was measured so far, by group."""
    return dict(json.loads(KEPT.read_text(encoding="utf-8"))) if KEPT.exists() else {}
