"""The drilling pages: fasteners and bits, joint sections, hole schedules, what to buy."""

from __future__ import annotations

from collections.abc import Iterator

from tutorial_lib.design.model import Build
from tutorial_lib.drawing import holes as draw
from tutorial_lib.drilling import bits
from tutorial_lib.drilling.job import Job
from tutorial_lib.drilling.schedule import PieceHoles
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import (
    Block,
    Caution,
    Column,
    Columns,
    Findings,
    Heading,
    Items,
    Note,
    Page,
    Picture,
    Table,
    Text,
)

NAMES = {
    "corner": "corner",
    "cleat": "cleat to rail",
    "runner": "runner to rail",
    "slat": "slat end",
    "leg": "leg",
    "ply": "leg boards",
    "line": "centre line",
    "flange": "flange",
}


def first_jobs(plan: Plan) -> list[Job]:
    """One job for each kind of joint and fastener."""
    return list({(job.table, job.stack, job.fastener): job for job in plan.drilling.jobs}.values())


def _fastener(build: Build, job: Job) -> str:
    f = job.fastener
    size = f.gauge or (draw.bit_text(build, bits.nearest(f.diameter)) if f.kind != "structural screw" else "")
    kind = "" if f.kind == "wood screw" else f" {f.kind}"
    return f"{size}{kind} × {draw.fine(build, f.length)}".strip()


def fasteners(plan: Plan) -> Table:
    """Which screw or bolt holds what, how many, and the bits."""
    build = plan.build
    rows = []
    for job in first_jobs(plan):
        alike = [
            j for j in plan.drilling.jobs if (j.table, j.stack, j.fastener) == (job.table, job.stack, job.fastener)
        ]
        counts = sorted({len(j.spots) for j in alike})
        each = str(counts[0]) if len(counts) == 1 else f"{counts[0]} to {counts[-1]}"
        sink = draw.bit_text(build, job.bits.countersink.size) if job.bits.countersink else "–"
        pilot = "–" if job.fastener.kind == "carriage bolt" else draw.bit_text(build, job.bits.pilot_used)
        rows.append(
            (
                NAMES[job.table],
                _fastener(build, job),
                each,
                str(sum(len(j.spots) for j in alike)),
                pilot,
                draw.bit_text(build, job.bits.clearance.size),
                sink,
            )
        )
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
    build, told = plan.build, []
    for job in first_jobs(plan):
        choice = job.choice
        how = "stated" if choice.stated else "chosen"
        verdict = "" if choice.fits else " It does not fit."
        near = "; ".join(
            text for text in (choice.shorter, choice.longer) if text and job.fastener.kind != "structural screw"
        )
        told.append(
            f"{NAMES[job.table].capitalize()}: {draw.fine(build, choice.length)} {how}.{verdict}"
            f"{' Next on the shelf: ' + near + '.' if near else ''} Hole: {job.bits.pilot.rule}; root "
            f"{job.fastener.root:.3f} in, shank {job.fastener.diameter:.3f} in."
        )
    return Items(tuple(told))


def sections(plan: Plan) -> list[Block]:
    """A cut through every kind of joint, two abreast."""
    pictures = [
        Picture(draw.joint_section(plan.build, job, 190.0), caption=NAMES[job.table].capitalize())
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


def _which(group: PieceHoles) -> str:
    many = len(group.pieces) > 4
    return f"{group.pieces[0]} to {group.pieces[-1]}, {len(group.pieces)} in all" if many else ", ".join(group.pieces)


def _transfer(group: PieceHoles) -> str:
    turned = (
        f"{', '.join(group.turned)}: the same, turned end for end in the bed. " if 0 < len(group.turned) <= 4 else ""
    )
    mirrored = f"Mirror image of {group.mirrored}. " if group.mirrored else ""
    return f"{turned}{mirrored}Transfer: {group.method}."


def schedule_of(plan: Plan, group: PieceHoles) -> Iterator[Block]:
    """One group of pieces drilled alike: every face drawn and told."""
    yield Heading(f"{group.name.capitalize()}: {_which(group)}")
    short = [face for face in group.faces if draw.face_size(group, face)[0] <= draw.SHORT]
    for face in group.faces:
        if face not in short:
            yield from _face(plan, group, face)
    for i in range(0, len(short), 2):
        pair = short[i : i + 2]
        if len(pair) == 2:
            yield Columns(tuple(tuple(_face(plan, group, face)) for face in pair))
        else:
            yield from _face(plan, group, pair[0])
    yield Text(_transfer(group), small=True)


def _face(plan: Plan, group: PieceHoles, face: str) -> Iterator[Block]:
    yield Picture(
        draw.face_drawing(plan.build, group, face),
        caption=f"{face.capitalize()}: {draw.face_words(plan.build, group, face)}",
    )


def to_buy(plan: Plan) -> Table:
    """Fasteners to buy, in boxes, with spares, and hardware by the piece."""
    build, rows = plan.build, []
    for buy in plan.drilling.buys:
        job = next(j for j in plan.drilling.jobs if j.fastener == buy.fastener)
        loose = all(size == 1 for _, size in buy.boxes)
        boxes = f"{buy.bought} loose" if loose else " + ".join(f"{count} × box of {size}" for count, size in buy.boxes)
        rows.append((_fastener(build, job), str(buy.needed), str(buy.with_spares), boxes))
    rows += [
        (f"{item.name} ({item.where})", str(item.count), str(item.count), f"{item.count} loose")
        for item in plan.drilling.hardware
    ]
    columns = (
        Column("what", share=2),
        Column("needed", align="right"),
        Column("with spares", align="right"),
        Column("to buy", share=1),
    )
    return Table(columns, tuple(rows), "Screws, bolts and hardware")


def pages(plan: Plan) -> list[Page]:
    """The sheet's drilling pages."""
    care = Caution(
        "Clamp the work, never hold it in the hand under a drill; eye protection on. "
        "Bore the pilot within 4 in of any end, or the wood splits."
    )
    rule = Note(
        "Two pilot rules differ. Across the screw the standard asks for 7/8 of the root in softwood (NDS 12.1.5.3); "
        "in a straight pull the handbook says about 70 % (Wood Handbook ch. 8) "
        "where the standard asks for none. Try the bit in an offcut."
    )
    holes: list[Block] = [
        Text("All marks run from one datum end and one datum edge; pieces drilled alike are marked together.")
    ]
    for group in plan.drilling.schedule:
        holes += schedule_of(plan, group)
    return [
        Page(
            "Screws and bits",
            (fasteners(plan), to_buy(plan), care, rule, why(plan), Findings(plan.drilling.findings)),
            30,
        ),
        Page("Joints in section", (*side_views(plan), *sections(plan)), 31),
        Page("Hole schedule", tuple(holes), 32),
    ]
