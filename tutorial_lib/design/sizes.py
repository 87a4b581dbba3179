"""Sizes every other part depends on: actual sections, the mattress, the opening on the plan's grid."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from tutorial_lib import tables
from tutorial_lib.design.model import Section
from tutorial_lib.design.options import Options
from tutorial_lib.design.wood import wood_of
from tutorial_lib.errors import Fault, InputError
from tutorial_lib.findings import Finding
from tutorial_lib.measures import figure, round_to, writer
from tutorial_lib.records import dataclass

SMALLEST, LARGEST = Fraction(12), Fraction(144)  # [in] sides of a mattress; beyond is a slip of the unit, our choice
ROOM = Fraction(3, 8)  # [in] each side and end of the mattress, left open (common practice, no source)


@dataclass(frozen=True, kw_only=True)
class Sizes:
    """Actual sections, mattress, opening and outside [in]; width first, then length."""

    rail: Section
    support: Section
    slat: Section
    leg: Section
    line_leg: Section  # of the centre lines' legs
    centre: Section
    flange: Section
    glue_block: Section  # as the legs where there is none
    plinth: Section | None
    post: Section  # of corner posts and their blocks; the legs' own where the bed has none
    block: Section
    batten: Section  # of a headboard, and its boards
    headboard: Section
    headboard_slat: Section
    upright: Section
    mattress: tuple[Fraction, Fraction]
    opening: tuple[Fraction, Fraction]
    outside: tuple[Fraction, Fraction]
    grid: Fraction
    notes: tuple[Finding, ...]

    def on_grid(self, x: Fraction) -> Fraction:
        """The nearest mark of the plan's grid [in]."""
        return to_grid(x, self.grid)


def to_grid(x: Fraction, grid: Fraction) -> Fraction:
    """The nearest multiple of the grid [in], ties up.

    >>> to_grid(Fraction(39, 32), Fraction(1, 16)), to_grid(Fraction(9, 8), Fraction(1, 4))
    (Fraction(5, 4), Fraction(5, 4))
    """
    return round_to(x / grid, 1) * grid


def resolve(options: Options) -> Sizes:
    """All sizes from the options and the tables.

    Raises:
        InputError: with every section, species, grade or mattress that is not known.
    """
    faults: list[Fault] = []
    sections = {}
    for use, name in _uses(options).items():
        try:
            sections[use] = _section(options, name, use)
        except InputError as error:
            faults += (fault for fault in error.faults if fault.what not in {f.what for f in faults})  # said once
    try:
        size = mattress_size(options)
    except InputError as error:
        faults += error.faults
    if faults:
        raise InputError(faults)
    grid = writer(options.build.units).grid
    opening, notes = _opening(options, size, grid)
    thick = sections["rail"].thickness
    plate = options.legs.flange_thickness
    flange = Section(name="flange", thickness=plate, width=options.legs.flange, steel=True)
    return Sizes(
        rail=sections["rail"],
        support=sections["support"],
        slat=sections["slat"],
        leg=sections["leg"],
        line_leg=sections.get("centre leg", sections["leg"]),
        centre=sections.get("centre", sections["support"]),
        flange=flange,
        glue_block=sections.get("glue block", sections["leg"]),
        plinth=sections.get("plinth"),
        post=sections.get("post", sections["leg"]),
        block=sections.get("block", sections["support"]),
        batten=sections.get("batten", sections["support"]),
        headboard=sections.get("headboard", sections["slat"]),
        headboard_slat=sections.get("headboard slat", sections["slat"]),
        upright=sections.get("upright", sections["leg"]),
        mattress=size,
        opening=opening,
        outside=(opening[0] + 2 * thick, opening[1] + 2 * thick),
        grid=grid,
        notes=notes,
    )


KEYS = {  # of the build file, by what its section is used for
    "rail": "frame.rail",
    "support": "support.lumber",
    "slat": "slats.lumber",
    "leg": "legs.lumber",
    "plinth": "plinth.lumber",
    "glue block": "legs.glue_blocks",
    "centre": "centre.lumber",
    "centre leg": "centre.leg_lumber",
    "post": "posts.lumber",
    "block": "posts.blocks",
    "headboard": "headboard.lumber",
    "headboard slat": "headboard.slats",
    "batten": "headboard.battens",
    "upright": "headboard.uprights",
}


