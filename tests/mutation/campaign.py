"""Mutation campaign: single changes to the program, and which of them the nearest tests notice. Run by hand.

    python -m pip install -e ".[test,mutation]"
    python -m tests.mutation.campaign --out found.json                  # 100 changes, sampled with a seed
    python -m tests.mutation.campaign --again found.json --out now.json # its survivors once more
    python -m tests.mutation.campaign --check found.json                # do their tests pass without the change?
    python -m tests.mutation.campaign --table before.json now.json      # the figures of README.md

cosmic-ray (MIT) makes the changes to Python; a cell of a table gets another last digit. Every change is made in a copy
of the project beside the file of results, never in the tree itself. The tests are run without a change first: what is
red as it stands is left out, and how long each takes says which are tried (the nearest, then the quickest, up to a
budget). A change counts as noticed when a test fails, or when they take over three times as long as otherwise, in
processor time (so that a busy machine decides nothing). A stopped run goes on where it was.
"""

from __future__ import annotations

import argparse
import contextlib
import csv
import importlib
import io
import json
import os
import random
import re
import resource
import shutil
import signal
import sys
import tempfile
import time
from collections.abc import Iterable
from dataclasses import asdict, dataclass, replace
from math import inf
from pathlib import Path
from typing import NoReturn

import pytest
from cosmic_ray.ast import ast_nodes, get_ast
from cosmic_ray.mutating import mutate_code
from cosmic_ray.plugins import get_operator

ROOT = Path(__file__).parents[2]
START = 2.2  # seconds that a run takes before the first test
EXAMPLES = 15  # of a property test; fewer than usual, so that a campaign ends on the same day
LIBRARIES = ("hypothesis", "numpy", "pint", "pydantic", "highspy", "matplotlib.figure", "tomlkit")  # loaded once
COPIED = ("tutorial_lib", "tests", "assets", "pyproject.toml", "README.md", "DEVELOPERS.md")


@dataclass(frozen=True)
class Room:
    """Where changes are made, how many of a hundred, and the tests nearest to them."""

    sources: str  # glob below the package
    share: int  # of 100
    tests: tuple[str, ...]  # globs


BY_TABLE = ("tests/tables", "tests/validation/test_[a-fh-ln-z]*.py")  # all but those that build whole beds
ROOMS = {
    "tables, cells": Room("tables/data/*.csv", 12, BY_TABLE),
    "tables": Room("tables/*.py", 6, BY_TABLE),
    "design": Room("design/**/*.py", 15, ("tests/design", "tests/facts/test_design.py")),
    "strength": Room("strength/**/*.py", 21, ("tests/strength", "tests/validation", "tests/facts/test_strength.py")),
    "drilling": Room("drilling/**/*.py", 11, ("tests/drilling", "tests/validation/test_drilling_nds.py",
                                              "tests/facts/test_drilling.py")),
    "cutting": Room("cutting/**/*.py", 11, ("tests/cutting", "tests/validation/test_ps20_board_measure.py",
                                            "tests/facts/test_cutting.py")),
    "assembly": Room("assembly/**/*.py", 7, ("tests/assembly", "tests/validation/test_lifting_equation.py",
                                             "tests/validation/test_wood_movement.py")),
    "finishing": Room("finishing/**/*.py", 6, ("tests/finishing", "tests/validation/test_abrasives.py",
                                               "tests/facts/test_finishing.py")),
    "facts": Room("facts/**/*.py", 7, ("tests/facts", "tests/test_plan.py", "tests/test_cli.py")),
    "templates": Room("*/templates.py", 4, ("tests/publishing/test_templates.py",
                                            "tests/drawing/test_template_marks.py")),
}  # fmt: skip

# One direction each, so that a place is not drawn many times, and none that merely raises a TypeError.
OPERATORS = [
    *(f"core/ReplaceBinaryOperator_{pair}" for pair in ("Add_Sub", "Sub_Add", "Mul_Div", "Div_Mul", "Mod_Div")),
    *(f"core/ReplaceComparisonOperator_{pair}" for pair in ("Lt_LtE", "LtE_Lt", "Gt_GtE", "GtE_Gt", "Eq_NotEq",
                                                            "NotEq_Eq", "Lt_Gt", "Gt_Lt")),
    "core/ReplaceUnaryOperator_USub_UAdd", "core/ReplaceUnaryOperator_Delete_Not", "core/ReplaceTrueWithFalse",
    "core/ReplaceFalseWithTrue", "core/ReplaceAndWithOr", "core/ReplaceOrWithAnd", "core/AddNot",
    "core/ZeroIterationForLoop", "core/NumberReplacer",
]  # fmt: skip
SKIPPED = re.compile(r"^\s*(@|from |import |#|\w+: )|Literal\[|__all__|TYPE_CHECKING")
GUARDS = re.compile(r", strict=(True|False)")  # of zip: guards against a fault of the program, no behaviour


