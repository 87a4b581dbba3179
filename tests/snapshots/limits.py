"""Beds that meet a limit of the rules to the hair, as sums of what is made of them but for their strength.

    python -m tests.snapshots.limits                                       # writes them anew
    python -m tests.snapshots.limits "hand-saw: support.recess=1 7/8 in"   # all that is said of one

Each is a bed there is with one length changed, found by drawing the line through two lengths beside it to where a
comparison of the program has both sides alike: whether the limit itself is in or out is what changes unnoticed else.
The others have one choice that can't be, for each rule that refuses one.
"""

from __future__ import annotations

import copy
import sys
import tomllib
from collections.abc import Iterator
from itertools import chain
from typing import Any

from tests.builds import Raw
from tests.snapshots import many
from tests.snapshots.sums import Sum, read, renew, sums
from tests.snapshots.written import OURS, joints, pieces, work
from tests.snapshots.written import STORED as WHOLE
from tutorial_lib.design.build_file import from_raw
from tutorial_lib.errors import TutorialError
from tutorial_lib.lists import csv_text, list_of
from tutorial_lib.plan import Plan, plan

STORED = WHOLE / "limits.txt"
LISTS = ("parts", "holes", "fasteners", "steps")
FILES = {path.stem: path for folder in (OURS, WHOLE) for path in folder.rglob("*.toml")}


def raw(name: str) -> Raw:
    """A bed by its name."""
    base, change = name.split(": ")
    key, value = change.split("=")
    made: Any = tomllib.loads(FILES[base].read_text(encoding="utf-8")) if base in FILES else many.raw(base)
    made = copy.deepcopy(made)
    *sections, last = key.split(".")
    at = made
    for section in sections:
        at = at.setdefault(section, {})
    if sections == ["heights"]:  # exactly one of them is given
        at.clear()
    at[last] = value
    return dict(made)


def said(name: str) -> Iterator[str]:
    """What follows from a bed's shape, or what it is refused with."""
    try:
        made = plan(from_raw(raw(name)))
        yield from pieces(made)
        yield from joints(made)
        yield from work(made)
        yield from _found(made)
    except TutorialError as fault:
        yield f"refused {fault}".replace("\n", " ")


def _found(made: Plan) -> Iterator[str]:
    found = (made.build.findings, made.drilling.findings, made.assembly.findings, made.finishing.findings)
    for finding in chain.from_iterable(found):
        yield f"finding {finding.severity}: {finding}"
        yield from (f"    {remedy.changes}" for remedy in finding.remedies)
    for name in LISTS:
        yield from (f"{name}: {row}" for row in csv_text(list_of(made, name)).splitlines())


def of(name: str) -> dict[str, Sum]:
    """A bed's sums by kind of line."""
    return sums(said(name))


def main(names: list[str]) -> None:
    """Writes them anew, or what one says."""
    renew(STORED, read(STORED), said, names)


if __name__ == "__main__":
    main(sys.argv[1:])
