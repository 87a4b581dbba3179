"""Checks of a member by allowable-stress design, every factor named and shown.

NDS 2018 and its Supplement, written for structural timber; applying them to a bed is our own choice.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cache
from math import sqrt

from tutorial_lib.errors import Fault, InputError
from tutorial_lib.strength.wood import Size, Wood, flat_factor, size_factor
from tutorial_lib.strength.working import Working, figure

CREEP = 1.5  # sag that stays on for years, seasoned lumber; NDS 3.5.2, from memory


@dataclass(frozen=True)
class Factors:
    """The adjustment factors of a bending member; those that are 1 are shown too."""

    duration: float = 1.0  # CD
    wet: float = 1.0  # CM
    heat: float = 1.0  # Ct
    stability: float = 1.0  # CL
    size: float = 1.0  # CF
    flat: float = 1.0  # Cfu
    incised: float = 1.0  # Ci
    repeated: float = 1.0  # Cr

    @property
    def product(self) -> float:
        """All multiplied."""
        return (
            self.duration * self.wet * self.heat * self.stability * self.size * self.flat * self.incised * self.repeated
        )

    def __str__(self) -> str:
        names = ("CD", "CM", "Ct", "CL", "CF", "Cfu", "Ci", "Cr")
        values = (self.duration, self.wet, self.heat, self.stability, self.size, self.flat, self.incised, self.repeated)
        return " ".join(f"{name} {figure(value)}" for name, value in zip(names, values, strict=True))


def allowed_bending(
    kind: Wood, size: Size, duration: float, unbraced: float = 0.0, repeated: float = 1.0
) -> tuple[float, Factors, Working]:
    """Allowable bending stress F'b [psi], its factors and its working.

    Args:
        kind: species and grade.
        size: section and how it lies.
        duration: CD.
        unbraced: effective unbraced length le [in]; 0 where the narrow edge is held or the piece lies flat.
        repeated: Cr; 1.0 for a bed, whose slats have no deck that shares load.

    F'b = Fb CD CM Ct CL CF Cfu Ci Cr. NDS 2018 4.3.1; dry, normal warmth, not incised.

    >>> from tutorial_lib.strength.wood import wood
    >>> round(allowed_bending(wood("Spruce-Pine-Fir", "No.2", 3.5), Size(1.5, 3.5, True), 1.0)[0], 2)
    1443.75
    """
    known = Factors(duration, size=size_factor(kind, size, "Fb"), flat=flat_factor(size), repeated=repeated)
    stability = 1.0
    if unbraced > 0 and size.depth > size.breadth:
        # CL compares with F*b, which leaves out Cfu and CL (NDS 3.3.3.8)
        stability = beam_stability(kind.bending * known.product / known.flat, kind.least_stiffness, size, unbraced)
    factors = Factors(
        known.duration, known.wet, known.heat, stability, known.size, known.flat, known.incised, known.repeated
    )
    stress = kind.bending * factors.product
    source = kind.source if not size.board else f"{kind.source}; a 1x board is outside the table's scope, our choice"
    return (
        stress,
        factors,
        Working(
            "allowed bending stress",
            "Fb CD CM Ct CL CF Cfu Ci Cr",
            f"{figure(kind.bending)} psi; {factors}",
            stress,
            "psi",
            f"NDS 4.3.1; {source}",
        ),
    )


def beam_stability(starred: float, least_stiffness: float, size: Size, length: float) -> float:
    """CL: what is left of the bending stress of a tall beam that may roll over.

    RB = sqrt(le d / b^2), FbE = 1.20 E'min / RB^2. NDS 2018 3.3.3.

    Raises:
        InputError: RB over 50.
    """
    slender = sqrt(length * size.depth / size.breadth**2)
    if slender > 50:
        raise InputError(Fault("beam", f"slenderness {figure(slender)} is over 50 (NDS 3.3.3.7); brace it."))
    ratio = 1.20 * least_stiffness / slender**2 / starred
    half = (1 + ratio) / 1.9
    return half - sqrt(half**2 - ratio / 0.95)


def column_stability(
    starred: float, least_stiffness: float, length: float, side: float, built_up: float = 1.0
) -> float:
    """CP: what is left of the stress along the grain of a column that may buckle.

    Args:
        starred: F*c, all factors but CP [psi].
        least_stiffness: E'min [psi].
        length: effective length [in].
        side: side it would buckle about [in].
        built_up: Kf, 0.6 for boards screwed together (NDS 15.3.2, from memory).

    FcE = 0.822 E'min / (le/d)^2. NDS 2018 3.7.1.

    Raises:
        InputError: le/d over 50.
    """
    slender = length / side
    if slender > 50:
        raise InputError(
            Fault("leg", f"slenderness {figure(slender)} is over 50 (NDS 3.7.1.4); make the leg shorter or thicker.")
        )
    ratio = 0.822 * least_stiffness / slender**2 / starred
    half = (1 + ratio) / 1.6
    return built_up * (half - sqrt(half**2 - ratio / 0.8))


def bearing_factor(length: float, from_end: float) -> float:
    """Cb for bearing across the grain on a short length at least 3 in from the end.

    (lb + 0.375) / lb. NDS 2018 3.10.4, from memory.

    >>> bearing_factor(1.5, 10), bearing_factor(1.5, 1)
    (1.25, 1.0)
    """
    return (length + 0.375) / length if 0 < length < 6 and from_end >= 3 else 1.0


@dataclass(frozen=True)
class Check:
    """One utilisation: stress over what is allowed; its workings are written when asked for."""

    what: str  # "bending", "shear", "bearing", "column"
    ratio: float
    duration: float  # CD used; 1.0 where none applies
    how: Callable[[], tuple[Working, ...]] = field(repr=False, compare=False)

    @property
    def workings(self) -> tuple[Working, ...]:
        """Formula, values, result and source of each step."""
        return self.how()


@cache
def _bending_limit(kind: Wood, size: Size, duration: float, unbraced: float) -> tuple[float, Working]:
    stress, _, how = allowed_bending(kind, size, duration, unbraced)
    return stress, how


def bending(kind: Wood, size: Size, moment: float, duration: float, unbraced: float = 0.0) -> Check:
    """Bending utilisation under a moment [lb in]: fb = M / S over F'b. NDS 2018 3.3."""
    stress = abs(moment) / size.modulus
    allowed, how = _bending_limit(kind, size, duration, unbraced)
    return Check(
        "bending",
        stress / allowed,
        duration,
        lambda: (
            Working(
                "bending stress",
                "M / S",
                f"{figure(abs(moment))} lb in / {figure(size.modulus)} in3",
                stress,
                "psi",
                "NDS 3.3.2",
            ),
            how,
            _use(stress, allowed),
        ),
    )


