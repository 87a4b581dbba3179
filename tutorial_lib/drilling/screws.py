"""The screw or bolt a joint takes: its data from the tables or from the build file, and its length."""

from __future__ import annotations

from dataclasses import KW_ONLY, replace
from fractions import Fraction
from functools import lru_cache

from tutorial_lib.design.fasteners import Fastener, FastenerKind
from tutorial_lib.design.model import Build, Joint, JointKind
from tutorial_lib.design.screw_options import ScrewOptions, ScrewsOptions
from tutorial_lib.drilling.sizes import ScrewSize, by_shank, screw_sizes
from tutorial_lib.errors import Fault, InputError
from tutorial_lib.measures import Units, writer
from tutorial_lib.records import dataclass

INSIDE = Fraction(1, 8)  # [in] wood left beyond a tip
HELD_BOARD = Fraction(3, 8)  # [in] the same in a headboard's thin boards, which lean against their battens (our choice)
HELD = Fraction(1, 2)  # [in] thread that a hold-down screw wants in the support (common practice, no source)
# The order in which an open gauge is tried, and where each joint begins (common practice, no source).
OPEN_GAUGES: dict[Units, tuple[str, ...]] = {
    "in": ("9", "10", "8", "12", "7", "14", "6"),
    "mm": ("4.5 mm", "5 mm", "4 mm", "6 mm", "3.5 mm"),
}
DEFAULT_GAUGE: dict[str, dict[Units, str]] = {
    "corner": {"in": "10", "mm": "5 mm"},
    "block": {"in": "10", "mm": "5 mm"},
    "post": {"in": "10", "mm": "5 mm"},
    "batten": {"in": "8", "mm": "4 mm"},
    "upright": {"in": "10", "mm": "5 mm"},
    "panel": {"in": "8", "mm": "4 mm"},
    "panel_slat": {"in": "8", "mm": "4 mm"},
    "cleat": {"in": "9", "mm": "4.5 mm"},
    "runner": {"in": "10", "mm": "5 mm"},
    "runner_end": {"in": "10", "mm": "5 mm"},
    "slat": {"in": "8", "mm": "4 mm"},
    "leg": {"in": "10", "mm": "5 mm"},
    "ply": {"in": "9", "mm": "4.5 mm"},
    "line": {"in": "10", "mm": "5 mm"},
    "flange": {"in": "10", "mm": "5 mm"},
    "plinth": {"in": "8", "mm": "4 mm"},
}
OPEN_SHANK: dict[str, dict[Units, str]] = {
    "lag screw": {"in": "5/16", "mm": "8 mm"},
    "carriage bolt": {"in": "3/8", "mm": "M10"},
}
TABLE_OF: dict[JointKind, str] = {
    "corner": "corner",
    "block": "block",
    "post": "post",
    "bed_bolt": "bed_bolt",
    "batten": "batten",
    "panel": "panel",
    "panel_slat": "panel_slat",
    "upright": "upright",
    "cleat": "cleat",
    "runner": "runner",
    "slat": "slat",
    "slat_line": "slat",
    "leg": "leg",
    "ply": "ply",
    "line_end": "line",
    "line_leg": "line",
    "flange": "flange",
    "plinth": "plinth",
}
PANEL = ("panel", "panel_slat")  # of a headboard
HOLDS_DOWN = ("slat", "slat_line", "plinth", *PANEL)  # joints whose screws carry no load down


def table_of(build: Build, joint: Joint) -> str:
    """The table of the build file that speaks of a joint; runners may have one of their own up into the end rails."""
    table = TABLE_OF[joint.kind]
    ends = build.options.screws.runner_end is not None and build.pieces[joint.far].use == "end_rail"
    return "runner_end" if ends and table == "runner" else table


def options_for(screws: ScrewsOptions, table: str) -> ScrewOptions:
    """What the build file states in one of its tables."""
    found: ScrewOptions = getattr(screws, table)
    return found


