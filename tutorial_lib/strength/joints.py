"""What one fastener of a joint is allowed, across and along its axis, before the duration factor."""

from __future__ import annotations

from functools import lru_cache

from tutorial_lib import tables
from tutorial_lib.design.end_distances import THICK
from tutorial_lib.design.fasteners import Fastener, Fastening
from tutorial_lib.design.model import Build
from tutorial_lib.errors import InputError
from tutorial_lib.records import dataclass
from tutorial_lib.strength import screws
from tutorial_lib.strength.geometry import Geometry, geometry
from tutorial_lib.strength.sections import WET_BOLTS, WET_THIN, wet, wood_of
from tutorial_lib.strength.use import Limit
from tutorial_lib.strength.working import OURS, Term, Working, step

STEEL = 0.5  # specific gravity that a flange counts as in the yield equations; our choice, the wood governs
SCREW_LEAST, LAG_LEAST = 6.0, 4.0  # diameters of penetration, tip included; lag screws without their tip


@dataclass(frozen=True, kw_only=True)
class Capacity:
    """Reference values of one fastener in its joint, before the duration factor."""

    lateral: float  # [lb]
    pull: float  # [lb]
    workings: tuple[Working, ...]  # to the lateral value
    drawn: Working  # to the pull
    mode: str = ""  # yield mode
    geometry: Geometry | None = None  # None where it has no part in the value


def capacity(build: Build, fastening: Fastening) -> Capacity:
    """Reference lateral and withdrawal value of one fastener of a joint, C-delta, C_M and Ceg included.

    NDS 2018 chapter 12; the yield equations take the length that is really in the wood (12.3.5.3).
    """
    joint = fastening.joint
    near, far = (_gravity(build, label) for label in (joint.near, joint.far))
    known = _capacity(
        fastening.fastener, near, far, float(fastening.near_thickness), float(fastening.penetration), joint.end_grain
    )
    shape = geometry(build, fastening)
    damp = _wet_factor(build, fastening) if wet(build) else (1.0, 1.0)
    how = list(known.workings)
    if shape.factor != 1.0:
        how.append(shape.working)
    if damp != (1.0, 1.0):
        how.append(_wet_working(damp[0]))
    lateral = known.lateral * shape.factor * damp[0]
    return Capacity(
        lateral=lateral,
        pull=known.pull * damp[1],
        workings=tuple(how),
        drawn=known.drawn,
        mode=known.mode,
        geometry=shape,
    )


def _gravity(build: Build, label: str) -> float:
    section = build.section_of(label)
    return STEEL if section.steel else wood_of(build, section).gravity


def _wet_factor(build: Build, fastening: Fastening) -> tuple[float, float]:
    """C_M across and along for wood that is wet when built and dry in use. NDS 2018 Table 11.3.3, notes 1 and 2.

    From 1/4 in on one fastener, or one row along the grain of all it joins, keeps its value: nothing holds the wood
    together as it shrinks. Rail and leg cross, so that two bolts always lie across the grain of one of them.
    """
    if fastening.fastener.diameter < THICK:
        return WET_THIN, WET_THIN
    return (1.0 if _row_along_the_grain(build, fastening) else WET_BOLTS), WET_THIN


def _row_along_the_grain(build: Build, fastening: Fastening) -> bool:
    """True for one fastener, or for a single row along the grain of both pieces."""
    joined = (build.pieces[label] for label in (fastening.joint.near, fastening.joint.far))
    crossed = {axis for piece in joined if piece.shape == "box" for axis in range(3)
               if axis not in (piece.axis, fastening.joint.axis)}  # fmt: skip
    return all(max(heads) - min(heads) < fastening.fastener.diameter for heads in
               ([float(driven.head[axis]) for driven in fastening.driven] or [0.0] for axis in crossed))  # fmt: skip


def _wet_working(factor: float) -> Working:
    words = "wood over 19 % when built, dry in use"
    return step("wet wood", "CM", (), Term("", factor), "NDS 2018 Table 11.3.3", words)


