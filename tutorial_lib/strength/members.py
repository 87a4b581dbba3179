"""What a member is allowed by allowable-stress design, every factor named and shown.

NDS 2018 and its Supplement, written for structural timber; applying them to a bed is our own choice.
"""

from __future__ import annotations

from functools import lru_cache
from math import sqrt

from tutorial_lib.errors import Fault, InputError
from tutorial_lib.measures import figure
from tutorial_lib.records import dataclass
from tutorial_lib.strength.sections import Size, flat_factor, size_factor
from tutorial_lib.strength.use import Limit
from tutorial_lib.strength.working import Term, Working, step
from tutorial_lib.tables import DesignValues

CREEP = 1.5  # sag that stays on for years, seasoned lumber; NDS 3.5.2, from memory
SHORT = 5  # a rail's bolts within so many depths of its end weaken it; NDS 3.4.3.3


@dataclass(frozen=True, kw_only=True)
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
        return ", ".join(f"{name} {figure(value)}" for name, value in zip(names, values, strict=True))


def allowed_bending(
    wood: DesignValues, size: Size, duration: float, unbraced: float = 0.0, repeated: float = 1.0
) -> tuple[float, Factors, Working]:
    """Allowable bending stress F'b [psi], its factors and its working.

    Args:
        wood: species and grade.
        size: section and how it lies.
        duration: CD.
        unbraced: effective unbraced length le [in]; 0 where the narrow edge is held or the piece lies flat.
        repeated: Cr; 1.0 for a bed, whose slats have no deck that shares load.

    F'b = Fb CD CM Ct CL CF Cfu Ci Cr. NDS 2018 4.3.1; dry, normal warmth, not incised.

    >>> from tutorial_lib.tables import design_values
    >>> round(allowed_bending(design_values("SPF", "No.2", 4), Size(1.5, 3.5, True), 1.0)[0], 2)
    1443.75
    """
    sized, flat = size_factor(wood, size, "Fb"), flat_factor(size) if wood.flat_use else 1.0
    stability = 1.0
    if unbraced > 0 and size.depth > size.breadth:
        # CL compares with F*b, which leaves out Cfu and CL (NDS 3.3.3.8)
        stability = beam_stability(wood.Fb * duration * sized * repeated, wood.Emin, size, unbraced)
    factors = Factors(duration=duration, stability=stability, size=sized, flat=flat, repeated=repeated)
    stress = wood.Fb * factors.product
    scope = "; a 1x board is outside the table's scope, our choice" if size.board else ""
    return (
        stress,
        factors,
        step(
            "allowed bending stress F'b",
            "Fb CD CM Ct CL CF Cfu Ci Cr",
            (Term("Fb", wood.Fb, "stress"),),
            Term("", stress, "stress"),
            f"NDS 2018 4.3.1; {wood.source}{scope}",
            str(factors),
        ),
    )


