"""Mutation campaign: single changes to the program, and which of them the tests notice. Run by hand, on Python 3.12:

    python -m pip install -e ".[test,mutation]"
    python -m tests.mutation.campaign --number 400 --seed 5 --out found.json     # again, until it says "done"
    python -m tests.mutation.campaign --again found.json --out now.json          # its survivors once more
    python -m tests.mutation.campaign --table before.json now.json               # the figures of README.md

First every test and every example is run once, to know its time and the lines that it executes. Then each change is
made in a copy of the project, and only the tests that execute its line are run, its module's and its room's own before
others, the quickest first, up to a limit of processor time (so that a busy machine decides nothing). A change counts as
noticed when a test fails that passes without it, or hangs. A stopped run goes on where it was.
"""

from __future__ import annotations

import argparse
import ast
import json
import os
import random
import re
import shutil
import subprocess
import sys
import time
from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import asdict
from pathlib import Path

from tests.mutation.changes import ROOMS, ROOT, Change, read, room_tests, sample, table

EXAMPLES = 15  # of a property test; fewer than usual, so that a campaign ends on the same day
COPIED = ("tutorial_lib", "tests", "assets", "notebooks", "pyproject.toml", "README.md", "DEVELOPERS.md")
WHOLE = "tests/snapshots/test_snapshots.py"  # whole plans as text: they depend on nearly every line
CHOSEN = "tests/snapshots/test_constants.py"  # numbers that were chosen, typed twice
BESIDE = (WHOLE, CHOSEN, "tests/test_remedies.py", "tests/adapting")
NEAR = (*(glob for room in ROOMS.values() for glob in room.tests), *BESIDE)
EXAMPLES_IN = tuple(f"tutorial_lib/{room.sources}" for room in ROOMS.values() if room.sources.endswith(".py"))
FIRST = 3  # of these that are asked first
SECONDS = 60.0  # of tests as they ran on their own that are handed on for a change


def copy_of(tree: Path, at: Path) -> Path:
    """The project in a place of its own, where it may be broken."""
    at.mkdir(exist_ok=True)
    for name in COPIED:
        source = tree / name
        if source.is_dir():
            shutil.copytree(source, at / name, ignore=shutil.ignore_patterns("__pycache__"), dirs_exist_ok=True)
        elif source.exists():
            shutil.copy2(source, at / name)
    shared = at / "tests" / "conftest.py"
    told = shared.read_text(encoding="utf-8")
    shared.write_text(re.sub(r"max_examples=\d+", f"max_examples={EXAMPLES}", told), encoding="utf-8")
    return at


def _run(copy: Path, arguments: list[str], **more: str) -> None:
    """Python in the copy, at the lowest priority."""
    here = {"TUTORIAL_NO_SETUP": "1", "PYTHONPATH": str(copy), "PYTHONDONTWRITEBYTECODE": "1"}
    subprocess.run([sys.executable, *arguments], cwd=copy, env=os.environ | here | more, check=False,
                   stdout=subprocess.DEVNULL)  # fmt: skip


def cover(copy: Path, lines: Path, until: float) -> bool:
    """Run each file of tests, and of examples in docstrings, once for its lines; True when all are done."""
    done = lines.with_suffix(".files")
    known = done.read_text(encoding="utf-8").split("\n") if done.exists() else []
    files = [file for glob in (*NEAR, *EXAMPLES_IN) for path in sorted(copy.glob(glob)) for file in _within(path)]
    for file in dict.fromkeys(str(file.relative_to(copy)) for file in files):
        if file in known:
            continue
        if time.monotonic() > until:
            return False
        quiet = ["-q", "-p", "no:cacheprovider", "-p", "tests.mutation.covering"]
        _run(copy, ["-m", "pytest", *quiet, file], COVERING=str(lines))
        with done.open("a", encoding="utf-8") as out:
            out.write(f"{file}\n")
    return True


def _within(path: Path) -> list[Path]:
    return sorted(path.rglob("test_*.py")) if path.is_dir() else [path]


def planned(copy: Path, changes: list[Change], lines: Path) -> list[tuple[Change, list[str]]]:
    """Each change with the tests to run for it, in order."""
    seconds: dict[str, float] = {}
    executing: dict[tuple[str, int], list[str]] = {
        (change.path, line): [] for change in changes for line in _spans(copy, change)
    }
    with lines.open(encoding="utf-8") as told:
        for row in map(json.loads, told):
            seconds[row["test"]] = row["seconds"]
            bits = {path: int(mask, 16) for path, mask in row["lines"].items()}
            for path, line in executing:
                if bits.get(path, 0) >> line & 1:
                    executing[path, line].append(row["test"])
    return [(change, _chosen(copy, change, executing, seconds)) for change in changes]


