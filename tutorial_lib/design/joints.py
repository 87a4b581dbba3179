"""Where pieces meet and how they are held, found from the placed pieces."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import chain
from typing import Any, Literal

from tutorial_lib.design import bolted_headboard
from tutorial_lib.design.glue_blocks import glued
from tutorial_lib.design.model import Axis, Box, Joint, JointKind, Leg, Piece, SupportLine
from tutorial_lib.design.options import Options
from tutorial_lib.design.plinth import plinth_joints
from tutorial_lib.design.room import clear_of, standing_below
from tutorial_lib.design.straps import screwed_down

Sign = Literal[1, -1]
CLEAT_FROM = Fraction(1)  # [in] of a slat's width on a cleat that takes its screw, beside a block (our choice)
CROSSED_FROM = Fraction(2)  # [in] of lap, to hold fasteners both ways, one above the other (our choice)
TALLEST_BLOCK = Fraction(9, 4)  # [in] higher blocks are more than a wood screw goes through (our choice)
BOLTED_FROM = Fraction(11, 8)  # [in] of lap: a 3/8 in bolt's least distances, 2 D to the end and 1.5 D to the edge
LAPPED_FROM = Fraction(1)  # [in] of lap that takes screws (our choice)
SCREWED_FROM = Fraction(11, 8)  # [in] a leg's top covered less than this takes no screws: they'd meet seam or edge


def joints(options: Options, pieces: list[Piece], lines: tuple[SupportLine, ...], legs: list[Leg]) -> tuple[Joint, ...]:
    """All joints of the bed in the order of the job."""
    finder = _Finder(options, pieces, lines, legs)
    framed = (finder.corners(), finder.headboard(), finder.supports(), finder.line_ends(), finder.legs_())
    bolted = bolted_headboard.joints(options, finder.pieces)
    return tuple(chain(*framed, plinth_joints(legs, finder.pieces), bolted, finder.headboard_slats(), finder.slats()))


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
        if contact is not None and contact.lo[axis] == contact.hi[axis]:
            yield Joint(
                kind=kind,
                near=near.label,
                far=far.label,
                axis=axis,
                sign=sign,
                contact=contact,
                end_grain=far.axis == axis and more.get("fastener") not in ("bearing", "bracket"),
                **more,
            )

    def corners(self) -> Iterator[Joint]:
        """Side rails to end rails: screwed through the face of the rail that runs past; or both to corner posts."""
        if self.options.frame.posts:
            yield from self._posts()
            return
        past = self.options.frame.corners == "side rails run past"
        for side in self._of("side_rail"):
            for end in self._of("end_rail"):
                sign: Sign = 1 if (side.box.lo[1] == 0 if past else end.box.lo[0] == 0) else -1
                near, far = (side, end) if past else (end, side)
                yield from self._joint("corner", near, far, 1 if past else 0, sign)

    def _posts(self) -> Iterator[Joint]:
        """Corner blocks into the posts, then into the rails; without blocks fittings hold the rails' ends."""
        blocks, posts, rails = self._of("corner_block"), self._of("post"), self._of("side_rail", "end_rail")
        for block in blocks:
            for far in (*posts, *rails):
                for axis in (0, 1):
                    sign: Sign = 1 if far.box.centre[axis] > block.box.centre[axis] else -1
                    yield from self._joint("post" if far in posts else "block", block, far, axis, sign)
        for rail in rails:
            for post in posts:
                yield from self._rail_to_post(rail, post, bool(blocks))

    def _rail_to_post(self, rail: Piece, post: Piece, blocks: bool) -> Iterator[Joint]:
        """A rail's end at a post: borne by blocks, held by bolts in barrel nuts, or by a fitting."""
        way: Sign = 1 if rail.box.centre[rail.axis] > post.box.centre[rail.axis] else -1
        bolted = self.options.posts.joint == "barrel nuts"
        fitting = "bearing" if blocks or bolted else "bracket"
        yield from self._joint("post", post, rail, rail.axis, way, fastener=fitting)
        for joint in self._joint("bed_bolt", post, rail, rail.axis, way, fastener="bolt") if bolted else ():
            yield replace(joint, end_grain=False)  # the nut holds, not the thread in the wood

    def headboard(self) -> Iterator[Joint]:
        """Battens into the posts beside them, and through the battens into the boards in front."""
        for batten in self._of("batten"):
            for post in self._of("post"):
                sign: Sign = 1 if post.box.centre[1] > batten.box.centre[1] else -1
                yield from self._joint("batten", batten, post, 1, sign)
            for board in self._of("headboard"):
                yield from self._joint("panel", batten, board, 0, 1)

    def headboard_slats(self) -> Iterator[Joint]:
        """Through a headboard's rails into the slats on their fronts."""
        for rail in self._of("headboard"):
            for slat in self._of("headboard_slat"):
                yield from self._joint("panel_slat", rail, slat, 0, 1)

    def supports(self) -> Iterator[Joint]:
        """Cleats into side rails; runners and flat lines up into the rails above them."""
        for cleat in self._of("cleat"):
            left = cleat.box.lo[1] < self._of("side_rail")[1].box.lo[1] / 2
            for rail in self._of("side_rail"):
                yield from self._joint("cleat", cleat, rail, 1, -1 if left else 1)
        for runner in self._of("runner", "centre_runner"):
            for rail in self._of("side_rail", "end_rail"):
                yield from self._up_into_rail(runner, rail)

    def _up_into_rail(self, runner: Piece, rail: Piece) -> Iterator[Joint]:
        """Screws up through a runner; where legs leave a driver no room, the rail only rests on it."""
        contact = runner.box.contact(rail.box)
        if contact is None or contact.size[2] != 0:
            return
        free = clear_of(contact, standing_below(self.pieces.values()), self.options.driver.radius)
        yield from self._joint("runner", runner, rail, 2, 1, bears=True, fastener="screw" if free else "bearing")

    def line_ends(self) -> Iterator[Joint]:
        """Centre lines to the end rails: on the way to a hanger or block, or free above a leg."""
        for line in self.lines:
            if line.central:
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
        elif line.ends == "block":
            yield from self._on_block(line, beam, rail)
        else:
            yield from self._to_end_rail(line, beam, rail)

    def _on_block(self, line: SupportLine, beam: Piece, rail: Piece) -> Iterator[Joint]:
        """Up through a low block into a flat line, from where no rail is in the way; else a bracket holds it."""
        for block in self._of("beam_block"):
            if block.box.contact(rail.box) is None:
                continue
            if line.kind == "flat" and block.box.size[2] <= TALLEST_BLOCK:
                yield from self._joint("line_end", block, beam, 2, 1, bears=True)
            else:
                yield from self._joint("line_end", beam, block, 2, -1, fastener="bracket", bears=True)

    def _to_end_rail(self, line: SupportLine, beam: Piece, rail: Piece) -> Iterator[Joint]:
        head = rail.box.lo[0] == 0
        x = rail.box.hi[0] if head else rail.box.lo[0]
        lo, hi = (
            [max(beam.box.lo[i], rail.box.lo[i]) for i in (1, 2)],
            [min(beam.box.hi[i], rail.box.hi[i]) for i in (1, 2)],
        )
        if all(high > low for low, high in zip(lo, hi, strict=True)):
            yield Joint(
                kind="line_end",
                near=beam.label,
                far=rail.label,
                axis=0,
                sign=-1 if head else 1,
                contact=Box((x, lo[0], lo[1]), (x, hi[0], hi[1])),
                play=self.options.centre.play,
                fastener="bracket",
                bears=line.ends == "hanger",
            )

    def legs_(self) -> Iterator[Joint]:
        """Legs to what they carry, and their boards to each other."""
        for leg in (leg for leg in self.legs if not leg.post):
            pieces = [self.pieces[label] for label in leg.pieces]
            yield from self._plies(pieces)
            yield from glued(leg, self.pieces)
            if pieces[-1].shape == "plate":
                yield from self._flange(pieces[1])
            elif leg.line not in ("left", "right"):
                yield from self._line_leg(leg, pieces)
            elif self.runners:
                yield from self._under("runner", pieces)
            elif self.options.leg_place == "under the rail":
                yield from self._rail_and_cleat(pieces)
            else:
                yield from self._beside(leg, pieces)

    def _plies(self, pieces: list[Piece]) -> Iterator[Joint]:
        """The boards of one leg: of a pair the inner into the outer, of an L the first into the edge."""
        if len(pieces) == 2 and all(piece.shape == "box" for piece in pieces):
            a, b = pieces
            near, far = (b, a) if a.box.size == b.box.size else (a, b)
            yield from self._joint("ply", near, far, 1, 1 if near.box.lo[1] < far.box.lo[1] else -1)

    def _flange(self, flange: Piece) -> Iterator[Joint]:
        for above in self._of("side_rail", "end_rail", "cleat", "runner", "centre_beam", "centre_runner"):
            yield from self._joint("flange", flange, above, 2, 1, bears=True)

    def _line_leg(self, leg: Leg, pieces: list[Piece]) -> Iterator[Joint]:
        line = next(line for line in self.lines if line.name == leg.line)
        beam = self.pieces[line.members[0]]
        fastener = "bracket" if beam.part == "centre_beam" else "screw"
        for piece in pieces:
            yield from self._joint("line_leg", beam, piece, 2, -1, fastener=fastener, bears=True)

    def _under(self, part: str, pieces: list[Piece]) -> Iterator[Joint]:
        """Screws down through the flat piece into the tops of the boards below; on a sliver of board it only rests."""
        for piece in pieces:
            for above in self._of(part):
                yield from self._joint(
                    "leg", above, piece, 2, -1, fastener=_screwed(above.box.contact(piece.box)), bears=True
                )

    def _rail_and_cleat(self, pieces: list[Piece]) -> Iterator[Joint]:
        """Rails stand on the leg; a cleat level with them is screwed to it, else a bracket holds the side rail."""
        cleated = list(self._under("cleat", pieces))
        yield from cleated
        held = any(joint.fastener == "screw" for joint in cleated)
        for piece in pieces:
            for rail in self._of("side_rail", "end_rail"):
                for joint in self._joint("leg", rail, piece, 2, -1, fastener="bearing", bears=True):
                    bracket = rail.part == "side_rail" and not held
                    held = held or bracket
                    yield replace(joint, fastener="bracket") if bracket else joint

    def _beside(self, leg: Leg, pieces: list[Piece]) -> Iterator[Joint]:
        """Rails fastened to the leg beside them, a cleat resting on it."""
        bolt = self.options.screws.leg.kind == "carriage bolt"
        fastener = "bolt" if bolt else "screw"
        through = _bolted_through(pieces) if bolt else ()
        for rail in self._of("side_rail"):
            sign: Sign = 1 if rail.box.lo[1] == 0 else -1
            lap = self._joint("leg", rail, pieces[0], 1, sign, fastener=fastener, beyond=through)
            yield from (joint for joint in lap if joint.contact.size[2] >= (BOLTED_FROM if bolt else LAPPED_FROM))
        yield from self._across(pieces, fastener)
        for piece in pieces:
            for cleat in self._of("cleat"):
                yield from self._joint("leg", cleat, piece, 2, -1, fastener="bearing", bears=True)

    def _across(self, pieces: list[Piece], fastener: str) -> Iterator[Joint]:
        """End rails fastened to a leg's last board, where they lap enough for fasteners both ways."""
        for rail in self._of("end_rail"):
            for piece in pieces[-1:]:
                way: Sign = 1 if rail.box.lo[0] == 0 else -1
                lap = self._joint("leg", rail, piece, 0, way, fastener=fastener)
                yield from (joint for joint in lap if joint.contact.size[2] >= CROSSED_FROM)

    def slats(self) -> Iterator[Joint]:
        """Slat ends on cleats, runners or leg tops; slat middles on centre lines. Each end is screwed once."""
        slats, middle = self._of("slat"), self.options.slats.middle == "screwed"
        for slat in slats:
            held = screwed_down(self.options, slat, slats)
            seats, middle_y = self._seats(slat), slat.box.centre[1]
            for low in (True, False):
                yield from self._slat_end([s for s in seats if (s.contact.centre[1] < middle_y) == low], middle_y, held)
            for below in self._of("centre_beam", "centre_runner"):
                fastener = "screw" if held and middle else "bearing"
                yield from self._joint("slat_line", slat, below, 2, -1, bears=True, fastener=fastener)

    def _seats(self, slat: Piece) -> list[Joint]:
        """Where a slat lies on the sides."""
        return [
            joint
            for below in self._of("cleat", "runner", "corner_leg", "mid_leg", "leg", "corner_block")
            for joint in self._joint("slat", slat, below, 2, -1, bears=True)
        ]

    def _slat_end(self, seats: list[Joint], middle: Fraction, held: bool) -> Iterator[Joint]:
        """The end's seats; its screw goes into the one it covers most along the bed, the outer one of two alike."""
        blocks = {block.label for block in self._of("corner_block")}  # end grain: only where the cleat has no room
        best = max(
            seats,
            key=lambda j: (
                j.far not in blocks and j.contact.size[0] >= CLEAT_FROM,
                j.contact.size[0],
                abs(j.contact.centre[1] - middle),
            ),
            default=None,
        )
        for joint in seats:
            yield joint if held and joint is best else replace(joint, fastener="bearing", end_grain=False)


def _bolted_through(pieces: list[Piece]) -> tuple[str, ...]:
    """The second board of a doubled leg of two alike, which bolts go through too."""
    doubled = len(pieces) == 2 and pieces[0].box.size == pieces[1].box.size
    return (pieces[1].label,) if doubled else ()


def _screwed(contact: Box | None) -> Literal["screw", "bearing"]:
    """Whether a shared face is large enough for screws."""
    if contact is None:
        return "bearing"
    return "screw" if min(contact.size[0], contact.size[1]) >= SCREWED_FROM else "bearing"


__all__ = ["joints"]
