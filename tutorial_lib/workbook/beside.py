"""One process beside a notebook's, for what takes long: a move that comes meanwhile has its kernel to itself."""

from __future__ import annotations

import os
import signal
from concurrent.futures import ProcessPoolExecutor
from functools import cache
from multiprocessing import get_context, parent_process
from threading import Thread

from tutorial_lib.design.options import Options
from tutorial_lib.errors import TutorialError
from tutorial_lib.findings import Finding, Remedy
from tutorial_lib.plan import Plan


@cache
def process() -> ProcessPoolExecutor:
    """The process; begun when first given something to do."""
    # begun fresh: a copy of a kernel has its threads' locks without its threads
    return ProcessPoolExecutor(1, mp_context=get_context("spawn"), initializer=_begin)


def _begin() -> None:
    """Stands back for notebook and browser, isn't interrupted with the notebook, and ends with it."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    if hasattr(os, "SCHED_BATCH"):
        os.sched_setscheduler(0, os.SCHED_BATCH, os.sched_param(0))  # also where the notebook itself is first in line
    if hasattr(os, "nice"):
        os.nice(10)
    Thread(target=_end_with_notebook, daemon=True).start()


def _end_with_notebook() -> None:
    parent = parent_process()
    if parent is not None:
        parent.join()
        os._exit(0)


_IN_HAND: list[Plan] = []  # the last bed asked about: its findings come one after another


def remedies(options: Options, finding: Finding) -> tuple[Remedy, ...]:
    """What was tried against a finding of a bed and helps; nothing where that can't be worked out."""
    if not _IN_HAND or _IN_HAND[0].options != options:
        _IN_HAND[:] = [Plan(options)]
    return tried(_IN_HAND[0], finding)


def tried(plan: Plan, finding: Finding) -> tuple[Remedy, ...]:
    """The same of a plan, which keeps what was tried."""
    from tutorial_lib.remedies import told

    try:
        return told(plan, finding).remedies
    except TutorialError:
        return ()
