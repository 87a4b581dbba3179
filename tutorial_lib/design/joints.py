"""Where pieces meet and how they are held, found from the placed pieces."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Literal

from tutorial_lib.design.model import Axis, Box, Joint, JointKind, Leg, Piece, SupportLine
from tutorial_lib.design.options import Options

Sign = Literal[1, -1]


def joints(options: Options, pieces: list[Piece], lines: tuple[SupportLine, ...], legs: list[Leg]) -> tuple[Joint, ...]:
    """All joints of the bed in the order of the job."""
    finder = _Finder(options, pieces, lines, legs)
    return tuple(
        joint
        for found in (finder.corners(), finder.supports(), finder.line_ends(), finder.legs_(), finder.slats())
        for joint in found
    )


class _Finder:
    def __init__(self, options: Options, pieces: list[Piece], lines: tuple[SupportLine, ...], legs: list[Leg]) -> None:
        self.options, self.lines, self.legs = options, lines, legs
        self.pieces = {piece.label: piece for piece in pieces}
        self.runners = options.support.kind == "runners"

    def _of(self, *parts: str) -> list[Piece]:
        return [piece for piece in self.pieces.values() if piece.part in parts]

    def _joint(self, kind: JointKind, near: Piece, far: Piece, axis: Axis, sign: Sign, **more: Any) -> Iterator[Joint]:
        """The joint if the two touch in a face across the axis."""
        contact = near.box.contact(far.box)
        if contact is not None and contact.size[axis] == 0:
            yield Joint(
                kind,
                near.label,
                far.label,
                axis,
                sign,
                contact,
                end_grain=far.axis == axis and more.get("fastener") != "bearing",
                **more,
            )

    def corners(self) -> Iterator[Joint]:
        """Side rails to end rails: screwed through the face of the rail that runs past."""
        past = self.options.frame.corners == "side rails run past"
        for side in self._of("side_rail"):
            for end in self._of("end_rail"):
                sign: Sign = 1 if (side.box.lo[1] == 0 if past else end.box.lo[0] == 0) else -1
                near, far = (side, end) if past else (end, side)
                yield from self._joint("corner", near, far, 1 if past else 0, sign)

    def supports(self) -> Iterator[Joint]:
        """Cleats into side rails; runners and flat lines up into the rails above them."""
        for cleat in self._of("cleat"):
            left = cleat.box.lo[1] < self._of("side_rail")[1].box.lo[1] / 2
            for rail in self._of("side_rail"):
                yield from self._joint("cleat", cleat, rail, 1, -1 if left else 1)
        for runner in self._of("runner", "centre_runner"):
            for rail in self._of("side_rail", "end_rail"):
                yield from self._joint("runner", runner, rail, 2, 1, bears=True)

    def line_ends(self) -> Iterator[Joint]:
        """Centre lines to the end rails: on the way to a hanger or block, or free above a leg."""
        for line in self.lines:
            if not line.name.startswith("line"):
                continue
            beam = self.pieces[line.members[0]]
            for rail in self._of("end_rail"):
                yield from self._line_end(line, beam, rail)
        for block in self._of("beam_block"):
            for rail in self._of("end_rail"):
                yield from self._joint("line_end", block, rail, 0, -1 if rail.box.lo[0] == 0 else 1)

    def _line_end(self, line: SupportLine, beam: Piece, rail: Piece) -> Iterator[Joint]:
        if self.runners:
            if beam.part == "centre_beam":
                yield from self._joint("line_end", beam, rail, 2, 1, fastener="bracket", bears=True)
            return
        head = rail.box.lo[0] == 0
        x = rail.box.hi[0] if head else rail.box.lo[0]
        lo, hi = (
            (max(beam.box.lo[i], rail.box.lo[i]) for i in (1, 2)),
            (min(beam.box.hi[i], rail.box.hi[i]) for i in (1, 2)),
        )
        contact = Box((x, *lo), (x, *hi))  # type: ignore[arg-type]  # three Fractions each
        if line.ends == "block":
            for block in self._of("beam_block"):
                if block.box.overlaps(rail.box) or block.box.contact(rail.box) is None:
                    continue
                yield from self._joint("line_end", beam, block, 2, -1, fastener="bracket", bears=True)
        elif line.ends == "hanger":
            yield Joint(
                "line_end",
                beam.label,
                rail.label,
                0,
                -1 if head else 1,
                contact,
                self.options.centre.play,
                "bracket",
                bears=True,
            )
        elif all(hi > lo for lo, hi in zip(contact.lo[1:], contact.hi[1:], strict=True)):
            yield Joint(
                "line_end", beam.label, rail.label, 0, -1 if head else 1, contact, self.options.centre.play, "bracket"
            )

    def legs_(self) -> Iterator[Joint]:
        """Legs to what they carry, and their boards to each other."""
        for leg in self.legs:
            pieces = [self.pieces[label] for label in leg.pieces]
            yield from self._plies(leg, pieces)
            if self.options.legs.kind == "tube":
                yield from self._flange(pieces[1])
            elif leg.line.startswith("line"):
                yield from self._line_leg(leg, pieces)
            else:
                yield from self._side_leg(leg, pieces)

    def _plies(self, leg: Leg, pieces: list[Piece]) -> Iterator[Joint]:
        if self.options.legs.kind in ("doubled", "corner L"):
            a, b = pieces
            near, far = (b, a) if self.options.legs.kind == "doubled" else (a, b)
            yield from self._joint("ply", near, far, 1, 1 if near.box.lo[1] < far.box.lo[1] else -1)

    def _flange(self, flange: Piece) -> Iterator[Joint]:
        for above in self._of("cleat", "runner", "centre_beam", "centre_runner"):
            yield from self._joint("flange", flange, above, 2, 1, bears=True)

    def _line_leg(self, leg: Leg, pieces: list[Piece]) -> Iterator[Joint]:
        line = next(line for line in self.lines if line.name == leg.line)
        beam = self.pieces[line.members[0]]
        fastener = "bracket" if beam.part == "centre_beam" else "screw"
        for piece in pieces:
            yield from self._joint("line_leg", beam, piece, 2, -1, fastener=fastener, bears=True)

    def _side_leg(self, leg: Leg, pieces: list[Piece]) -> Iterator[Joint]:
        if self.runners:
            for piece in pieces:
                for runner in self._of("runner"):
                    yield from self._joint("leg", runner, piece, 2, -1, bears=True)
            return
        fastener = "bolt" if self.options.screws.leg.kind == "carriage bolt" else "screw"
        for rail in self._of("side_rail"):
            sign: Sign = 1 if rail.box.lo[1] == 0 else -1
            yield from self._joint("leg", rail, pieces[0], 1, sign, fastener=fastener)
        for piece in pieces:
            for cleat in self._of("cleat"):
                yield from self._joint("leg", cleat, piece, 2, -1, fastener="bearing", bears=True)

    def slats(self) -> Iterator[Joint]:
        """Slat ends on cleats, runners or leg tops; slat middles on centre lines."""
        tops = [(piece, kind) for kind, parts in _SEATS for piece in self._of(*parts)]
        for slat in self._of("slat"):
            for below, kind in tops:
                yield from self._joint(kind, slat, below, 2, -1, bears=True)


_SEATS: tuple[tuple[JointKind, tuple[str, ...]], ...] = (
    ("slat", ("cleat", "runner", "corner_leg", "mid_leg", "leg")),
    ("slat_line", ("centre_beam", "centre_runner")),
)

__all__ = ["joints"]
