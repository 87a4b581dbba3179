"""What one screw, lag screw or bolt carries across and along its axis.

NDS 2018 chapter 12. The root diameter goes into the yield equations and into the reduction; the nominal
diameter into the bearing strength of the wood, the penetration and the withdrawal.
"""

from __future__ import annotations

from math import atan2, cos, hypot, sin, sqrt

from tutorial_lib.errors import Fault, InputError
from tutorial_lib.records import dataclass
from tutorial_lib.strength.working import Term, Working, step

WITHDRAWAL = 2850.0  # [psi] of wood screws in side grain, NDS Eq. 12.2-2
END_GRAIN = 0.67  # Ceg for lateral load, NDS 12.5.2.2


@dataclass(frozen=True)
class Lateral:
    """Reference lateral value of one fastener."""

    value: float  # [lb]
    mode: str  # Im, Is, II, IIIm, IIIs, IV
    modes: tuple[tuple[str, float], ...]
    working: Working


def wood_bearing(gravity: float, diameter: float, across: bool = False) -> float:
    """Dowel bearing strength Fe [psi], rounded to 50 psi.

    Under 1/4 in 16 600 G^1.84; from 1/4 in 11 200 G along the grain and 6100 G^1.45 / sqrt(D) across.
    NDS 2018 Table 12.3.3 note 2; valid for 0.31 <= G <= 0.73.

    >>> wood_bearing(0.50, 0.19), wood_bearing(0.42, 0.164)
    (4650.0, 3350.0)
    """
    if not 0.31 <= gravity <= 0.73:
        raise InputError(
            Fault(
                "wood",
                f"specific gravity {gravity} is outside 0.31 to 0.73, which the rules for screws cover (NDS 12.3.3).",
            )
        )
    if diameter < 0.25:
        strength = float(16600 * gravity**1.84)
    else:
        strength = float(6100 * gravity**1.45 / sqrt(diameter)) if across else 11200 * gravity
    return round(strength / 50) * 50.0


def reduction(root: float, diameter: float, mode: str, angle: float) -> float:
    """Rd by mode: KD = 2.2, or 10 Dr + 0.5, for roots under 1/4 in; from there 4, 3.6 and 3.2, all times K-theta
    where the nominal diameter is 1/4 in or more. NDS Table 12.3.1B and its notes.

    >>> reduction(0.142, 0.177, "IV", 0), reduction(0.375, 0.375, "IIIs", 90)
    (2.2, 4.0)
    """
    turn = 1 + 0.25 * angle / 90 if diameter >= 0.25 else 1.0
    if root < 0.25:
        return turn * (2.2 if root <= 0.17 else 10 * root + 0.5)
    return {"I": 4.0, "II": 3.6}.get("I" if mode in ("Im", "Is") else mode, 3.2) * turn


@dataclass(frozen=True, kw_only=True)
class Dowel:
    """The fastener and the two woods as the yield equations see them."""

    diameter: float  # [in] nominal
    root: float  # [in] root, or nominal for a smooth shank in the shear plane
    yield_strength: float  # [psi]
    main: float  # [in] bearing length in the far piece
    side: float  # [in] bearing length in the near piece
    main_bearing: float  # [psi]
    side_bearing: float  # [psi]
    angle: float = 0.0  # [degrees] greatest angle of load to grain


def lateral(dowel: Dowel) -> Lateral:
    """Reference lateral value Z of one fastener in single shear: the least of six yield modes.

    NDS 2018 Table 12.3.1A. Reproduces the printed cells of Tables 12L, 12N and 12A.

    >>> fe = wood_bearing(0.50, 0.19)
    >>> round(lateral(Dowel(diameter=0.19, root=0.152, yield_strength=80000, main=1.9 - 0.19, side=0.5,
    ...               main_bearing=fe, side_bearing=fe)).value, 1)
    89.9
    """
    d, fy, lm, ls = dowel.root, dowel.yield_strength, dowel.main, dowel.side
    em, es = dowel.main_bearing, dowel.side_bearing
    if lm <= 0 or ls <= 0:
        raise InputError(
            Fault(
                "screw",
                "the screw bears on nothing of one of the two pieces; take a longer screw.",
            )
        )
    re, rt = em / es, lm / ls
    k1 = (sqrt(re + 2 * re**2 * (1 + rt + rt**2) + rt**2 * re**3) - re * (1 + rt)) / (1 + re)
    k2 = -1 + sqrt(2 * (1 + re) + 2 * fy * (1 + 2 * re) * d**2 / (3 * em * lm**2))
    k3 = -1 + sqrt(2 * (1 + re) / re + 2 * fy * (2 + re) * d**2 / (3 * em * ls**2))
    loads = {
        "Im": d * lm * em,
        "Is": d * ls * es,
        "II": k1 * d * ls * es,
        "IIIm": k2 * d * lm * em / (1 + 2 * re),
        "IIIs": k3 * d * ls * em / (2 + re),
        "IV": d**2 * sqrt(2 * em * fy / (3 * (1 + re))),
    }
    modes = tuple((m, z / reduction(d, dowel.diameter, m, dowel.angle)) for m, z in loads.items())
    mode, value = min(modes, key=lambda pair: pair[1])
    how = step(
        "lateral value Z of one fastener",
        f"yield mode {mode}, the least of six",
        (
            Term("D", dowel.diameter, "calculated"),
            Term("Dr", d, "calculated"),
            Term("Fyb", fy, "stress"),
            Term("lm", lm, "calculated"),
            Term("ls", ls, "calculated"),
            Term("Fem", em, "stress"),
            Term("Fes", es, "stress"),
        ),
        Term("", value, "force"),
        "NDS 2018 Tables 12.3.1A and B",
    )
    return Lateral(value, mode, modes, how)


def withdrawal(gravity: float, diameter: float) -> float:
    """Reference withdrawal value of a wood screw in side grain [lb per in of thread]: 2850 G^2 D. NDS Eq. 12.2-2.

    >>> round(withdrawal(0.42, 0.19), 1)
    95.5
    """
    return WITHDRAWAL * gravity**2 * diameter


def lag_withdrawal(gravity: float, diameter: float) -> float:
    """Reference withdrawal value of a lag screw in side grain [lb per in]: 1800 G^1.5 D^0.75. NDS Eq. 12.2-1.

    >>> round(lag_withdrawal(0.50, 0.375))
    305
    """
    return float(1800 * gravity**1.5 * diameter**0.75)


def combined(pull_value: float, lateral_value: float, pull: float, across: float) -> float:
    """Utilisation of one fastener pulled and pushed across at once.

    Z'a = W'p Z' / (W'p cos^2 a + Z' sin^2 a), a the angle of the load to the wood's face. NDS Eq. 12.4-1.

    >>> round(combined(100, 80, 0, 40), 3), round(combined(100, 80, 50, 0), 3)
    (0.5, 0.5)
    """
    load = hypot(pull, across)
    if load == 0:
        return 0.0
    if (pull > 0 and pull_value <= 0) or (across > 0 and lateral_value <= 0):
        return float("inf")
    if pull <= 0:
        return abs(across) / lateral_value
    if across == 0:
        return pull / pull_value
    angle = atan2(pull, abs(across))
    allowed = pull_value * lateral_value / (pull_value * cos(angle) ** 2 + lateral_value * sin(angle) ** 2)
    return load / allowed