@dataclass(frozen=True, kw_only=True)
class Change:
    """One changed line, and what became of it."""

    room: str = ""
    path: str = ""
    line: int
    before: str
    after: str
    outcome: str = ""  # "noticed", "noticed by time", "survived"
    by: str = ""  # the test that failed
    seconds: float = 0.0


@dataclass(frozen=True)
class Place:
    """A line that can be changed: by an operator's occurrence, or by writing it anew."""

    path: Path
    line: int
    operator: str = ""
    occurrence: int = 0
    after: str = ""

    def change(self) -> Change | None:
        """The change as one line for another; None where it isn't one."""
        source = self.path.read_text(encoding="utf-8")
        if self.after:
            return Change(line=self.line, before=source.split("\n")[self.line - 1], after=self.after)
        changed = mutate_code(source, get_operator(self.operator)(), self.occurrence)
        change = _one_line(source, changed) if changed else None
        return change if change and GUARDS.sub("", change.before) != GUARDS.sub("", change.after) else None


def places(tree: Path, room: str) -> list[Place]:
    """Every place that can be drawn in a room."""
    paths = sorted((tree / "tutorial_lib").glob(ROOMS[room].sources))
    return [place for path in paths for place in (_cells if path.suffix == ".csv" else _operators)(path)]


def _operators(path: Path) -> list[Place]:
    source = path.read_text(encoding="utf-8")
    lines, nodes, found = source.split("\n"), list(ast_nodes(get_ast(source))), []
    for name in OPERATORS:
        operator = get_operator(name)()
        starts = [start[0] for node in nodes for start, _ in operator.mutation_positions(node)]
        found += [Place(path, line, name, i) for i, line in enumerate(starts) if not SKIPPED.search(lines[line - 1])]
    return found


def _one_line(source: str, changed: str) -> Change | None:
    old, new = source.split("\n"), changed.split("\n")
    differing = [i for i, (a, b) in enumerate(zip(old, new, strict=False)) if a != b]
    if len(old) != len(new) or len(differing) != 1:
        return None
    number = differing[0]
    return Change(line=number + 1, before=old[number], after=new[number])


def _cells(path: Path) -> list[Place]:
    """Each cell with a figure, its last digit one more; sources, states and notes stay."""
    lines, found = path.read_text(encoding="utf-8").split("\n"), []
    heads = next(csv.reader(lines[:1]))
    for number, line in enumerate(lines[1:], start=2):
        cells = next(csv.reader([line]), [])
        for i, (head, cell) in enumerate(zip(heads, cells, strict=False)):
            digits = list(re.finditer(r"[0-9]", cell))
            if digits and not head.startswith(("source", "status", "note", "condition")):
                at = digits[-1].start()
                other = cell[:at] + str((int(cell[at]) + 1) % 10) + cell[at + 1 :]
                found.append(Place(path, number, after=_csv_line([*cells[:i], other, *cells[i + 1 :]])))
    return found


def _csv_line(cells: list[str]) -> str:
    out = io.StringIO()
    csv.writer(out, lineterminator="").writerow(cells)
    return out.getvalue()


def sample(tree: Path, number: int, seed: int, rooms: Iterable[str] = ROOMS) -> list[Change]:
    """Changes drawn by room; a line is drawn once."""
    return [
        replace(change, room=room, path=str(path.relative_to(tree)))
        for room in rooms
        for path, change in _drawn(
            places(tree, room), round(ROOMS[room].share * number / 100), random.Random(f"{seed} {room}")
        )
    ]


def _drawn(known: list[Place], wanted: int, drawn: random.Random) -> list[tuple[Path, Change]]:
    found: dict[tuple[Path, int], Change] = {}
    for place in drawn.sample(known, len(known)):
        if len(found) == wanted:
            break
        if (place.path, place.line) not in found and (change := place.change()):
            found[place.path, place.line] = change
    return [(path, change) for (path, _), change in found.items()]


def room_tests(tree: Path, room: str) -> list[str]:
    """The files of tests that may be run for a room, its own before those of others."""
    found = [file for glob in ROOMS[room].tests for path in sorted(tree.glob(glob)) for file in _files(path)]
    return list(dict.fromkeys(str(file.relative_to(tree)) for file in found))


