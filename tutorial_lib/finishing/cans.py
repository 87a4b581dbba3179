"""Which cans to buy: the cheapest that hold enough where prices are known, else the least of one size."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import product
from math import ceil

from tutorial_lib.measures import factor
from tutorial_lib.records import dataclass

FEW = 2  # cans of one size that are taken before a larger one; a larger can costs less by volume (our choice)


@dataclass(frozen=True)
class Can:
    """One size of can."""

    name: str  # "1 quart"
    gallons: Fraction  # [US gal]
    price: Fraction | None = None  # in the build's currency


@dataclass(frozen=True)
class Cans:
    """What to buy: so many of one size, or of one and a smaller one."""

    lots: tuple[tuple[Can, int], ...]

    @property
    def gallons(self) -> Fraction:
        """What they hold [US gal]."""
        return sum((can.gallons * count for can, count in self.lots), Fraction(0))

    @property
    def count(self) -> int:
        """How many cans."""
        return sum(count for _, count in self.lots)

    @property
    def cost(self) -> Fraction:
        """What they cost; cans without a price count nothing."""
        return sum(((can.price or Fraction(0)) * count for can, count in self.lots), Fraction(0))

    def __str__(self) -> str:
        return " and ".join(can.name if count == 1 else f"{count} x {can.name}" for can, count in self.lots)


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

    With prices the cheapest, of one size or of one and a smaller, then the least left over. Without, the least that
    holds it in one or two cans of one size, or as many of the largest as it takes.

    >>> str(choose(0.33, SOLD["in"]))
    '2 x 1 quart'
    >>> quart, gallon = Can("1 quart", Fraction(1, 4), Fraction(22)), Can("1 gallon", Fraction(1), Fraction(60))
    >>> str(choose(1.1, [quart, gallon]))
    '1 gallon and 1 quart'
    """
    need = Fraction(gallons)
    made = [Cans(((can, max(ceil(need / can.gallons), 1)),)) for can in offered]
    if all(can.price is not None for can in offered):
        return min((*made, *_mixed(need, offered)), key=lambda cans: (cans.cost, cans.gallons, cans.count))
    largest = max(can.gallons for can in offered)
    few = [cans for cans in made if cans.count <= FEW or cans.lots[0][0].gallons == largest]
    return min(few, key=lambda cans: (cans.gallons, cans.count))


def _mixed(need: Fraction, offered: Sequence[Can]) -> Iterator[Cans]:
    """Every number of a larger can that leaves something over, the rest in a smaller one."""
    for large, small in product(offered, offered):
        for count in range(1, ceil(need / large.gallons)) if small.gallons < large.gallons else ():
            yield Cans(((large, count), (small, ceil((need - count * large.gallons) / small.gallons))))
