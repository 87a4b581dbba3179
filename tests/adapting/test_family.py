"""All sizes at once, here or on other processes."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction

from tests.design.builds import demo
from tutorial_lib.adapting.family import LEG_LAYOUTS, Member, Task, family, members, table
from tutorial_lib.design.build_file import read_build
from tutorial_lib.pool import on_processes

TWO = ("US twin", "US full")


def test_processes_give_the_same_family_in_the_same_order() -> None:
    seen: list[tuple[int, int, str]] = []

    def told(done: int, total: int, member: Member) -> None:
        seen.append((done, total, member.size))

    through = family(demo(), TWO, through=on_processes, progress=told)
    assert through == family(demo(), TWO)
    assert [m.size for m in through] == list(TWO)
    assert [(done, total) for done, total, _ in seen] == [(1, 2), (2, 2)]


def test_beds_are_worked_out_as_they_are_asked_for() -> None:
    taken = []

    def one_by_one(work: Callable[[Task], Member], tasks: Iterable[Task]) -> Iterator[tuple[int, Member]]:
        for number, task in enumerate(tasks):
            taken.append(task.size)
            yield number, work(task)

    found = members(demo(), TWO, through=one_by_one)
    assert not taken and next(found)[1].size == "US twin" and taken == ["US twin"]


def test_parts_of_a_size_by_hand() -> None:
    twin, full = family(demo(), TWO)
    cells = dict(full.parts)
    assert (cells["slat"].count, cells["slat"].length) == (14, Fraction(213, 4))
    assert "centre_beam" in cells and "centre_beam" not in dict(twin.parts)
    assert twin.sound and not twin.changes
    assert read_build(full.build).centre.lines == 1


def test_table_puts_legs_of_the_sides_together() -> None:
    heads, rows = table(family(demo(), TWO), "in")
    legs = heads.index("side leg")
    assert [row[legs].replace("\N{NO-BREAK SPACE}", " ") for row in rows] == ["6 × 13 3/4", "6 × 13 3/4"]
    assert {"centre beam", "holds", "rules that trip"} <= set(heads)


def test_leg_layouts() -> None:
    found = family(demo(), ("US twin",), LEG_LAYOUTS)
    legs = {m.variant: sum(cell.count for key, cell in m.parts if key == "leg") for m in found}
    assert legs == {"2 legs a side": 4, "3 legs a side": 6, "4 legs a side": 8} or not all(m.sound for m in found)


def test_what_cannot_exist_is_told_and_the_rest_goes_on() -> None:
    bad, good = family(demo(), ("20x75 in", "US twin"), {"tiny": {"slats.play": "12 in"}})
    assert not bad.sound and bad.stops
    assert good.size == "US twin"