def shear(kind: Wood, size: Size, force: float, duration: float) -> Check:
    """Shear utilisation under a shear force [lb]: fv = 1.5 V / A over F'v = Fv CD. NDS 2018 3.4."""
    stress, allowed = 1.5 * abs(force) / size.area, kind.shear * duration
    return Check(
        "shear",
        stress / allowed,
        duration,
        lambda: (
            Working(
                "shear stress",
                "1.5 V / A",
                f"1.5 x {figure(abs(force))} lb / {figure(size.area)} in2",
                stress,
                "psi",
                "NDS 3.4.2",
            ),
            Working(
                "allowed shear stress",
                "Fv CD CM Ct Ci",
                f"{figure(kind.shear)} psi; CD {figure(duration)} CM 1 Ct 1 Ci 1",
                allowed,
                "psi",
                kind.source,
            ),
            _use(stress, allowed),
        ),
    )


def bearing(kind: Wood, force: float, area: float, factor: float = 1.0) -> Check:
    """Utilisation in bearing across the grain: fc = P / A over Fc-perp Cb; no duration factor. NDS 2018 3.10."""
    stress, allowed = max(force, 0.0) / area, kind.bearing * factor
    return Check(
        "bearing",
        stress / allowed,
        1.0,
        lambda: (
            Working("bearing stress", "P / A", f"{figure(force)} lb / {figure(area)} in2", stress, "psi", "NDS 3.10.2"),
            Working(
                "allowed bearing stress",
                "Fc-perp CM Ct Ci Cb",
                f"{figure(kind.bearing)} psi; CM 1 Ct 1 Ci 1 Cb {figure(factor)}",
                allowed,
                "psi",
                kind.source,
            ),
            _use(stress, allowed),
        ),
    )


def column(kind: Wood, size: Size, force: float, length: float, duration: float, built_up: float = 1.0) -> Check:
    """Utilisation of a leg along its grain, weak way: fc = P / A over F'c = Fc CD CM Ct CF Ci CP. NDS 2018 3.6, 3.7."""
    side = min(size.thickness, size.width)
    sized = size_factor(kind, size, "Fc")
    starred = kind.compression * duration * sized
    factor = column_stability(starred, kind.least_stiffness, length, side, built_up)
    stress, allowed = max(force, 0.0) / size.area, starred * factor
    return Check(
        "column",
        stress / allowed,
        duration,
        lambda: (
            Working(
                "stress along the grain",
                "P / A",
                f"{figure(force)} lb / {figure(size.area)} in2",
                stress,
                "psi",
                "NDS 3.6.3",
            ),
            Working(
                "allowed stress along the grain",
                "Fc CD CM Ct CF Ci CP",
                f"{figure(kind.compression)} psi; CD {figure(duration)} CM 1 Ct 1 CF {figure(sized)} Ci 1 "
                f"CP {figure(factor)} at le/d {figure(length / side)}",
                allowed,
                "psi",
                f"NDS 3.7.1; {kind.source}",
            ),
            _use(stress, allowed),
        ),
    )


def _use(stress: float, allowed: float) -> Working:
    return Working(
        "utilisation",
        "stress / allowed",
        f"{figure(stress)} / {figure(allowed)}",
        stress / allowed,
        "",
        "allowable-stress design",
    )