def beam_stability(starred: float, least_stiffness: float, size: Size, length: float) -> float:
    """CL: what is left of the bending stress of a tall beam that may roll over.

    RB = sqrt(le d / b^2), FbE = 1.20 E'min / RB^2. NDS 2018 3.3.3.

    Raises:
        InputError: RB over 50.

    >>> round(beam_stability(1050, 510000, Size(1.5, 7.25, False), 60), 3)
    0.977
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

    >>> round(column_stability(1322.5, 510000, 11, 1.5), 3)
    0.962
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


@lru_cache(maxsize=512)
def moment_limit(wood: DesignValues, size: Size, duration: float, unbraced: float = 0.0) -> Limit:
    """Moment that a member may take, F'b S [lb in]. NDS 2018 3.3.

    >>> from tutorial_lib.tables import design_values
    >>> round(moment_limit(design_values("SPF", "No.2", 4), Size(0.75, 3.5, True), 1.0).value, 1)
    430.7
    """
    stress, _, how = allowed_bending(wood, size, duration, unbraced)
    value = stress * size.modulus
    terms = (Term("F'b", stress, "stress"), Term("S", size.modulus, "section modulus"))
    last = step("allowed moment", "F'b S", terms, Term("", value, "moment"), "NDS 2018 3.3.2")
    return Limit(value, lambda: (how, last))


@lru_cache(maxsize=512)
def shear_limit(wood: DesignValues, size: Size, duration: float) -> Limit:
    """Shear force that a member may take, F'v A / 1.5 [lb]. NDS 2018 3.4.2.

    >>> from tutorial_lib.tables import design_values
    >>> shear_limit(design_values("SPF", "No.2", 4), Size(1.5, 3.5, False), 1.0).value
    472.5
    """
    stress = wood.Fv * duration
    value = stress * size.area / 1.5
    return Limit(
        value,
        lambda: (
            _shear_stress(wood, duration),
            step(
                "allowed shear force",
                "F'v A / 1.5",
                (Term("F'v", stress, "stress"), Term("A", size.area, "section area")),
                Term("", value, "force"),
                "NDS 2018 Eq. 3.4-2",
            ),
        ),
    )


def _shear_stress(wood: DesignValues, duration: float) -> Working:
    return step(
        "allowed shear stress F'v",
        "Fv CD CM Ct Ci",
        (Term("Fv", wood.Fv, "stress"), Term("CD", duration)),
        Term("", wood.Fv * duration, "stress"),
        f"NDS 2018 4.3.1; {wood.source}",
        "CM, Ct, Ci 1",
    )


@lru_cache(maxsize=512)
def hung_shear_limit(wood: DesignValues, size: Size, duration: float, left: float, from_end: float) -> Limit:
    """Shear force that a rail hung on bolts or screws may take [lb].

    Args:
        wood: the rail's.
        size: the rail, on edge.
        duration: CD.
        left: de, the rail's depth from its lowest fastener up [in].
        from_end: from the fasteners to the rail's end [in].

    (2/3) F'v b de, within 5 depths of the end times (de/d)^2. NDS 2018 Eq. 3.4-6 and 3.4-7.

    >>> from tutorial_lib.tables import design_values
    >>> rail = Size(1.5, 5.5, False)
    >>> [round(hung_shear_limit(design_values("SPF", "No.2", 6), rail, 1.0, 4.75, end).value, 1) for end in (6, 39)]
    [478.3, 641.2]
    """
    stress, near = wood.Fv * duration, from_end < SHORT * size.depth
    value = 2 / 3 * stress * size.breadth * left * ((left / size.depth) ** 2 if near else 1.0)
    return Limit(
        value,
        lambda: (
            _shear_stress(wood, duration),
            step(
                "allowed shear force at the fasteners",
                "(2/3) F'v b de (de/d)^2" if near else "(2/3) F'v b de",
                (
                    Term("F'v", stress, "stress"),
                    Term("b", size.breadth, "calculated"),
                    Term("de", left, "calculated"),
                    Term("d", size.depth, "calculated"),
                ),
                Term("", value, "force"),
                "NDS 2018 Eq. 3.4-6" if near else "NDS 2018 Eq. 3.4-7",
            ),
        ),
    )


@lru_cache(maxsize=512)
def bearing_limit(wood: DesignValues, area: float, factor: float = 1.0) -> Limit:
    """Push across the grain that an area may take, Fc-perp Cb A [lb]; no duration factor. NDS 2018 3.10.

    >>> from tutorial_lib.tables import design_values
    >>> bearing_limit(design_values("SPF", "No.2", 4), 5.25).value
    2231.25
    """
    value = wood.Fc_perp * factor * area
    return Limit(
        value,
        lambda: (
            step(
                "allowed push across the grain",
                "Fc-perp CM Ct Ci Cb A",
                (Term("Fc-perp", wood.Fc_perp, "stress"), Term("Cb", factor), Term("A", area, "section area")),
                Term("", value, "force"),
                f"NDS 2018 3.10.2; {wood.source}",
                "CM, Ct, Ci 1; no CD",
            ),
        ),
    )


@lru_cache(maxsize=512)
def column_limit(wood: DesignValues, size: Size, length: float, duration: float, built_up: float = 1.0) -> Limit:
    """Push along the grain that a leg may take, weak way: Fc CD CM Ct CF Ci CP A [lb]. NDS 2018 3.6, 3.7.

    0 where it is too slender for the rules (le/d over 50, 3.7.1.4).

    >>> from tutorial_lib.tables import design_values
    >>> round(column_limit(design_values("SPF", "No.2", 4), Size(1.5, 3.5, False), 11, 1.0).value)
    6682
    """
    side, sized = min(size.thickness, size.width), size_factor(wood, size, "Fc")
    starred = wood.Fc * duration * sized
    try:
        factor = column_stability(starred, wood.Emin, length, side, built_up)
    except InputError:
        factor = 0.0
    value = starred * factor * size.area
    return Limit(
        value,
        lambda: (
            step(
                "allowed push along the grain",
                "Fc CD CM Ct CF Ci CP A",
                (
                    Term("Fc", wood.Fc, "stress"),
                    Term("CD", duration),
                    Term("CF", sized),
                    Term("CP", factor),
                    Term("le/d", length / side),
                    Term("A", size.area, "section area"),
                ),
                Term("", value, "force"),
                f"NDS 2018 3.7.1; {wood.source}",
                "CM, Ct, Ci 1",
            ),
        ),
    )
