"""The steps a person works through: the operations in order, with the checks and turns that go between them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from tutorial_lib.assembly.lifting import Turn, turn
from tutorial_lib.assembly.order import Access, Operation, Order, Way, locks
from tutorial_lib.assembly.squaring import Squaring
from tutorial_lib.design.fasteners import Fastener, Fastening
from tutorial_lib.design.model import Build
from tutorial_lib.design.weights import total
from tutorial_lib.measures import write_inches, write_length


@dataclass(frozen=True)
class Screws:
    """One kind of fastener driven in a step."""

    count: int
    name: str  # "#9 x 2 1/2 in wood screw"
    tool: str


@dataclass(frozen=True)
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
    look: tuple[str, ...] = ()  # where to look
    wrong: tuple[str, ...] = ()  # what can go wrong
    hides: tuple[str, ...] = ()  # joints whose screws no driver reaches afterwards
    weight: float = 0  # [lb] of what is moved
    turn: Turn | None = None

    @property
    def people(self) -> int:
        """How many it takes."""
        return self.turn.people if self.turn else 1


@dataclass(frozen=True)
class Wording:
    """What is said of a kind of operation."""

    title: str
    do: tuple[str, ...]
    look: tuple[str, ...]
    wrong: tuple[str, ...]


WORDS = {
    "ply": Wording(
        "Make up the legs",
        ("Clamp the boards of each leg flush at the ends, then screw them together.",),
        ("Both ends of each leg: the boards end in one plane.",),
        ("A leg whose boards are not flush rocks and carries on one board only.",),
    ),
    "corner": Wording(
        "Screw the corners",
        ("Clamp each corner with its faces flush, bore, and drive the screws.",),
        ("Top edges flush at all corners.",),
        ("Screws too near an end split the rail: bore first.",),
    ),
    "cleat": Wording(
        "Screw the cleats to the side rails",
        ("Hold each cleat to its line, clamp it, and drive the screws from one end to the other.",),
        ("Both cleats at the same distance from the rail's top edge.",),
        ("A cleat that runs out of line lets every slat on that side rock.",),
    ),
    "runner": Wording(
        "Screw the runners under the rails",
        ("Lay the runners on the rails, edges flush, clamp, and drive the screws.",),
        ("Runner edges flush with the rails' outer faces.",),
        ("Once screwed, the runners hold the frame as it is: square it before.",),
    ),
    "line": Wording(
        "Fit the centre line",
        ("Set each line to its mark and fix its ends.",),
        ("Its top level with the seats along the sides: lay a straight board across.",),
        ("A line that stands proud makes the slats rock over it.",),
    ),
    "leg": Wording(
        "Fit the legs",
        ("Set each leg to its mark, square to the rail, and fix it.",),
        ("Each leg tight against what it carries; no gap at its top.",),
        ("A leg that does not touch at its top hangs on its screws alone.",),
    ),
    "bench leg": Wording(
        "Screw the legs to their runners on the bench",
        ("Stand each leg under its runner at its mark and drive the screws through the runner into the leg.",),
        ("Legs square to the runner, all on the same side of it.",),
        ("Once the rails stand on the runners no driver reaches these screws.",),
    ),
    "bench cleat": Wording(
        "Screw the cleats to the side rails on the bench",
        ("Hold each cleat to its line, clamp it, and drive the screws from one end to the other.",),
        ("Both cleats at the same distance from the rail's top edge.",),
        ("Once the corners are screwed an end rail stands before the last of these screws.",),
    ),
    "slat": Wording(
        "Lay the slats",
        ("Mark every slat's near edge from the head end, lay the slats to the marks, and screw them down.",),
        ("The last slat at its mark before any screw is driven.",),
        ("A proud screw head under a slat makes it rock.",),
    ),
}
TURN_LOOK = ("Nobody's fingers under the edge that comes down.",)
ROLL = (
    "Lift the edge and turn the frame in the air or over its rail. Never roll it over its legs: they would break out."
)


class Steps:
    """Makes the steps of one build; thrown away when they are made."""

    def __init__(self, build: Build, order: Order, access: Access, each: dict[str, float], square: Squaring) -> None:
        self.build, self.order, self.access, self.each, self.square = build, order, access, each, square
        self.units = build.options.build.units
        self.placed: list[str] = []
        self.reachable: list[Fastening] = []
        self.made: list[Step] = []

    def all(self) -> tuple[Step, ...]:
        """The steps in order, numbered from 1."""
        way: Way | None = None
        for operation, lies in self.order.operations:
            if not operation.prepares:
                if way is not None and lies != way:
                    self._turn(lies)
                way = lies
            if operation.key == "corner":
                self._dry_fit(operation, lies)
            self._work(operation, lies)
            if operation.key == "corner":
                self._square(lies)
        if way == "upside down":
            self._turn("upright")
        self._last()
        return tuple(self.made)

    def _add(self, key: str, title: str, do: Iterable[str], way: Way, **more: object) -> None:
        step = Step(len(self.made) + 1, key, title, tuple(do), way, present=tuple(self.placed), **more)  # type: ignore[arg-type]
        self.made.append(step)

    def _dry_fit(self, operation: Operation, way: Way) -> None:
        names = counted(self.build, operation.enters)
        self._add(
            "dry fit",
            "Dry fit",
            (
                f"Lay out {names} on a flat floor, {_lying(way)}, without screws.",
                "Check every piece against its label and its length.",
            ),
            way,
            look=("Each corner closes with no gap.",),
            wrong=("A rail that is too long or short shows now, before any hole is bored.",),
        )

    def _work(self, operation: Operation, way: Way) -> None:
        words = WORDS[wording(operation)]
        hides = () if operation.prepares else self._hidden_by(operation)
        new = () if operation.prepares else operation.enters
        heaviest = max((self.each[label] for label in operation.enters), default=0.0)
        self._add(
            operation.key,
            words.title,
            (*_bring(self.build, operation), *_places(self.build, operation), *words.do),
            way,
            new=new,
            made=operation.enters if operation.prepares else (),
            operation=operation,
            screws=screws(operation.fastenings, self.units),
            look=words.look,
            wrong=words.wrong,
            hides=hides,
            weight=heaviest,
        )
        if not operation.prepares:
            self.placed += new
            self.reachable = [f for f in self.reachable if f.joint.label not in hides] + list(operation.fastenings)

    def _hidden_by(self, operation: Operation) -> tuple[str, ...]:
        """Joints that lose their last way for a driver with the newcomers in place."""
        return tuple(
            dict.fromkeys(f.joint.label for f, _, _ in locks(self.build, self.reachable, operation.enters, self.access))
        )

    def _square(self, way: Way) -> None:
        s, units = self.square, self.units
        size = write_length(Fraction(s.outside_diagonal), units)
        limit = write_length(s.tolerance, units)
        lean = write_length(Fraction(s.lean(float(s.tolerance))), units)
        self._add(
            "square",
            "Square the frame",
            (
                f"Measure both diagonals over the outside corners: each should read {size}.",
                f"If they differ by more than {limit}, push the longer diagonal's corners together until they agree.",
                "Brace one corner with a board and two clamps until the next parts hold the frame.",
            ),
            way,
            look=(f"A difference of {limit} means one side rail stands {lean} ahead of the other.",),
            wrong=("A frame out of square pinches the mattress at two corners and opens at the others.",),
        )

    def _turn(self, to: Way) -> None:
        weight = total(self.placed, self.each)
        moved = turn(weight, float(max(self.build.outside)), float(self._depth()))
        lift = (
            f"Stand {numbered(moved.people)} along one side, lift that side, and turn the frame over {_onto(to)}. It "
            f"weighs {weigh(weight, self.units)}; the hands start with half of it, {weigh(moved.share, self.units)}."
        )
        self._add(
            "turn",
            f"Turn the frame {to}" if to == "upright" else "Turn the frame upside down",
            (lift, ROLL),
            to,
            look=TURN_LOOK,
            wrong=("Left and right change places when the frame is turned: go by the labels.",),
            weight=weight,
            turn=moved,
        )

    def _depth(self) -> Fraction:
        """Height of the frame's edge above the floor where the hands take hold [in]."""
        return self.build.heights.rail_top - self.build.heights.rail_bottom

    def _last(self) -> None:
        self._add(
            "level",
            "Level the bed",
            (
                "Stand the bed in its place and press on each corner.",
                "Slide a sheet of paper under every leg: where it goes through, shim that leg or turn its leveller.",
            ),
            "upright",
            look=("Every leg touches the floor, those in the middle too.",),
            wrong=("A middle leg that hangs free doubles the span of what it should carry.",),
        )
        self._add(
            "retighten",
            "Go round again after a month",
            ("Take the mattress off and turn every screw and nut that a driver still reaches.",),
            "upright",
            look=("Squeaks: find the two parts that rub and tighten what holds them.",),
            wrong=("Wood dries and shrinks in a warm room; screws that were tight are loose then.",),
        )


