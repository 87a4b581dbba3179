"""Many more beds than have a snapshot, as sums: what the plan of each says in numbers, by kind of line.

    python -m tests.snapshots.many                    # writes them anew; the diff shows which beds moved, and where
    python -m tests.snapshots.many "posts 31003"      # all that this bed says, to lay beside another checkout's

The beds were picked among hundreds of random ones so that together they take the ways through the rooms, and meet the
limits, that any of those did; "wild" ones have choices that hardly anybody makes. Words don't count, other snapshots
hold them. A sum tells that something moved, not that it was right before.
"""

from __future__ import annotations

import json
import random
import sys
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

from tests import builds
from tests.hard import extreme
from tests.snapshots.sums import Sum, read, renew, sums
from tests.snapshots.written import greatest, lines, told
from tutorial_lib.design.build_file import read_build
from tutorial_lib.errors import TutorialError
from tutorial_lib.measures import read_length
from tutorial_lib.plan import Plan, plan
from tutorial_lib.publishing.templates import template_pages

WILD = Path(__file__).parents[1] / "data" / "plans" / "wild.json"  # made once by tests.snapshots.wild
STORED = Path(__file__).parents[1] / "data" / "plans" / "many.txt"
KINDS = {"raw": builds.raw, "posts": builds.raw_on_posts, "headboard": builds.raw_with_headboard}


def raw(name: str) -> builds.Raw | str:
    """A bed by its name: "posts 31003 1/2" stands on posts, of seed 31003, with lengths to half an inch."""
    kind, seed, *step = name.split()
    if kind == "wild":
        return dict(_wild()[seed])
    if kind == "ends":
        return str(extreme.bed(random.Random(int(seed)))["text"])
    made = KINDS[kind](int(seed))
    return rounded(made, Fraction(step[0])) if step else made


@cache
def _wild() -> dict[str, builds.Raw]:
    return dict(json.loads(WILD.read_text(encoding="utf-8")))


def rounded(made: builds.Raw, step: Fraction) -> builds.Raw:
    """The same with every length to a multiple of a step [in], so that many meet a limit to the hair."""

    def to(value: Any) -> Any:
        if isinstance(value, dict):
            return {key: to(one) for key, one in value.items()}
        if isinstance(value, str) and value.endswith((" in", " mm")):
            return f"{float(round(read_length(value) / step) * step)} in"
        return value

    return {key: value if key in ("lumber", "build") else to(value) for key, value in made.items()}


def said(name: str) -> Iterator[str]:
    """All that a bed's plan, every check of its strength and its templates say; or what it is refused with."""
    made = raw(name)
    text = made if isinstance(made, str) else extreme.toml(made)
    try:
        planned = plan(read_build(text, "bed.toml"))
        yield from lines(planned)
        yield from _uses(planned)
        yield from (f"template {page}" for page in template_pages(planned))
    except TutorialError as fault:
        yield f"refused {fault}".replace("\n", " ")


def _uses(made: Plan) -> Iterator[str]:
    """Every check of every part; of mirrored places, which one it is that is as great by a hair, doesn't count."""
    for use in made.strength.uses:
        effect = greatest(use)
        values = (use.ratio, use.limit.value, use.relief, effect.dead, effect.live)
        yield f"use {use.part} {use.what} {use.kind}: {told(values)}"


def of(name: str) -> dict[str, Sum]:
    """A bed's sums by kind of line."""
    return sums(said(name))


def main(names: list[str]) -> None:
    """Writes them anew, or what one says."""
    renew(STORED, read(STORED), said, names)


if __name__ == "__main__":
    main(sys.argv[1:])
