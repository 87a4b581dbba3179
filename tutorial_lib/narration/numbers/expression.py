"""One number as said."""

from __future__ import annotations

from fractions import Fraction

from tutorial_lib.records import dataclass

Nominals = frozenset[tuple[Fraction, ...]]


@dataclass(frozen=True, kw_only=True)
class Expression:
    """One number as said: words[first:last]."""

    first: int
    last: int
    values: tuple[Fraction, ...]
    unit: str = ""  # as said; "" when none
    form: str = "number"  # number, ordinal, nominal, gauge, ratio, clock, label, dozen, one
    pair: int = 0  # 1, 2, 3: place in "A by B (by C)"
    decimal: bool = False  # said with a point

    @property
    def value(self) -> Fraction:
        """Its first (mostly only) value."""
        return self.values[0]
