"""What is said in many lines, as one sum for each kind of line: exact numbers by a checksum, calculated ones nearly."""

from __future__ import annotations

import re
import zlib
from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import asinh, isclose
from pathlib import Path

from tests.snapshots.written import CALCULATED

NEAR = 1e-7  # of a sum of logarithms, for each number: far more than machines differ by, far less than a digit
SMALL = 1e-3  # from here on a number counts by its logarithm
WAYS = 7  # a number counts by its place too, so that two in one another's place are seen
EXACT = re.compile(r"-?[0-9][0-9/.]*|True|False")
HEADS = {"finding": 3, "check": 3, "joint": 2, "fact": 2, "piece": 2, "use": 4}  # words of a line that tell its kind


@dataclass(frozen=True)
class Sum:
    """What is said in one kind of line."""

    count: int  # of lines
    exact: str  # checksum of the exact numbers
    calculated: float  # the others, by their logarithms and places
    numbers: int = 0  # how many these are

    def same(self, other: Sum | None) -> bool:
        """As near as machines are."""
        if other is None or (self.count, self.exact) != (other.count, other.exact):
            return False
        return isclose(self.calculated, other.calculated, rel_tol=0, abs_tol=NEAR * max(100, self.numbers))

    def __str__(self) -> str:
        return f"{self.count} {self.exact} {self.calculated:.6f}"


def sums(said: Iterable[str]) -> dict[str, Sum]:
    """The lines of a bed by their kinds."""
    found, kind = defaultdict[str, list[str]](list), ""
    for line in said:
        if not line.startswith((" ", "(")):
            words = line.split(",", 1)[0].split(":", 1)[0].split()
            kind = " ".join(words[: HEADS.get(words[0], 1)]).split(".")[0]
        found[kind].append(line)
    return {kind: _sum(some) for kind, some in found.items()}


def _sum(some: list[str]) -> Sum:
    numbers = [float(number) for line in some for number in CALCULATED.findall(line)]
    exact = "\n".join(" ".join(EXACT.findall(CALCULATED.sub("", line))) for line in some)
    calculated = sum(asinh(number / SMALL) * (1 + i % WAYS / WAYS) for i, number in enumerate(numbers))
    return Sum(len(some), f"{zlib.crc32(exact.encode()):08x}", calculated, len(numbers))


def read(path: Path) -> dict[str, dict[str, Sum]]:
    """What was said of each thing, as written down."""
    found: dict[str, dict[str, Sum]] = {}
    for line in path.read_text(encoding="utf-8").splitlines():
        name, kind, told = line.split(" | ")
        count, exact, calculated = told.split()
        found.setdefault(name, {})[kind] = Sum(int(count), exact, float(calculated))
    return found


def written(made: Mapping[str, Mapping[str, Sum]]) -> str:
    """Sums as they are stored, a line for each."""
    return "".join(f"{name} | {kind} | {found}\n" for name, kinds in made.items() for kind, found in kinds.items())


def moved(now: Mapping[str, Sum], before: Mapping[str, Sum]) -> list[str]:
    """The kinds of lines that don't say what they said."""
    return [kind for kind, found in now.items() if not found.same(before.get(kind))] + [*before.keys() - now.keys()]


def renew(stored: Path, every: Iterable[str], said: Callable[[str], Iterable[str]], names: Sequence[str]) -> None:
    """Writes a file of sums anew; where names are given, prints what those say instead."""
    if names:
        print("\n".join(line for name in names for line in said(name)))
    else:
        stored.write_text(written({name: sums(said(name)) for name in every}), encoding="utf-8")
