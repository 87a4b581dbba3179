"""Viewers' booklets of the demo, of every size: in one process, on this machine's processes, on a Dask cluster.

By the clock; on the cluster a second time while two workers are killed. All ways have to give the same bytes.
"""

from __future__ import annotations

import hashlib
import os
import signal
from collections.abc import Iterable, Iterator
from contextlib import contextmanager

from distributed import LocalCluster

from tests.benchmark.measuring import Row, clock, written
from tests.publishing import demo
from tutorial_lib.adapting.family import every_size
from tutorial_lib.design.build_file import to_toml
from tutorial_lib.pool import on_cluster, on_processes
from tutorial_lib.publishing.kit.sizes import SizeMade, SizeTask, make_size

CORES = os.cpu_count() or 1
Running = Iterable[tuple[int, SizeMade]]


def tasks() -> list[SizeTask]:
    """The demo in every size."""
    creator = demo.demo().options
    text = to_toml(creator)
    return [SizeTask(creator=text, size=size, paper="letter", report=demo.report()) for size in every_size(creator)]


@contextmanager
def cluster(workers: int = CORES) -> Iterator[LocalCluster]:
    """A cluster of one-thread workers, one a core."""
    with LocalCluster(n_workers=workers, threads_per_worker=1, dashboard_address=None, silence_logs=50) as made:
        yield made


def killing(made: LocalCluster, running: Running, at: tuple[int, ...]) -> Iterator[tuple[int, SizeMade]]:
    """The same, while a worker is killed after some of the results."""
    for number, result in enumerate(running, 1):
        yield result
        if number in at:
            os.kill(next(iter(made.workers.values())).process.pid, signal.SIGKILL)


def rows() -> Iterator[Row]:
    """All ways."""
    wanted = tasks()
    make_size(wanted[0])  # so that nobody pays for the first import
    one, mark, row = _made("one process", enumerate(map(make_size, wanted)))
    yield row
    yield _made(f"{CORES} processes", on_processes(make_size, wanted), one, mark)[2]
    with cluster() as made:
        running = on_cluster(make_size, wanted, made.scheduler_address)
        yield _made(f"local cluster, {CORES} workers", running, one, mark)[2]
    with cluster() as made:
        running = killing(made, on_cluster(make_size, wanted, made.scheduler_address), (10, 20))
        yield _made("the same, two workers killed", running, one, mark)[2]


def _made(name: str, running: Running, one: float = 0.0, mark: str = "") -> tuple[float, str, Row]:
    """Seconds, a sum over all that was made, and the row."""
    took, made = clock(dict, running)
    every = b"".join(data for _, entry in sorted(made.items()) for _, data, _ in entry.files)
    found = hashlib.sha256(every).hexdigest()
    assert not mark or found == mark, "they differ"
    beside = f"{one / took:.2f} times as fast as one process, the same bytes" if one else ""
    row = Row(what=f"booklets of {len(made)} sizes (clock): {name}", runs=1, median=written(took), beside=beside)
    return took, found, row
