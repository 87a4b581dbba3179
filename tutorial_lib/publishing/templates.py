"""Full-size paper templates for drilling, and story sticks in strips, as a PDF with a bar on every page to prove its
scale."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib.drawing import templates as draw
from tutorial_lib.drawing.holes import holes_in_words
from tutorial_lib.measures import writer
from tutorial_lib.publishing.blocks import Block, Caution, Columns, Heading, Page, Picture, Text
from tutorial_lib.publishing.identity import size, version
from tutorial_lib.publishing.paging import height, packed
from tutorial_lib.publishing.typeset import Paper, source

if TYPE_CHECKING:
    from tutorial_lib.drilling.schedule import PieceHoles
    from tutorial_lib.plan import Plan

NARROW = Fraction(13, 4)  # [in] two templates up to this wide fit side by side
TOP, TITLE = 84.0, 30.0  # [pt] for the first page's title and caution, for a title


def template_pages(plan: Plan) -> list[Page]:
    """All templates and story sticks as pages."""
    told = Caution(
        "Print at 100 %, not fitted to the page, and lay a ruler on the bars of every page, level and upright. "
        "If one is off, the template is off."
    )
    bar = (Picture(draw.check_bar()),)
    use = Text(
        "Lay the piece with the end that is named on your left, line up end and edge, tape the paper down and prick "
        "through each cross with an awl. Each figure is the bit."
    )
    first = [told, use, *packed(_abreast(plan), TOP + height((use,)), bar)]
    sticks = [_stick_page(plan, group) for group in draw.sticks(plan)]
    return [Page("Drilling templates, full size", tuple(first)), *sticks]


def _abreast(plan: Plan) -> Iterator[tuple[Block, ...]]:
    """The templates, two side by side where both are narrow enough."""
    waiting: tuple[Block, ...] = ()
    for end in draw.ends(plan):
        made = _template(plan, end)
        if waiting and end.cut <= NARROW:
            yield (Columns((waiting, made)),)
            waiting = ()
            continue
        if waiting:
            yield waiting
        waiting = made if end.cut <= NARROW else ()
        if not waiting:
            yield made
    if waiting:
        yield waiting


def _template(plan: Plan, end: draw.End) -> tuple[Block, ...]:
    return (
        Heading(f"{end.group.name.capitalize()}, {end.face}, {end.name}"),
        Text(f"For {end.group.which}. {_holes(plan, end)}.{_other_end(end)}"),
        Picture(draw.template(plan.build, end)),
    )


def _holes(plan: Plan, end: draw.End) -> str:
    words = holes_in_words(plan.build, end.holes)
    return words[0].upper() + words[1:]


def _other_end(end: draw.End) -> str:
    others = draw.other_ends(end.group, end.face)
    if others:
        return f" For the {others[0]} turn the paper over."
    far = draw.end_of(end.group, end.face, far=True)
    if far is not None and not end.far and draw.alike(end, far):
        return " At the other end lay the paper face down, on the same edge."
    return ""


def _stick_page(plan: Plan, group: PieceHoles) -> Page:
    length = writer(plan.options.build.units).length(group.piece.length)
    slats = " Short ticks are the near edges of the slats." if group.part in draw.STICKS else ""
    words = Text(
        f"For {group.which}. Cut the strips out, tape them join to join on a straight stick, check the whole length, "
        f"{length}, with a tape, then carry the marks over from the {group.datum_end}. Crosses are holes.{slats}"
    )
    bar = (Picture(draw.check_bar()),)
    units: list[tuple[Block, ...]] = [(Picture(strip),) for strip in draw.strips(plan, group)]
    blocks = packed(units, height((words,)) + TITLE, bar)
    return Page(f"Story stick: {group.name}, {group.which}", (words, *blocks))


def templates_source(plan: Plan, paper: Paper = "letter") -> str:
    """The templates as typst source.

    Args:
        plan: the bed.
        paper: "letter" or "a4".
    """
    return source(
        template_pages(plan),
        title=f"{plan.options.build.title}: templates",
        version=f"{version(plan.options)}, full size",
        size=size(plan),
        paper=paper,
        bars=True,
    )
