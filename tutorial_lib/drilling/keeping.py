"""The distances that a fastener keeps from ends, edges and its neighbours where its place is ours to choose."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from math import ceil

from tutorial_lib.design.end_distances import END, ROW, THICK, rows_aside
from tutorial_lib.design.model import Build
from tutorial_lib.drilling import placing


@lru_cache(maxsize=1024)
def up_to(x: float, grid: Fraction) -> Fraction:
    """The next even mark up [in]: eighths of an inch, or whole millimetres.

    >>> up_to(0.885, Fraction(1, 16))
    Fraction(1, 1)
    """
    step = Fraction(1, 8) if grid == Fraction(1, 16) else grid
    return ceil(round(x / float(step), 6)) * step


def distances(build: Build, diameter: float, length: float = 0.0) -> placing.Distances:
    """What a fastener keeps when its place is ours to choose [in].

    From 1/4 in on: ends and spacing 4 D, between rows more as the fastener is slender, edges 1.5 D (NDS 2018 12.5.1,
    full value); thinner screws, pre-bored: ends and rows 5 D, edges and rows aside 2.5 D (NDS Commentary C12.1.5.7).

    Args:
        build: the bed.
        diameter: of the fastener [in].
        length: in the thinner of the pieces it is loaded across [in]; 0 where nothing loads it across.
    """
    return _distances(build.grid, diameter, length)


@lru_cache(maxsize=1024)
def _distances(grid: Fraction, diameter: float, length: float) -> placing.Distances:
    far = max(ROW.full, rows_aside(length, diameter))
    thick = (END.full, 1.5, far, far)
    ends, edges, row, rows = thick if diameter >= THICK else (5.0, 2.5, 5.0, 2.5)
    return placing.Distances(*(up_to(times * diameter, grid) for times in (ends, edges, row, rows)))
