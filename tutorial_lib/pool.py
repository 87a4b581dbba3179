"""Works through many tasks at once: on processes of this machine, or on a Dask cluster by its address.

Tasks are taken up a few ahead and handed out as they are done, so that ten thousand take no more memory than ten. What
a process had in hand when it died is done again by another; a task that kills its process each time is told.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from concurrent.futures.process import BrokenProcessPool
from itertools import islice
from multiprocessing import get_context
from typing import Any, TypeVar

from tutorial_lib.errors import Fault, InputError

Task = TypeVar("Task")
Made = TypeVar("Made")
ATTEMPTS = 4  # pools begun in a row of which each died before it made anything; how often the cluster tries one task
ANSWERS = 10  # [s] a scheduler that is there answers sooner
AHEAD = 4  # tasks in hand for each worker, so that none waits for its next


def on_processes(
    work: Callable[[Task], Made], tasks: Iterable[Task], workers: int | None = None
) -> Iterator[tuple[int, Made]]:
    """Each task's number and what it made, as they are done, on processes of this machine.

    Args:
        work: a function of a module, so that another process can call it.
        tasks: plain values.
        workers: how many processes; as many as the machine has cores when left out.

    Raises:
        InputError: processes died again and again.
    """
    waiting, held = enumerate(tasks), dict[int, Task]()
    count, died = workers or os.cpu_count() or 1, 0
    while died < ATTEMPTS:
        try:
            for number, made in _one_pool(work, waiting, held, count):
                died = 0
                yield number, made
            return
        except BrokenProcessPool:
            died += 1
    what = f"Not all of it was made: the system ended the processes at work {ATTEMPTS} times in a row. "
    raise InputError(f"{what}There may be too little memory; close other programs, or ask for less at once.")


def _one_pool(
    work: Callable[[Task], Made], waiting: Iterator[tuple[int, Task]], held: dict[int, Task], workers: int
) -> Iterator[tuple[int, Made]]:
    """What is held already first, then what waits; done tasks leave ``held``."""
    running: dict[Future[Made], int] = {}
    held.update(islice(waiting, workers * AHEAD - len(held)) if len(held) < workers * AHEAD else ())
    # begun fresh: a copy of a process that has threads of a solver may stand still
    pool = ProcessPoolExecutor(max(min(workers, len(held)), 1), mp_context=get_context("spawn"))
    try:
        running = {pool.submit(work, task): number for number, task in held.items()}
        while running:
            for future in wait(running, return_when=FIRST_COMPLETED).done:
                number, made = running.pop(future), future.result()
                del held[number]
                yield number, made  # handed out before anything else can break
                for more, task in islice(waiting, 1):
                    held[more] = task
                    running[pool.submit(work, task)] = more
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def on_cluster(work: Callable[[Task], Made], tasks: Iterable[Task], address: str) -> Iterator[tuple[int, Made]]:
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
        waiting, running = enumerate(tasks), dict[Any, int]()

        def begun(count: int) -> Iterator[Any]:
            for number, task in islice(waiting, count):
                future = client.submit(work, task, pure=False, retries=ATTEMPTS)
                running[future] = number
                yield future

        ahead = max(AHEAD * sum(client.nthreads().values()), AHEAD)
        done = dask.as_completed(list(begun(ahead)), loop=client.loop, with_results=True)
        try:
            for future, made in done:
                yield running.pop(future), made
                del future, made  # the cluster forgets what nobody asks for
                done.update(begun(1))
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
