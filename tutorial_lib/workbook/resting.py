"""What is worked out while nothing moves: begun after a rest, given up when a control moves again."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Coroutine
from typing import Any

PAUSE = 0.25  # [s] without a move before what takes longer than a redraw is worked out
REST = 0.8  # [s] without a move before remedies are tried, and lists and other panels follow
BREATH = 0.002  # [s] between two rooms, in which a move that came meanwhile is taken
BEHIND = "As it was before the last change; it follows in a moment."


class Waiting:
    """One piece of such work; a later one takes its place."""

    def __init__(self) -> None:
        self.task: asyncio.Task[None] | None = None

    def stop(self) -> None:
        """Gives up what is waiting or under way."""
        if self.task is not None:
            self.task.cancel()
            self.task = None

    def begin(self, work: Callable[[], Coroutine[Any, Any, None]], without: Callable[[], object]) -> None:
        """Begins it; does the other at once where no event loop runs, as in a script."""
        self.stop()
        try:
            loop = asyncio.get_running_loop()
        except RuntimeError:
            without()
            return
        self.task = loop.create_task(work())
