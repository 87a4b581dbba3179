"""Coats: how much finish the bed takes, which can to buy, how long it dries. All are ranges: read the can."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from difflib import get_close_matches
from fractions import Fraction

from tutorial_lib.finishing.cans import Can, Cans, choose
from tutorial_lib.measures import Units, writer
from tutorial_lib.records import dataclass
from tutorial_lib.tables.finishing import Coverage, coverages

ALLOWANCE = (1.10, 1.15)  # waste and absorption, smooth wood; common practice, no source
END_GRAIN = (2, 3)  # end grain drinks so many times as much; from memory


@dataclass(frozen=True, kw_only=True)
class Kind:
    """One kind of finish: which coverage row stands for it and how long it takes. Hours from labels, from memory."""

    name: str
    row: str  # finish in the coverage table
    recoat: tuple[int, int]  # [h]
    handle: tuple[int, int]  # [h] after the last coat until parts may be handled and screwed together
    cure: tuple[int, int]  # [h] after the last coat until the mattress goes on
    oily: bool = False  # its rags heat up by themselves
    solvent: bool = False
    between: int | None = None  # grit to sand with between coats; common practice, no source
    known: bool = True


POLYURETHANE, PAINT = "polyurethane or varnish (per coat)", "latex or alkyd paint or primer, one coat"
KINDS: dict[str, Kind] = {
    kind.name: kind
    for kind in (
        Kind(name="oil", row="penetrating/semitransparent oil stain, one coat", recoat=(4, 24), handle=(12, 24),
             cure=(48, 72), oily=True, solvent=True),
        Kind(name="oil stain", row="oil-based stain", recoat=(8, 24), handle=(12, 24), cure=(48, 72), oily=True,
             solvent=True),
        Kind(name="water stain", row="water-based stain", recoat=(2, 4), handle=(4, 12), cure=(48, 72)),
        Kind(name="varnish", row=POLYURETHANE, recoat=(6, 24), handle=(24, 48), cure=(72, 168), oily=True, solvent=True,
             between=220),
        Kind(name="water varnish", row=POLYURETHANE, recoat=(2, 4), handle=(6, 12), cure=(48, 72), between=220),
        Kind(name="paint", row=PAINT, recoat=(4, 16), handle=(12, 24), cure=(48, 72), between=220),
        Kind(name="oil paint", row=PAINT, recoat=(8, 24), handle=(24, 48), cure=(72, 168), oily=True, solvent=True,
             between=220),
    )
}  # fmt: skip
# An unknown finish is taken for an oil: its rags are the worse danger.
OTHER = Kind(name="", row="", recoat=(4, 24), handle=(12, 24), cure=(48, 72), oily=True, solvent=True, known=False)
OTHER_WATER = replace(OTHER, oily=False, solvent=False)
OTHER_SPIRIT = replace(OTHER, oily=False, between=220)
ALIASES = {
    "stain": "oil stain",
    "polyurethane": "varnish",
    "poly": "varnish",
    "wipe-on poly": "varnish",
    "water-based polyurethane": "water varnish",
    "hard wax oil": "oil",
    "hardwax oil": "oil",
    "danish oil": "oil",
    "linseed oil": "oil",
    "tung oil": "oil",
    "latex paint": "paint",
    "acrylic paint": "paint",
    "primer": "paint",
    "enamel": "oil paint",
}
WATERY = re.compile(r"\b(?:water(?:-?based|borne|-?borne)?|acrylic|latex|milk|chalk|lime)\b")
OILY = re.compile(r"\b(?:oil|oils|oil-based|linseed|tung|alkyd|danish|teak)\b")
SPIRIT = re.compile(r"\b(?:shellac|lacquer|wax|spirit)\b")
WATER_KIND = {"varnish": "water varnish", "stain": "water stain", "paint": "paint"}
OILY_KIND = {"varnish": "varnish", "stain": "oil stain", "paint": "paint"}
FAMILIES = (
    (re.compile(r"\b(?:varnish|poly|polyurethane|topcoat|clear ?coat)\b"), "varnish"),
    (re.compile(r"\bstain\b"), "stain"),
    (re.compile(r"\b(?:paint|primer|enamel)\b"), "paint"),
)


def meant(name: str) -> str:
    """What to write where a finish that isn't known looks like one that is, a sentence and a space; else nothing.

    >>> meant("oyl"), meant("moon dust")
    ('If it is oil, write kind = "oil". ', '')
    """
    near = get_close_matches(name.strip().lower(), [*KINDS, *ALIASES], 1, 0.6)
    return f'If it is {near[0]}, write kind = "{near[0]}". ' if near else ""


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

    def amount(self, units: Units) -> str:
        """What the bed takes, as a range in the plan's units."""
        if self.gallons is None:
            return "read the can"
        return writer(units).between("volume", *self.gallons)

    @property
    def in_words(self) -> str:
        """ "two coats", "one coat"."""
        words = ("no", "one", "two", "three", "four", "five", "six")
        number = words[self.coats] if self.coats < len(words) else str(self.coats)
        return f"{number} coat{'' if self.coats == 1 else 's'}"


def kind_of(name: str) -> Kind:
    """What is known of a finish by the creator's name for it; of any other, whether it is oil, spirit or water.

    >>> kind_of("waterborne polyurethane").name, kind_of("moon oil").oily, kind_of("shellac").oily
    ('water varnish', True, False)
    """
    plain = name.strip().lower()
    known = KINDS.get(ALIASES.get(plain, plain))
    if known is not None:
        return known
    watery, oily = WATERY.search(plain), OILY.search(plain)
    family = next((kind for pattern, kind in FAMILIES if pattern.search(plain)), None)
    if family:
        return KINDS[WATER_KIND[family] if watery else "oil paint" if oily and family == "paint" else OILY_KIND[family]]
    if watery:
        return OTHER_WATER
    return OTHER_SPIRIT if SPIRIT.search(plain) and not oily else OTHER


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
