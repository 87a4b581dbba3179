"""The slatted platform bed: options to parts and pieces placed in space."""

from __future__ import annotations

from dataclasses import field, replace
from fractions import Fraction
from typing import Literal

from tutorial_lib.design import bolted_headboard, headboard
from tutorial_lib.design import joints as join
from tutorial_lib.design.glue_blocks import with_glue_block
from tutorial_lib.design.heights import Stack, stack
from tutorial_lib.design.legs import Place, as_cut, footprint, line_places, make_leg, side_places, with_legs
from tutorial_lib.design.misfits import sizes_of
from tutorial_lib.design.model import SIDES, Box, Build, Heights, Leg, Piece, Section, SlatRow, SupportLine
from tutorial_lib.design.options import Options
from tutorial_lib.design.parts import NAMES, group, names_of, refuse_overlaps
from tutorial_lib.design.plinth import plinth_boards
from tutorial_lib.design.posts import posts_of
from tutorial_lib.design.rules import judge
from tutorial_lib.design.sizes import Sizes
from tutorial_lib.design.slats import slat_row
from tutorial_lib.errors import DesignError, Fault
from tutorial_lib.measures import writer
from tutorial_lib.records import dataclass


def design(options: Options) -> Build:
    """The whole bed from its options.

    Raises:
        InputError: a section, mattress or wood that no table knows.
        DesignError: what can't exist: overlapping pieces, a negative size, no slats, no legs.
    """
    frame = _Frame(options, sizes_of(options))
    frame.rails()
    frame.side_supports()
    frame.centre_lines()
    frame.corner_posts()
    frame.side_legs()
    frame.centre_legs()
    frame.plinth()
    frame.slats()
    frame.take(*bolted_headboard.place(options, frame.sizes, frame.level))
    refuse_overlaps(frame.pieces)
    return judge(frame.build())


SHORTEST_CLEAT = Fraction(2)  # [in] shorter stretches beside legs inside the corner are left out (our choice)
HALF_BLOCK = Fraction(7, 4)  # [in] blocks under a line's ends are 3 1/2 in long, our choice


