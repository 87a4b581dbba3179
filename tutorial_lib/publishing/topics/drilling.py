"""The drilling pages: fasteners and bits, joint sections, every hole drawn and in a table."""

from __future__ import annotations

from collections.abc import Iterator

from tutorial_lib.drawing import holes as draw
from tutorial_lib.drilling.job import Job
from tutorial_lib.drilling.schedule import Hole, PieceHoles
from tutorial_lib.lists.names import name_of
from tutorial_lib.measures import Writer, writer
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import (
    Block,
    Column,
    Columns,
    Heading,
    Items,
    Picture,
    Table,
    Text,
)

TICK = "□"
LONG_TABLE = 7  # rows; more stand in two tables side by side
UNITS = {"in": "inches", "mm": "mm"}
EACH = 2  # pieces drilled alike up to this many have a box each


def first_jobs(plan: Plan) -> list[Job]:
    """One job for each kind of joint and fastener."""
    return list({_kind(plan, job): job for job in plan.drilling.jobs}.values())


def _kind(plan: Plan, job: Job) -> tuple[object, ...]:
    return _named(plan, job), job.stack, job.fastener


def _named(plan: Plan, job: Job) -> str:
    return name_of(plan.build, job.joint, job.table)


def fasteners(plan: Plan) -> Table:
    """Which screw or bolt holds what, how many, and the bits."""
    w, rows = writer(plan.options.build.units), []
    for job in first_jobs(plan):
        alike = [j for j in plan.drilling.jobs if _kind(plan, j) == _kind(plan, job)]
        counts = sorted({len(j.spots) for j in alike})
        each = str(counts[0]) if len(counts) == 1 else f"{counts[0]} to {counts[-1]}"
        sink = w.bit(job.bits.countersink.size) if job.bits.countersink else "–"
        rows.append((
            _named(plan, job), job.fastener.told(w), each, str(sum(len(j.spots) for j in alike)),
            "–" if job.is_bolt else w.bit(job.bits.pilot_used), w.bit(job.bits.clearance.size), sink,
        ))  # fmt: skip
    columns = (
        Column("joint", share=1),
        Column("fastener", share=2),
        Column("each", align="right"),
        Column("in all", align="right"),
        Column("pilot", align="right"),
        Column("clearance", align="right"),
        Column("countersink", align="right"),
    )
    return Table(columns, tuple(rows), "Fasteners and bits")


def why(plan: Plan) -> Items:
    """Why each length, and why its neighbours on the shelf won't do; which pilot rule."""
    w, told = writer(plan.options.build.units), []
    for job in first_jobs(plan):
        choice = job.choice
        how = "stated" if choice.stated else "chosen"
        verdict = "" if choice.fits else " It does not fit."
        near = "; ".join(
            text for text in (choice.shorter, choice.longer) if text and job.fastener.kind != "structural screw"
        )
        told.append(
            f"{_named(plan, job).capitalize()}: {w.stated(choice.length)} {how}.{verdict}"
            f"{' Next on the shelf: ' + near + '.' if near else ''} Hole: {job.bits.pilot.rule}; root "
            f"{w.calculated(job.fastener.root)}, shank {w.calculated(job.fastener.diameter)}."
        )
    return Items(tuple(told))


def sections(plan: Plan) -> list[Block]:
    """A cut through every kind of joint, two abreast."""
    pictures = [
        Picture(draw.joint_section(plan.build, job, 190.0), caption=_named(plan, job).capitalize())
        for job in first_jobs(plan)
    ]
    pairs = [pictures[i : i + 2] for i in range(0, len(pictures), 2)]
    return [Columns(tuple((p,) for p in pair)) if len(pair) == 2 else pair[0] for pair in pairs]


def side_views(plan: Plan) -> list[Block]:
    """Where fasteners come near each other."""
    return [
        Picture(draw.near_misses(plan.build, plan.drilling)),
        Picture(draw.closest_place(plan.build, plan.drilling)),
    ]


def _transfer(group: PieceHoles) -> str:
    turned = f"{group.turned}. " if group.turned else ""
    mirrored = f"Mirror image of {group.mirrored}. " if group.mirrored else ""
    return f"{turned}{mirrored}Transfer: {group.method}."


def schedule_of(plan: Plan, group: PieceHoles) -> list[Block]:
    """One group of pieces drilled alike: every face drawn, and all its holes in a table."""
    return [block for unit in _units(plan, group) for block in unit]


def _units(plan: Plan, group: PieceHoles) -> Iterator[tuple[Block, ...]]:
    """The same, face by face, each with what must not be parted from it."""
    lead: tuple[Block, ...] = (
        Heading(f"{group.name.capitalize()}: {group.which}"),
        Text(_transfer(group), small=True),
    )
    for face in group.faces:
        picture = Picture(draw.face_drawing(plan.build, group, face), caption=_caption(plan, group, face))
        tables = hole_tables(plan, group, face)
        if draw.face_size(group, face)[0] <= draw.SHORT:
            yield (*lead, Columns(((picture,), tables)))
        elif len(tables) > 1:
            yield (*lead, picture, Columns(tuple((table,) for table in tables)))
        else:
            yield (*lead, picture, *tables)
        lead = ()


def _caption(plan: Plan, group: PieceHoles, face: str) -> str:
    edge = group.datum_edges[face]
    lies = "" if draw.edge_on_top(plan.build, group, face) else f", drawn with the {edge} below, as it lies"
    return f"{face.capitalize()}{lies}. {draw.holes_in_words(plan.build, group.on(face)).capitalize()}."


def hole_tables(plan: Plan, group: PieceHoles, face: str) -> tuple[Table, ...]:
    """Every hole of a face: from the datum end, from the datum edge, bit, depth, and a box to tick a piece."""
    w = writer(plan.options.build.units)
    boxes = group.pieces if len(group.pieces) <= EACH else ("done",)
    columns = (
        Column(draw.first_datum(group, face), align="right"),
        Column(group.datum_edges[face], align="right"),
        Column("bit"),
        Column("depth"),
        *(Column(_short(group, box), align="centre") for box in boxes),
    )
    rows = [
        (w.mark(hole.u), w.mark(hole.v), hole.bit, _depth(w, hole), *(TICK for _ in boxes)) for hole in group.on(face)
    ]
    half = len(rows) if len(rows) < LONG_TABLE else -(-len(rows) // 2)
    parts = (rows[:half], rows[half:])
    name = f"{face.capitalize()}, in {UNITS[w.units]} from the"
    return tuple(Table(columns, tuple(part), name) for part in parts if part)


def _depth(w: Writer, hole: Hole) -> str:
    return "through" if hole.depth is None else w.mark(hole.depth)


def _short(group: PieceHoles, label: str) -> str:
    """What tells the pieces of a group apart: "left" of "cleat left"."""
    return label.removeprefix(f"{group.name} ")
