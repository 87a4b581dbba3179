"""Boards a viewer has already, as they say it: "10 of 2x4, 92 1/2 in, actual 1 1/2 x 3 7/16"."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from tutorial_lib import tables
from tutorial_lib.design.build_file import change
from tutorial_lib.design.options import Options
from tutorial_lib.errors import Fault, InputError
from tutorial_lib.measures import Units, exact_length, read_length, sold_length, writer
from tutorial_lib.records import dataclass

if TYPE_CHECKING:
    from tutorial_lib.cutting.bed import OwnBoards as Taken

EXAMPLE = "10 of 2x4, 92 1/2 in, actual 1 1/2 x 3 7/16"
COUNTED = re.compile(r"(?:(?P<count>[0-9]{1,4})\s*(?:of|x|×|\s)\s*)?(?P<section>\S.*)", re.IGNORECASE)
SECTION = re.compile(r"[0-9][0-9/]*(?:\s*(?:mm)?\s*[x×]\s*[0-9][0-9/]*(?:\s*mm)?)", re.IGNORECASE)
MOST = 1000  # boards of one kind at hand; our choice


@dataclass(frozen=True)
class OwnBoards:
    """So many boards of one section and length at hand."""

    count: int
    section: str
    length: Fraction  # [in]
    thickness: Fraction | None = None  # [in] as measured
    width: Fraction | None = None

    def words(self, units: Units) -> str:
        """As one says it."""
        text = f"{self.count} of {self.section}, {sold_length(self.length)}"
        if self.thickness is None or self.width is None:
            return text
        return f"{text}, actual {writer(units).length(self.thickness)} x {writer(units).length(self.width)}"

    def row(self, units: Units) -> dict[str, Any]:
        """The boards as a row of stock in the build file."""
        row: dict[str, Any] = {"length": exact_length(self.length, units), "available": self.count}
        if self.thickness is not None and self.width is not None:
            row |= {"thickness": exact_length(self.thickness, units), "width": exact_length(self.width, units)}
        return row


def read_own_boards(texts: Iterable[str], units: Units = "in", where: str = "--have") -> tuple[OwnBoards, ...]:
    """Boards at hand from what a person writes; several set off by semicolons.

    Args:
        texts: such as "10 of 2x4, 92 1/2 in, actual 1 1/2 x 3 7/16".
        units: of numbers without one.
        where: the place named in the error.

    Raises:
        InputError: all that can't be read, each with what to write.

    >>> boards, = read_own_boards(["10 of 2x4, 92 1/2in, actual 1 1/2 x 3 7/16"])
    >>> boards.count, boards.section, boards.length, boards.width
    (10, '2x4', Fraction(185, 2), Fraction(55, 16))
    """
    found: list[OwnBoards] = []
    faults: list[Fault] = []
    for part in (part.strip() for text in texts for part in text.split(";")):
        if part:
            try:
                found.append(_read(part, units, where))
            except InputError as error:
                faults += error.faults
    if faults:
        raise InputError(faults)
    return tuple(found)


def _read(text: str, units: Units, where: str) -> OwnBoards:
    parts = [" ".join(part.split()) for part in text.split(",")]
    counted = COUNTED.fullmatch(parts[0])
    if counted is None or not 2 <= len(parts) <= 3:
        raise InputError(Fault(where, f'"{text}": write how many, the lumber and the length, as in "{EXAMPLE}".'))
    count, name = int(counted["count"] or 1), counted["section"]
    if SECTION.fullmatch(parts[0]):  # "2 x 4" is a section and not two boards of something
        count, name = 1, parts[0]
    if not 1 <= count <= MOST:
        raise InputError(Fault(where, f'"{text}": {count} boards; give 1 to {MOST}.'))
    section = tables.dressed(name, where).name
    length = read_length(parts[1], units, where)
    if length <= 0:
        raise InputError(Fault(where, f'"{text}": the length must be more than 0.'))
    thickness, width = _actual(parts[2], text, units, where) if len(parts) == 3 else (None, None)
    return OwnBoards(count, section, length, thickness, width)


def _actual(words: str, text: str, units: Units, where: str) -> tuple[Fraction, Fraction]:
    """Thickness and width as measured."""
    sides = re.split(r"\s*(?:[x×]|\bby\b)\s*", re.sub(r"(?i)^actual(?:ly)?\s+", "", words))
    if len(sides) != 2:
        raise InputError(Fault(where, f'"{text}": write the actual size as thickness x width, as in "{EXAMPLE}".'))
    one, two = (read_length(side, units, where) for side in sides)
    if min(one, two) <= 0:
        raise InputError(Fault(where, f'"{text}": the actual size must be more than 0.'))
    return min(one, two), max(one, two)


def with_own_boards(options: Options, boards: Sequence[OwnBoards]) -> Options:
    """The options with boards at hand added to what the shop sells."""
    units, raw = options.build.units, options.raw().get("lumber", {})
    changes = {}
    for section in dict.fromkeys(own.section for own in boards):
        rows = list(raw.get(section, {}).get("stock", []))
        changes[f"lumber.{section}.stock"] = [*rows, *(b.row(units) for b in boards if b.section == section)]
    return change(options, changes)


def use_of(taken: Iterable[Taken], have: Iterable[OwnBoards]) -> str:
    """How many of the boards at hand a cut plan takes, section by section.

    Args:
        taken: boards at hand that the plan cuts.
        have: boards at hand.
    """
    used = Counter[str]()
    for board in taken:
        used[board.section] += board.count
    there = Counter[str]()
    for boards in have:
        there[boards.section] += boards.count
    return "; ".join(_use(section, used[section], count) for section, count in there.items())


def _use(section: str, used: int, there: int) -> str:
    if not used:
        return f"no piece of this bed comes from your {section}"
    return f"{used} of your {there} {section} {'is' if used == 1 else 'are'} used, nothing to buy or carry"


def all_alike(options: Options, boards: Sequence[OwnBoards], bought: Iterable[str]) -> Iterator[tuple[str, OwnBoards]]:
    """Sections that come from own boards of one measured size alone: their size is the plan's then."""
    sections = dict.fromkeys(own.section for own in boards)
    for section in (name for name in sections if name not in set(bought)):
        sizes = {(own.thickness, own.width): own for own in boards if own.section == section}
        if len(sizes) == 1 and None not in next(iter(sizes)):
            yield section, next(iter(sizes.values()))
