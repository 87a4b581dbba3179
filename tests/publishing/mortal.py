"""Work that kills its process; a module of its own, so that a fresh process loads little."""

import os
import signal
from pathlib import Path


def die_once(task: tuple[str, int]) -> int:
    """A task of which one takes its process with it, the first time."""
    folder, number = task
    mark = Path(folder) / "died"
    if number == 3 and not mark.exists():
        mark.touch()
        os.kill(os.getpid(), signal.SIGKILL)
    return number * number


def die(_: int) -> int:
    """A task that never ends well."""
    os.kill(os.getpid(), signal.SIGKILL)
    return 0