def _spans(copy: Path, change: Change) -> list[int]:
    """The change's line; then those of the function that it is in, or, outside of functions, all of its file."""
    if change.path.endswith(".csv"):
        return []
    source = (copy / change.path).read_text(encoding="utf-8")
    functions = [
        node
        for node in ast.walk(ast.parse(source))
        if isinstance(node, ast.FunctionDef) and node.lineno <= change.line <= (node.end_lineno or 0)
    ]
    inner = max(functions, key=lambda node: node.lineno, default=None)
    ends = (inner.lineno, inner.end_lineno or 0) if inner else (1, source.count("\n") + 1)
    return [change.line, *(line for line in range(ends[0], ends[1] + 1) if line != change.line)]


def _chosen(
    copy: Path, change: Change, executing: dict[tuple[str, int], list[str]], seconds: dict[str, float]
) -> list[str]:
    """The module's own tests and examples; the room's tests that execute the line; a few whole plans; all that execute
    it; then those that come near it, and those of the room that may have its answer from a cache. Quick ones first."""
    lines = _spans(copy, change)
    near = set(room_tests(copy, change.room))

    def quick(tests: Iterable[str]) -> list[str]:
        """The quickest of each file, then the second of each: other files know other things."""
        by_time, rank, seen = sorted(tests, key=seconds.__getitem__), dict[str, int](), Counter[str]()
        for test in by_time:
            rank[test] = seen[test.split("::")[0]]
            seen[test.split("::")[0]] += 1
        own, of_table = ROOMS[change.room].tests[0], change.path.endswith(".csv")
        return sorted(by_time, key=lambda test: (of_table and not test.startswith(own), rank[test]))

    exact = executing[change.path, lines[0]] if lines else []
    whole = [test for test in seconds if test.startswith(WHOLE)]
    mirror = f"/test_{Path(change.path).stem}.py"
    files = {test: test.split("::")[0] for test in seconds}
    groups = [[test for test, file in files.items() if file in (CHOSEN, change.path) or file.endswith(mirror)]]
    groups.append([test for test in exact if files[test] in near])
    groups += [sorted(set(exact) & set(whole), key=seconds.__getitem__)[:FIRST], exact]
    groups.append([test for line in lines[1:] for test in executing[change.path, line]])
    groups.append([test for test, file in files.items() if file in near])
    groups.append(whole)
    chosen = dict.fromkeys(test for group in groups for test in quick(set(group)))
    taken, total = [], 0.0
    for test in chosen:
        total += seconds[test]
        if total > SECONDS and taken:
            break
        taken.append(test)
    return taken


def campaign(tree: Path, drawn: Callable[[], list[Change]], out: Path, minutes: float) -> None:
    """As far as it comes in its time."""
    until = time.monotonic() + 60 * minutes
    at = out.with_suffix(".tree").resolve()
    copy = at if at.exists() else copy_of(tree, at)
    lines, plan = out.with_suffix(".lines").resolve(), out.with_suffix(".plan").resolve()
    if not plan.exists():
        if not cover(copy, lines, until):
            return
        tries = planned(copy, drawn(), lines)
        random.Random(0).shuffle(tries)
        plan.write_text(json.dumps([(asdict(change), tests) for change, tests in tries]), encoding="utf-8")
    left = (until - time.monotonic()) / 60
    _run(copy, ["-m", "tests.mutation.trying", str(plan), str(out.resolve()), f"{left:.2f}"])
    if out.with_suffix(".done").exists():
        print("done")


def main() -> None:
    """Read the command line and run."""
    ask = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    ask.add_argument("--tree", type=Path, default=ROOT, help="project to change (it is copied first)")
    ask.add_argument("--number", type=int, default=100)
    ask.add_argument("--seed", type=int, default=1)
    ask.add_argument("--rooms", nargs="+", choices=list(ROOMS), default=list(ROOMS))
    ask.add_argument("--minutes", type=float, default=1e6, help="stop after these; the same call goes on")
    ask.add_argument("--again", type=Path, help="run the survivors of an earlier run")
    ask.add_argument("--table", type=Path, nargs="+", help="print the table of these runs")
    ask.add_argument("--out", type=Path, default=Path("found.json"))
    told = ask.parse_args()
    if told.table:
        print(table({path.stem: read(path) for path in told.table}))
        return

    def drawn() -> list[Change]:
        if told.again:
            return [change for change in read(told.again) if change.outcome == "survived"]
        return sample(told.tree, told.number, told.seed, told.rooms)

    campaign(told.tree, drawn, told.out, told.minutes)


if __name__ == "__main__":
    main()
