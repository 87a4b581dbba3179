"""Shear and moment along one bar of a line, by balance of all that presses on it."""

from __future__ import annotations

from collections.abc import Sequence

from tutorial_lib.records import dataclass
from tutorial_lib.strength.grillage import Moved
from tutorial_lib.strength.lines import Line


@dataclass(frozen=True)
class Station:
    """One place along the bar, just right of whatever presses there."""

    x: float  # [in]
    shear: float  # [lb]
    moment: float  # [lb in] positive where it pulls the lower face


def forces(line: Line, number: int, bar: int, moved: Moved, *, own: bool) -> list[tuple[float, float]]:
    """(x, pounds down) of all that presses on a bar of the line with this number."""
    found, pushes, carried = [], moved.pushes[number], moved.carried[number]
    for p in line.presses[bar]:
        if p.slat >= 0:
            found.append((p.x, p.factor * pushes[p.slat]))
        elif p.link >= 0:
            found.append((p.x, p.factor * carried[p.link]))
        else:
            found.append((p.x, p.factor if own else 0.0))
    return found


def walk(line: Line, number: int, bar: int, moved: Moved, *, own: bool) -> list[Station]:
    """Shear and moment at every place where something presses, from the head."""
    board = line.bars[bar]
    weight = board.weight if own else 0.0
    shear, moment, at = 0.0, 0.0, board.start
    stations = []
    for x, load in forces(line, number, bar, moved, own=own):
        step = x - at
        moment += shear * step - weight * step * step / 2
        shear -= weight * step + load
        at = x
        stations.append(Station(x, shear, moment))
    return stations


def shear_at(pressing: Sequence[tuple[float, float]], x: float, start: float, weight: float) -> float:
    """Shear just right of x from all that presses before it [lb].

    >>> shear_at([(0.0, -30.0), (10.0, 50.0)], 10.0, 0.0, 0.5)
    -25.0
    """
    return -sum(load for at, load in pressing if at <= x) - weight * (x - start)
