"""Finish, time and limits: what to do with each face, one timeline to the mattress, who may lie, sit and kneel."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from tutorial_lib.assembly.wording import counted
from tutorial_lib.drawing.scene import PAPER, Scene
from tutorial_lib.drawing.timeline import ROW, timeline_chart
from tutorial_lib.publishing.booklet.cover import first_cautions
from tutorial_lib.publishing.booklet.leaf import Book, Data, Leaf, cautions, drawn
from tutorial_lib.publishing.topics import finishing as screen
from tutorial_lib.strength import words

if TYPE_CHECKING:
    from tutorial_lib.strength.use import Use

KINDS = (("lying", "lying"), ("sitting", "sitting on the edge"),
         ("standing", "kneeling on a slat, through the mattress"), ("bare", "standing on a bare slat"),
         ("moving", "dragging the empty bed"))  # fmt: skip

LOW_ROW = 10.5  # [pt] of the chart where there is very much to tell


def leaves(book: Book) -> Iterator[Leaf]:
    """The last pages."""
    plan, finishing = book.plan, book.plan.finishing
    low, high = finishing.days
    yield Leaf("finish", {
        "limits": _limits(book),
        "faces": list(_faces(book)), "close": book.close,
        "sanding": screen.sanding_items(plan),
        "coats": screen.coats_told(plan),
        "days": f"Sawing and boring first, then {low:.1f} to {high:.1f} days from the first sanding to the mattress, "
                "drying overnight included.",
        "chart": drawn(_chart(book)),
        "cautions": cautions([*finishing.hazards, *finishing.findings]),
    }, joined=True)  # fmt: skip


def _limits(book: Book) -> Data:
    """Who may lie, sit and kneel; what stops the bed and what the cover says is not told again."""
    strong, told = book.plan.strength, first_cautions(book)
    return {
        "carries": words.may_print(strong),
        "caution": words.CAUTION,
        "loads": list(_loads(book)),
        "at": f"how far, at {book.w.weight(book.plan.options.load.person)} each",
        "not_covered": list(words.NOT_COVERED),
        "cautions": cautions([f for f in book.plan.findings_of_strength if f.severity != "stop" and f not in told]),
    }


def _faces(book: Book) -> Iterator[Data]:
    """What to do with the faces of each part; parts that come to the same told together."""
    sealed = book.plan.options.finish.seal_hidden
    which: dict[str, list[str]] = {}
    for found in screen.told_once(book.plan.finishing.maps):
        several = counted(book.plan.build, found.pieces, boards=True)
        which.setdefault(found.sentence, []).append(several if len(found.pieces) > 1 else found.pieces[0])
    for sentence, names in which.items():
        yield {"which": ", ".join(names), "do": f"{sentence} Seal the rest." if sealed else sentence}


def _chart(book: Book) -> Scene:
    return timeline_chart(book.tasks, book.width, PAPER, LOW_ROW if book.tight else ROW)


def _loads(book: Book) -> Iterator[Data]:
    """Every kind of load with the worst it does."""
    for kind, name in () if book.plan.build.bed_stands else KINDS:
        use = book.plan.strength.worst(kind)
        if use is not None:
            yield {"when": name, "what": use.title, "used": _used(use)}


def _used(use: Use) -> str:
    return "no value" if use.ratio == float("inf") else f"{use.ratio:.2f} times what is allowed"
