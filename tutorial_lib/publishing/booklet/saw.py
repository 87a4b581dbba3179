"""Saw sheet 2, for the saw: every board with its running marks, and where to set the stop block."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from tutorial_lib.cutting.saw import SMALL, Batch, SawList, marks_note, saw_cuts
from tutorial_lib.cutting.sawing import SAWING
from tutorial_lib.drawing.layout import extent, left_out
from tutorial_lib.drawing.sawing import blade, board
from tutorial_lib.drawing.scene import Scene
from tutorial_lib.publishing.booklet.leaf import INCHES_OR_MM, Book, Data, Leaf, drawn

ROW = 400.0  # [pt] of the longest board on paper
PLAIN = (Fraction(1), Fraction(3))  # [in] thickness and width drawn of a board that is in no part
LONG = Fraction(144)  # [in] that the longest board counts as at least, where there is much to tell: all are drawn lower
BESIDE = 98.5  # [pt] that stand beside the drawings: numbers, lumber, boxes


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
        "order": [*sawing.order, *filter(None, [marks_note(cutting.sawn, w)])],
        "alike": sawing.alike, "at": f"{sawing.at} ({w.units})",
        "boards": list(_boards(book)), "second": INCHES_OR_MM[book.second], "units": INCHES_OR_MM[w.units],
        "stops": [_stop(book, batch) for batch in saw.batches],
        "blade": drawn(blade(w.own.stated(cutting.plan.kerf))),
        "twice": _twice(book),
        "cautions": [sawing.caution.format(w.length(SMALL)), " ".join(sawing.cautions)],
    }, joined=True)  # fmt: skip


def _boards(book: Book) -> Iterator[Data]:
    layouts = book.plan.cutting.sawn.layouts
    scenes = _scenes(book, ROW - (526.5 - book.width))
    widest = max(x1 - x0 + 2 * scene.margin for scene in scenes for x0, _, x1, _ in [extent(scene)])
    if widest > book.width - BESIDE:  # words at a board's end stand out
        scenes = _scenes(book, ROW - (526.5 - book.width) - (widest - (book.width - BESIDE)))
    for number, (layout, scene) in enumerate(zip(layouts, scenes, strict=True), 1):
        cuts = saw_cuts(layout.board)
        rest = layout.board.offcut if layout.board.offcut > 0 else None
        missing = left_out(scene)
        shown = rest is None or any(book.w.mark(rest) in text for text in scene.texts()[len(cuts) :])
        yield {
            "number": number, "section": layout.board.section, "stock": layout.board.stock, "count": layout.count,
            "picture": drawn(scene),
            "marks": [book.mark(cut.mark) for cut in cuts] if book.both or missing else [],
            "also": [] if missing else book.also([cut.mark for cut in cuts]),
            "left": [] if rest is None or (shown and not book.both) else book.length(rest)[shown:],
        }  # fmt: skip


def _scenes(book: Book, longest: float) -> list[Scene]:
    """Every board to one scale.

    Args:
        book: what it is made from.
        longest: width of the longest board [pt].
    """
    sawn, build = book.plan.cutting.sawn, book.plan.build
    sections = {part.section.name: part.section for part in build.parts}
    longest_board = max([b.length for b in sawn.boards] + [LONG] * book.close)
    of = {name: (section.thickness, section.width) for name, section in sections.items()}
    return [
        board(layout, number, longest_board, of.get(layout.board.section, PLAIN),
              lambda key: (book.letters[key], build.part(key).name), book.w.own, longest)
        for number, layout in enumerate(sawn.layouts, 1)
    ]  # fmt: skip


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
