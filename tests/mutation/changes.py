"""Single changes to the program, drawn by room with a seed.

cosmic-ray (MIT) makes the changes to Python; a cell of a table gets another last digit.
"""

from __future__ import annotations

import csv
import io
import json
import random
import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from pathlib import Path

from cosmic_ray.ast import ast_nodes, get_ast
from cosmic_ray.mutating import mutate_code
from cosmic_ray.plugins import get_operator

ROOT = Path(__file__).parents[2]


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
    """The files of tests nearest to a room, its own before those of others."""
    found = [file for glob in ROOMS[room].tests for path in sorted(tree.glob(glob)) for file in _files(path)]
    return list(dict.fromkeys(str(file.relative_to(tree)) for file in found))


def _files(path: Path) -> list[Path]:
    return sorted(path.rglob("test_*.py")) if path.is_dir() else [path]


def where(lines: list[str], change: Change) -> int | None:
    """The changed line, also when the file has moved on: the nearest that reads the same."""
    same = [i for i, line in enumerate(lines) if line == change.before]
    return min(same, key=lambda i: abs(i - change.line + 1), default=None)


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