@dataclass(frozen=True)
class Stack:
    """The wood along a fastener's axis."""

    near: Fraction  # [in] near piece, and any gap to the far one
    far: Fraction  # [in] far piece
    head_depth: Fraction = Fraction(0)  # [in] head below the surface
    holds_down: bool = False  # carries no load, only holds a slat in place
    units: Units = "in"  # of the words said about it
    _: KW_ONLY
    held: Fraction = HELD  # [in] thread that it then wants in the far piece

    def penetration(self, length: Fraction) -> Fraction:
        """How much of a fastener ends in the far piece, tip included [in]."""
        return max(Fraction(0), length + self.head_depth - self.near)


@dataclass(frozen=True)
class Choice:
    """A length, and why its neighbours on the shelf won't do."""

    length: Fraction  # [in]
    fits: bool
    shorter: str = ""  # why the next shorter one fails
    longer: str = ""  # why the next longer one fails, or that it would do too
    stated: bool = False


def least_penetration(kind: str, diameter: float, tip: float = 0.0) -> float:
    """The least penetration that counts [in]: 6 D tip included, for a lag screw 4 D tip excluded.

    Source: NDS 2018 12.1.5.6 (wood screws) and 12.1.4.6 (lag screws).

    >>> round(least_penetration("wood screw", 0.177), 3)
    1.062
    """
    return 4 * diameter + tip if kind == "lag screw" else 6 * diameter


def full_penetration(kind: str, diameter: float, tip: float = 0.0) -> float:
    """Penetration for the full table value [in]: 10 D, for a lag screw 8 D tip excluded. NDS 2018 Tables 12L, 12J.

    >>> round(full_penetration("wood screw", 0.177), 3), full_penetration("lag screw", 0.25, 0.2)
    (1.77, 2.2)
    """
    return 8 * diameter + tip if kind == "lag screw" else 10 * diameter


def faults_of(length: Fraction, stack: Stack, least: float) -> list[str]:
    """Why a length does not fit the wood, in words; empty when it does.

    Args:
        length: fastener length [in].
        stack: the wood it goes through.
        least: least penetration in the far piece [in].
    """
    got, w = stack.penetration(length), writer(stack.units)
    wanted = float(stack.held) if stack.holds_down else least
    out = []
    if float(got) < wanted:
        out.append(f"reaches {w.calculated(got)} into the second piece, needs {w.calculated(wanted)}")
    if got > stack.far - INSIDE:
        left = stack.far - got
        state = (
            f"leaves only {w.calculated(left)} beyond its tip" if left >= 0 else f"comes {w.calculated(-left)} through"
        )
        out.append(f"{state}, {w.length(INSIDE)} must stay")
    return out


@lru_cache(maxsize=1024)
def choose_length(sold: tuple[Fraction, ...], stack: Stack, least: float) -> Choice:
    """The shortest sold length that reaches far enough and stays inside.

    Args:
        sold: lengths on the shelf [in], shortest first.
        stack: the wood along the axis.
        least: least penetration [in].

    >>> boards = Stack(Fraction(3, 2), Fraction(3, 2))
    >>> choose_length((Fraction(5, 2), Fraction(11, 4), Fraction(3)), boards, 1.062).length
    Fraction(11, 4)
    """
    good = [length for length in sold if not faults_of(length, stack, least)]
    inside = [length for length in sold if stack.penetration(length) <= stack.far - INSIDE]
    chosen = good[0] if good else (inside[-1] if inside else sold[0])
    return _explained(chosen, sold, stack, least)


@lru_cache(maxsize=1024)
def check_length(length: Fraction, sold: tuple[Fraction, ...], stack: Stack, least: float) -> Choice:
    """A stated length, judged and kept."""
    return replace(_explained(length, sold, stack, least), stated=True)


def _explained(length: Fraction, sold: tuple[Fraction, ...], stack: Stack, least: float) -> Choice:
    below = max((x for x in sold if x < length), default=None)
    above = min((x for x in sold if x > length), default=None)
    return Choice(
        length,
        not faults_of(length, stack, least),
        "none shorter is sold" if below is None else _why(below, stack, least),
        "none longer is sold" if above is None else _why(above, stack, least),
    )


def _why(length: Fraction, stack: Stack, least: float) -> str:
    faults = faults_of(length, stack, least)
    return f"{writer(stack.units).length(length)} {' and '.join(faults) if faults else 'would do too'}"


