"""The slatted platform bed: options to parts and pieces placed in space."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from tutorial_lib.design import joints as join
from tutorial_lib.design.heights import Stack, stack
from tutorial_lib.design.legs import Place, footprint, make_leg, near_edges
from tutorial_lib.design.model import Box, Build, Heights, Leg, Piece, Section, SlatRow, SupportLine
from tutorial_lib.design.options import Options
from tutorial_lib.design.parts import NAMES, group, refuse_overlaps
from tutorial_lib.design.rules import judge
from tutorial_lib.design.sizes import Sizes, resolve
from tutorial_lib.design.slats import slat_row
from tutorial_lib.errors import DesignError, Fault
from tutorial_lib.measures import write_length

SIDES = ("left", "right")


def design(options: Options) -> Build:
    """The whole bed from its options.

    Raises:
        InputError: a section, mattress or wood that no table knows.
        DesignError: what can't exist: overlapping pieces, a negative size, no slats, no legs.
    """
    frame = _Frame(options, resolve(options))
    frame.rails()
    frame.side_supports()
    frame.centre_lines()
    frame.side_legs()
    frame.centre_legs()
    frame.slats()
    refuse_overlaps(frame.pieces)
    return judge(frame.build())


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
        sizes, options = self.sizes, self.options
        self.t = sizes.rail.thickness
        self.width, self.length = sizes.outside
        self.runners = options.support.kind == "runners"
        self.level: Stack = stack(options, sizes.rail, sizes.support, sizes.slat)

    def put(
        self,
        label: str,
        part: str,
        section: Section,
        lo: tuple[Fraction, ...],
        hi: tuple[Fraction, ...],
        axis: Literal[0, 1, 2],
    ) -> Piece:
        """One piece between two corners."""
        if any(a >= b for a, b in zip(lo, hi, strict=True)):
            raise DesignError(
                Fault(NAMES[part], f"{label} would have no size left; check its play, set-back and lumber.")
            )
        piece = Piece(label, part, Box((lo[0], lo[1], lo[2]), (hi[0], hi[1], hi[2])), axis)
        self.pieces.append(piece)
        self.sections[part] = section
        return piece

    def rails(self) -> None:
        """Two side rails and two end rails, by the corner that was chosen."""
        t, low, top = self.t, self.level.rail_bottom, self.level.rail_top
        past = self.options.frame.corners == "side rails run past"
        x = (Fraction(0), self.length) if past else (t, self.length - t)
        y = (t, self.width - t) if past else (Fraction(0), self.width)
        for side, y0 in zip(SIDES, (Fraction(0), self.width - t), strict=True):
            self.put(f"side rail {side}", "side_rail", self.sizes.rail, (x[0], y0, low), (x[1], y0 + t, top), 0)
        for end, x0 in zip(("head", "foot"), (Fraction(0), self.length - t), strict=True):
            self.put(f"end rail {end}", "end_rail", self.sizes.rail, (x0, y[0], low), (x0 + t, y[1], top), 1)

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
            f"runner {side}",
            "runner",
            self.sizes.support,
            (Fraction(0), y0, self.level.support_bottom),
            (self.length, y1, self.level.slat_bottom),
            0,
        )
        self._side_line(side, "runner", self._across(side, self.t, wide), (piece.label,), (Fraction(0), self.length))

    def _cleats(self, side: str) -> None:
        thick, play = self.sizes.support.thickness, self.options.support.end_play
        y0, y1 = self._across(side, self.t, self.t + thick)
        start, end = self.t + play, self.length - self.t - play
        labels = []
        for i, (x0, x1) in enumerate(self._between_legs(start, end)):
            name = f"cleat {side}" if self.options.legs.place == "under" else f"cleat {side} {i + 1}"
            labels.append(
                self.put(
                    name,
                    "cleat",
                    self.sizes.support,
                    (x0, y0, self.level.support_bottom),
                    (x1, y1, self.level.slat_bottom),
                    0,
                ).label
            )
        self._side_line(side, "cleat", (y0, y1), tuple(labels), (start, end))

    def _between_legs(self, start: Fraction, end: Fraction) -> list[tuple[Fraction, Fraction]]:
        """Cleat stretches; legs inside the corner stand between them."""
        if self.options.legs.place == "under":
            return [(start, end)]
        wide = footprint(self.options, self.sizes.leg).x
        stretches, at = [], start
        for x in self._side_leg_edges():
            stretches.append((at, min(x, end)))
            at = max(x + wide, start)
        return [(a, b) for a, b in [*stretches, (at, end)] if b - a > 0]

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
            SupportLine(side, kind, sum(bearing, Fraction(0)) / 2, seat, x, (f"side rail {side}", *labels), (), "rail")
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
                f"line {k}",
                kind,
                y,
                (y - wide / 2, y + wide / 2),
                (start, self.length - start),
                (piece.label,),
                (),
                ends,
            )
        )
        if ends == "block":
            self._blocks(k, piece)

    def _blocks(self, k: int, beam: Piece) -> None:
        """A block under each beam end, screwed to the end rail."""
        section, y, top = self.sizes.support, beam.box.centre[1], beam.box.lo[2]
        half = Fraction(7, 4)  # [in] blocks are 3 1/2 in long, our choice
        for end, x0 in zip(("head", "foot"), (self.t, self.length - self.t - section.thickness), strict=True):
            self.put(
                f"beam block {k} {end}",
                "beam_block",
                section,
                (x0, y - half, top - section.width),
                (x0 + section.thickness, y + half, top),
                1,
            )

    def _side_leg_edges(self) -> list[Fraction]:
        legs = self.options.legs
        # beside the rails a leg can't stand in the end rail; under a runner it can go to the very end
        start = legs.setback if self.runners else max(legs.setback, self.t)
        wide = footprint(self.options, self.sizes.leg).x
        return near_edges(legs.per_side, start, self.length - start, wide, "legs.per_side")

    def side_legs(self) -> None:
        """The legs of both sides."""
        legs, post = self.options.legs, footprint(self.options, self.sizes.leg)
        edges = self._side_leg_edges()
        inset = self.t
        if self.runners:
            inset = (
                legs.side_setback
                if legs.side_setback is not None
                else max(self.sizes.support.width - post.y, Fraction(0))
            )
        for side, letter in zip(SIDES, "LR", strict=True):
            y0, _ = self._across(side, inset, inset + post.y)
            for i, x in enumerate(edges):
                corner = i in (0, len(edges) - 1)
                place = Place(
                    f"{letter}{i + 1}",
                    side,
                    x,
                    y0,
                    1 if side == "left" else -1,
                    self.level.leveller,
                    self.level.leg_top,
                    corner,
                    x + post.x / 2 <= self.length / 2,
                )
                self._leg(place, "corner_leg" if corner else "mid_leg")

    def centre_legs(self) -> None:
        """The legs of each centre line, up to its underside."""
        centre, post = self.options.centre, footprint(self.options, self.sizes.leg)
        for k, line in enumerate([line for line in self.lines if line.name.startswith("line")]):
            setback = self.options.legs.setback if centre.setback is None else centre.setback
            start = max(setback, line.x[0])
            top = self._piece(line.members[0]).box.lo[2]
            if centre.legs and top <= self.level.leveller:
                raise DesignError(
                    Fault(
                        "centre",
                        f"the underside of {line.name} is {write_length(max(top, Fraction(0)))} "
                        "above the floor: no room for its legs. Raise the bed.",
                    )
                )
            for i, x in enumerate(
                near_edges(centre.legs, start, self.length - start, post.x, "centre.legs") if centre.legs else []
            ):
                place = Place(
                    f"{'ABC'[k]}{i + 1}",
                    line.name,
                    x,
                    line.y - post.y / 2,
                    1,
                    self.level.leveller,
                    top,
                    False,
                    x + post.x / 2 <= self.length / 2,
                )
                self._leg(place, "centre_leg")

    def _leg(self, place: Place, part: str) -> None:
        if place.label in self.options.legs.omit:
            return
        leg, pieces = make_leg(self.options, self.sizes.leg, place, part)
        self.legs.append(leg)
        self.pieces += pieces
        for piece in pieces:
            self.sections[piece.part] = self.sizes.flange if piece.shape == "plate" else self.sizes.leg

    def _piece(self, label: str) -> Piece:
        return next(piece for piece in self.pieces if piece.label == label)

    def slats(self) -> None:
        """The row of slats across the seats."""
        slat, play = self.sizes.slat, self.options.slats.play
        self.row = slat_row(self.options, self.sizes.opening[1], slat.width, self.t)
        y0, y1 = self.t + play, self.width - self.t - play
        for i, mark in enumerate(self.row.marks):
            x = self.t + mark
            self.put(
                f"slat {i + 1}",
                "slat",
                slat,
                (x, y0, self.level.slat_bottom),
                (x + slat.width, y1, self.level.slat_top),
                1,
            )

    def build(self) -> Build:
        """Everything placed, as one frozen Build."""
        assert self.row is not None
        if not self.legs:
            raise DesignError(Fault("legs", "no legs are left; keep at least some in legs.omit."))
        self._name_legs_alike()
        lines = tuple(_with_legs(line, self.legs) for line in self.lines)
        parts = group(self.pieces, self.sections, self.options.build.units)
        return Build(
            self.options,
            self.sizes.mattress,
            self.sizes.opening,
            self.sizes.outside,
            parts,
            join.joints(self.options, self.pieces, lines, self.legs),
            lines,
            tuple(self.legs),
            self.row,
            self._heights(),
            self.sizes.grid,
            self.sizes.notes,
        )

    def _name_legs_alike(self) -> None:
        """All legs are one part when they are cut alike."""
        keys = ("corner_leg", "mid_leg", "centre_leg")
        wood = [piece for piece in self.pieces if piece.part in keys]
        if len({piece.length for piece in wood}) == 1:
            self.pieces = [Piece(p.label, "leg", p.box, p.axis, p.shape) if p.part in keys else p for p in self.pieces]
            self.sections["leg"] = self.sizes.leg

    def _heights(self) -> Heights:
        level, thick = self.level, self.options.mattress.thickness
        sides = level.support_bottom if self.runners else min(level.rail_bottom, level.support_bottom)
        lowest = [
            piece.box.lo[2] for piece in self.pieces if piece.part in ("centre_beam", "centre_runner", "beam_block")
        ]
        return Heights(
            level.rail_top,
            level.rail_bottom,
            level.slat_top,
            level.slat_bottom,
            level.leg,
            sides,
            min([sides, *lowest]),
            level.recess,
            None if thick is None else level.slat_top + thick,
            level.leveller,
        )


def _with_legs(line: SupportLine, legs: list[Leg]) -> SupportLine:
    mine = sorted((leg for leg in legs if leg.line == line.name), key=lambda leg: leg.x)
    return SupportLine(
        line.name, line.kind, line.y, line.seat, line.x, line.members, tuple(leg.label for leg in mine), line.ends
    )


__all__ = ["design"]
