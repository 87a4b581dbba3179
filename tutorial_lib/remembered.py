"""What was worked out before, kept in this machine's cache folder, so that the next command on the same bed need not.

Each thing is a JSON file under a name made of all that it follows from: what was asked, and this very program. What
can't be read or isn't whole is as if it weren't there; where nothing can be kept, nothing is, and nobody is told.
"""

from __future__ import annotations

import hashlib
import json
import os
import sys
from collections.abc import Callable, Iterator
from contextlib import suppress
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

from tutorial_lib import files

OFF = "TUTORIAL_NO_MEMORY"  # set it, and nothing is read or kept
LARGEST = 4_000_000  # [bytes] of one thing; the facts of a bed take 40,000
MOST = 60_000_000  # [bytes] of all; then the oldest half goes
TIDIED = "0"  # how the names begin at which the folder's size is looked at: one in sixteen

T = TypeVar("T")


def recalled(kind: str, asked: tuple[str, ...], read: Callable[[Any], T]) -> T | None:
    """What was kept; None where nothing was, or nothing that can be used.

    Args:
        kind: what kind of thing.
        asked: all that it follows from, but for the program.
        read: makes it of the JSON value that was kept; any error of it is as if nothing had been kept.
    """
    place = _place(kind, asked)
    if place is None:
        return None
    with suppress(Exception):  # whatever is wrong with it, it is worked out anew
        if place.stat().st_size <= LARGEST:
            whole, _, text = place.read_bytes().partition(b"\n")
            if hashlib.sha256(text).hexdigest().encode() == whole:
                return read(json.loads(text))
    return None


def keep(kind: str, asked: tuple[str, ...], value: object) -> None:
    """Keeps a JSON value for :func:`recalled`.

    Args:
        kind: what kind of thing.
        asked: all that it follows from, but for the program.
        value: what JSON can hold; anything else isn't kept.
    """
    place = _place(kind, asked)
    if place is None or program.__wrapped__() != program():  # changed since it began to work this out
        return
    with suppress(OSError, ValueError, TypeError, RecursionError):
        text = json.dumps(value).encode()
        if len(text) <= LARGEST and _room_for(place.parent):
            files.write_bytes(place, hashlib.sha256(text).hexdigest().encode() + b"\n" + text, force=True)
            if place.name.startswith(TIDIED):
                _tidy(place.parent)


def _place(kind: str, asked: tuple[str, ...]) -> Path | None:
    """The file of one thing; None where nothing is remembered."""
    if os.environ.get(OFF) or not program():
        return None
    with suppress(OSError, ValueError, RuntimeError):
        name = hashlib.sha256(json.dumps([program(), kind, *asked]).encode()).hexdigest()
        folder = files.cache_folder() / "worked-out"
        return folder / f"{name}.json" if folder.is_absolute() and _ours(folder) else None
    return None


def _ours(folder: Path) -> bool:
    """True where nobody but this person may put something into the folder, or where it is not there yet."""
    if not folder.exists() or not hasattr(os, "getuid"):
        return True
    there = folder.lstat()
    return there.st_uid == os.getuid() and not there.st_mode & 0o022 and folder.is_dir() and not folder.is_symlink()


def _room_for(folder: Path) -> bool:
    """Makes the folder where there is a home for it; that of someone who has none isn't made."""
    if folder.parents[2].is_dir():
        folder.parent.mkdir(parents=True, exist_ok=True)
        folder.mkdir(mode=0o700, exist_ok=True)
    return folder.is_dir()


def _tidy(folder: Path) -> None:
    """The oldest go where there is more than may be."""
    kept = sorted(_kept(folder))
    left = sum(size for _, size, _ in kept)
    goal = MOST / 2 if left > MOST else left
    for _, size, path in kept:
        if left <= goal:
            return
        with suppress(OSError):
            Path(path).unlink()
        left -= size


def _kept(folder: Path) -> list[tuple[float, int, str]]:
    """(when written, size, path) of what is in the folder."""
    return [(entry.stat().st_mtime, entry.stat().st_size, entry.path) for entry in os.scandir(folder)]


@cache
def program() -> str:
    """This very program: its place, its files with their sizes and times, its Python and the packages it has.

    Empty where its files can't be looked at, as in an archive.
    """
    try:
        mine = sorted(_files(str(Path(__file__).parent)))
    except OSError:
        return ""
    beside = sorted(name for folder in dict.fromkeys(sys.path) for name in _packages(folder))
    said = json.dumps([sys.version, sys.platform, sys.executable, __file__, mine, beside])
    return hashlib.sha256(said.encode("utf-8", "surrogateescape")).hexdigest()


def _files(folder: str) -> Iterator[tuple[str, int, int, int]]:
    """Every file of the program: path, size, times of its content and of its being put there [ns]."""
    for entry in os.scandir(folder):
        if entry.is_dir():
            if entry.name != "__pycache__":
                yield from _files(entry.path)
        else:
            there = entry.stat()
            yield entry.path, there.st_size, there.st_mtime_ns, there.st_ctime_ns


def _packages(folder: str) -> list[str]:
    """Names of the installed packages with their versions, as their metadata folders have them."""
    with suppress(OSError):
        return [entry.name for entry in os.scandir(folder) if entry.name.endswith((".dist-info", ".egg-info"))]
    return []