def holding(
    fastener: Fastener, near: float, penetration: float, gravity: float, end_grain: bool
) -> tuple[float, float]:
    """Lateral and withdrawal value of one fastener at duration factor 1 [lb], both pieces of the same wood.

    Args:
        fastener: what is driven.
        near: wood under the head along the axis [in].
        penetration: length in the far piece, tip included [in].
        gravity: specific gravity of both woods.
        end_grain: the point ends in end grain.
    """
    known = _capacity(fastener, gravity, gravity, near, penetration, end_grain)
    return known.lateral, known.pull


def tip_of(fastener: Fastener) -> float:
    """The tapered tip that carries nothing across [in]: of a lag screw as tabled, of a screw half of 2 D.

    NDS 2018 12.3.5.3; Table L2.
    """
    if fastener.kind == "lag screw":
        rows = [row for row in tables.lag_screws() if abs(row.shank - fastener.diameter) < 0.01]
        return float(rows[0].tip) if rows else fastener.diameter
    return 0.0 if fastener.kind == "carriage bolt" else fastener.diameter


def too_short(fastener: Fastener, penetration: float) -> Working | None:
    """Why the standard gives no value across: less than 6 D, for a lag screw 4 D without its tip. NDS 12.1.4.6, 5.6."""
    if fastener.kind == "carriage bolt":
        return None
    lag = fastener.kind == "lag screw"
    least = (LAG_LEAST if lag else SCREW_LEAST) * fastener.diameter
    counted = penetration - (tip_of(fastener) if lag else 0.0)
    if counted >= least - 1e-9:
        return None
    terms = (Term("penetration", counted, "calculated"), Term("least", least, "calculated"))
    rule, where = ("4 D without the tip", "12.1.4.6") if lag else ("6 D", "12.1.5.6")
    return step("penetration", f"at least {rule}", terms, Term("", counted, "calculated"), f"NDS 2018 {where}")


@lru_cache(maxsize=512)
def _capacity(
    fastener: Fastener, near: float, far: float, side: float, penetration: float, end_grain: bool
) -> Capacity:
    pull, drawn = _pull(fastener, far, penetration, end_grain)
    short = too_short(fastener, penetration)
    if short is not None:
        return Capacity(lateral=0.0, pull=pull, workings=(short,), drawn=drawn)
    found = screws.lateral(dowel_of(fastener, near, far, side, penetration))
    value, shown = found.value, [found.working]
    if end_grain:
        value *= screws.END_GRAIN
        terms = (Term("Z", found.value, "force"), Term("Ceg", screws.END_GRAIN))
        shown.append(step("in end grain", "Z Ceg", terms, Term("", value, "force"), "NDS 2018 12.5.2.2"))
    return Capacity(lateral=value, pull=pull, workings=tuple(shown), drawn=drawn, mode=found.mode)


def dowel_of(fastener: Fastener, near: float, far: float, side: float, penetration: float) -> screws.Dowel:
    """One fastener in its woods, for the yield equations: near and far gravity, side thickness, penetration [in]."""
    d = fastener.diameter
    thick = d >= THICK
    across = 90.0 if thick else 0.0
    if fastener.kind == "carriage bolt":
        root, main = d, penetration
        em, es = screws.wood_bearing(far, d), screws.wood_bearing(near, d, across=True)
    else:
        root, main = fastener.root, penetration - tip_of(fastener)
        em, es = (screws.wood_bearing(gravity, d, across=True) for gravity in (far, near))
    return screws.Dowel(
        diameter=d, root=root, yield_strength=fastener.yield_strength, main=main, side=side, main_bearing=em,
        side_bearing=es, angle=across,
    )  # fmt: skip


def _pull(fastener: Fastener, far: float, penetration: float, end_grain: bool) -> tuple[float, Working]:
    if end_grain:
        return 0.0, step("pull out of end grain", "not allowed", (), Term("", 0.0, "force"), "NDS 2018 12.2.2.3")
    if fastener.kind == "carriage bolt":
        return head_bearing(fastener, far)
    lag = fastener.kind == "lag screw"
    thread = min(float(fastener.thread), penetration) - (tip_of(fastener) if lag else 0.0)
    each = screws.lag_withdrawal(far, fastener.diameter) if lag else screws.withdrawal(far, fastener.diameter)
    value = max(0.0, each * thread)
    lagged = ("1800 G^1.5 D^0.75 x thread, in lb and in", "12.2-1")
    formula, number = lagged if lag else ("K G^2 D x thread", "12.2-2")
    terms = (
        *(() if lag else (Term("K", screws.WITHDRAWAL, "stress"),)),
        Term("G", far),
        Term("D", fastener.diameter, "calculated"),
        Term("thread", thread, "calculated"),
    )
    how = step("pull value W p of one screw", formula, terms, Term("", value, "force"), f"NDS 2018 Eq. {number}")
    return value, how


