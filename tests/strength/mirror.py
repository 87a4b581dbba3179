"""A bed and its fasteners seen in a mirror: left for right, or head for foot."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from tutorial_lib.design.fasteners import Driven, Fastening
from tutorial_lib.design.model import Box, Build, Joint, Leg, Part, SupportLine

SWAPPED = {"left": "right", "right": "left", "head": "foot", "foot": "head"}


class Mirror:
    """Turns a bed round along x (0) or y (1)."""

    def __init__(self, build: Build, axis: int) -> None:
        self.build, self.axis = build, axis
        self.full = build.outside[1 - axis]

    def bed(self, fastenings: Sequence[Fastening]) -> tuple[Build, tuple[Fastening, ...]]:
        """The bed and its fasteners, turned round."""
        build = self.build
        turned = replace(
            build, parts=tuple(map(self._part, build.parts)), joints=tuple(map(self._joint, build.joints)),
            lines=tuple(map(self._line, build.lines)), legs=tuple(map(self._leg, build.legs)),
        )  # fmt: skip
        return turned, tuple(
            replace(f, joint=self._joint(f.joint), driven=tuple(map(self._driven, f.driven))) for f in fastenings
        )

    def _name(self, text: str) -> str:
        """Labels with the word of the other side; a leg's letter goes with its side."""
        words = text.split()
        if self.axis == 1:
            kept = [SWAPPED[w] if w in ("left", "right") else w for w in words]
            letters = {"L": "R", "R": "L"}
            kept = [letters[w[0]] + w[1:] if w[0] in letters and w[1:].isdigit() else w for w in kept]
        else:
            kept = [SWAPPED[w] if w in ("head", "foot") else w for w in words]
        return " ".join(kept)

    def _point(self, point):
        return tuple(self.full - v if i == self.axis else v for i, v in enumerate(point))

    def _box(self, box: Box) -> Box:
        a, b = self._point(box.lo), self._point(box.hi)
        return Box(tuple(map(min, a, b)), tuple(map(max, a, b)))

    def _span(self, span):
        return tuple(self.full - v for v in reversed(span))

    def _part(self, part: Part) -> Part:
        pieces = [replace(p, label=self._name(p.label), box=self._box(p.box)) for p in part.pieces]
        if part.key == "slat":
            pieces.sort(key=lambda piece: piece.box.lo[0])
        return replace(part, pieces=tuple(pieces))

    def _joint(self, joint: Joint) -> Joint:
        return replace(
            joint, near=self._name(joint.near), far=self._name(joint.far), contact=self._box(joint.contact),
            beyond=tuple(map(self._name, joint.beyond)),
            sign=-joint.sign if joint.axis == self.axis else joint.sign,
        )  # fmt: skip

    def _line(self, line: SupportLine) -> SupportLine:
        across = self.axis == 1
        return replace(
            line, name=self._name(line.name), members=tuple(map(self._name, line.members)),
            legs=tuple(map(self._name, line.legs)), y=self.full - line.y if across else line.y,
            seat=self._span(line.seat) if across else line.seat, x=line.x if across else self._span(line.x),
        )  # fmt: skip

    def _leg(self, leg: Leg) -> Leg:
        half = leg.size[0] / 2
        x, y = self._point((leg.x, leg.y))
        return replace(leg, label=self._name(leg.label), line=self._name(leg.line), x=x, y=y, near_edge=x - half,
                       pieces=tuple(map(self._name, leg.pieces)))  # fmt: skip

    def _driven(self, driven: Driven) -> Driven:
        return replace(driven, head=self._point(driven.head), tip=self._point(driven.tip))
