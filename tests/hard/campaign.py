"""The campaign: many hostile inputs at every door, and what became of them.

By hand, from the clone: ``python -m tests.hard.campaign 200000`` (``--seed``, ``--door``). It prints a table and keeps
each new failure as a small file in ``tests/hard/kept``, which the tests try again for ever after.
"""

from __future__ import annotations

import argparse
import json
import mmap
import os
import resource
import signal
import struct
import sys
import time
import traceback
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from tests.hard import doors, odd
from tests.hard.spoil import Case

KEPT = Path(__file__).with_name("kept")
SECONDS = 10.0  # of processor time for one case
MEMORY = 1_000_000_000  # [bytes] that all cases of a chunk may add
CHUNK = 500
SHOWN = 12


class TooLongError(Exception):
    """A case took more than its processor time."""


@contextmanager
def limited() -> Iterator[None]:
    """Processor time for one case; the limit is the case's own, whatever else the machine does."""

    def late(*_: object) -> None:
        raise TooLongError(f"more than {SECONDS:g} s of processor time")

    before = signal.signal(signal.SIGVTALRM, late)
    signal.setitimer(signal.ITIMER_VIRTUAL, SECONDS)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)
        signal.signal(signal.SIGVTALRM, before)


def attempt(door: str, case: Case) -> str:
    """What became of a case: "used", "refused", or what went wrong."""
    try:
        with limited():
            return doors.enter(door, case)
    except MemoryError:
        return "failed: out of memory"
    except Exception as error:
        return f"failed: {type(error).__name__}: {str(error)[:200]} {_where(error)}"


def _where(error: Exception) -> str:
    """The deepest place in the library."""
    frames = [f for f in traceback.extract_tb(error.__traceback__) if "tutorial_lib" in f.filename]
    return f"({Path(frames[-1].filename).name}:{frames[-1].lineno})" if frames else ""


def shares(count: int, only: str | None = None) -> dict[str, int]:
    """How many of all cases each door gets."""
    if only:
        return {only: count}
    return {door: max(1, int(count * share / 100)) for door, (_, share) in odd.DOORS.items()}


def run(seed: int, door: str, count: int, first: int = 0) -> tuple[Counter[str], dict[int, str]]:
    """Cases of one door, in this process: how many were used and refused, and the failures by number."""
    counts: Counter[str] = Counter()
    failures: dict[int, str] = {}
    for index in range(first, first + count):
        became = attempt(door, odd.case(seed, door, index))
        counts[became.split(":")[0]] += 1
        if became.startswith("failed"):
            failures[index] = became
    return counts, failures


def run_apart(seed: int, door: str, count: int) -> tuple[Counter[str], dict[int, str]]:
    """The same in processes of their own with a limit of memory, so that not even a crash ends the campaign."""
    counts: Counter[str] = Counter()
    failures: dict[int, str] = {}
    done = 0
    while done < count:
        chunk = min(CHUNK, count - done)
        told, reached = _child(seed, door, chunk, done)
        if told is None:  # it died at a case
            failures[reached] = "failed: the process died: out of time or memory"
            counts["failed"] += 1
            done = reached + 1
            continue
        counts += Counter(told[0])
        failures |= {int(i): what for i, what in told[1].items()}
        done += chunk
    return counts, failures


def _child(seed: int, door: str, count: int, first: int) -> tuple[list[dict[str, object]] | None, int]:
    place = mmap.mmap(-1, 8)
    reader, writer = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            os.close(reader)
            with os.fdopen(writer, "w") as out:
                json.dump(_chunk(seed, door, range(first, first + count), place), out)
        finally:
            os._exit(0)
    os.close(writer)
    with os.fdopen(reader) as answers:
        text = answers.read()
    os.waitpid(child, 0)
    return (json.loads(text) if text else None), struct.unpack("q", place[:])[0]


def _chunk(seed: int, door: str, indexes: range, place: mmap.mmap) -> tuple[Counter[str], dict[int, str]]:
    """In the child: its cases one by one, the number of the present one where the parent sees it."""
    signal.signal(signal.SIGALRM, signal.SIG_DFL)
    used = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024
    resource.setrlimit(resource.RLIMIT_AS, (used + 4 * MEMORY, resource.RLIM_INFINITY))
    counts: Counter[str] = Counter()
    failures: dict[int, str] = {}
    for index in indexes:
        place[:] = struct.pack("q", index)
        more, failed = run(seed, door, 1, index)
        counts += more
        failures |= failed
        if resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024 > used + MEMORY:
            failures[index] = "failed: more than 1 GB"
            break
    return counts, failures


def keep(seed: int, door: str, index: int, became: str) -> Path:
    """A failure as a small file."""
    KEPT.mkdir(exist_ok=True)
    path = KEPT / f"{door}-{seed}-{index}.json"
    data = {"door": door, "case": odd.case(seed, door, index), "was": became}
    path.write_text(json.dumps(data, indent=1) + "\n", encoding="utf-8")
    return path


def main() -> int:
    """The campaign by hand; 1 when anything failed."""
    parser = argparse.ArgumentParser()
    parser.add_argument("count", type=int)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--door", choices=odd.DOORS)
    parser.add_argument("--keep", action="store_true", help="keep each kind of failure as a file")
    args = parser.parse_args()
    print(f"seed {args.seed}\n{'door':<10}{'cases':>9}{'used':>9}{'refused':>9}{'failed':>9}{'CPU ms':>9}")
    failed = total = 0
    for door, count in shares(args.count, args.door).items():
        began = time.process_time() + sum(os.times()[2:4])
        counts, failures = run_apart(args.seed, door, count)
        spent = time.process_time() + sum(os.times()[2:4]) - began
        became = "".join(f"{counts[name]:>9}" for name in ("used", "refused", "failed"))
        print(f"{door:<10}{count:>9}{became}{spent / count * 1000:>9.2f}")
        kinds: dict[str, list[int]] = {}
        for index, told in failures.items():
            kinds.setdefault(told[:60] + told[-20:], []).append(index)
        for indexes in list(kinds.values())[:SHOWN]:
            print(f"    {len(indexes)} x, {indexes[0]}: {failures[indexes[0]]}")
            if args.keep:
                keep(args.seed, door, indexes[0], failures[indexes[0]])
        failed += len(failures)
        total += count
        sys.stdout.flush()
    print(f"{total} cases, {failed} failures")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
