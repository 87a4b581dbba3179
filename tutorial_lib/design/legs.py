"""Legs: their grid along each line, their footprint, and the pieces each one is made of."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from tutorial_lib.design.model import Box, Leg, Piece, Section
from tutorial_lib.design.options import Options
from tutorial_lib.errors import DesignError, Fault
from tutorial_lib.measures import write_length

Shape = Literal["box", "tube", "plate"]


@dataclass(frozen=True)
class Post:
    """What one leg looks like from above: its size along x and y [in]."""

    x: Fraction
    y: Fraction


def footprint(options: Options, section: Section) -> Post:
    """Overall size of a leg along x and y [in]; doubled boards lie one behind the other across."""
    thick, wide = section.thickness, section.width
    match options.legs.kind:
        case "doubled":
            return Post(wide, 2 * thick)
        case "corner L":
            return Post(wide, thick + wide)
        case "tube":
            return Post(options.legs.flange, options.legs.flange)
        case _:
            return Post(wide, thick)


def near_edges(count: int, start: Fraction, end: Fraction, size: Fraction, place: str) -> list[Fraction]:
    """x of each leg's edge nearest the head [in], evenly from the first to the last.

    Raises:
        DesignError: the legs don't fit between start and end.
    """
    room = end - start - size
    if room < 0 or (count > 1 and room / (count - 1) < size):
        between = max(end - start, Fraction(0))
        raise DesignError(
            Fault(
                place,
                f"{count} legs of {write_length(size)} don't fit in the {write_length(between)} between the "
                "set-backs; use fewer legs or a smaller set-back.",
            )
        )
    if count == 1:
        return [start + room / 2]
    return [start + room * i / (count - 1) for i in range(count)]


@dataclass(frozen=True)
class Place:
    """Where one leg goes: its label, line, corner of its footprint and which way is inward."""

    label: str
    line: str
    x: Fraction  # near edge
    y0: Fraction  # lowest y of the footprint
    inward: int  # +1 when y grows away from the rail, -1 on the right side
    bottom: Fraction
    top: Fraction
    corner: bool
    toward_head: bool


def make_leg(options: Options, section: Section, place: Place, part: str) -> tuple[Leg, list[Piece]]:
    """The leg and its pieces; a tube has its flange on top."""
    post = footprint(options, section)
    boxes = _boxes(options, section, place, post)
    pieces = [
        Piece(f"leg {place.label}{name}", part if kind != "plate" else "flange", box, 2, kind)
        for name, box, kind in boxes
    ]
    leg = Leg(
        place.label,
        place.line,
        place.x + post.x / 2,
        place.y0 + post.y / 2,
        place.x,
        (post.x, post.y),
        tuple(piece.label for piece in pieces),
        place.corner,
    )
    return leg, pieces


def _boxes(options: Options, section: Section, place: Place, post: Post) -> list[tuple[str, Box, Shape]]:
    def box(x0: Fraction, x1: Fraction, y0: Fraction, y1: Fraction, top: Fraction = place.top) -> Box:
        """y counted from the rail's side inward."""
        low, high = (y0, y1) if place.inward > 0 else (post.y - y1, post.y - y0)
        return Box((place.x + x0, place.y0 + low, place.bottom), (place.x + x1, place.y0 + high, top))

    zero, thick, wide = Fraction(0), section.thickness, section.width
    match options.legs.kind:
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
