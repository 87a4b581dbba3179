"""Tries single changes, each in a fork of one process that has collected the tests: only those that execute its line.

    python -m tests.mutation.trying PLAN.json OUT.json MINUTES     # in a copy of the project; the campaign calls it

A change within functions is put into the functions that are loaded, a constant is worked out anew; what nobody notices
so, and all else, is tried in a process of its own, which reads the changed file. A test that notices is run once more
without the change: red then, it shows nothing.
"""

from __future__ import annotations

import gc
import json
import os
import re
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import asdict, dataclass, field, replace
from itertools import pairwise
from pathlib import Path
from typing import Any, NoReturn

import pytest

from tests.mutation.changes import Change, read, where
from tests.mutation.swapping import Loaded

BUDGET = 20.0  # seconds of processor time for the tests of one change
START = 4.0  # seconds that a process of its own takes before the first test
HANGS = 30  # seconds beyond which a test that is quick otherwise hangs
WHOLE = ".whole"  # beside a changed file: what it was, also for the run after one that was killed


@dataclass(eq=False)  # plugins are told apart by what they are
class Trial:
    """The plugin: in place of a run of the tests, a run for each change."""

    tries: list[tuple[Change, list[str]]]
    out: Path
    until: float
    done: list[Change] = field(default_factory=list)
    items: dict[str, Any] = field(default_factory=dict)
    green: dict[str, bool] = field(default_factory=dict)
    red: bool = False

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """In a fork: whether a test failed."""
        self.red = self.red or report.failed

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """All changes, as long as there is time."""
        self.items = {item.nodeid: item for item in session.items}
        loaded = Loaded.now()
        gc.collect()
        gc.freeze()
        for change, tests in self.tries:
            if time.monotonic() > self.until:
                return True
            began = resource.getrusage(resource.RUSAGE_CHILDREN)
            became = self.become(change, [t for t in tests if t in self.items], loaded)
            ended = resource.getrusage(resource.RUSAGE_CHILDREN)
            seconds = ended.ru_utime + ended.ru_stime - began.ru_utime - began.ru_stime
            self.done.append(replace(became, seconds=round(seconds, 1)))
            self.out.write_text(json.dumps([asdict(one) for one in self.done], indent=1) + "\n", encoding="utf-8")
        self.out.with_suffix(".done").touch()
        return True

    def become(self, change: Change, tests: list[str], loaded: Loaded) -> Change:
        """A change with what became of it."""
        target = Path(change.path)
        before = target.read_text(encoding="utf-8")
        lines = before.split("\n")
        number = where(lines, change)
        if number is None:
            return replace(change, outcome="gone")
        lines[number] = change.after
        whole = Path(shutil.copy2(target, f"{target}{WHOLE}"))
        target.write_text("\n".join(lines), encoding="utf-8")
        try:
            found = next(filter(None, (self.first_red(tests, put) for put in self.ways(change, before, loaded))), "")
        finally:
            whole.replace(target)  # of the same time: what was compiled of it holds again
        while found and found != "time" and not self.is_green(found):
            return self.become(change, [t for t in tests if t != found], loaded)
        outcome = "survived" if not found else "noticed by time" if found == "time" else "noticed"
        return replace(change, outcome=outcome, by="" if found == "time" else found)

    def ways(self, change: Change, before: str, loaded: Loaded) -> Iterator[Callable[[], bool] | None]:
        """What puts the change, which stands in its file, in place in a fork; None for a process of its own."""
        path, after = str(Path(change.path).resolve()), Path(change.path).read_text(encoding="utf-8")
        codes = None if change.path.endswith(".csv") else loaded.changed(path, before, after)
        if change.path.endswith(".csv"):
            yield loaded.forget
        elif codes is not None:
            yield lambda: loaded.put(codes)
        else:
            yield lambda: loaded.set_anew(path, before, after)
            yield None

    def is_green(self, test: str) -> bool:
        """Whether a test passes without a change."""
        if test not in self.items:  # a file that can't be imported with the change
            return True
        if test not in self.green:
            self.green[test] = not self.first_red([test], lambda: True)
        return self.green[test]

    def first_red(self, tests: list[str], put: Callable[[], bool] | None) -> str:
        """The first test that fails, "time" where one hangs, "" where none does."""
        if put is None:
            return _apart(tests)
        with tempfile.TemporaryFile("w+") as told:
            child = os.fork()
            if child == 0:
                self.run_here(tests, put, told.fileno())
            status = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
            told.seek(0)
            last = told.read().split("\n")[-1]
        if status in (-signal.SIGXCPU, -signal.SIGKILL):
            return "time"
        return last if status else ""

    def run_here(self, tests: list[str], put: Callable[[], bool], told: int) -> NoReturn:
        """In the fork: never comes back; the last line written is the test at hand."""
        status = 1
        try:
            spent = time.process_time()
            resource.setrlimit(resource.RLIMIT_CPU, (int(spent + BUDGET) + HANGS,) * 2)
            if not put():
                os._exit(0)
            chosen = [self.items[test] for test in tests]
            for item, then in pairwise([*chosen, None]):
                os.write(told, f"\n{item.nodeid}".encode())
                item.config.hook.pytest_runtest_protocol(item=item, nextitem=then)
                if self.red:
                    break
                if time.process_time() - spent > BUDGET:
                    break
            status = int(self.red)
        finally:
            os._exit(status)


class Short:
    """The plugin of a process of its own: no more tests than there is time for."""

    def pytest_runtest_teardown(self, item: pytest.Item) -> None:
        """After a test."""
        if time.process_time() > BUDGET + START:
            item.session.shouldstop = "enough"


def _apart(tests: Sequence[str]) -> str:
    """The first test that fails in a process of its own, which imports all anew."""
    if not tests:
        return ""
    limit = int(BUDGET + START) + HANGS
    ended = subprocess.run(
        [sys.executable, "-B", "-m", "tests.mutation.trying", "apart", *tests],
        capture_output=True, text=True, check=False,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_CPU, (limit, limit)),
    )  # fmt: skip
    if ended.returncode in (-signal.SIGXCPU, -signal.SIGKILL):
        return "time"
    if failed := re.findall(r"^(?:FAILED|ERROR) (.+?)(?: - .*)?$", ended.stdout, re.M):
        return str(failed[0])
    return "" if ended.returncode in (0, 2) else f"status {ended.returncode}"  # 2: enough


def main(plan: str, out: str, minutes: str) -> int:
    """Try what is planned and not yet done."""
    at = Path(out)
    for whole in Path("tutorial_lib").rglob(f"*{WHOLE}"):
        whole.replace(whole.with_suffix(""))
    done = read(at) if at.exists() else []
    known = {(change.path, change.before, change.after) for change in done}
    planned = [(Change(**change), tests) for change, tests in json.loads(Path(plan).read_text(encoding="utf-8"))]
    left = [(c, tests) for c, tests in planned if (c.path, c.before, c.after) not in known]
    trial = Trial(left, at, time.monotonic() + 60 * float(minutes), done)
    files = sorted({test.split("::")[0] for _, tests in left for test in tests})
    return int(pytest.main(["-q", "--no-header", "-p", "no:cacheprovider", *files], plugins=[trial]))


if __name__ == "__main__":
    if sys.argv[1] == "apart":
        sys.exit(pytest.main(["-q", "-x", "--no-header", "-p", "no:cacheprovider", *sys.argv[2:]], plugins=[Short()]))
    sys.exit(main(*sys.argv[1:]))
