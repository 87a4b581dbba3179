"""A pytest plugin: which lines of the library each test executes, and the processor time it takes.

    python -m pytest -p tests.mutation.covering tests/strength      # adds to the file that COVERING names

It wants Python 3.12, whose ``sys.monitoring`` asks once a line and test, so that the tests are hardly slower;
coverage.py does not yet tell tests apart that way. Answers remembered from an earlier test are forgotten before each,
or the second to ask would seem not to depend on what made them.
"""

from __future__ import annotations

import functools
import json
import os
import sys
import time
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path
from types import CodeType
from typing import Any

import pytest

ROOT = Path(__file__).parents[2]
OUT = Path(os.environ.get("COVERING", "covering.jsonl"))
TOOL = 1  # sys.monitoring.COVERAGE_ID
PACKAGE = f"{ROOT / 'tutorial_lib'}{os.sep}"

_lines: dict[str, int] = defaultdict(int)  # of a file: bit n for line n
_red: set[str] = set()
_caches: list[Any] = []
_modules = 0


def _executed(code: CodeType, line: int) -> object:
    if PACKAGE and code.co_filename.startswith(PACKAGE):
        _lines[code.co_filename] |= 1 << line
    return sys.monitoring.DISABLE  # until the next test


def pytest_unconfigure() -> None:
    """Listen no more."""
    sys.monitoring.set_events(TOOL, 0)
    sys.monitoring.free_tool_id(TOOL)


def pytest_configure() -> None:
    """Listen."""
    sys.monitoring.use_tool_id(TOOL, "covering")
    sys.monitoring.register_callback(TOOL, sys.monitoring.events.LINE, _executed)
    sys.monitoring.set_events(TOOL, sys.monitoring.events.LINE)


def _forget() -> None:
    """Empty what remembers answers; tables and units, once read, stay."""
    global _modules
    if len(sys.modules) != _modules:
        _modules = len(sys.modules)
        ours = [vars(module) for name, module in list(sys.modules.items()) if name.startswith("tutorial_lib")]
        found = [c for names in ours for c in list(names.values()) if isinstance(c, functools._lru_cache_wrapper)]
        _caches[:] = [cache for cache in found if cache.cache_parameters()["maxsize"]]
    for cache in _caches:
        cache.cache_clear()


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item: pytest.Item) -> Iterator[None]:
    """Write down the lines of one test, its fixtures' included."""
    _forget()
    _lines.clear()
    sys.monitoring.restart_events()
    began = time.process_time()
    told = yield
    taken = time.process_time() - began
    if item.nodeid not in _red:
        lines = {str(Path(name).relative_to(ROOT)): f"{bits:x}" for name, bits in _lines.items()}
        with OUT.open("a", encoding="utf-8") as out:
            out.write(json.dumps({"test": item.nodeid, "seconds": round(taken, 3), "lines": lines}) + "\n")
    return told


def pytest_runtest_logreport(report: pytest.TestReport) -> None:
    """A test that fails or is left out as it stands shows nothing."""
    if not report.passed:
        _red.add(report.nodeid)
