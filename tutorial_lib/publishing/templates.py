"""Full-size paper templates for drilling, and the story stick in strips, as a PDF with a bar to prove its scale."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Literal

from tutorial_lib.drawing.holes import WORD, bit_text, face_size, fine
from tutorial_lib.drawing.scene import Circle, Line, Mark, Rect, Scene, Shape, Text
from tutorial_lib.drawing.views import mark_text
from tutorial_lib.measures import mm
from tutorial_lib.publishing.blocks import Block, Caution, Heading, Page, PageBreak, Picture
from tutorial_lib.publishing.blocks import Text as Words
from tutorial_lib.publishing.identity import size, version
from tutorial_lib.publishing.typeset import Paper, compile_pdf, source

if TYPE_CHECKING:
    from tutorial_lib.design.model import Build
    from tutorial_lib.drilling.schedule import Hole, PieceHoles
    from tutorial_lib.plan import Plan

FULL = 72.0  # [pt per in] full size
REACH = Fraction(6)  # [in] of a piece on a template
MARGIN = Fraction(3, 4)  # [in] a hole nearer the template's cut edge is left out
STRIP = Fraction(13, 2)  # [in] of the story stick on one strip
WORDS = Fraction(5, 4)  # [in] that a mark's words take
SHORT_STRIP = Fraction(3)  # [in] a shorter strip has one line of words over it
STRIPS_A_PAGE = 4
STICKS = ("cleat", "runner", "centre_runner", "centre_beam")  # parts that slats lie on


def check_bar() -> Scene:
    """A 4 in and a 100 mm bar to lay a ruler on."""
    shapes: list[Shape] = [
        Rect(0, 0, 4, Fraction(1, 4)),
        *(Line(((i, 0), (i, Fraction(1, 4)))) for i in range(1, 4)),
        Rect(0, Fraction(-5, 8), mm(100), Fraction(1, 4)),
        *(Line(((mm(10 * i), Fraction(-5, 8)), (mm(10 * i), Fraction(-3, 8)))) for i in range(1, 10)),
        Text((4, Fraction(1, 8)), "4 in: measure before use", "small", "start", shift=(6, -2.5)),
        Text((mm(100), Fraction(-1, 2)), "100 mm: or measure this one", "small", "start", shift=(10, -2.5)),
    ]
    return Scene(tuple(shapes), FULL, "Check bars, 4 in and 100 mm long, to prove the print is full size")


def template(build: Build, group: PieceHoles, face: str) -> Scene:
    """The first 6 in of a drilled face at full size, datum end on the left and datum edge on top."""
    long, high = face_size(group, face)
    holes = [hole for hole in group.on(face) if hole.u <= REACH - MARGIN]
    cut = min(long, REACH)
    shapes: list[Shape] = [
        Line(((cut, high), (0, high), (0, 0), (cut, 0), *(((cut, high),) if cut == long else ())), line="outline")
    ]
    if cut != long:
        shapes.append(Line(((cut, 0), (cut, high)), line="hidden"))
    for hole in holes:
        shapes += _cross(build, hole, high)
    shapes += [
        Text((0, high), group.datum_end, "strong", "start", shift=(0, 6)),
        Text((cut, high), group.datum_edges[face], "small", "end", shift=(0, 6), optional=True),
    ]
    count = "1 hole" if len(holes) == 1 else f"{len(holes)} holes"
    return Scene(tuple(shapes), FULL, f"Full-size template: {group.name}, {face}, {count}")


def _cross(build: Build, hole: Hole, high: Fraction) -> list[Shape]:
    x, y, arm = hole.u, high - hole.v, Fraction(1, 4)
    words = f"{bit_text(build, hole.diameter)}"
    below = Text((x, y), words, "small", "start", shift=(14 + float(hole.diameter) * FULL / 2, 6), halo=True)
    return [
        Circle((x, y), hole.diameter / 2),
        Line(((x - arm, y), (x + arm, y))),
        Line(((x, y - arm), (x, y + arm))),
        below,
    ]


def wanted(plan: Plan) -> list[tuple[PieceHoles, str]]:
    """Faces that get a template: rail ends, leg tops, slat ends, and whatever else has holes near its datum end."""
    found = []
    for group in plan.drilling.schedule:
        for face in group.faces:
            near = [hole for hole in group.on(face) if hole.u <= REACH - MARGIN]
            row = group.part in STICKS
            if near and not row and not (face.endswith("right end") or face.endswith("foot end")):
                found.append((group, face))
    return found


def stick_marks(plan: Plan, group: PieceHoles) -> list[tuple[Fraction, str, bool]]:
    """Marks of one story stick from the datum end [in], their words, and whether they are holes (else slat edges)."""
    piece = group.piece
    marks = [
        (hole.u, f"{WORD[hole.table]} hole", True)
        for face in group.faces
        if not face.endswith("end")
        for hole in group.on(face)
        if hole.table != "slat"
    ]
    if piece.axis == 0 and group.part in STICKS:
        slats = plan.build.slats
        offset = slats.start - piece.box.lo[0]
        marks += [
            (offset + at, f"slat {i}", False) for i, at in enumerate(slats.marks, 1) if 0 <= offset + at <= piece.length
        ]
    unique = {(at, what): (at, what, is_hole) for at, what, is_hole in marks}
    return sorted(unique.values())


def strips(plan: Plan, group: PieceHoles) -> list[Scene]:
    """The story stick cut into strips that are taped end to end at their numbered lines."""
    length, marks = group.piece.length, stick_marks(plan, group)
    count = -(-length // STRIP)
    return [_strip(plan.build, marks, i, int(count), length) for i in range(int(count))]


def _strip(build: Build, marks: list[tuple[Fraction, str, bool]], i: int, count: int, length: Fraction) -> Scene:
    start, end = STRIP * i, min(STRIP * (i + 1), length)
    high = Fraction(1)
    shapes: list[Shape] = [Rect(0, 0, end - start, high)]
    for at, what, is_hole in marks:
        if start <= at < end or (at == end == length):
            x = at - start
            shapes += _stick_mark(build, x, at, what, is_hole, high, end - start)
    first = f"{'the datum end' if i == 0 else f'join {i}'}, {fine(build, start)}"
    last = f"{'the far end' if i == count - 1 else f'join {i + 1}'}, {fine(build, end)}"
    if end - start < SHORT_STRIP:
        shapes.append(Text((0, high), f"{first}, to {last}", "small", "start", shift=(0, 5)))
    else:
        shapes.append(Text((0, high), first, "small", "start", shift=(0, 5)))
        shapes.append(Text((end - start, high), last, "small", "end", shift=(0, 5)))
    return Scene(tuple(shapes), FULL, f"Story stick strip {i + 1} of {count}")


def _stick_mark(
    build: Build, x: Fraction, at: Fraction, what: str, is_hole: bool, high: Fraction, wide: Fraction
) -> list[Shape]:
    """One mark: a cross for a hole, a tick for a slat's near edge, its words on the side that has room."""
    words = f"{what}: {mark_text(build, at)}"
    left = wide - x < WORDS < x
    anchor: Literal["start", "end"] = "end" if left else "start"
    way = -1 if left else 1
    if is_hole:
        y = high * 2 / 3
        return [
            Line(((x, high), (x, y)), line="outline"),
            Mark((x, y), "cross", 9.0),
            Text((x, y), words, "small", anchor, shift=(8.0 * way, -3), tries=((8.0 * way, 8),), optional=True),
        ]
    return [
        Line(((x, 0), (x, high / 3)), line="outline"),
        Text((x, 0), words, "small", anchor, shift=(4.0 * way, 6), tries=((4.0 * way, 16),), optional=True),
    ]