@lru_cache(maxsize=256)
def bolt_length(
    sold: tuple[Fraction, ...], grip: Fraction, washer: Fraction, nut: Fraction, units: Units = "in"
) -> Choice:
    """The shortest bolt sold that holds the grip with washer and nut on.

    >>> from tutorial_lib.drilling.sizes import screw_sizes
    >>> size = screw_sizes()["carriage bolt", "3/8"]
    >>> bolt_length(size.lengths, Fraction(5), size.washer, size.nut).length
    Fraction(11, 2)
    """
    need, w = grip + washer + nut, writer(units)
    good = [length for length in sold if length >= need]
    if not good:
        return Choice(sold[-1], False, "", f"none sold reaches {w.calculated(need)}")
    below = max((x for x in sold if x < good[0]), default=None)
    short = "" if below is None else f"{w.length(below)} is short of grip, washer and nut, {w.calculated(need)}"
    return Choice(good[0], True, short, "a longer one would do, its end stands out")


def check_bolt(
    length: Fraction, sold: tuple[Fraction, ...], grip: Fraction, washer: Fraction, nut: Fraction, units: Units = "in"
) -> Choice:
    """A stated bolt length, judged and kept."""
    best = bolt_length(sold, grip, washer, nut, units)
    return Choice(length, length >= grip + washer + nut, best.shorter, best.longer, stated=True)


def fastener(options: ScrewOptions, size: ScrewSize | None, length: Fraction) -> Fastener:
    """The fastener as bought, from the table's size or from the build file's own data."""

    def pick(stated: Fraction | float | None, listed: float) -> float:
        return listed if stated is None else float(stated)

    kind: FastenerKind = options.kind
    thread = options.thread if options.thread is not None else length * Fraction(2, 3)
    if size is None:
        source = "the screw's own data, stated in the build file"
        d, r, h, y = 0.0, 0.0, 0.0, 0.0
    else:
        source = size.source
        d, r, h, y = size.diameter, size.root, size.head, size.yield_strength
    gauge = _gauge(size) if size is not None and kind == "wood screw" else ""
    return Fastener(
        kind=kind,
        gauge=gauge,
        length=length,
        diameter=pick(options.diameter, d),
        root=pick(options.root, r),
        head=pick(options.head, h),
        thread=Fraction(0) if kind == "carriage bolt" else thread,
        yield_strength=pick(options.yield_strength, y),
        stated=bool(options.lengths),
        source=source,
    )


def _gauge(size: ScrewSize) -> str:
    return size.size if size.series == "metric" else f"#{size.size}"


def size_for(options: ScrewOptions, table: str, gauge: str | None = None, units: Units = "in") -> ScrewSize | None:
    """The table's size for the options; None for a structural screw, which brings its own data.

    Raises:
        InputError: a gauge or shank that the tables don't have, or a structural screw without its data.
    """
    if options.kind == "structural screw":
        _own_data(options, table)
        return None
    if options.kind == "wood screw":
        wanted = gauge or (options.gauge or "").lstrip("#") or DEFAULT_GAUGE[table][units]
        found = screw_sizes().get((options.kind, wanted))
    elif options.diameter is not None:
        wanted = writer(units).bit(options.diameter)
        found = by_shank(options.kind, float(options.diameter))
    else:
        wanted = OPEN_SHANK[options.kind][units]
        found = screw_sizes()[options.kind, wanted]
    if found is None or not found.lengths:
        raise InputError(_not_sold(options.kind, wanted, table))
    return found


def _not_sold(kind: str, wanted: str, table: str) -> Fault:
    known = [size for (other, size), found in screw_sizes().items() if other == kind and found.lengths]
    return Fault(
        f"screws.{table}",
        f"no {kind} of size {wanted} is in the tables; use one of "
        f"{', '.join(known)}, or describe it as a structural screw with its own data.",
    )


def _own_data(options: ScrewOptions, table: str) -> None:
    needed = ("length", "diameter", "root", "head", "thread", "yield_strength")
    missing = [name for name in needed if getattr(options, name) is None]
    if missing:
        raise InputError(
            Fault(
                f"screws.{table}",
                "a structural screw brings its own data; still missing: "
                f"{', '.join(missing)} (see its evaluation report).",
            )
        )