def wording(operation: Operation) -> str:
    """Which words tell of an operation."""
    stem = operation.key.split(" ")[0]
    return f"bench {stem}" if operation.prepares and stem != "ply" else stem


def screws(fastenings: Sequence[Fastening], units: str) -> tuple[Screws, ...]:
    """The fasteners of a step by kind, with count and tool."""
    counts: Counter[Fastener] = Counter()
    pilots: dict[Fastener, float] = {}
    for fastening in fastenings:
        counts[fastening.fastener] += fastening.count
        pilots[fastening.fastener] = fastening.pilot
    return tuple(Screws(count, fastener_name(f, units), tool(f, pilots[f], units)) for f, count in counts.items())


def fastener_name(fastener: Fastener, units: str) -> str:
    """A fastener as it is asked for in a shop: "#9 x 2 1/2 in wood screw"."""
    if fastener.kind == "bracket":
        return "bracket"
    length = write_length(fastener.length, units)
    if fastener.gauge:
        return f"{fastener.gauge} x {length} {fastener.kind}"
    if fastener.kind == "structural screw":
        return f"{length} {fastener.kind}"
    if units == "mm":
        return f"{fastener.diameter * 25.4:.0f} x {length} {fastener.kind}"
    return f"{write_inches(Fraction(fastener.diameter).limit_denominator(64), 32)} x {length} {fastener.kind}"