@dataclass
class _Frame:
    """Places pieces one group after another; thrown away when the Build is made."""

    options: Options
    sizes: Sizes
    pieces: list[Piece] = field(default_factory=list)
    lines: list[SupportLine] = field(default_factory=list)
    legs: list[Leg] = field(default_factory=list)
    sections: dict[str, Section] = field(default_factory=dict)
    row: SlatRow | None = None

    def __post_init__(self) -> None:
        sizes, options, self.t = self.sizes, self.options, self.sizes.rail.thickness
        self.width, self.length = sizes.outside
        self.runners = options.support.kind == "runners"
        self.level: Stack = stack(options, sizes.rail, sizes.support, sizes.slat, sizes.centre)
        self.posts = posts_of(options, sizes)

    def put(
        self,
        label: str,
        part: str,
        section: Section,
        lo: tuple[Fraction, ...],
        hi: tuple[Fraction, ...],
        axis: Literal[0, 1, 2],
        said: str = "",
    ) -> Piece:
        """One piece between two corners."""
        if any(a >= b for a, b in zip(lo, hi, strict=True)):
            raise DesignError(
                Fault(NAMES[part], f"{label} would have no size left; check its play, set-back and lumber.")
            )
        box = Box((lo[0], lo[1], lo[2]), (hi[0], hi[1], hi[2]))
        piece = Piece(label=label, part=part, box=box, axis=axis, said=said)
        self.pieces.append(piece)
        self.sections[part] = section
        return piece

    def rails(self) -> None:
        """Two side rails and two end rails, by the corner that was chosen."""
        t, low, top = self.t, self.level.rail_bottom, self.level.rail_top
        past = self.options.frame.corners == "side rails run past"
        off = self.posts.start if self.posts else t  # where a rail that doesn't run past begins
        x = (Fraction(0), self.length) if past else (off, self.length - off)
        y = (off, self.width - off) if past or self.posts else (Fraction(0), self.width)
        for side, y0 in zip(SIDES, (Fraction(0), self.width - t), strict=True):
            self.put(
                f"side rail {side}",
                "side_rail",
                self.sizes.rail,
                (x[0], y0, low),
                (x[1], y0 + t, top),
                0,
                f"{side} side rail",
            )
        for end, x0 in zip(("head", "foot"), (Fraction(0), self.length - t), strict=True):
            self.put(
                f"end rail {end}",
                "end_rail",
                self.sizes.rail,
                (x0, y[0], low),
                (x0 + t, y[1], top),
                1,
                f"{end} end rail",
            )

    def side_supports(self) -> None:
        """A cleat inside each side rail, or a flat runner under it."""
        for side in SIDES:
            if self.runners:
                self._runner(side)
            else:
                self._cleats(side)

    def _across(self, side: str, start: Fraction, end: Fraction) -> tuple[Fraction, Fraction]:
        """y from, to, counted from the side's outer face."""
        return (start, end) if side == "left" else (self.width - end, self.width - start)

    def _runner(self, side: str) -> None:
        wide = self.sizes.support.width
        y0, y1 = self._across(side, Fraction(0), wide)
        piece = self.put(
            f"runner {side}", "runner", self.sizes.support, (Fraction(0), y0, self.level.support_bottom),
            (self.length, y1, self.level.slat_bottom), 0, f"{side} runner",
        )  # fmt: skip
        self._side_line(side, "runner", self._across(side, self.t, wide), (piece.label,), (Fraction(0), self.length))

    def _cleats(self, side: str) -> None:
        thick, play = self.sizes.support.thickness, self.options.support.end_play
        y0, y1 = self._across(side, self.t, self.t + thick)
        start = max(self.t + play, self._past_corner())
        end = self.length - start
        labels = []
        for i, (x0, x1) in enumerate(self._between_legs(side, start, end)):
            several = self.options.leg_place == "inside"
            name = f"cleat {side} {i + 1}" if several else f"cleat {side}"
            labels.append(
                self.put(
                    name,
                    "cleat",
                    self.sizes.support,
                    (x0, y0, self.level.support_bottom),
                    (x1, y1, self.level.slat_bottom),
                    0,
                    f"{side} cleat, stretch {i + 1}" if several else f"{side} cleat",
                ).label
            )
        carried = (Fraction(0), self.length) if self.options.leg_place == "under the rail" else (start, end)
        self._side_line(side, "cleat", (y0, y1), tuple(labels), carried)

    def _past_corner(self) -> Fraction:
        """From the rails' outer faces past the posts and the blocks beside them."""
        if self.posts is None:
            return Fraction(0)
        return self.posts.start + (self.sizes.block.width if self.posts.blocked else 0)

    def _between_legs(self, side: str, start: Fraction, end: Fraction) -> list[tuple[Fraction, Fraction]]:
        """Cleat stretches; legs inside the corner stand between them."""
        if self.options.leg_place != "inside":
            return [(start, end)]
        wide = footprint(self.options.legs, self.options.legs.kind, self.sizes.leg).x
        stretches, at = [], start
        for place in side_places(self.options, self.sizes, self.level):
            if place.line == side and place.label not in self.options.legs.omit and not self._is_post(place):
                stretches.append((at, min(place.x, end)))
                at = max(place.x + wide, start)
        least = min(SHORTEST_CLEAT, self.sizes.slat.width)  # a wider slat reaches a leg's top beside the stretch
        units = self.options.build.units
        return [as_cut(a, b, (start, end), units) for a, b in [*stretches, (at, end)] if b - a >= least]

    def _side_line(
        self,
        side: str,
        kind: Literal["cleat", "runner"],
        seat: tuple[Fraction, Fraction],
        labels: tuple[str, ...],
        x: tuple[Fraction, Fraction],
    ) -> None:
        bearing = self._across(
            side, self.t + self.options.slats.play, seat[1] if side == "left" else self.width - seat[0]
        )
        self.lines.append(
            SupportLine(
                name=side,
                kind=kind,
                y=sum(bearing, Fraction(0)) / 2,
                seat=seat,
                x=x,
                members=(f"side rail {side}", *labels),
                legs=(),
                ends="rail",
            )
        )

    def centre_lines(self) -> None:
        """Lines at equal spans between the side bearings, on the grid, tops level with the seat."""
        centre, count = self.options.centre, self.options.centre.lines
        left, right = self.lines[0].y, self.lines[1].y
        for k in range(1, count + 1):
            y = self.sizes.on_grid(left + (right - left) * k / (count + 1))
            self._centre_line(k, y, centre.kind)
        self.lines.sort(key=lambda line: line.y)

    def _centre_line(self, k: int, y: Fraction, kind: Literal["beam", "flat"]) -> None:
        section, play = self.sizes.centre, self.options.centre.play
        wide, deep = (section.thickness, section.width) if kind == "beam" else (section.width, section.thickness)
        start = Fraction(0) if self.runners else self.t + play
        part = "centre_beam" if kind == "beam" else "centre_runner"
        piece = self.put(
            f"{NAMES[part]} {k}",
            part,
            section,
            (start, y - wide / 2, self.level.slat_bottom - deep),
            (self.length - start, y + wide / 2, self.level.slat_bottom),
            0,
        )
        ends: Literal["runner", "leg", "hanger", "block"] = "runner" if self.runners else self.options.centre.ends
        self.lines.append(
            SupportLine(
                name=f"line {k}",
                kind=kind,
                y=y,
                seat=(y - wide / 2, y + wide / 2),
                x=(start, self.length - start),
                members=(piece.label,),
                legs=(),
                ends=ends,
            )
        )
        if ends == "block":
            self._blocks(k, piece)

    def _blocks(self, k: int, beam: Piece) -> None:
        """A block under each end of a line, screwed to the end rail."""
        section, y, top = self.sizes.support, beam.box.centre[1], beam.box.lo[2]
        short = self.level.rail_bottom - (top - section.width)
        if short > 0:
            units = self.options.build.units
            raise DesignError(
                Fault(
                    "centre.ends",
                    f'= "block" has no wood to be screwed to: under a line {writer(units).length(beam.box.size[2])} '
                    f"deep the blocks would hang {writer(units).length(short)} below the end rails; use legs, hangers, "
                    "a flat or shallower line, or deeper rails.",
                )
            )
        for end, x0 in zip(("head", "foot"), (self.t, self.length - self.t - section.thickness), strict=True):
            self.put(
                f"beam block {k} {end}",
                "beam_block",
                section,
                (x0, y - HALF_BLOCK, top - section.width),
                (x0 + section.thickness, y + HALF_BLOCK, top),
                1,
                f"{end} beam block {k}",
            )

    def corner_posts(self) -> None:
        """Posts in the corners, and the blocks that hold the rails to them."""
        if self.posts is None:
            return
        legs, pieces, sections = headboard.corners(self.posts, self.options, self.sizes, self.level)
        self.legs += legs
        self.take(pieces, sections)

    def _is_post(self, place: Place) -> bool:
        """True for a corner leg's place that a post takes."""
        return self.posts is not None and place.corner

    def side_legs(self) -> None:
        """The legs of both sides, but for those that are posts."""
        for place in side_places(self.options, self.sizes, self.level):
            if not self._is_post(place):
                self._leg(place, "corner_leg" if place.corner else "mid_leg")

    def centre_legs(self) -> None:
        """The legs of each centre line, up to its underside."""
        for number, line in enumerate(line for line in self.lines if line.central):
            top = self._piece(line.members[0]).box.lo[2]
            for place in line_places(self.options, self.sizes, self.level, number, line, top):
                self._leg(place, "centre_leg")

    def plinth(self) -> None:
        """Boards round set-back legs."""
        for board in plinth_boards(self.options, self.sizes, self.level, self.legs):
            self.put(board.label, board.part, board.section, board.lo, board.hi, board.axis, board.said)

    def _leg(self, place: Place, part: str) -> None:
        if place.label in self.options.legs.omit:
            return
        section = self.sizes.line_leg if part == "centre_leg" else self.sizes.leg
        leg, pieces = make_leg(self.options, section, place, part)
        leg, pieces = with_glue_block(self.options, self.sizes.glue_block, leg, pieces)
        self.legs.append(leg)
        self.pieces += pieces
        for piece in pieces:
            own = {"flange": self.sizes.flange, "glue_block": self.sizes.glue_block}
            self.sections[piece.part] = own.get(piece.part, section)

    def _piece(self, label: str) -> Piece:
        return next(piece for piece in self.pieces if piece.label == label)

    def take(self, pieces: list[Piece], sections: dict[str, Section]) -> None:
        """Pieces that were placed elsewhere, with their sections."""
        self.pieces += pieces
        self.sections |= sections

    def slats(self) -> None:
        """The row of slats across the seats."""
        slat, play = self.sizes.slat, self.options.slats.play
        inside = self.posts.inside if self.posts else Fraction(0)
        clear = inside if inside > play else Fraction(0)
        self.row = slat_row(self.options, self.sizes.opening[1], slat.width, self.t, clear)
        y0, y1 = self.t + play, self.width - self.t - play
        low, high = self.level.slat_bottom, self.level.slat_top
        for i, mark in enumerate(self.row.marks):
            x = self.t + mark
            for label, said, a, b in self._across_the_bed(f"slat {i + 1}", y0, y1):
                self.put(label, "slat", slat, (x, a, low), (x + slat.width, b, high), 1, said)

    def _across_the_bed(self, label: str, start: Fraction, end: Fraction) -> list[tuple[str, str, Fraction, Fraction]]:
        """A slat whole, or in two halves of one length that meet over the middle line, their play between them."""
        if not self.options.slats.halves:
            return [(label, "", start, end)]
        middle = next(line.y for line in self.lines if line.central)
        long = min(middle - start, end - middle) - self.options.slats.play / 2
        return [
            (f"{label} left", f"left half of {label}", start, start + long),
            (f"{label} right", f"right half of {label}", end - long, end),
        ]

    def build(self) -> Build:
        """Everything placed, as one frozen Build."""
        assert self.row is not None
        if not self.legs:
            raise DesignError(Fault("legs", "no legs are left; keep at least some in legs.omit."))
        self._name_legs_alike()
        lines = tuple(with_legs(line, self.legs) for line in self.lines)
        parts = group(self.pieces, self.sections, self.options.build.units, names_of(self.options))
        return Build(
            options=self.options,
            mattress=self.sizes.mattress,
            opening=self.sizes.opening,
            outside=self.sizes.outside,
            parts=parts,
            joints=join.joints(self.options, self.pieces, lines, self.legs),
            lines=lines,
            legs=tuple(self.legs),
            slats=self.row,
            heights=self._heights(),
            grid=self.sizes.grid,
            findings=self.sizes.notes,
        )

    def _name_legs_alike(self) -> None:
        """All legs are one part when they are cut alike."""
        keys = ("corner_leg", "mid_leg", "centre_leg")
        wood = [piece for piece in self.pieces if piece.part in keys]
        if len({(piece.length, self.sections[piece.part], piece.shape) for piece in wood}) == 1:
            self.pieces = [replace(p, part="leg") if p.part in keys else p for p in self.pieces]
            self.sections["leg"] = self.sizes.leg

    def _heights(self) -> Heights:
        level, thick = self.level, self.options.mattress.thickness
        sides = level.support_bottom if self.runners else min(level.rail_bottom, level.support_bottom)
        lowest = [
            piece.box.lo[2] for piece in self.pieces if piece.part in ("centre_beam", "centre_runner", "beam_block")
        ]
        return Heights(
            rail_top=level.rail_top,
            rail_bottom=level.rail_bottom,
            slat_top=level.slat_top,
            slat_bottom=level.slat_bottom,
            leg=level.leg,
            underside=sides,
            storage=min([sides, *lowest]),
            recess=level.recess,
            sleeping=None if thick is None else level.slat_top + (self.options.mattress.box_spring or 0) + thick,
            leveller=level.leveller,
        )


__all__ = ["design"]
