"""How slats share their load among lines that give: the force method on slats and lines together.

A slat on two lines needs none of this. With a centre line, each slat's push on it is an unknown; the slats' bending and
the lines' sag under the pushes must fit. The same answer as a grillage without twisting.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from tutorial_lib.strength.beams import Beam, PointLoad, SpreadLoad, bend

Matrix = tuple[tuple[float, ...], ...]


@cache
def give(beam: Beam, places: tuple[float, ...]) -> Matrix:
    """Sag of a line at each slat from 1 lb at each slat [in/lb]."""
    rows = []
    for x in places:
        bent = bend(beam, (PointLoad(x, 1.0),))
        rows.append(tuple(bent.sag(y) for y in places))
    return tuple(rows)


@cache
def own_sag(beam: Beam, per_inch: float, places: tuple[float, ...]) -> tuple[float, ...]:
    """Sag of a line at each slat from its own weight [in]."""
    bent = bend(beam, (SpreadLoad(beam.start, beam.end, per_inch),))
    return tuple(bent.sag(x) for x in places)


@cache
def slat_give(slat: Beam) -> Matrix:
    """Sag of a slat on its two outer lines at the inner ones, from 1 lb at each inner one [in/lb]."""
    inner = slat.supports[1:-1]
    outer = Beam(slat.start, slat.end, slat.stretches, (slat.supports[0], slat.supports[-1]))
    rows = []
    for y in inner:
        bent = bend(outer, (PointLoad(y, 1.0),))
        rows.append(tuple(bent.sag(z) for z in inner))
    return tuple(rows)


def fit(slat: Beam) -> Matrix:
    """Rows: an inner line's settlement less the straight line between the outer ones, by line."""
    low, high = slat.supports[0], slat.supports[-1]
    rows = []
    for k, y in enumerate(slat.supports[1:-1], start=1):
        t = (y - low) / (high - low)
        rows.append(
            tuple(
                -(1 - t) if c == 0 else -t if c == len(slat.supports) - 1 else float(c == k)
                for c in range(len(slat.supports))
            )
        )
    return tuple(rows)


@cache
def _factored(slat: Beam, beams: tuple[Beam, ...], places: tuple[float, ...]) -> list[list[float]]:
    """The system's matrix after elimination (Cholesky): slats' give on the diagonal blocks, lines' give everywhere."""
    own, rows = slat_give(slat), fit(slat)
    gives = [give(beam, places) for beam in beams]
    inner, count = len(own), len(places)
    size = inner * count
    matrix = [[0.0] * size for _ in range(size)]
    for a in range(inner):
        for b in range(inner):
            pairs = [(rows[a][c] * rows[b][c], gives[c]) for c in range(len(beams)) if rows[a][c] * rows[b][c]]
            for i in range(count):
                for k in range(count):
                    value = sum(f * g[i][k] for f, g in pairs)
                    matrix[i * inner + a][k * inner + b] = value + (own[a][b] if i == k else 0.0)
    return _cholesky(matrix)


def _cholesky(matrix: list[list[float]]) -> list[list[float]]:
    lower: list[list[float]] = []
    for i, row in enumerate(matrix):
        mine: list[float] = []
        for j in range(i):
            other = lower[j]
            mine.append((row[j] - sum(x * y for x, y in zip(mine, other, strict=False))) / other[j])
        mine.append(max(row[i] - sum(x * x for x in mine), 1e-30) ** 0.5)
        lower.append(mine)
    return lower


def _solve(lower: list[list[float]], right: Sequence[float]) -> list[float]:
    size = len(right)
    y: list[float] = []
    for i in range(size):
        y.append((right[i] - sum(a * b for a, b in zip(lower[i], y, strict=False))) / lower[i][i])
    x = y[:]
    for i in reversed(range(size)):
        x[i] /= lower[i][i]
        row, value = lower[i], x[i]
        for j in range(i):
            x[j] -= row[j] * value
    return x


def share(
    slat: Beam,
    beams: tuple[Beam, ...],
    weights: Sequence[float],
    places: tuple[float, ...],
    pushes: Sequence[Sequence[float]],
) -> list[list[float]]:
    """Each slat's push on each line when the lines give.

    Args:
        slat: a slat as a beam on its lines.
        beams: the lines as beams on their legs.
        weights: own weight of each line [lb/in].
        places: x of each slat [in].
        pushes: by line, each slat's push when lines don't give [lb].
    """
    own, rows = slat_give(slat), fit(slat)
    inner, count = len(own), len(places)
    stiff = [[pushes[a + 1][i] for a in range(inner)] for i in range(count)]
    free = [
        [pushes[c][i] - sum(rows[a][c] * stiff[i][a] for a in range(inner)) for i in range(count)]
        for c in range(len(beams))
    ]
    sags = []
    for c, beam in enumerate(beams):
        flexible, weighed = give(beam, places), own_sag(beam, weights[c], places)
        sags.append(
            [
                w + sum(g * r for g, r in zip(row, free[c], strict=True))
                for row, w in zip(flexible, weighed, strict=True)
            ]
        )
    right = [
        sum(own[a][b] * stiff[i][b] for b in range(inner)) - sum(rows[a][c] * sags[c][i] for c in range(len(beams)))
        for i in range(count)
        for a in range(inner)
    ]
    found = _solve(_factored(slat, beams, places), right)
    return [
        [free[c][i] + sum(rows[a][c] * found[i * inner + a] for a in range(inner)) for i in range(count)]
        for c in range(len(beams))
    ]
