"""Legs: their grid along each line, their footprint, and the pieces each one is made of."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import ceil
from typing import Literal

from tutorial_lib.design.heights import Stack
from tutorial_lib.design.model import LINE_LETTERS, SIDES, Box, Leg, Piece, Section, SupportLine
from tutorial_lib.design.options import LegOptions, Options
from tutorial_lib.design.posts import posts_of
from tutorial_lib.design.room import EDGE
from tutorial_lib.design.sizes import Sizes
from tutorial_lib.design.under_bed import moved_for_boxes
from tutorial_lib.errors import DesignError, Fault
from tutorial_lib.measures import Units, Writer, writer
from tutorial_lib.records import dataclass

Shape = Literal["box", "tube", "plate"]
Kind = Literal["post", "doubled", "corner L", "tube"]


@dataclass(frozen=True)
class Post:
    """What one leg looks like from above: its size along x and y [in]."""

    x: Fraction
    y: Fraction


def footprint(legs: LegOptions, kind: Kind, section: Section) -> Post:
    """Overall size of a leg along x and y [in]; doubled boards lie one behind the other across."""
    thick, wide = section.thickness, section.width
    match kind:
        case "doubled":
            return Post(wide, 2 * thick)
        case "corner L":
            return Post(wide, thick + wide)
        case "tube":
            return Post(legs.flange, legs.flange)
        case _:
            return Post(wide, thick)


def near_edges(count: int, start: Fraction, end: Fraction, size: Fraction, place: str, w: Writer) -> list[Fraction]:
    """x of each leg's edge nearest the head [in], evenly from the first to the last.

    Raises:
        DesignError: the legs don't fit between start and end.

    >>> from tutorial_lib.measures import writer
    >>> [str(x) for x in near_edges(3, Fraction(6), Fraction(76), Fraction(7, 2), "legs.per_side", writer("in"))]
    ['6', '157/4', '145/2']
    """
    room = end - start - size
    if room < 0 or (count > 1 and room / (count - 1) < size):
        between = max(end - start, Fraction(0))
        raise DesignError(
            Fault(
                place,
                f"{count} legs of {w.length(size)} don't fit in the {w.length(between)} between the "
                "set-backs; use fewer legs or a smaller set-back.",
            )
        )
    if count == 1:
        return [start + room / 2]
    return [start + room * i / (count - 1) for i in range(count)]


@dataclass(frozen=True, kw_only=True)
class Place:
    """Where one leg goes: its label, line, corner of its footprint and which way is inward."""

    label: str
    line: str
    kind: Kind
    x: Fraction  # near edge
    y0: Fraction  # lowest y of the footprint
    inward: int  # +1 when y grows away from the rail, -1 on the right side
    bottom: Fraction
    top: Fraction
    corner: bool
    toward_head: bool


def side_edges(options: Options, sizes: Sizes) -> list[Fraction]:
    """x of each side leg's edge nearest the head [in]; left open, the outer ones stand as far out as they can."""
    legs, thick = options.legs, sizes.rail.thickness
    if options.frame.posts:
        return _between_posts(options, sizes)
    outermost = options.support.kind == "runners" or options.leg_place == "under the rail"
    start = legs.setback if legs.setback is not None else Fraction(0) if outermost else thick
    wide = footprint(legs, legs.kind, sizes.leg).x
    w = writer(options.build.units)
    edges = near_edges(legs.per_side, start, sizes.outside[1] - start, wide, "legs.per_side", w)
    return moved_for_boxes(options, edges, wide)


def _between_posts(options: Options, sizes: Sizes) -> list[Fraction]:
    """Middle legs' centres evenly between the posts' centres; the outer two stand for the posts themselves [in]."""
    wide = footprint(options.legs, options.legs.kind, sizes.leg).x
    posts, count, length = posts_of(options, sizes), options.legs.per_side, sizes.outside[1]
    assert posts is not None
    middle = posts.size / 2 - posts.reveal
    steps = [middle - wide / 2 + (length - 2 * middle) * i / (count - 1) for i in range(count)]
    if count > 2 and steps[1] - steps[0] < posts.size + wide:
        raise DesignError(Fault("legs.per_side", f"= {count} leaves no room between posts and legs; use fewer."))
    return moved_for_boxes(options, steps, wide)


def side_places(options: Options, sizes: Sizes, level: Stack) -> list[Place]:
    """Where the legs of both sides go."""
    legs = options.legs
    post, inset = footprint(legs, legs.kind, sizes.leg), _inset(options, sizes)
    edges = side_edges(options, sizes)
    width, length = sizes.outside
    return [
        Place(
            label=f"{letter}{i + 1}",
            line=side,
            kind=legs.kind,
            x=x,
            y0=inset if side == "left" else width - inset - post.y,
            inward=1 if side == "left" else -1,
            bottom=level.leveller,
            top=level.leg_top,
            corner=i in (0, len(edges) - 1),
            toward_head=x + post.x / 2 <= length / 2,
        )
        for side, letter in zip(SIDES, "LR", strict=True)
        for i, x in enumerate(edges)
    ]