def nearest_tests(tree: Path, change: Change, clock: dict[str, float], budget: float) -> tuple[list[str], float]:
    """Tests of its room, those that name the module first, the quick before the slow; then the module's doctests.

    Returns the files and the seconds they take when nothing is changed; files that are red as they stand stay out.
    """
    stem, own = Path(change.path).stem, ROOMS[change.room].tests[0]
    known = [file for file in room_tests(tree, change.room) if clock.get(file, 0) > 0]

    def near(file: str) -> tuple[bool, bool, float]:
        named = re.search(rf"\b{stem}\b", (tree / file).read_text(encoding="utf-8"))
        return not named, not file.startswith(own), clock[file]

    chosen, seconds = [], START
    for file in sorted(known, key=near):
        takes = max(0.1, clock[file] - START)
        if seconds + takes <= budget or not chosen:
            chosen.append(file)
            seconds += takes
    doctests = [change.path] if change.path.endswith(".py") else []  # last: they import the module anew
    return [*chosen, *doctests], seconds


def _files(path: Path) -> list[Path]:
    return sorted(path.rglob("test_*.py")) if path.is_dir() else [path]


def run(tree: Path, change: Change, clock: dict[str, float], budget: float) -> Change:
    """Make the change, run the nearest tests, take the change back."""
    target = tree / change.path
    source, stamp = target.read_text(encoding="utf-8"), target.stat()
    tests, seconds = nearest_tests(tree, change, clock, budget)
    lines = source.split("\n")
    number = _where(lines, change)
    if number is None:
        return replace(change, outcome="gone")
    lines[number] = change.after
    target.write_text("\n".join(lines), encoding="utf-8")
    began = time.monotonic()
    try:
        outcome, by = _judge(tree, tests, round(3 * seconds) + 5)
    finally:
        target.write_text(source, encoding="utf-8")
        os.utime(target, ns=(stamp.st_atime_ns, stamp.st_mtime_ns))  # what was compiled of it holds again
    return replace(change, outcome=outcome, by=by, seconds=round(time.monotonic() - began, 1))


def _where(lines: list[str], change: Change) -> int | None:
    """The changed line, also when the file has moved on: the nearest that reads the same."""
    same = [i for i, line in enumerate(lines) if line == change.before]
    return min(same, key=lambda i: abs(i - change.line + 1), default=None)


def _judge(tree: Path, tests: list[str], limit: int, compile_too: bool = False) -> tuple[str, str]:
    """Run pytest in a fork, which has the libraries loaded already and nothing of ours."""
    with tempfile.TemporaryFile("w+") as told:
        child = os.fork()
        if child == 0:
            _run_tests(tree, tests, limit, told.fileno(), compile_too)
        status = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
        told.seek(0)
        text = told.read()
    if status in (-signal.SIGXCPU, -signal.SIGKILL):
        return "noticed by time", ""
    failed = re.findall(r"^(?:FAILED|ERROR) (.+?)(?:\[| - |$)", text, re.M)  # without its parameters, which hold spaces
    return ("survived", "") if status == 0 else ("noticed", failed[0] if failed else f"status {status}")


def _run_tests(tree: Path, tests: list[str], limit: int, told: int, compile_too: bool) -> NoReturn:
    """In the child: never comes back."""
    try:
        resource.setrlimit(resource.RLIMIT_CPU, (limit, limit))
        os.dup2(told, 1)
        os.dup2(told, 2)
        os.chdir(tree)
        os.environ |= {"TUTORIAL_NO_SETUP": "1", "PYTHONPATH": str(tree)}  # for tests that start the program themselves
        sys.dont_write_bytecode = not compile_too  # of a changed module nothing may stay
        sys.path[:] = [str(tree), *(place for place in sys.path if Path(place or ".").resolve() != ROOT)]
        for name in [name for name in sys.modules if name.split(".")[0] in ("tests", "tutorial_lib")]:
            del sys.modules[name]
        status = pytest.main(["-q", "-x", "--no-header", "-p", "no:cacheprovider", f"--rootdir={tree}", *tests])
        sys.stdout.flush()
    except BaseException:  # a change may break anything, the collecting of tests included
        status = 99
    os._exit(int(status))


def copy_of(tree: Path, at: Path) -> Path:
    """The project in a place of its own, where it may be broken; what a stopped run left changed there is mended."""
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


