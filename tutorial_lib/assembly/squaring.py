"""Squaring a frame by its diagonals."""

from __future__ import annotations

from fractions import Fraction
from math import sqrt

from tutorial_lib.records import dataclass

TOLERANCE = Fraction(1, 8)  # [in] difference of the diagonals; common practice, no source


@dataclass(frozen=True)
class Squaring:
    """The diagonals of a frame and what a difference between them means."""

    width: Fraction  # [in] outside
    length: Fraction  # [in] outside
    inside_width: Fraction
    inside_length: Fraction
    tolerance: Fraction = TOLERANCE

    @property
    def outside_diagonal(self) -> float:
        """Corner to corner over the rails [in]."""
        return diagonal(self.width, self.length)

    @property
    def inside_diagonal(self) -> float:
        """Corner to corner between the rails [in]."""
        return diagonal(self.inside_width, self.inside_length)

    def lean(self, difference: float) -> float:
        """How far one end stands to the side when the outside diagonals differ [in], over the frame's width."""
        return lean(float(self.width), float(self.length), difference)


def diagonal(width: Fraction, length: Fraction) -> float:
    """Diagonal of a rectangle [in]. Pythagoras.

    >>> diagonal(Fraction(3), Fraction(4))
    5.0
    """
    return sqrt(width * width + length * length)


def difference(width: float, length: float, lean: float) -> float:
    """Difference of the diagonals [in] when one long side has run ahead of the other by ``lean``.

    The sides keep their length, so the frame becomes a parallelogram. Geometry; about 2 lean L / D for a small lean.

    >>> round(difference(56.75, 78.75, 0.077), 3)
    0.125
    """
    across = sqrt(width * width - lean * lean)
    return sqrt((length + lean) ** 2 + across**2) - sqrt((length - lean) ** 2 + across**2)


def lean(width: float, length: float, difference: float) -> float:
    """How far one long side has run ahead of the other [in], over the frame's width, from the diagonals' difference.

    Their squares differ by 4 L e and add up to 2 (L^2 + W^2) whatever the lean, so the answer is exact:
    e = d sqrt(4 (L^2 + W^2) - d^2) / (4 L). Geometry.

    >>> round(lean(56.75, 78.75, 0.125), 3)
    0.077
    """
    return difference * sqrt(4 * (length**2 + width**2) - difference**2) / (4 * length)