def tool(fastener: Fastener, pilot: float, units: str = "in") -> str:
    """What drives it."""
    size = (
        f"{pilot * 25.4:.1f} mm" if units == "mm" else f"{write_inches(Fraction(pilot).limit_denominator(64), 64)} in"
    )
    bit = f"{size} bit"
    if fastener.kind == "bracket":
        return "driver and the bracket's own screws"
    if fastener.kind == "carriage bolt":
        return f"drill with a {bit}, hammer, wrench for the nut"
    if fastener.kind == "lag screw":
        return f"drill with a {bit}, socket wrench"
    return f"drill with a {bit}, driver" if pilot else "driver"


def counted(build: Build, labels: Iterable[str], boards: bool = False) -> str:
    """Pieces counted by part: "2 side rails and 2 end rails"; legs of two boards count as legs."""
    legs = {label: leg for leg in build.legs for label in leg.pieces if len(leg.pieces) > 1}
    names: Counter[str] = Counter()
    seen: set[str] = set()
    for label in labels:
        name = build.part_of(label).name
        if label in legs and not boards:
            if legs[label].label in seen:
                continue
            seen.add(legs[label].label)
            name = "leg with its flange" if build.options.legs.kind == "tube" else "leg"
        elif label in legs:
            name += " board"
        names[name] += 1
    words = [f"{n} {_plural(name) if n > 1 else name}" for name, n in names.items()]
    return " and ".join(filter(None, [", ".join(words[:-1]), *words[-1:]])) or "nothing"


def _plural(name: str) -> str:
    return name.replace("leg with its flange", "legs with their flanges") if "flange" in name else f"{name}s"


def _bring(build: Build, operation: Operation) -> Iterator[str]:
    """What to fetch, by label."""
    if not operation.enters:
        return
    legs = {label: leg.label for leg in build.legs for label in leg.pieces}
    labels = list(
        dict.fromkeys(f"leg {legs[x]}" if x in legs and operation.key != "ply" else x for x in operation.enters)
    )
    listed = ", ".join(labels) if len(labels) <= 6 else f"{labels[0]} to {labels[-1]}"
    named = counted(build, operation.enters, operation.key == "ply")
    yield f"Take {named}: {listed}."


def _places(build: Build, operation: Operation) -> Iterator[str]:
    """Where the newcomers go, in figures."""
    units, heights = build.options.build.units, build.heights
    if operation.key == "cleat":
        drop = write_length(heights.rail_top - heights.slat_bottom, units)
        yield f"Draw a line inside each side rail, {drop} down from its top edge: the cleat's top goes there."
    if operation.key.startswith("leg"):
        edges = sorted({leg.near_edge for leg in build.legs if leg.line in ("left", "right")})
        marks = ", ".join(write_length(x, units) for x in edges)
        yield f"Mark the legs' head-side edges at {marks} from the head end of the bed."
    if any(joint.kind == "flange" for joint in operation.joints):
        yield "Screw each flange in its place first, then turn its tube in."
    if operation.key.startswith("line"):
        lines = [line for line in build.lines if line.name.startswith("line")]
        marks = ", ".join(write_length(line.seat[0], units) for line in lines)
        yield f"Mark each line's left edge at {marks} from the bed's left outer face."


def weigh(pounds: float, units: str) -> str:
    """A weight as told: whole pounds, or whole kilograms in a metric plan."""
    return f"{pounds * 0.45359237:.0f} kg" if units == "mm" else f"{pounds:.0f} lb"


def numbered(people: int) -> str:
    """ "one person", "two people"."""
    words = ["nobody", "one person", "two people", "three people", "four people"]
    return words[people] if people < len(words) else f"{people} people"


def _lying(way: Way) -> str:
    return "top edges down" if way == "upside down" else "top edges up"


def _onto(way: Way) -> str:
    return "onto its legs" if way == "upright" else "onto its top edges"
