"""Full-size paper templates for drilling, and story sticks in strips, as a PDF with bars on every page to prove its
scale."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib.drawing import templates as draw
from tutorial_lib.drawing.holes import holes_in_words
from tutorial_lib.drawing.sticks import CLEAR, Stick, sticks, strips
from tutorial_lib.measures import Writer, writer
from tutorial_lib.publishing.blocks import Block, Caution, Columns, Heading, Page, Picture, Text
from tutorial_lib.publishing.identity import size, version
from tutorial_lib.publishing.paging import gathered, height, packed
from tutorial_lib.publishing.typeset import Paper, source

if TYPE_CHECKING:
    from tutorial_lib.plan import Plan

NARROW = Fraction(13, 4)  # [in] two templates up to this wide fit side by side
TOP, TITLE = 84.0, 30.0  # [pt] for the first page's title and caution, for a title


def template_pages(plan: Plan) -> list[Page]:
    """All templates and story sticks as pages."""
    told = Caution(
        "Print at 100 %, not fitted to the page, and lay a ruler on the bars of every page, level and upright. "
        "If one is off, the template is off."
    )
    use = Text(
        "Lay the piece with the end that is named on your left, line up end and edge, tape the paper down and prick "
        "through each cross with an awl. Each figure is the bit."
    )
    first = [told, use, *gathered(_abreast(plan), TOP + height((use,)))]
    made = sticks(plan)
    return [Page("Drilling templates, full size", tuple(first)), *([_stick_pages(plan, made)] if made else [])]


def _abreast(plan: Plan) -> Iterator[tuple[Block, ...]]:
    """The templates, two side by side where both are narrow enough."""
    waiting: tuple[Block, ...] = ()
    for end in draw.ends(plan):
        made = _template(plan, end)
        if end.cut > NARROW:
            yield made
        elif waiting:
            yield (Columns((waiting, made)),)
            waiting = ()
        else:
            waiting = made
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


def _stick_pages(plan: Plan, made: Sequence[Stick]) -> Page:
    w = writer(plan.options.build.units)
    use = Text(
        "Cut the strips out and tape them on a straight stick: an end with 1.2 on it meets the other 1.2. Check the "
        "whole length with a tape, lay the stick to the end that is named, and carry the marks over. Crosses are holes."
        + (" Short ticks are the near edges of slats." if any(stick.with_slats for stick in made) else "")
        + (f" No mark is nearer than {w.length(CLEAR)} to a join." if all(stick.clear for stick in made) else "")
    )
    units = (unit for stick in made for unit in _stick(w, stick))
    blocks = packed(units, height((use,)) + TITLE)
    return Page("Story sticks, full size", (use, *blocks))


def _stick(w: Writer, stick: Stick) -> Iterator[tuple[Block, ...]]:
    """A stick's strips, the first below what it is for."""
    first, *others = (Picture(strip) for strip in strips(stick))
    head = Heading(f"Stick {stick.number}: {stick.name}, {w.length(stick.length)}")
    yield head, Text(f"For {stick.which}, from the {stick.datum}."), first
    yield from ((strip,) for strip in others)


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