def _inset(options: Options, sizes: Sizes) -> Fraction:
    """From the side's outer face to the leg [in]."""
    legs = options.legs
    if options.leg_place == "under the rail":
        return Fraction(0)
    if options.support.kind == "cleats":
        return sizes.rail.thickness
    if legs.side_setback is not None:
        return legs.side_setback
    return max(sizes.support.width - footprint(legs, legs.kind, sizes.leg).y, Fraction(0))


def line_places(
    options: Options, sizes: Sizes, level: Stack, number: int, line: SupportLine, top: Fraction
) -> list[Place]:
    """Where the legs of the centre line with this number go (0 for the first), their tops at ``top`` [in]."""
    count, kind = options.centre.legs, options.line_leg_kind
    if not count:
        return []
    if top <= level.leveller:
        raise DesignError(
            Fault(
                "centre",
                f"the underside of {line.name} is {writer(options.build.units).length(max(top, Fraction(0)))} "
                "above the floor: no room for its legs. Raise the bed.",
            )
        )
    post, start = footprint(options.legs, kind, sizes.line_leg), _line_start(options, sizes, line)
    length, w = sizes.outside[1], writer(options.build.units)
    return [
        Place(
            label=f"{LINE_LETTERS[number]}{i + 1}",
            line=line.name,
            kind=kind,
            x=x,
            y0=line.y - post.y / 2,
            inward=1,
            bottom=level.leveller,
            top=top,
            corner=False,
            toward_head=x + post.x / 2 <= length / 2,
        )
        for i, x in enumerate(near_edges(count, start, length - start, post.x, "centre.legs", w))
    ]


def _line_start(options: Options, sizes: Sizes, line: SupportLine) -> Fraction:
    """x of a centre line's first leg [in]: stated, or as the side legs', clear of what holds the line's end."""
    if options.centre.setback is not None:
        return options.centre.setback
    rail, clear = sizes.rail.thickness, Fraction(0)
    if line.ends == "runner":  # room for the driver of the screws up into the end rail
        clear = rail + options.driver.radius
    elif line.ends == "block":
        thick = sizes.support.thickness  # of the block; the screws up into the line stand at most EDGE off its far face
        clear = ceil((rail + max(thick, thick - EDGE + options.driver.radius)) / sizes.grid) * sizes.grid
    return max(options.legs.setback or Fraction(0), line.x[0], clear)


def make_leg(options: Options, section: Section, place: Place, part: str) -> tuple[Leg, list[Piece]]:
    """The leg and its pieces; a tube has its flange on top."""
    post = footprint(options.legs, place.kind, section)
    boxes = _boxes(options, section, place, post)
    pieces = [
        Piece(label=f"leg {place.label}{name}", part=part if kind != "plate" else "flange", box=box, axis=2, shape=kind)
        for name, box, kind in boxes
    ]
    leg = Leg(
        label=place.label,
        line=place.line,
        x=place.x + post.x / 2,
        y=place.y0 + post.y / 2,
        near_edge=place.x,
        size=(post.x, post.y),
        pieces=tuple(piece.label for piece in pieces),
        corner=place.corner,
    )
    return leg, pieces


def _boxes(options: Options, section: Section, place: Place, post: Post) -> list[tuple[str, Box, Shape]]:
    def box(x0: Fraction, x1: Fraction, y0: Fraction, y1: Fraction, top: Fraction = place.top) -> Box:
        """y counted from the rail's side inward."""
        low, high = (y0, y1) if place.inward > 0 else (post.y - y1, post.y - y0)
        return Box((place.x + x0, place.y0 + low, place.bottom), (place.x + x1, place.y0 + high, top))

    zero, thick, wide = Fraction(0), section.thickness, section.width
    match place.kind:
        case "doubled":
            return [
                (" ply a", box(zero, wide, zero, thick), "box"),
                (" ply b", box(zero, wide, thick, 2 * thick), "box"),
            ]
        case "corner L":
            x0 = zero if place.toward_head else wide - thick
            return [
                (" ply a", box(zero, wide, zero, thick), "box"),
                (" ply b", box(x0, x0 + thick, thick, thick + wide), "box"),
            ]
        case "tube":
            plate, half = options.legs.flange_thickness, (post.x - options.legs.tube_diameter) / 2
            tube = box(half, post.x - half, half, post.y - half, place.top - plate)
            flange = Box((place.x, place.y0, place.top - plate), (place.x + post.x, place.y0 + post.y, place.top))
            return [("", tube, "tube"), (" flange", flange, "plate")]
        case _:
            return [("", box(zero, wide, zero, thick), "box")]


def with_legs(line: SupportLine, legs: list[Leg]) -> SupportLine:
    """The line with the labels of its legs, from the head."""
    mine = sorted((leg for leg in legs if leg.line == line.name), key=lambda leg: leg.x)
    return replace(line, legs=tuple(leg.label for leg in mine))


def as_cut(low: Fraction, high: Fraction, within: tuple[Fraction, Fraction], units: Units) -> tuple[Fraction, Fraction]:
    """A stretch between legs, no longer than its mark on a tape: cut a mark too long it would keep a leg off its place.

    Args:
        low: where it may begin [in].
        high: where it may end.
        within: the ends of the whole row; an end that meets one of these meets no leg and stays.
        units: the build's.
    """
    spare = (high - low) % writer(units).grid
    meets = (low > within[0], high < within[1])
    each = spare / sum(meets) if any(meets) else spare * 0
    return low + each * meets[0], high - each * meets[1]
