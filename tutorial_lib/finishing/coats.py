"""Coats: how much finish the bed takes, which can to buy, how long it dries. All are ranges: read the can."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from tutorial_lib.finishing.cans import Can, Cans, choose
from tutorial_lib.tables.finishing import Coverage, coverages

ALLOWANCE = (1.10, 1.15)  # waste and absorption, smooth wood; common practice, no source
END_GRAIN = (2, 3)  # end grain drinks so many times as much; from memory
FLUID_OUNCES = 128  # in a US gallon
LITRES = 3.785411784  # in a US gallon, exact by definition


@dataclass(frozen=True)
class Kind:
    """One kind of finish: which coverage row stands for it and how long it takes. Hours from labels, from memory."""

    name: str
    row: str  # finish in the coverage table
    recoat: tuple[int, int]  # [h]
    handle: tuple[int, int]  # [h] after the last coat until parts may be handled and screwed together
    cure: tuple[int, int]  # [h] after the last coat until the mattress goes on
    oily: bool = False  # its rags heat up by themselves
    solvent: bool = False


KINDS: dict[str, Kind] = {
    kind.name: kind
    for kind in (
        Kind("oil", "penetrating/semitransparent oil stain, one coat", (4, 24), (12, 24), (48, 72), True, True),
        Kind("oil stain", "oil-based stain", (8, 24), (12, 24), (48, 72), True, True),
        Kind("water stain", "water-based stain", (2, 4), (4, 12), (48, 72)),
        Kind("varnish", "polyurethane or varnish (per coat)", (6, 24), (24, 48), (72, 168), True, True),
        Kind("water varnish", "polyurethane or varnish (per coat)", (2, 4), (6, 12), (48, 72)),
        Kind("paint", "latex or alkyd paint or primer, one coat", (4, 16), (12, 24), (48, 72)),
    )
}
OTHER = Kind("", "", (4, 24), (12, 24), (48, 72), True, True)
ALIASES = {
    "stain": "oil stain",
    "polyurethane": "varnish",
    "poly": "varnish",
    "water-based polyurethane": "water varnish",
    "hard wax oil": "oil",
    "hardwax oil": "oil",
    "danish oil": "oil",
    "linseed oil": "oil",
    "tung oil": "oil",
    "latex paint": "paint",
    "primer": "paint",
}


@dataclass(frozen=True, kw_only=True)
class Coats:
    """The finish of one bed."""

    kind: str  # as the creator names it
    coats: int
    coverage: Coverage | None  # None: no figure known, read the can
    side_grain: Fraction  # [sq ft]
    end_grain: Fraction  # [sq ft]
    gallons: tuple[float, float] | None  # all coats, allowance included
    cans: Cans | None  # to buy; None when the can must tell
    known: Kind

    @property
    def can(self) -> str:
        """What to buy in words, "" when the can must tell."""
        return str(self.cans) if self.cans else ""

    def amount(self, units: str) -> str:
        """What the bed takes, as a range in the plan's units."""
        if self.gallons is None:
            return "read the can"
        low, high = self.gallons
        if units == "mm":
            return f"{low * LITRES * 1000:.0f} to {high * LITRES * 1000:.0f} ml"
        return f"{low * FLUID_OUNCES:.0f} to {high * FLUID_OUNCES:.0f} fl oz"


def kind_of(name: str) -> Kind:
    """What is known of a finish by the creator's name for it."""
    plain = name.strip().lower()
    return KINDS.get(ALIASES.get(plain, plain), OTHER)


def coats(name: str, count: int, side_grain: Fraction, end_grain: Fraction, offered: Sequence[Can]) -> Coats:
    """How much finish, in which can.

    Args:
        name: kind of finish.
        count: coats.
        side_grain, end_grain: area to finish [sq ft].
        offered: the cans sold.

    q = (side + k end) coats / coverage x allowance, k 2 to 3 for end grain (from memory).
    """
    kind = kind_of(name)
    coverage = next((row for row in coverages() if row.finish == kind.row and "rough" not in row.surface), None)
    gallons = None
    if coverage and count:
        least = float(side_grain + END_GRAIN[0] * end_grain) * count / coverage.high * ALLOWANCE[0]
        most = float(side_grain + END_GRAIN[1] * end_grain) * count / coverage.low * ALLOWANCE[1]
        gallons = (least, most)
    return Coats(
        kind=name,
        coats=count,
        coverage=coverage,
        side_grain=side_grain,
        end_grain=end_grain,
        gallons=gallons,
        # enough at the upper end of the range, so that one batch does
        cans=None if gallons is None else choose(gallons[1], offered),
        known=kind,
    )
