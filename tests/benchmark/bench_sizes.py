"""Every viewer's booklet of the demo: in one process, on this machine's processes, on a local Dask cluster.

    python -m tests.benchmark.bench_sizes [HOW_MANY]

Prints seconds for each way and the ratio to one process; on the cluster a second time while two workers are killed.
All ways have to give the same bytes.
"""

from __future__ import annotations

import hashlib
import os
import signal
import sys
import time
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from itertools import islice

from distributed import LocalCluster

from tests.publishing import demo
from tutorial_lib.adapting.family import every_size
from tutorial_lib.design.build_file import to_toml
from tutorial_lib.pool import on_cluster, on_processes
from tutorial_lib.publishing.kit.sizes import SizeMade, SizeTask, make_size

CORES = os.cpu_count() or 1


def tasks(count: int | None) -> list[SizeTask]:
    """The demo in every size, or in the first few."""
    creator = demo.demo().options
    sizes = islice(every_size(creator), count)
    text = to_toml(creator)
    return [SizeTask(creator=text, size=size, paper="letter", report=demo.report()) for size in sizes]


def told(name: str, running: Iterable[tuple[int, SizeMade]], one: float | None = None) -> tuple[float, str]:
    """Runs it; seconds, and a sum over all that was made."""
    started = time.perf_counter()
    made = dict(running)
    took = time.perf_counter() - started
    every = b"".join(data for _, entry in sorted(made.items()) for _, data, _ in entry.files)
    mark = hashlib.sha256(every).hexdigest()[:12]
    ratio = f", {one / took:.2f} times as fast as one process" if one else ""
    print(f"{name:<22} {len(made)} sizes in {took:.1f} s{ratio}, sum {mark}", flush=True)
    return took, mark


@contextmanager
def cluster() -> Iterator[LocalCluster]:
    """A cluster of one-thread workers, one a core."""
    with LocalCluster(n_workers=CORES, threads_per_worker=1, dashboard_address=None, silence_logs=50) as made:
        yield made


def killing(made: LocalCluster, running: Iterable[tuple[int, SizeMade]]) -> Iterator[tuple[int, SizeMade]]:
    """The same, while a worker is killed after the third and after the sixth."""
    for number, result in enumerate(running, 1):
        yield result
        if number in (3, 6):
            os.kill(next(iter(made.workers.values())).process.pid, signal.SIGKILL)


def main(count: int | None) -> None:
    """Runs all ways."""
    wanted = tasks(count)
    make_size(wanted[0])  # so that nobody pays for the first import
    one, mark = told("one process", enumerate(map(make_size, wanted)))
    marks = {mark, told(f"{CORES} processes", on_processes(make_size, wanted), one)[1]}
    with cluster() as made:
        marks.add(told(f"cluster, {CORES} workers", on_cluster(make_size, wanted, made.scheduler_address), one)[1])
    with cluster() as made:
        running = killing(made, on_cluster(make_size, wanted, made.scheduler_address))
        marks.add(told("cluster, two killed", running, one)[1])
    print("all the same" if len(marks) == 1 else f"they differ: {marks}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else None)
