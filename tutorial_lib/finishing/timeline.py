"""The timeline from the first cut or sanding to the mattress: every task with the least and the most it takes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Literal

from tutorial_lib.finishing.coats import Coats
from tutorial_lib.finishing.sanding import Sanding
from tutorial_lib.records import dataclass

COAT_MINUTES = (2, 4)  # [min per sq ft] one coat by rag or brush, wiping off included; common practice, no source
RUB_MINUTES = (0.25, 0.5)  # [min per sq ft] sanding between coats by hand; common practice, no source
ASSEMBLY_HOURS = (2, 4)  # common practice, no source
CUT_MINUTES = (2, 4)  # [min] one cut, marked and squared; common practice, no source
HOLE_MINUTES = (0.5, 1)  # [min] one hole, marked and bored; common practice, no source

Row = tuple[str, Literal["hands", "waiting"], tuple[float, float]]  # name, work, hours


@dataclass(frozen=True)
class Task:
    """One task: after which time it starts and how long it takes, at best and at worst [h]."""

    name: str
    work: Literal["hands", "waiting"]
    hours: tuple[float, float]
    start: tuple[float, float]

    @property
    def end(self) -> tuple[float, float]:
        """When it is over, at best and at worst [h]."""
        return (self.start[0] + self.hours[0], self.start[1] + self.hours[1])


def timeline(sanding: Sanding, coats: Coats, recoat: float | None) -> tuple[Task, ...]:
    """All tasks one after the other.

    Args:
        sanding: grits and minutes.
        coats: kind and number of coats.
        recoat: hours between coats as stated by the creator; the usual range when None.
    """
    return _in_turn(_tasks(sanding, coats, recoat))


def from_first_cut(tasks: Iterable[Task], cuts: int, holes: int) -> tuple[Task, ...]:
    """The same after sawing and boring.

    Args:
        tasks: from the first sanding on.
        cuts: at the saw; none where nothing is cut.
        holes: bored in all pieces.
    """
    work = (("Cut the pieces", cuts, CUT_MINUTES), ("Mark and bore the holes", holes, HOLE_MINUTES))
    before: list[Row] = [(name, "hands", (count * low / 60, count * high / 60))
                         for name, count, (low, high) in work if count]  # fmt: skip
    return _in_turn([*before, *((task.name, task.work, task.hours) for task in tasks)])


def _in_turn(rows: Iterable[Row]) -> tuple[Task, ...]:
    tasks: list[Task] = []
    now = (0.0, 0.0)
    for name, work, hours in rows:
        task = Task(name, work, hours, now)
        tasks.append(task)
        now = task.end
    return tuple(tasks)


def _tasks(sanding: Sanding, coats: Coats, recoat: float | None) -> Iterator[Row]:
    low, high = sanding.minutes
    grits = " and ".join(f"{g.number} grit" for g in sanding.grits) or "by hand"
    yield f"Sand, {grits}; ease the edges", "hands", (low / 60, high / 60)
    yield "Vacuum and wipe off the dust", "hands", (0.25, 0.5)
    area = float(coats.side_grain + coats.end_grain)
    brush = (area * COAT_MINUTES[0] / 60, area * COAT_MINUTES[1] / 60)
    between = (recoat, recoat) if recoat is not None else _floats(coats.known.recoat)
    for number in range(1, coats.coats + 1):
        yield f"Coat {number}", "hands", brush
        if number < coats.coats:
            yield f"Dry before coat {number + 1}", "waiting", between
            if coats.known.between:
                yield f"Sand lightly, {coats.known.between} grit; wipe off the dust", "hands", _rubbed(area)
    if coats.coats:
        yield "Dry until parts can be handled", "waiting", _floats(coats.known.handle)
    yield "Put the bed together", "hands", ASSEMBLY_HOURS
    if coats.coats:
        yield "Air out until the smell is gone", "waiting", _airing(coats)


def _rubbed(area: float) -> tuple[float, float]:
    """Hours to rub a dry coat smooth."""
    return (area * RUB_MINUTES[0] / 60, area * RUB_MINUTES[1] / 60)


def _airing(coats: Coats) -> tuple[float, float]:
    """What is left of the time until the mattress may go on."""
    handle, cure = coats.known.handle, coats.known.cure
    return (max(0.0, cure[0] - handle[0] - ASSEMBLY_HOURS[0]), max(0.0, cure[1] - handle[1] - ASSEMBLY_HOURS[1]))


def _floats(pair: tuple[int, int]) -> tuple[float, float]:
    return (float(pair[0]), float(pair[1]))
