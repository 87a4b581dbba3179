"""A number as a source prints it, beside what our calculation makes of it."""

from __future__ import annotations

import importlib
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

State = Literal["seen", "from memory", "pinned"]


@dataclass(frozen=True, kw_only=True)
class Source:
    """Where numbers stand, and whether they were seen there.

    "pinned": a public test of a published example holds the figure, the printed page was not seen. It counts with those
    from memory.
    """

    title: str
    edition: str
    place: str  # table, page, section
    state: State
    rounding: str  # how the source rounds, and what our tolerance is


@dataclass(frozen=True)
class Printed:
    """One printed number. It counts once."""

    source: Source
    what: str
    value: float
    tolerance: float
    ours: Callable[[], float]

    @property
    def deviation(self) -> float:
        """Ours against the printed one, as a part of it."""
        return abs(self.ours() - self.value) / abs(self.value)

    def check(self) -> None:
        """Fail where ours isn't what is printed."""
        found = self.ours()
        assert abs(found - self.value) <= self.tolerance, f"{self}: printed {self.value}, ours {found:.6g}"

    def __str__(self) -> str:
        return f"{self.source.place}: {self.what}"


def cells(
    source: Source, tolerance: float, rows: Iterable[tuple[str, float, Callable[[], float]]]
) -> tuple[Printed, ...]:
    """Numbers of one source with one tolerance: (what, printed value, our calculation)."""
    return tuple(Printed(source, what, value, tolerance, ours) for what, value, ours in rows)


def all_printed() -> tuple[Printed, ...]:
    """Every printed number of this folder, in the order of its files."""
    files = sorted(Path(__file__).parent.glob("test_*.py"))
    names = [path.stem for path in files if "\nPRINTED" in path.read_text(encoding="utf-8")]
    modules = [importlib.import_module(f"tests.validation.{name}") for name in names]
    return tuple(cell for module in modules for cell in getattr(module, "PRINTED", ()))
