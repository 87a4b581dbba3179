"""Many beds of one family: on one process and on all cores, with a worker killed, in constant memory.

    python -m tests.benchmark families                # some hundreds
    python -m tests.benchmark.families 10000          # by hand; shows how far it is

Every bed is another one: sizes of the table, legs a side, slat gaps, people, sections, so chosen that most carry. One
that nothing mends is looked at in up to forty ways before that is said, and takes several times as long.
"""

from __future__ import annotations

import hashlib
import os
import signal
import sys
import time
from collections.abc import Iterable, Iterator
from itertools import islice, product
from multiprocessing import active_children
from pathlib import Path
from typing import Any

from tests.benchmark.measuring import Row, clock, written
from tests.benchmark.sizes import cluster
from tests.design.builds import demo
from tutorial_lib.adapting.family import Member, every_size, members
from tutorial_lib.pool import on_cluster, on_processes

CORES = os.cpu_count() or 1
FEW = 120  # beds of the ways that are timed beside one another; what beginning the processes takes counts
GAPS = ("1 1/2 in", "1 3/4 in", "2 in", "2 1/4 in", "2 1/2 in", "2 3/4 in")
CHOICES: dict[str, tuple[Any, ...]] = {
    "slats.gap": GAPS, "legs.per_side": (3, 4), "load.person": ("150 lb", "165 lb", "180 lb"),
    "slats.lumber": ("1x4", "2x4"), "clearance.side": ("1/4 in", "3/8 in", "1/2 in"), "saw.kerf": ("1/8 in", "3/32 in"),
}  # fmt: skip


def variants(count: int) -> dict[str, dict[str, Any]]:
    """So many sets of choices."""
    every = product(*CHOICES.values())
    return {f"variant {n}": dict(zip(CHOICES, some, strict=True)) for n, some in enumerate(islice(every, count), 1)}


def beds(count: int, through: Any = None) -> Iterator[tuple[int, Member]]:
    """The demo's family as its beds are done: so many, or a few more where sizes and variants don't come out even."""
    creator = demo()
    sizes = every_size(creator)
    many = -(-count // len(sizes))
    return members(creator, sizes[: -(-count // many)], variants(many), through)


def rows() -> Iterator[Row]:
    """One process, all cores, a cluster, workers killed: the same beds."""
    next(beds(1))  # so that nobody pays for the first import
    one, mark, row = _done("one process", beds(FEW))
    yield row
    yield _done(f"{CORES} processes", beds(FEW, on_processes), one, mark)[2]
    yield _done("the same, a process killed", _killing(beds(FEW, on_processes)), one, mark)[2]
    with cluster() as made:

        def there(work: Any, tasks: Any) -> Iterator[tuple[int, Any]]:
            return on_cluster(work, tasks, made.scheduler_address)

        yield _done(f"local cluster, {CORES} workers", beds(FEW, there), one, mark)[2]


def _done(name: str, found: Iterable[tuple[int, Member]], one: float = 0.0, mark: str = "") -> tuple[float, str, Row]:
    took, made = clock(dict, ((number, repr(member)) for number, member in found))
    sum_ = hashlib.sha256("".join(made[n] for n in sorted(made)).encode()).hexdigest()
    assert not mark or sum_ == mark, "they differ"
    beside = f"{one / took:.2f} times as fast as one process, the same beds" if one else f"{written(took / FEW)} a bed"
    return took, sum_, Row(what=f"{FEW} beds (clock): {name}", runs=1, median=written(took), beside=beside)


def _killing(found: Iterable[tuple[int, Member]], at: tuple[int, ...] = (FEW // 2,)) -> Iterator[tuple[int, Member]]:
    for number, pair in enumerate(found, 1):
        yield pair
        if number in at and active_children():
            os.kill(active_children()[0].pid or 0, signal.SIGKILL)


def memory() -> float:
    """What this process and its children hold in all [MB]; where the system tells."""
    found = 0
    for pid in (os.getpid(), *(child.pid for child in active_children())):
        status = Path(f"/proc/{pid}/statm")
        found += int(status.read_text().split()[1]) * os.sysconf("SC_PAGE_SIZE") if status.exists() else 0
    return found / 1e6


def by_hand(count: int) -> None:
    """So many beds on all cores, one process killed in the middle; prints how far it is and what it holds."""
    from tqdm import tqdm

    started, seen = time.perf_counter(), set[int]()
    every = max(count // 20, 1)
    for done, (number, _) in enumerate(tqdm(_killing(beds(count, on_processes), (count // 2,)), total=count), 1):
        seen.add(number)
        if done % every == 0:
            tqdm.write(f"{done} beds, {time.perf_counter() - started:.0f} s, {memory():.0f} MB")
    assert len(seen) >= count and seen == set(range(len(seen))), "some are lost"
    print(f"{len(seen)} beds, none lost, in {written(time.perf_counter() - started)}")


if __name__ == "__main__":
    by_hand(int(sys.argv[1]) if len(sys.argv) > 1 else 1000)
