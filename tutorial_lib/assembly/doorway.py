"""Does it go through the door and round the corner of the stairs?"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import permutations
from math import cos, pi, sin

SPARE = Fraction(1, 2)  # [in] room for fingers on each side; our choice
STEPS = 900  # angles tried between 0 and 90 degrees


def passes(size: tuple[Fraction, Fraction, Fraction], width: Fraction, height: Fraction) -> tuple[int, int] | None:
    """How a box goes through a door: the axes that lie across and upright, None when it does not go.

    Args:
        size: length, width and height of the box [in].
        width, height: clear opening [in].

    The box is carried straight through with two of its edges upright; a tilt may still win a little.

    >>> frame = (Fraction(79), Fraction(42), Fraction(14))
    >>> passes(frame, Fraction(30), Fraction(80)), passes(frame, Fraction(14), Fraction(80))
    ((2, 1), None)
    """
    ways = [
        (a, b) for a, b in permutations(range(3), 2) if size[a] + 2 * SPARE <= width and size[b] + 2 * SPARE <= height
    ]
    return min(ways, key=lambda way: (size[way[0]], size[way[1]])) if ways else None


def longest_round(first: float, second: float, thickness: float) -> float:
    """Longest thing of a thickness that turns the corner of two passages at a right angle [in].

    Args:
        first, second: widths of the passages [in].
        thickness: of the thing in plan [in].

    min over t of (a cos t + b sin t - T) / (sin t cos t). Geometry; for T = 0 it is (a^(2/3) + b^(2/3))^(3/2).

    >>> round(longest_round(36, 36, 0) / (36 * 2 * 2**0.5), 4)
    1.0
    """
    if thickness >= min(first, second):
        return 0.0
    return min(_reach(first, second, thickness))


def _reach(first: float, second: float, thickness: float) -> Iterator[float]:
    for step in range(1, STEPS):
        t = step / STEPS * pi / 2
        yield max(0.0, (first * cos(t) + second * sin(t) - thickness) / (sin(t) * cos(t)))
