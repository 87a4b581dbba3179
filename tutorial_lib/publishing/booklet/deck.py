"""Slats, legs, heights: where every slat and leg is marked, and how high everything stands."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from tutorial_lib.design.zero import leg_mark, leg_zero_short
from tutorial_lib.drawing import views
from tutorial_lib.drawing.layout import fitted, left_out
from tutorial_lib.drawing.scene import PAPER, Scene
from tutorial_lib.publishing.booklet.leaf import Book, Data, Leaf, drawn

SLATS, LEGS = 300.0, 190.0  # [pt] greatest heights of the drawings
BESIDE = (225.0, 0.4)  # [pt] of height and share of the width of a leg map beside the slats, with much to tell
HEIGHTS_AT = {False: (150.0, 190.0), True: (110.0, 128.0)}  # [pt] of side and section, where there is much to tell too
HEIGHTS = ("frame.height", "frame.sleep_height", "frame.mattress_top", "frame.underside", "frame.storage",
           "storage.air", "storage.bay", "post.height",
           "leg.height", "corner_leg.height", "mid_leg.height", "centre_leg.height")  # fmt: skip


def leaves(book: Book) -> Iterator[Leaf]:
    """The page of marks."""
    build, facts = book.plan.build, book.facts
    before = book.found.adaptation.creator.build if book.found and not book.found.adaptation.same else None
    side, section = HEIGHTS_AT[book.close]
    high, beside = BESIDE if book.close else (0.0, 0.0)
    views_of = (views.side_elevation(build, heights=["slats"]), views.section(build))
    yield Leaf("deck", {
        "units": book.w.units, "close": book.close, "changed": before is not None,
        "slats": drawn(_on_paper(slats := views.slat_plan(build), book.width * (1 - beside), high or SLATS)),
        "marks": [[i, book.mark(mark)] for i, mark in enumerate(build.slats.marks, 1)],
        "legs": drawn(legs := _on_paper(views.leg_map(build, before), book.width * (beside or 1.0), high or LEGS)),
        "leg_zero": leg_zero_short(build),
        "leg_marks": list(_leg_marks(book)) if book.both or left_out(legs) else [],
        "also": book.also_drawn(slats, legs), "also_side": book.also_drawn(*views_of),
        "side": drawn(_on_paper(views_of[0], book.width * 0.55, side)),
        "section": drawn(_on_paper(views_of[1], book.width * 0.43, section)),
        "heights": [
            {"what": facts[key].what, "value": book.fact(key)} for key in HEIGHTS if key in facts
        ],
    }, joined=True)  # fmt: skip


def _on_paper(scene: Scene, width: float, height: float) -> Scene:
    """A view laid anew in the paper's style."""
    return fitted(scene.shapes, width, scene.alt, height=height, largest=26.0, style=PAPER)


def _leg_marks(book: Book) -> Iterator[Data]:
    """Legs with their marks, those at one mark together."""
    build = book.plan.build
    at: dict[Fraction, list[str]] = {}
    for leg in build.legs:
        if not leg.post:
            at.setdefault(leg_mark(build, leg), []).append(leg.label)
    for mark, labels in sorted(at.items()):
        yield {"leg": ", ".join(labels), "mark": book.mark(mark)}
