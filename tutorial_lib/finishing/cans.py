"""Which cans to buy: the cheapest that hold enough where prices are known, else the least, of one size."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from tutorial_lib.measures import factor

FEW = 2  # cans of one size that are taken before a larger one; a larger can costs less by volume (our choice)


@dataclass(frozen=True)
class Can:
    """One size of can."""

    name: str  # "1 quart"
    gallons: Fraction  # [US gal]
    price: Fraction | None = None  # in the build's currency


@dataclass(frozen=True)
class Cans:
    """So many of one size."""

    can: Can
    count: int

    @property
    def gallons(self) -> Fraction:
        """What they hold [US gal]."""
        return self.can.gallons * self.count

    def __str__(self) -> str:
        return self.can.name if self.count == 1 else f"{self.count} x {self.can.name}"


def _trade(*sizes: tuple[str, int | str, str]) -> tuple[Can, ...]:
    return tuple(Can(name, Fraction(size) * factor(unit, "gal")) for name, size, unit in sizes)


SOLD: dict[str, tuple[Can, ...]] = {  # trade sizes; common practice, no source
    "in": _trade(("1/2 pint", "1/2", "pint"), ("1 pint", 1, "pint"), ("1 quart", 1, "quart"), ("1 gallon", 1, "gal")),
    "mm": _trade(
        ("250 ml", 250, "ml"), ("375 ml", 375, "ml"), ("750 ml", 750, "ml"),
        ("1 litre", 1, "l"), ("2.5 litres", "2.5", "l"), ("5 litres", 5, "l"),
    ),
}  # fmt: skip


def choose(gallons: float, offered: Sequence[Can]) -> Cans:
    """The cans to buy for an amount [US gal].

    With prices the cheapest, then the least left over. Without, the least that holds it in one or two cans of one
    size, or as many of the largest as it takes.

    >>> str(choose(0.33, SOLD["in"]))
    '2 x 1 quart'
    >>> choose(0.2, [Can("1 pint", Fraction(1, 8), Fraction(8)), Can("1 quart", Fraction(1, 4), Fraction(18))]).count
    2
    """
    need = Fraction(gallons)
    made = [Cans(can, max(ceil(need / can.gallons), 1)) for can in offered]
    if all(can.price is not None for can in offered):
        return min(made, key=lambda cans: ((cans.can.price or 0) * cans.count, cans.gallons, cans.count))
    largest = max(can.gallons for can in offered)
    few = [cans for cans in made if cans.count <= FEW or cans.can.gallons == largest]
    return min(few, key=lambda cans: (cans.gallons, cans.count))