def timed(copy: Path, rooms: Iterable[str], at: Path, until: float) -> dict[str, float]:
    """Seconds of processor time of each file of tests on the tree as it is, 0 where it is red."""
    clock = json.loads(at.read_text(encoding="utf-8")) if at.exists() else {}
    for file in sorted({file for room in rooms for file in room_tests(copy, room)} - set(clock)):
        if time.monotonic() > until:
            break
        began = resource.getrusage(resource.RUSAGE_CHILDREN)
        outcome, by = _judge(copy, [file], 600, compile_too=True)
        ended = resource.getrusage(resource.RUSAGE_CHILDREN)
        taken = ended.ru_utime + ended.ru_stime - began.ru_utime - began.ru_stime
        clock[file] = round(taken, 1) + 0.1 if outcome == "survived" else 0
        at.write_text(json.dumps(clock, indent=1) + "\n", encoding="utf-8")
        print(f"{clock[file]:6.1f} s {file} {by}", flush=True)
    return clock


def unfounded(tree: Path, changes: list[Change]) -> list[Change]:
    """Changes whose test fails on the tree as it is too: they show nothing."""
    named = sorted({change.by for change in changes if "::" in change.by})
    with tempfile.TemporaryDirectory(prefix="changed-") as folder:
        copy = copy_of(tree, Path(folder))
        red = {name for name in named if _judge(copy, [name], 600)[0] != "survived"}
    return [change for change in changes if change.by in red]


def campaign(tree: Path, changes: list[Change], out: Path, budget: float, until: float) -> None:
    """Run the changes one by one; the file is written after each, and a stopped run goes on where it was."""
    done = read(out) if out.exists() else []
    known = {(change.path, change.before, change.after) for change in done}
    for name in LIBRARIES:
        with contextlib.suppress(ImportError):
            importlib.import_module(name)
    copy = copy_of(tree, out.with_suffix(".tree").resolve())
    clock = timed(copy, {change.room for change in changes}, out.with_suffix(".clock.json"), until)
    for change in changes:
        if time.monotonic() > until:
            return
        if (change.path, change.before, change.after) not in known:
            done.append(run(copy, change, clock, budget))
            out.write_text(json.dumps([asdict(one) for one in done], indent=1) + "\n", encoding="utf-8")
            print(len(done), done[-1].outcome, done[-1].path, done[-1].line, done[-1].by, done[-1].seconds, flush=True)
    print("done")


def read(path: Path) -> list[Change]:
    """Changes as written by an earlier run."""
    return [Change(**one) for one in json.loads(path.read_text(encoding="utf-8"))]


def table(runs: dict[str, list[Change]]) -> str:
    """Noticed of made, by room, one column for a run."""
    rows = [f"| room | {' | '.join(runs)} |", "|---|" + "---|" * len(runs)]
    for room in [*ROOMS, "all"]:
        cells = []
        for changes in runs.values():
            made = [c for c in changes if c.outcome != "gone" and room in (c.room, "all")]
            noticed = sum(c.outcome.startswith("noticed") for c in made)
            cells.append(f"{noticed} of {len(made)}" + (f" ({noticed / len(made):.0%})" if room == "all" else ""))
        rows.append(f"| {room} | {' | '.join(cells)} |")
    return "\n".join(rows)


def main() -> None:
    """Read the command line and run."""
    ask = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    ask.add_argument("--tree", type=Path, default=ROOT, help="project to change (it is copied first)")
    ask.add_argument("--number", type=int, default=100)
    ask.add_argument("--seed", type=int, default=1)
    ask.add_argument("--rooms", nargs="+", choices=list(ROOMS), default=list(ROOMS))
    ask.add_argument("--budget", type=float, default=40, help="seconds of processor time for the tests of a change")
    ask.add_argument("--minutes", type=float, default=inf, help="stop after these; the same call goes on")
    ask.add_argument("--again", type=Path, help="run the survivors of an earlier run")
    ask.add_argument("--check", type=Path, help="name the changes whose test fails without them too")
    ask.add_argument("--table", type=Path, nargs="+", help="print the table of these runs")
    ask.add_argument("--out", type=Path, default=Path("found.json"))
    told = ask.parse_args()
    if told.table:
        print(table({path.stem: read(path) for path in told.table}))
        return
    if told.check:
        for change in unfounded(told.tree, read(told.check)):
            print(change.path, change.line, change.by)
        return
    earlier = [c for c in read(told.again) if c.outcome == "survived"] if told.again else None
    changes = earlier if earlier is not None else sample(told.tree, told.number, told.seed, told.rooms)
    campaign(told.tree, changes, told.out, told.budget, time.monotonic() + 60 * told.minutes)


if __name__ == "__main__":
    main()
