"""Works through many tasks at once: on processes of this machine, or on a Dask cluster by its address.

What a process had in hand when it died is done again by another; a task that kills its process each time is told.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor, as_completed
from concurrent.futures.process import BrokenProcessPool
from multiprocessing import get_context
from typing import Any, TypeVar

from tutorial_lib.errors import Fault, InputError

Task = TypeVar("Task")
Made = TypeVar("Made")
ATTEMPTS = 4  # pools begun again after a process died; also how often the cluster tries one task
ANSWERS = 10  # [s] a scheduler that is there answers sooner


def on_processes(
    work: Callable[[Task], Made], tasks: Sequence[Task], workers: int | None = None
) -> Iterator[tuple[int, Made]]:
    """Each task's number and what it made, as they are done, on processes of this machine.

    Args:
        work: a function of a module, so that another process can call it.
        tasks: plain values.
        workers: how many processes; as many as the machine has cores when left out.

    Raises:
        InputError: processes died again and again.
    """
    left = dict(enumerate(tasks))
    for _ in range(ATTEMPTS):
        try:
            for number, made in _one_pool(work, left, workers):
                del left[number]
                yield number, made
            return
        except BrokenProcessPool:
            continue
    what = f"{len(left)} of {len(tasks)} were not made: the system ended the processes that worked on them, {ATTEMPTS} "
    raise InputError(f"{what}times. There may be too little memory; close other programs, or ask for less at once.")


def _one_pool(work: Callable[[Task], Made], left: dict[int, Task], workers: int | None) -> Iterator[tuple[int, Made]]:
    count = min(workers or os.cpu_count() or 1, len(left))
    # begun fresh: a copy of a process that has threads of a solver may stand still
    pool = ProcessPoolExecutor(max(count, 1), mp_context=get_context("spawn"))
    try:
        running = {pool.submit(work, task): number for number, task in left.items()}
        for future in as_completed(running):
            yield running[future], future.result()
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def on_cluster(work: Callable[[Task], Made], tasks: Sequence[Task], address: str) -> Iterator[tuple[int, Made]]:
    """The same on a Dask cluster, whose workers have this project installed.

    Args:
        work: a function of a module.
        tasks: plain values.
        address: of its scheduler, "tcp://10.0.0.5:8786".

    Raises:
        InputError: Dask is not installed, no scheduler answers, or its workers died again and again.
    """
    client, dask = _connected(address)
    with client:
        futures = {client.submit(work, task, pure=False, retries=ATTEMPTS): n for n, task in enumerate(tasks)}
        try:
            for future, made in dask.as_completed(list(futures), loop=client.loop, with_results=True):
                yield futures[future], made
        except dask.KilledWorker as error:
            raise InputError(Fault("--cluster", f"its workers died again and again: {error}")) from None


def refuse_silent(address: str) -> None:
    """Refuse a cluster that doesn't answer, before other work is done.

    Raises:
        InputError: Dask is not installed, or no scheduler answers.
    """
    _connected(address)[0].close()


def _connected(address: str) -> tuple[Any, Any]:
    """A client of the cluster, and the library."""
    try:
        import distributed
    except ImportError:
        how = "pip install 'tutorial-workbook[cluster]', here and on its workers"
        raise InputError(Fault("--cluster", f"needs the packages of the extra [cluster]: {how}.")) from None
    dask: Any = distributed  # of its functions few have types
    try:
        return dask.Client(address, timeout=ANSWERS, set_as_default=False), dask
    except (OSError, ValueError):
        what = f'no scheduler answers at "{address}"; give its address as it prints it, "tcp://10.0.0.5:8786".'
        raise InputError(Fault("--cluster", what)) from None