def head_bearing(fastener: Fastener, gravity: float) -> tuple[float, Working]:
    """Pull on a bolt that its head's bearing on the wood carries [lb], of a wood of this gravity. NDS 2018 3.10."""
    area = head_area(fastener)
    stress = _bearing_of(gravity)
    terms = (Term("Fc-perp", stress, "stress"), Term("area under the head", area, "section area"))
    value = stress * area
    return value, step("pull on a bolt", "Fc-perp x head less hole", terms, Term("", value, "force"), OURS)


def head_area(fastener: Fastener) -> float:
    """Wood under a bolt's head, its hole taken off [in2]; the hole 1/16 in over the shank (NDS 2018 12.1.3.2).

    >>> from fractions import Fraction
    >>> bolt = Fastener(kind="carriage bolt", gauge="", length=Fraction(5), diameter=0.375, root=0.298, head=0.844,
    ...                 thread=Fraction(1), yield_strength=45000.0)
    >>> round(head_area(bolt), 3)
    0.409
    """
    return 3.141592653589793 / 4 * (fastener.head**2 - (fastener.diameter + 1 / 16) ** 2)


@lru_cache(maxsize=512)
def _bearing_of(gravity: float) -> float:
    """Fc-perp of the softest tabled group of this gravity [psi]."""
    rows = [row.Fc_perp for row in tables.design_value_rows() if abs(row.gravity - gravity) < 0.005]
    if not rows:
        raise InputError(f"no bearing value for a wood of gravity {gravity}")
    return min(rows)


def lateral_limit(known: Capacity, count: int, duration: float) -> Limit:
    """What a joint's fasteners carry across together [lb]: n Z' CD."""
    value = known.lateral * count * duration

    def last() -> Working:
        terms = (Term("n", float(count)), Term("Z'", known.lateral, "force"), Term("CD", duration))
        return step("allowed across, all of them", "n Z' CD", terms, Term("", value, "force"), "NDS 2018 11.3.1")

    return Limit(value, lambda: (*known.workings, last()))


def pull_limit(known: Capacity, duration: float) -> Limit:
    """What one fastener carries along its axis [lb]: W' p CD."""
    value = known.pull * duration

    def last() -> Working:
        terms = (Term("W' p", known.pull, "force"), Term("CD", duration))
        return step("allowed pull", "W' p CD", terms, Term("", value, "force"), "NDS 2018 11.3.1")

    return Limit(value, lambda: (known.drawn, last()))


def slanted(pull_value: float, lateral_value: float, slope: float) -> float:
    """What one screw carries across [lb] while it is pulled ``slope`` times as much: Z'a / sqrt(1 + t^2).

    Z'a = W'p Z' / (W'p cos^2 + Z' sin^2). NDS 2018 Eq. 12.4-1.

    >>> round(slanted(94.547, 84.237, 0.77778), 1)
    69.3
    """
    return 1 / screws.combined(pull_value, lateral_value, slope, 1.0)


def slanted_limit(known: Capacity, slope: float, duration: float) -> Limit:
    """What a cleat's screw carries across while its cleat leans out and pulls at it [lb]."""
    value = slanted(known.pull, known.lateral, slope) * duration

    def last() -> Working:
        terms = (
            Term("Z'", known.lateral, "force"),
            Term("W' p", known.pull, "force"),
            Term("pull / across", slope),
            Term("CD", duration),
        )
        return step("allowed across, pulled as well", "Z'a cos a CD", terms, Term("", value, "force"),
                    "NDS 2018 Eq. 12.4-1; the slat stands at a third of its bearing, our choice")  # fmt: skip

    return Limit(value, lambda: (*known.workings, known.drawn, last()))
