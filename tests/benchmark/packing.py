"""Bin packing: boards of one length, as few as possible; instances drawn by published recipes, or those published.

    python -m tests.benchmark packing                  # a few of each kind
    python -m tests.benchmark.packing 67 [FROM [TO]]   # by hand, so many in all, those from one number to another
    python -m tests.benchmark.packing FOLDER           # published ones, fetched by hand: how many pieces, board, pieces

The published ones aren't kept here, their licence forbids it; the group measures them where TUTORIAL_PACKING names a
folder of them. What is drawn has our own seeds; Hard28 was picked out of many by hand and can't be drawn.

Recipes (from memory): Falkenauer 1996, uniform pieces of 20 to 100 in boards of 150, and triplets that fill boards of
1000; Schwerin and Waescher 1997, 150 to 200 in 1000; Scholl, Klein and Juergens 1997, sets 1 to 3.
"""

from __future__ import annotations

import os
import statistics
import sys
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction
from pathlib import Path
from random import Random

from tests.benchmark.measuring import Row, p95, processor, written
from tutorial_lib.cutting import planner
from tutorial_lib.cutting.boards import PieceDemand, Stock
from tutorial_lib.cutting.planner import faults, plan_cuts

SECONDS = 10.0  # for a plan
FETCHED = "TUTORIAL_PACKING"  # where published instances are
FEW = 22
Instance = tuple[str, int, list[int]]  # name, board, pieces


def uniform(count: int, low: int, high: int, board: int) -> Callable[[Random], tuple[int, list[int]]]:
    """Pieces of any length between two, each as likely."""
    return lambda random: (board, [random.randint(low, high) for _ in range(count)])


def triplets(count: int) -> Callable[[Random], tuple[int, list[int]]]:
    """Three pieces fill each board without waste."""

    def drawn(random: Random) -> tuple[int, list[int]]:
        pieces: list[int] = []
        while len(pieces) < count:
            first = random.randint(380, 490)
            second = random.randint(250, (1000 - first) // 2)
            pieces += [first, second, 1000 - first - second]
        return 1000, pieces

    return drawn


def around(count: int, each: int, spread: float) -> Callable[[Random], tuple[int, list[int]]]:
    """So many pieces to a board on average, give or take a share."""
    mean = 1000 / each
    return uniform(count, max(int(mean * (1 - spread)), 1), int(mean * (1 + spread)), 1000)


KINDS: dict[str, Callable[[Random], tuple[int, list[int]]]] = {
    "Falkenauer U120": uniform(120, 20, 100, 150),
    "Falkenauer T60": triplets(60),
    "Schwerin 100": uniform(100, 150, 200, 1000),
    "Scholl 1": uniform(100, 1, 100, 120),
    "Scholl 2, 5 a board": around(100, 5, 0.5),
    "Falkenauer U250": uniform(250, 20, 100, 150),
    "Falkenauer T120": triplets(120),
    "Schwerin 120": uniform(120, 150, 200, 1000),
    "Scholl 2, 3 a board": around(100, 3, 0.2),
    "Scholl 3": uniform(200, 20_000, 35_000, 100_000),
    "Falkenauer T249": triplets(249),
}


def drawn(count: int) -> Iterator[Instance]:
    """So many instances, the kinds in turn."""
    for number in range(count):
        name = list(KINDS)[number % len(KINDS)]
        board, pieces = KINDS[name](Random(f"{name} {number // len(KINDS)}"))
        yield name, board, pieces


def published(folder: Path) -> Iterator[Instance]:
    """Instances from files of the usual form: number of pieces, board, one piece a line."""
    for path in sorted(folder.rglob("*.txt")) + sorted(folder.rglob("*.BPP")):
        count, board, *pieces = (round(float(word)) for word in path.read_text(encoding="utf-8").split())
        assert count == len(pieces), path
        yield path.stem, board, pieces


def solved(instance: Instance) -> tuple[float, bool]:
    """Seconds of processor time, and whether the plan is proven."""
    _, board, pieces = instance
    demand = [PieceDemand(str(n), Fraction(n), count) for n, count in sorted(Counter(pieces).items())]
    stocks = [Stock("board", Fraction(board), 1)]
    planner.forget()
    took, plan = processor(lambda: plan_cuts(demand, stocks, Fraction(0), Fraction(0), prefer=(), seconds=SECONDS))
    assert not faults(plan, demand, stocks)
    return took, plan.proven


def rows() -> Iterator[Row]:
    """A few of each kind in one row."""
    yield _row("drawn by published recipes", drawn(FEW))
    folder = os.environ.get(FETCHED)
    if folder:
        yield _row("published", published(Path(folder)))
    else:
        told = f"not here: they may not be kept; fetch them, and name their folder in {FETCHED}"
        yield Row(what="bin packing, published instances (Falkenauer, Scholl, Schwerin, Hard28)", runs=0, median=told)


def _row(kind: str, instances: Iterable[Instance]) -> Row:
    found = [solved(instance) for instance in instances]
    times, proven = [took for took, _ in found], sum(sure for _, sure in found)
    return Row(
        what=f"bin packing, {len(found)} instances {kind}, {SECONDS:g} s a plan",
        runs=len(found),
        median=written(statistics.median(times)),
        p95=written(p95(times)),
        beside=f"{proven} proven",
    )


def by_hand(instances: Iterator[Instance], first: int = 0, last: int | None = None) -> None:
    """Prints each as it is done."""
    times, proven = [], 0
    for number, instance in enumerate(instances):
        if first <= number < (last or number + 1):
            took, sure = solved(instance)
            times.append(took)
            proven += sure
            print(number, instance[0], "proven" if sure else "open", written(took), flush=True)
    print(f"{proven} of {len(times)} proven, median {written(statistics.median(times))}")


if __name__ == "__main__":
    if sys.argv[1:2] and not sys.argv[1].isdigit():
        by_hand(published(Path(sys.argv[1])))
    else:
        wanted = [int(word) for word in sys.argv[1:]] or [FEW]
        by_hand(drawn(wanted[0]), *wanted[1:3])
