"""The parts: the bed pulled apart, the list with room to write in, the zero points."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from tutorial_lib.design.zero import leg_mark, marked
from tutorial_lib.drawing.apart import pulled_apart
from tutorial_lib.drawing.scene import PAPER
from tutorial_lib.drawing.zeros import SEATS, zero_points, zeros
from tutorial_lib.publishing.booklet.leaf import Book, Data, Leaf, cautions, drawn

LOWEST = 200.0  # [pt] of the drawing's height, so that its letters can be told apart
ZEROS = {False: 205.0, True: 160.0}  # [pt] of the zero points' drawing, and where there is much to tell
FEW, ROW = 5, 15.0  # parts beside which the drawing is as high as it goes; a row of the list [pt]


def leaves(book: Book) -> Iterator[Leaf]:
    """The page of parts."""
    build = book.plan.build
    points = [] if build.bed_stands else zeros(build, _first_hole(book))
    high = max(265.0 - ROW * max(len(build.made) - FEW, 0), LOWEST)
    yield Leaf("parts", {
        "picture": drawn(pulled_apart(build, book.letters, book.width * 0.9, high, PAPER)),
        "units": book.w.units,
        "parts": list(_parts(book)),
        "zeros": drawn(zero_points(build, points, book.width * 0.58, ZEROS[book.close], PAPER)),
        "points": [
            {"name": f"Zero {p.number}, {p.name}{_from_first(book, p.x - points[0].x)}", "marks": _marked(book, p.what)}
            for p in points
        ],
        "cautions": cautions(() if build.bed_stands else build.findings),
    }, joined=True)  # fmt: skip


def _from_first(book: Book, x: Fraction) -> str:
    """How far a zero point lies beyond the first, or before it."""
    return f", {book.w.length(abs(x))} {'from' if x > 0 else 'before'} zero 1" if x else ""


def _first_hole(book: Book) -> Fraction | None:
    """The hole nearest the datum end of what the slats lie on [in]."""
    holes = [hole.u for group in book.plan.drilling.schedule if group.piece.use in SEATS
             for hole in group.holes if not hole.end_face]  # fmt: skip
    return min(holes, default=None)


def _parts(book: Book) -> Iterator[Data]:
    for part in book.plan.build.made:
        section = part.section
        yield {
            "letter": book.letters[part.key], "name": part.name, "count": part.count, "lumber": section.name,
            "size": book.bare_size(section.thickness, section.width), "length": book.mark(part.length),
        }  # fmt: skip


def _marked(book: Book, what: str) -> str:
    """What is measured from a zero point."""
    if what == "first leg":
        marks = sorted({leg_mark(book.plan.build, leg) for leg in marked(book.plan.build)})
        return f"legs at {book.w.marks(marks)}."
    return "the slats." if what == "second slat" else "its holes."
