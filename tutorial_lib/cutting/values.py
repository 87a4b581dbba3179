"""Piece values as whole numbers, and a number of pieces as a few parts: what both ways of counting start from."""

from __future__ import annotations

from collections.abc import Sequence

SCALE = 2**30  # piece values become whole numbers up to this, so that every comparison is exact


def whole(values: Sequence[float]) -> tuple[int, ...]:
    """Piece values as whole numbers, the largest near :data:`SCALE`.

    >>> whole((0.5, 1.0, 0.0)) == (SCALE // 2, SCALE, 0)
    True
    """
    top = max(values, default=0.0)
    if top <= 0:
        return tuple(0 for _ in values)
    return tuple(max(int(v * (SCALE / top)), 0) for v in values)


def halves(bound: int) -> list[int]:
    """1, 2, 4 ... and a rest, so that any number up to the bound is a sum of some of them.

    >>> halves(10)
    [1, 2, 4, 3]
    """
    parts: list[int] = []
    part = 1
    while bound > 0:
        parts.append(min(part, bound))
        bound -= part
        part *= 2
    return parts
