"""Saw sheet 2, for the saw: every board with its running marks, and where to set the stop block."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from tutorial_lib.cutting.saw import SMALL, Batch, SawList, saw_cuts
from tutorial_lib.cutting.sawing import SAWING
from tutorial_lib.drawing.layout import left_out
from tutorial_lib.drawing.sawing import blade, board
from tutorial_lib.publishing.booklet.leaf import Book, Data, Leaf, drawn

ROW = 400.0  # [pt] of the longest board on paper


def leaves(book: Book) -> Iterator[Leaf]:
    """The page for the saw; none where nothing is cut."""
    cutting = book.plan.cutting
    if not cutting.plan.boards:
        return
    w, saw, sawing = book.w, SawList(cutting.sawn), SAWING[book.plan.options.saw.kind]
    trim = f" ({w.stated(cutting.plan.trim)} is allowed for both ends)" if cutting.plan.trim else ""
    yield Leaf("saw", {
        "lead": f"Square one end{trim}, hook the tape on it, and make every mark from there. The marks already allow "
                f"{w.stated(cutting.plan.kerf)} for each cut.",
        "order": list(sawing.order), "alike": sawing.alike, "at": f"{sawing.at} ({w.units})",
        "boards": list(_boards(book)), "units": "mm" if w.metric else "inches",
        "stops": [_stop(book, batch) for batch in saw.batches],
        "blade": drawn(blade(w.stated(cutting.plan.kerf))),
        "twice": _twice(book),
        "cautions": [sawing.caution.format(w.length(SMALL)), " ".join(sawing.cautions)],
    })  # fmt: skip


def _boards(book: Book) -> Iterator[Data]:
    cutting, build = book.plan.cutting, book.plan.build
    longest = max(b.length for b in cutting.sawn.boards)
    sections = {part.section.name: part.section for part in build.parts}
    for number, layout in enumerate(cutting.sawn.layouts, 1):
        section = sections.get(layout.board.section)
        size = (section.thickness, section.width) if section else (Fraction(1), Fraction(3))
        scene = board(layout, number, longest, size, lambda key: (book.letters[key], build.part(key).name), book.w,
                      ROW - (526.5 - book.width))  # fmt: skip
        cuts = saw_cuts(layout.board)
        rest = layout.board.offcut if layout.board.offcut > 0 else None
        shown = rest is None or any(book.w.mark(rest) in text for text in scene.texts()[len(cuts) :])
        yield {
            "number": number, "section": layout.board.section, "stock": layout.board.stock, "count": layout.count,
            "picture": drawn(scene),
            "marks": [book.mark(cut.mark) for cut in cuts] if book.both or left_out(scene) else [],
            "left": [] if rest is None or (shown and not book.both) else book.length(rest),
        }  # fmt: skip


def _stop(book: Book, batch: Batch) -> Data:
    parts = [book.plan.build.part(key) for key in batch.names]
    return {
        "length": book.mark(batch.length), "count": batch.count, "section": batch.section,
        "parts": [{"letter": book.letters[part.key], "name": part.name} for part in parts],
        "again": _again(book, batch),
    }  # fmt: skip


def _again(book: Book, batch: Batch) -> str:
    """What a spoilt piece can be cut from."""
    tries = [t for t in book.plan.cutting.second_tries if (t.section, t.length) == (batch.section, batch.length)]
    numbers = sorted({number for found in tries for number, _ in found.leftovers})
    whole = dict.fromkeys(str(board) for found in tries for board in found.untouched)
    named = [f"board {' or '.join(map(str, numbers))}"] if numbers else []
    return f"from {'; '.join([*named, *whole])}" if named or whole else "a new board"


def _twice(book: Book) -> str:
    """Which pieces have no second try."""
    build = book.plan.build
    tries = book.plan.cutting.second_tries
    none = dict.fromkeys(build.part(t.name).name for t in tries if not (t.leftovers or t.untouched))
    return f"Nothing is left for a second try of {', '.join(none)}." if none else ""
