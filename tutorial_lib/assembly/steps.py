"""The steps a person works through: the operations in order, with the checks and turns that go between them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from typing import Any

from tutorial_lib.assembly.driving import Screws, screws
from tutorial_lib.assembly.knock_down import KnockDown, words
from tutorial_lib.assembly.lifting import Turn, turn
from tutorial_lib.assembly.marks import Block, places, spacers
from tutorial_lib.assembly.order import Access, Operation, Order, Way, locks
from tutorial_lib.assembly.squaring import Squaring
from tutorial_lib.assembly.wording import bring, laid_out, numbered, wording
from tutorial_lib.assembly.words import ENDS_HELD
from tutorial_lib.design.fasteners import Fastening
from tutorial_lib.design.model import LATER, Build
from tutorial_lib.design.weights import total
from tutorial_lib.measures import Writer
from tutorial_lib.records import dataclass


@dataclass(frozen=True, kw_only=True)
class Step:
    """One step."""

    number: int
    key: str  # "dry fit", "corner", "square", "turn" …
    title: str
    do: tuple[str, ...]  # what to do, one sentence each
    way: Way  # how the frame lies
    new: tuple[str, ...] = ()  # labels of pieces that enter the frame
    made: tuple[str, ...] = ()  # labels of pieces made up on the bench
    present: tuple[str, ...] = ()  # labels of pieces in the frame before
    operation: Operation | None = None
    screws: tuple[Screws, ...] = ()
    blocks: tuple[Block, ...] = ()  # spacers it takes
    diagonal: Fraction | None = None  # [in] over the outside corners, when they are measured
    look: tuple[str, ...] = ()  # where to look
    wrong: tuple[str, ...] = ()  # what can go wrong
    hides: tuple[str, ...] = ()  # joints whose screws no driver reaches afterwards
    weight: float = 0  # [lb] of what is moved
    turn: Turn | None = None
    held_by: int = 0  # helpers who hold pieces up meanwhile

    @property
    def people(self) -> int:
        """How many it takes."""
        return self.turn.people if self.turn else 1 + self.held_by


TURN_LOOK = ("Nobody's fingers under the edge that comes down.",)
ROLL = (
    "Lift the edge and turn the frame in the air or over its rail. Never roll it over its legs: they would break out."
)


class Steps:
    """Makes the steps of one build; thrown away when they are made."""

    def __init__(
        self, build: Build, order: Order, access: Access, w: Writer, each: dict[str, float], square: Squaring,
        apart: KnockDown | None = None,
    ) -> None:  # fmt: skip
        self.build, self.order, self.access, self.each, self.square = build, order, access, each, square
        self.w, self.apart = w, apart
        self.placed: list[str] = []
        self.reachable: list[Fastening] = []
        self.bench: list[Fastening] = []  # driven on the bench, not in the frame yet
        self.made: list[Step] = []

    def all(self) -> tuple[Step, ...]:
        """The steps in order, numbered from 1."""
        way: Way | None = None
        if self.build.bed_stands:
            self._bare()
        for operation, lies in self.order.operations:
            if not operation.prepares:
                if way is not None and lies != way:
                    self._turn(lies)
                way = lies
            if operation.group == "corner":
                self._dry_fit(operation, lies)
            self._work(operation, lies)
            if operation.group == "corner":
                self._square(lies)
        if way == "upside down":
            self._turn("upright")
        self._last()
        if self.apart is not None:
            self._take_apart(self.apart)
        return tuple(self.made)

    def _add(self, key: str, title: str, do: Iterable[str], way: Way, **more: Any) -> None:
        number, there = len(self.made) + 1, tuple(self.placed)
        self.made.append(Step(number=number, key=key, title=title, do=tuple(do), way=way, present=there, **more))

    def _dry_fit(self, operation: Operation, way: Way) -> None:
        posts = self.build.options.frame.posts
        lay = f"On a flat floor lay out {laid_out(self.build, operation)}, {_lying(way)}"
        stand = "Stand the head and the foot end up and set the side rails between them, helpers holding them"
        self._add(
            "dry fit",
            "Dry fit",
            (
                f"{stand if posts else lay}, without screws.",
                "Check every piece against its label and its length.",
            ),
            way,
            held_by=ENDS_HELD if posts else 0,
            look=("Each corner closes with no gap.",),
            wrong=(_misfit(posts),),
        )

    def _work(self, operation: Operation, way: Way) -> None:
        words = wording(self.build, operation, way, self.w)
        made = {label for step in self.made for label in step.made}
        hides = self._hidden_on_bench(operation) if operation.prepares else self._hidden_by(operation)
        self._add(
            operation.key,
            words.title,
            (*bring(self.build, operation, made), *places(self.build, operation, way, self.w), *words.do),
            way,
            new=() if operation.prepares else operation.enters,
            made=operation.enters if operation.prepares else (),
            operation=operation,
            screws=screws(self.build, operation.joints, operation.fastenings, self.w),
            blocks=spacers(self.build, operation),
            look=words.look,
            wrong=words.wrong,
            hides=hides,
            held_by=words.held_by,
            weight=max((self.each[label] for label in operation.enters), default=0.0),
        )
        if operation.prepares:
            self.bench = [f for f in self.bench if f.joint.label not in hides] + list(operation.fastenings)
        else:
            kept = [f for f in (*self.reachable, *self._coming(operation)) if f.joint.label not in hides]
            self.reachable = kept + list(operation.fastenings)
            self.placed += operation.enters

    def _coming(self, operation: Operation) -> list[Fastening]:
        """What was driven on the bench and comes into the frame with an operation."""
        new = set(operation.enters)
        return [fastening for fastening in self.bench if new & {fastening.joint.near, fastening.joint.far}]

    def _hidden_by(self, operation: Operation) -> tuple[str, ...]:
        """Joints that lose their last way for a driver with the newcomers in place, those made on the bench too."""
        here = (*self.placed, *operation.enters)
        lost = (
            *locks(self.build, self.reachable, operation.enters, self.access),
            *locks(self.build, self._coming(operation), here, self.access),
        )
        return tuple(dict.fromkeys(fastening.joint.label for fastening, _, _ in lost))

    def _hidden_on_bench(self, operation: Operation) -> tuple[str, ...]:
        """Joints made on the bench before that lose their last way for a driver by what is joined to them here."""
        joined = [{joint.near, joint.far, *joint.beyond} for joint in operation.joints]
        hidden = []
        for fastening in self.bench:
            own = {fastening.joint.near, fastening.joint.far, *fastening.joint.beyond}
            beside = set().union(*(pieces for pieces in joined if own & pieces)) - own
            if any(True for _ in locks(self.build, [fastening], sorted(beside), self.access)):
                hidden.append(fastening.joint.label)
        return tuple(dict.fromkeys(hidden))

    def _square(self, way: Way) -> None:
        s, w = self.square, self.w
        diagonal = Fraction(s.outside_diagonal)
        size, limit = w.length(diagonal), w.length(s.tolerance)
        lean = w.length(Fraction(s.lean(float(s.tolerance))))
        self._add(
            "square",
            "Square the frame",
            (
                f"Measure both diagonals over the outside corners: each should read {size}.",
                f"If they differ by more than {limit}, push the longer diagonal's corners together until they agree.",
                "Brace one corner with a board and two clamps until the next parts hold the frame.",
            ),
            way,
            diagonal=diagonal,
            look=(f"A difference of {limit} means one side rail stands {lean} ahead of the other.",),
            wrong=("A frame out of square pinches the mattress at two corners and opens at the others.",),
        )

    def _turn(self, to: Way) -> None:
        weight = total(self.placed, self.each)
        moved = turn(weight, float(max(self.build.outside)), float(self._depth()))
        legs = [label for label in self.placed if self.build.pieces[label].axis == 2]
        lift = (
            f"Stand {numbered(moved.people)} along one side, lift that side, and turn the frame over "
            f"{_onto(to, bool(legs))}. It weighs {self.w.weight(weight)}; the hands start with half of it, "
            f"{self.w.weight(moved.share)}."
        )
        self._add(
            "turn",
            f"Turn the frame {to}" if to == "upright" else "Turn the frame upside down",
            (*(self._levellers() if to == "upright" else ()), lift, *((ROLL,) if legs else ())),
            to,
            look=TURN_LOOK,
            wrong=("Left and right change places when the frame is turned: go by the labels.",),
            weight=weight,
            turn=moved,
        )

    def _levellers(self, lifted: bool = False) -> Iterator[str]:
        """How levellers come into the legs' feet, while these are up or lifted."""
        if high := self.build.options.legs.leveller:
            fit = "Lift one end at a time and fit a leveller" if lifted else "Fit a leveller"
            yield f"{fit} to the foot of every leg, as its maker says, so that {self.w.length(high)} of it show."

    def _depth(self) -> Fraction:
        """Height of the frame's edge above the floor where the hands take hold [in]."""
        return self.build.heights.rail_top - self.build.heights.rail_bottom

    def _bare(self) -> None:
        """The bed that stands, ready for a headboard."""
        self.placed += [label for label, piece in self.build.pieces.items() if piece.use not in LATER]
        high, rails = self.build.heights.rail_top, self.build.outside[0]
        self._add(
            "bare",
            "Clear the head of the bed",
            (
                "Take the mattress off and draw the bed from the wall, lifted, not dragged.",
                f"Measure it: the head rail's top edge should be {self.w.length(high)} above the floor, and the bed "
                f"{self.w.length(rails)} wide over its rails. Where it is not, have this plan worked out again for "
                "what you measured.",
            ),
            "upright",
            look=("Every screw of the head rail sits where the drawing of its holes shows it, dashed.",),
            wrong=("A bed that was built another way has its screws elsewhere: a bolt may meet one.",),
        )

    def _last(self) -> None:
        if self.build.bed_stands:
            self._again()
            return
        adjustable = self.build.options.legs.leveller > 0
        turned = any(step.key == "turn" and step.way == "upright" for step in self.made)
        pads = "Put a felt pad or a glide under every leg, so that none marks the floor."
        gap = "turn its leveller" if adjustable else "shim that leg"
        self._add(
            "level",
            "Level the bed",
            (
                *(() if turned else self._levellers(lifted=True)),
                "Stand the bed in its place and press on each corner.",
                *(() if adjustable else (pads,)),
                f"Slide a sheet of paper under every leg: where it goes through, {gap}.",
            ),
            "upright",
            look=("Every leg touches the floor, those in the middle too.",),
            wrong=("A middle leg that hangs free doubles the span of what it should carry.",),
        )
        self._again()

    def _again(self) -> None:
        self._add(
            "retighten",
            "Go round again after a month",
            ("Take the mattress off and turn every screw and nut that a driver still reaches.",),
            "upright",
            look=("Squeaks: find the two parts that rub and tighten what holds them.",),
            wrong=("Wood dries and shrinks in a warm room; screws that were tight are loose then.",),
        )

    def _take_apart(self, apart: KnockDown) -> None:
        worn = ("A screw driven anew into its old hole holds less: turn it in by hand, or take one size thicker.",)
        self._add(
            "apart",
            "Take it apart to move",
            words(apart, self.w),
            "upright",
            look=("Nuts, bolts and washers go into a bag that is tied to the head end.",),
            wrong=worn if apart.screws else (),
        )


def _misfit(posts: bool) -> str:
    """What the dry fit shows: cleats may be on and the ends made up by then, but no corner of these is fixed."""
    if posts:
        return "A side rail that is too long or short shows now, before it is fixed to its posts."
    return "A rail that is too long or short shows now, before the corners are screwed."


def _lying(way: Way) -> str:
    return "top edges down" if way == "upside down" else "top edges up"


def _onto(way: Way, legs: bool) -> str:
    if way == "upside down":
        return "onto its top edges"
    return "onto its legs" if legs else "onto its lower edges"
