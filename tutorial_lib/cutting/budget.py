"""The time a search may take, shared by all its steps."""

from __future__ import annotations

import time

LEAST = 0.05  # [s] that a step gets at least, to come to anything at all


class Budget:
    """Seconds of processor time from when it is made: what else runs on the machine takes none of it."""

    def __init__(self, seconds: float) -> None:
        self.ends = time.process_time() + seconds

    @property
    def late(self) -> bool:
        """True once the time is used up."""
        return time.process_time() > self.ends

    def share(self, part: float = 1.0) -> float:
        """A part of what is left [s]."""
        return max(part * (self.ends - time.process_time()), LEAST)
