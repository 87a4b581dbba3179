"""Which faces show, which are only touched, which lie hidden or against wood: the face map of every piece and part."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction
from typing import Literal

from tutorial_lib.design.model import Box, Build, Part
from tutorial_lib.design.on_top import mattress_box
from tutorial_lib.finishing.faces import Face, area, contacts, faces, patches, side
from tutorial_lib.finishing.sight import Solid, Spot, Watcher, eyes, facing, in_front, seen, solid, touched
from tutorial_lib.records import dataclass

State = Literal["seen", "touched", "hidden", "contact"]
SHOWS = Fraction(1, 8)  # a face shows once an eighth of it does; our choice
SQUARE_FOOT = 144


@dataclass(frozen=True, kw_only=True)
class FaceState:
    """One face as it ends up in the bed."""

    face: Face
    side: str  # "outer", "inner", "top", "bottom" …
    state: State
    contact: Fraction  # [sq in] against other pieces
    contacts: tuple[Box, ...]

    @property
    def open(self) -> Fraction:
        """Area net of contacts [sq in]."""
        return self.face.area - self.contact

    @property
    def label(self) -> str:
        """The face in words: "outer face", "top edge", "head-side end"."""
        return f"{self.side} {self.face.part}"


@dataclass(frozen=True, kw_only=True)
class FaceMap:
    """What is done to the faces of pieces that end up alike."""

    part: str  # key
    name: str  # "side rail"
    pieces: tuple[str, ...]
    states: tuple[FaceState, ...]  # of the first of them

    def sides(self, state: State) -> tuple[tuple[str, str], ...]:
        """Faces in one state: which side, and whether it is a face, an edge or an end."""
        return tuple((s.side, s.face.part) for s in self.states if s.state == state)

    @property
    def sentence(self) -> str:
        """What to do with the part's faces, in one line."""
        said = []
        if self.sides("seen"):
            said.append(f"Finish {listed(collected(self.sides('seen')))}.")
        if self.sides("touched"):
            said.append(f"Break the edges of {listed(collected(self.sides('touched')))}.")
        if not said:
            return "Nothing shows: leave as sawn."
        return " ".join(said)


def listed(words: Iterable[str]) -> str:
    """Words as a list in a sentence: "a, b and c"."""
    words = list(words)
    return " and ".join(filter(None, [", ".join(words[:-1]), *words[-1:]]))


def collected(faces: Iterable[tuple[str, str]]) -> list[str]:
    """Faces told together: two edges, both ends.

    >>> collected([("outer", "face"), ("top", "edge"), ("bottom", "edge"), ("head-side", "end"), ("foot-side", "end")])
    ['the outer face', 'both edges', 'both ends']
    """
    groups: dict[str, list[str]] = {"face": [], "edge": [], "end": []}
    for of_piece, part in faces:
        groups[part].append(of_piece)
    return [phrase for kind, sides in groups.items() for phrase in _phrases(kind, sides)]


def _phrases(kind: str, sides: list[str]) -> Iterator[str]:
    if not sides:
        return
    if kind in ("edge", "end") and len(sides) == 2:
        yield f"both {kind}s"
    elif kind == "face" and len(sides) == 4:
        yield "all four faces"
    else:
        yield f"the {listed(sides)} {kind}{'s' if len(sides) > 1 else ''}"


def expose(build: Build, watcher: Watcher | None = None) -> tuple[FaceState, ...]:
    """The state of every wooden face of the bed, mattress on.

    Args:
        build: the placed pieces.
        watcher: where people stand and how far they reach; the usual one when left out.
    """
    scene = _Scene(build, watcher or Watcher())
    return tuple(
        scene.judge(face)
        for part in build.made
        if not part.section.steel
        for piece in part.pieces
        for face in faces(piece)
    )


class _Scene:
    """The bed as a person sees it: solids, eyes and the outline that hands come from."""

    def __init__(self, build: Build, watcher: Watcher) -> None:
        self.build, self.watcher = build, watcher
        self.pieces = tuple(build.pieces.values())
        self.wood = [solid(piece.box) for piece in self.pieces]
        on_top = mattress_box(build)
        self.solids: list[Solid] = ([solid(on_top)] if on_top else []) + self.wood
        self.eyes = eyes(build, watcher)
        lows, highs = [s[0] for s in self.wood], [s[1] for s in self.wood]
        self.hull: Solid = (_corner(lows, min), _corner(highs, max))

    def judge(self, face: Face) -> FaceState:
        """What becomes of one face."""
        rectangles = tuple(box for _, box in contacts(face, self.pieces))
        against = sum((area(box, face.axis) for box in rectangles), Fraction(0))
        state = "contact" if against == face.area else self._met(face, rectangles)
        return FaceState(face=face, side=side(face, self.build), state=state, contact=against, contacts=rectangles)

    def _met(self, face: Face, covered: tuple[Box, ...]) -> State:
        """What an open face is, patch by patch, as soon as enough of it shows or is met by hands."""
        enough = SHOWS * face.area
        level = float(face.level)
        rows = facing(self.eyes, face.axis, face.sign, level)
        hiding = in_front(self.solids, face.axis, face.sign, level)
        shown, unseen = Fraction(0), []
        for patch in patches(face, covered):
            if not seen(patch.middle, face.axis, face.sign, rows, hiding):
                unseen.append(patch)
                continue
            shown += patch.area
            if shown >= enough:
                return "seen"
        met = Fraction(0)
        for patch in unseen:
            if touched(patch.middle, face.axis, face.sign, self.hull, self.wood, self.watcher):
                met += patch.area
                if met >= enough:
                    return "touched"
        return "hidden"


def _corner(spots: list[Spot], pick: Callable[[Iterable[float]], float]) -> Spot:
    return (pick(s[0] for s in spots), pick(s[1] for s in spots), pick(s[2] for s in spots))


def face_maps(build: Build, states: Iterable[FaceState]) -> tuple[FaceMap, ...]:
    """Face maps, one for all pieces of a part that are treated alike."""
    by_piece: dict[str, list[FaceState]] = {}
    for state in states:
        by_piece.setdefault(state.face.piece.label, []).append(state)
    return tuple(found for part in build.made for found in _maps_of(part, by_piece))


def _maps_of(part: Part, by_piece: dict[str, list[FaceState]]) -> Iterator[FaceMap]:
    alike: dict[tuple[tuple[str, str], ...], list[str]] = {}
    for piece in part.pieces:
        if piece.label in by_piece:
            alike.setdefault(tuple(sorted((s.label, s.state) for s in by_piece[piece.label])), []).append(piece.label)
    for labels in alike.values():
        yield FaceMap(part=part.key, name=part.name, pieces=tuple(labels), states=tuple(by_piece[labels[0]]))


def total(states: Iterable[FaceState], state: State | None = None, end_grain: bool | None = None) -> Fraction:
    """Open area of faces [sq ft], of one state or all, of end grain or side grain or both."""
    chosen = (s for s in states if state in (None, s.state) and end_grain in (None, s.face.end_grain))
    return sum((s.open for s in chosen), Fraction(0)) / SQUARE_FOOT