def _uses(options: Options) -> dict[str, str]:
    uses = {
        "rail": options.frame.rail,
        "support": options.support.lumber,
        "slat": options.slats.lumber,
        "leg": options.legs.lumber,
    }
    if options.plinth.lumber is not None:
        uses["plinth"] = options.plinth.lumber
    if options.legs.glue_blocks is not None:
        uses["glue block"] = options.legs.glue_blocks
    if options.centre.lines:
        uses["centre"] = options.centre.lumber
        uses["centre leg"] = options.centre.leg_lumber or options.legs.lumber
    if options.frame.posts:
        uses["post"] = options.posts.lumber
        if options.posts.joint == "corner blocks":
            uses["block"] = options.posts.blocks
    if options.headboard.kind != "none":
        uses["headboard"] = options.headboard.lumber
        if options.headboard.kind == "slats":
            uses["headboard slat"] = options.headboard.slats
        posts = options.frame.posts
        uses |= {"batten": options.headboard.battens} if posts else {"upright": options.headboard.uprights}
    return uses


def _section(options: Options, name: str, use: str) -> Section:
    kinds = {"leg": options.legs.kind, "centre leg": options.line_leg_kind}
    if kinds.get(use) == "tube":
        across = options.legs.tube_diameter
        name = f"tube {writer(options.build.units).length(across)}"
        return Section(name=name, thickness=across, width=across, steel=True)
    own = options.lumber.get(name)
    thick, wide = (own.thickness, own.width) if own else (None, None)
    if thick is None or wide is None:
        row = tables.dressed(name, KEYS[use])
        thick, wide = thick or row.thickness, wide or row.width
    thick, wide = min(thick, wide), max(thick, wide)
    species, grade = wood_of(options, name, use, wide)
    return Section(name=name, thickness=thick, width=wide, species=species, grade=grade)


def mattress_size(options: Options) -> tuple[Fraction, Fraction]:
    """Width and length of the mattress [in]: measured where given, else from the table."""
    asked = options.mattress
    width, length = asked.width, asked.length
    if width is None or length is None or asked.size is not None:  # a name is looked up beside measures too
        row = tables.mattress(asked.size or "", None, "mattress.size").chosen
        width, length = width or row.width, length or row.length
    w = writer(options.build.units)
    ends = f"{w.length(SMALLEST)} to {w.length(LARGEST)}"
    sides = {"width": width, "length": length}
    faults = [
        Fault(f"mattress.{side}", f"{w.length(x)} is no mattress; beds are planned for {ends}.")
        for side, x in sides.items()
        if not SMALLEST <= x <= LARGEST
    ]
    if faults:
        raise InputError(faults)
    return width, length


def mattress_tolerance(options: Options) -> Fraction:
    """By how much a mattress may be larger than its name [in]: stated, or its region's."""
    asked = options.mattress
    if asked.tolerance is not None:
        return asked.tolerance
    if asked.width is not None and asked.length is not None:
        return tables.tolerance("mattress measured").value
    region = tables.mattress(asked.size or "", None, "mattress.size").chosen.region
    return tables.tolerance(f"mattress {region}").value


def clearance(options: Options) -> tuple[Fraction, Fraction]:
    """Room beside the mattress and at its ends, each side and each end [in].

    Left open: 3/8 in, or half of what the mattress may be over its size, on the plan's grid.
    """
    grid = writer(options.build.units).grid
    stated = (options.clearance.side, options.clearance.end)
    side, end = (
        ceil(max(ROOM, larger / 2) / grid) * grid if room is None else room
        for room, larger in zip(stated, largest_over(options), strict=True)
    )
    return side, end


def largest_over(options: Options) -> tuple[Fraction, Fraction]:
    """By how much the mattress may be larger than its size, across and along [in]; two halves add up across."""
    tolerance = mattress_tolerance(options)
    return tolerance * (2 if options.mattress.split else 1), tolerance


def _opening(
    options: Options, size: tuple[Fraction, Fraction], grid: Fraction
) -> tuple[tuple[Fraction, Fraction], tuple[Finding, ...]]:
    side, end = clearance(options)
    exact = (size[0] + 2 * side, size[1] + 2 * end)
    opening = (to_grid(exact[0], grid), to_grid(exact[1], grid))
    if opening == exact:
        return opening, ()
    units = options.build.units
    moved = " and ".join(
        f"{name} {_by(new - old, units)}"
        for name, old, new in zip(("across", "along"), exact, opening, strict=True)
        if old != new
    )
    what = f"The opening is put on the plan's grid once: {moved}; everything else is exact from it."
    return opening, (Finding(rule="grid", severity="note", what=what, limit=_figure(grid, units), whose="our choice"),)


def _by(change: Fraction, units: str) -> str:
    return f"{'+' if change > 0 else '-'}{_figure(abs(change), units)}"


def _figure(x: Fraction, units: str) -> str:
    return f"{figure(writer(units).convert('calculated', x))} {units}"
