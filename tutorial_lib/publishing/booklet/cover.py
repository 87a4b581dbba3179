"""The cover: the bed as it stands, what it comes to in one line each, what it carries, what to mind first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from tutorial_lib.assembly.lifting import LIFTERS
from tutorial_lib.assembly.wording import counted
from tutorial_lib.drawing.qr import qr_code
from tutorial_lib.drawing.room import bed_in_room
from tutorial_lib.drawing.scene import PAPER
from tutorial_lib.findings import Finding
from tutorial_lib.measures import figure
from tutorial_lib.publishing.booklet.leaf import Book, Data, Leaf, cautions, drawn
from tutorial_lib.publishing.identity import version
from tutorial_lib.remedies import helped
from tutorial_lib.strength import words

HIGH, LOW = 390.0, 220.0  # [pt] of the picture, and where there is much to say
SHOWN = 4  # cautions; the others stand beside the work


def leaves(book: Book) -> Iterator[Leaf]:
    """The first page."""
    build = book.plan.options.build
    stops = [f for f in book.plan.findings if f.severity == "stop"]
    yield Leaf("cover", {
        "series": ", ".join(filter(None, (build.channel, build.episode))) if build.channel else "",
        "title": build.title,
        "made_of": made_of(book),
        "pictures": [drawn(bed_in_room(book.plan.build, book.width, high, PAPER)) for high in (HIGH, LOW)],
        "figures": list(_figures(book)),
        "carries": carries(book), "units": _where_both_stand(book),
        "stops": cautions(tuple(helped(book.plan, stops))),
        "cautions": cautions(tuple(helped(book.plan, first_cautions(book)))),
        "address": build.address,
        "code": drawn(qr_code(build.address or f"{build.name} {version(book.plan.options)}")),
    })  # fmt: skip


def made_of(book: Book) -> str:
    """What the bed is made of, counted."""
    build = book.plan.build
    made = [piece.label for part in build.made for piece in part.pieces]
    return f"{'To make: ' if build.bed_stands else ''}{counted(build, made)}."


def _figures(book: Book) -> Iterator[Data]:
    """What it fits, its size, cost, time, people: a label, the figure, what else to know of it."""
    facts, build = book.facts, book.plan.build
    thick = [f"{book.fact('mattress.thickness')} thick"] if "mattress.thickness" in facts else []
    yield _sized(book, "this bed fits", build.mattress, ["mattress", *thick])
    slats = [f"slats {book.fact('frame.sleep_height')}"] if "frame.sleep_height" in facts else []
    yield _sized(book, "outside", build.overall, [f"rail {book.fact('frame.height')} high", *slats])
    cutting = book.plan.cutting
    boards = sum(purchase.count for purchase in cutting.shopping)
    priced = cutting.money.write(cutting.cost) if cutting.cost else f"{boards} boards"
    yield {"label": "lumber", "big": priced, "rest": [f"{boards} boards" if cutting.cost else "no price given"]}
    low, high = book.plan.finishing.days
    yield {"label": "time", "big": f"{low:.1f} to {high:.1f} days", "rest": ["sanding to mattress"]}
    people = max(LIFTERS, book.plan.assembly.people)
    use = "to turn it" if book.plan.assembly.lift else "to lift it"
    yield {"label": "people", "big": figure(people), "rest": [use]}


def _sized(book: Book, label: str, size: Sequence[Fraction], rest: list[str]) -> Data:
    """A size with what else belongs to it: on a line, or under each other below the size in the other system."""
    w = book.w
    lines = [w.other.size(*size), *rest] if book.both else [", ".join(rest)]
    return {"label": label, "big": w.own.size(*size), "rest": lines}


def _where_both_stand(book: Book) -> str:
    if not book.both:
        return ""
    own, other = ("millimetres", "inches") if book.w.metric else ("inches", "millimetres")
    return f"{other.capitalize()} stand beside {own}: in lists, tables and sentences; drawings and cautions have {own}."


def carries(book: Book) -> str:
    """The rating in one line, or why there is none."""
    strong = book.plan.strength
    none = words.why_none(strong)
    return f"No load figure: {none}." if none else f"{words.held(strong)}: "


def first_cautions(book: Book) -> list[Finding]:
    """The few that matter to everyone: what the bed does not carry, then what can burn."""
    strong = [f for f in book.plan.findings_of_strength if f.severity == "caution"]
    rags = [f for f in book.plan.finishing.hazards if f.rule == "oily rags"]
    return [*strong[: SHOWN - len(rags)], *rags]