def template_pages(plan: Plan) -> list[Page]:
    """All templates and story sticks as pages."""
    told = Caution(
        "Print at 100 %, not fitted to the page, and lay a ruler on the bar of every page. "
        "If it is off, the template is off."
    )
    first: list[Block] = [told]
    for number, (group, face) in enumerate(wanted(plan)):
        if number:
            first.append(PageBreak())
        first += [
            Heading(f"{group.name.capitalize()}, {face}"),
            Words(_use(group, face)),
            Picture(template(plan.build, group, face)),
            Picture(check_bar()),
        ]
    out = [Page("Drilling templates, full size", tuple(first), 33)]
    for group in plan.drilling.schedule:
        if group.method == "story stick" and group.part in STICKS:
            out.append(_stick_page(plan, group))
    return out


def _use(group: PieceHoles, face: str) -> str:
    which = ", ".join(group.pieces) if len(group.pieces) <= 4 else f"{group.pieces[0]} to {group.pieces[-1]}"
    other = " At the other end lay the paper face down, on the same edge." if mirror_alike(group, face) else ""
    return (
        f"For {which}. Line up the datum end and the datum edge, tape it down, and prick through "
        f"each cross with an awl.{other}"
    )


def mirror_alike(group: PieceHoles, face: str) -> bool:
    """True if the other end of a face is drilled as the mirror image of its datum end."""
    long, _ = face_size(group, face)
    near = {(hole.u, hole.v) for hole in group.on(face) if hole.u <= REACH - MARGIN}
    far = {(long - hole.u, hole.v) for hole in group.on(face) if long - hole.u <= REACH - MARGIN}
    return near == far and long > REACH


def _stick_page(plan: Plan, group: PieceHoles) -> Page:
    blocks: list[Block] = [
        Words(
            f"For {', '.join(group.pieces)}. Cut the strips out, tape them join to join on a straight stick, "
            f"check the whole length, {fine(plan.build, group.piece.length)}, with a tape, then carry the marks "
            "over from the datum end. Crosses are holes; short ticks are the near edges of the slats."
        )
    ]
    for i, strip in enumerate(strips(plan, group)):
        if i % STRIPS_A_PAGE == 0:
            blocks += [*([PageBreak()] if i else []), Picture(check_bar())]
        blocks.append(Picture(strip))
    return Page(f"Story stick: {group.name}", tuple(blocks), 34)


def templates_pdf(plan: Plan, paper: Paper = "letter") -> bytes:
    """The templates as a PDF.

    Args:
        plan: the bed.
        paper: "letter" or "a4".
    """
    return compile_pdf(templates_source(plan, paper))


def templates_source(plan: Plan, paper: Paper = "letter") -> str:
    """The templates as typst source."""
    return source(
        template_pages(plan),
        title=plan.options.build.title,
        subtitle="drilling templates",
        version=f"{version(plan.options)}, full size",
        size=size(plan),
        paper=paper,
    )
