"""Notebook 07's panels: my mattress, my boards, my saw; boards cut wrong; all sizes at once."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import count
from pathlib import Path
from typing import Any

from tutorial_lib.adapting import Adaptation, Comparison, adapt, comparison
from tutorial_lib.adapting.family import CONSTRUCTIONS, LEG_LAYOUTS, MOST_ASKED, Member, family
from tutorial_lib.adapting.own_boards import read_own_boards
from tutorial_lib.adapting.search import telling
from tutorial_lib.adapting.tracks import webvtt
from tutorial_lib.adapting.wrong_cut import wrong_cut
from tutorial_lib.design.deck_options import HEIGHT_KEYS
from tutorial_lib.design.model import Part
from tutorial_lib.design.options import Options
from tutorial_lib.errors import TutorialError
from tutorial_lib.facts import Fact, facts_of
from tutorial_lib.measures import exact_length, read_length, writer
from tutorial_lib.narration import Report, check, read_captions
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import Block, Note
from tutorial_lib.publishing.topics import adapting as pages
from tutorial_lib.strength.sections import grade_names
from tutorial_lib.tables import dressed_sizes, mattresses, species_names
from tutorial_lib.workbook import current
from tutorial_lib.workbook.controls import Control, look_up, weighed
from tutorial_lib.workbook.panel import Panel
from tutorial_lib.workbook.sections import Result

THEIRS = ""  # as the creator has it
BOX_ROOM = Fraction(1, 2)  # [in] above a storage box; our choice
GRADES = tuple((name, name) for name in grade_names())
NEWS = 14  # lines beside the controls
DIFFERS, EVERY = "what differs", "every fact"


def _sizes() -> tuple[tuple[str, str], ...]:
    names = dict.fromkeys(m.name if m.region == "US" else f"{m.region} {m.name}" for m in mattresses())
    return (("the creator's", THEIRS), *((name, name) for name in names))


def _length(key: str, label: str, low: int | str, high: int, empty: str) -> Control:
    return Control(
        key=key, label=label, kind="length", low=Fraction(low), high=Fraction(high), step=Fraction(1, 16), empty=empty
    )


EXAMPLES = {"in": "54 x 74 1/2 in", "mm": "1380 x 1890 mm"}  # a mattress as one measures it, in a plan's units
ON = (("the slats", "mattress"), ("a box spring", "box spring"))
SECTION_NAMES = tuple((size.name, size.name) for size in dressed_sizes())
SPECIES = tuple((name, name) for name in species_names())
CONTROLS = (
    Control(key="mattress", label="My mattress", kind="choice", choices=_sizes(), value=THEIRS),
    Control(key="measured", label="As I measured it", kind="text", value=""),
    Control(key="slats.carries", label="It lies on", kind="choice", choices=ON),
    Control(key="load.people", label="People", kind="count", low=Fraction(1), high=Fraction(4)),
    Control(key="person", label="Each weighs", kind="count", low=Fraction(40), high=Fraction(400), value=None),
    Control(key="wood.species", label="Species", kind="choice", choices=SPECIES),
    Control(key="wood.grade", label="Grade stamped", kind="choice", choices=GRADES),
    Control(key="legs.per_side", label="Legs a side", kind="count", low=Fraction(1), high=Fraction(6)),
    _length("rail thickness", "Rails' thickness", "3/4", 2, "as listed"),
    _length("rail width", "Rails' width", 3, 10, "as listed"),
    _length("slat thickness", "Slats' thickness", "1/2", 2, "as listed"),
    _length("slat width", "Slats' width", 2, 6, "as listed"),
    Control(key="saw.kind", label="My saw", kind="choice", choices=(("a power saw", "power"), ("a hand saw", "hand"))),
    _length("saw.kerf", "My saw's kerf", "1/16", 1, "the creator's"),
    _length("height", "Floor to underside", 4, 24, "the creator's"),
    _length("box", "Storage box", 2, 20, "none"),
    Control(key="have", label="Boards I have", kind="boards", choices=SECTION_NAMES, value=()),
    Control(key="metric", label="Plan in millimetres", kind="check", value=False),
    Control(key="shown", label="Show", kind="choice", choices=((DIFFERS, DIFFERS), (EVERY, EVERY)), value=DIFFERS),
)
SECTIONS = {"rail": "frame.rail", "slat": "slats.lumber"}
MEASURED = {f"{part} {side}": (part, side) for part in SECTIONS for side in ("thickness", "width")}


class AdaptingPanel(Panel):
    """The creator's bed made yours; every change starts from the creator's build."""

    heading = "Yours"
    saves = True
    results = (
        Result("slat.count", "{} slats"),
        Result("slat.gap", "gap {}"),
        Result("lumber.boards", "{} boards"),
        Result("lumber.cost"),
    )
    controls = CONTROLS

    def __init__(self, options: Options | None = None, captions: str = "") -> None:
        self.asked: dict[str, Any] = {}
        self.adaptation: Adaptation | None = None
        self.found: Comparison | None = None
        self.captions = captions
        self.checked: Report | None = None
        super().__init__(options)
        self._read_person(self.options)

    def offered(self) -> tuple[Control, ...]:
        """The same controls for every bed, the example and the weight in the plan's units."""
        made = {c.key: c for c in CONTROLS}
        made["measured"] = replace(made["measured"], empty=f"such as {EXAMPLES[self.units]}")
        made["person"] = weighed(made["person"], self.options.build.units)
        return tuple(made.values())

    def enabled(self, control: Control) -> bool:
        """Millimetres are asked for where the creator's bed is in inches."""
        return control.key != "metric" or self.start.creator.build.units == "in"

    # what is asked for

    def change(self, changes: Mapping[str, Any]) -> None:
        """Adapts the creator's build to all that has been asked for so far; a fault keeps the last good bed."""
        own, asked = dict(self.own), dict(self.asked)
        try:
            self.own |= {key: value for key, value in changes.items() if "." not in key}
            self._ask(changes)
            ways = count()
            with telling(lambda: self._tell_wait(next(ways))):
                made = self._adapted()
            self._show(made)
        except TutorialError as error:
            self.own, self.asked = own, asked
            self._refuse(error, list(changes))

    def _tell_wait(self, before: int) -> None:
        """A search may take some seconds: who waits sees it go on."""
        if self._view is not None:
            self._view.busy(f"working it out … {before + 1} ways to build it tried" if before else "working it out …")

    def _ask(self, changes: Mapping[str, Any]) -> None:
        for key, value in changes.items():
            if key == "person":
                self._want("load.person", f"{value} {writer(self.options.build.units).unit('weight')}")
            elif key == "height":
                self._height(value)
            elif key == "metric":
                self._want("build.units", "mm" if value else None)
            elif key in MEASURED:
                part, side = MEASURED[key]
                self._want(f"lumber.{look_up(self.start.creator, SECTIONS[part])}.{side}", value)
            elif "." in key:
                self._want(key, value)

    def _want(self, key: str, value: Any) -> None:
        """Asks for a value; None, or the creator's own, asks for nothing."""
        self.asked.pop(key, None)
        if value is not None and not _same(self.start.creator, key, value):
            self.asked[key] = value

    def _height(self, value: str | None) -> None:
        for name in HEIGHT_KEYS:
            self.asked.pop(f"heights.{name}", None)
        if value:
            self.asked["heights.underside"] = value

    def _adapted(self) -> Adaptation:
        creator, size = self.start.creator, self.own["measured"] or self.own["mattress"] or None
        have = read_own_boards((row.text for row in self.own["have"]), creator.build.units, "have")
        made = adapt(creator, size, self.asked, have)
        box = self.own["box"]
        if not box:
            return made
        wanted = _inches(box, creator) + BOX_ROOM
        if made.yours.build.heights.storage < wanted:  # a centre line may hang lower than the sides
            self.asked["heights.storage"] = exact_length(wanted, creator.build.units)
            made = adapt(creator, size, self.asked, have)
        return made

    def _show(self, made: Adaptation) -> None:
        self.adaptation, self.found = made, comparison(made, self.report)
        _read_lengths(self.own, self.controls, made.yours.options)
        before = self.stated
        self.options, self.plan, self.errors = made.yours.options, made.yours, {}
        self._fit()
        self._read_person(self.options)
        self.blocks = list(self.show(self.plan))
        self.stated = {fact.key: fact for fact in self.facts(self.plan)}
        self.before = before
        self.changed = frozenset(k for k, f in self.stated.items() if k not in before or before[k].value != f.value)
        self._refresh()

    def reset(self) -> None:
        """Back to the creator's build: every number as it was."""
        self.asked, self.adaptation, self.found = {}, None, None
        self.own = {control.key: control.value for control in self.controls if not control.bound}
        self._read_person(self.start.creator)
        super().reset()

    def _read_person(self, options: Options) -> None:
        """What one person weighs, in the plan's own unit."""
        self.own["person"] = round(writer(options.build.units).convert("weight", options.load.person))

    # the creator's captions

    @property
    def report(self) -> Report | None:
        """The creator's captions checked against the creator's bed, where there are captions."""
        path = self.captions_path()
        if self.checked is None and path is not None:
            self.checked = check(read_captions(path), facts_of(Plan(self.start.creator)))
        return self.checked

    def captions_path(self) -> Path | None:
        """The captions named, or those of the build all notebooks work on."""
        if self.captions:
            return Path(self.captions).expanduser()
        return current.captions() if current.current().creator == self.start.creator else None

    def track(self) -> str:
        """The creator's captions with your numbers in them, as WebVTT."""
        return webvtt(self._comparison())

    def _comparison(self) -> Comparison:
        if self.found is None:
            self.adaptation = adapt(self.start.creator)
            self.found = comparison(self.adaptation, self.report)
        return self.found

    # what is shown

    def change_lines(self) -> list[str]:
        """The first of what changed; the comparison below has it all."""
        made = super().change_lines()
        return made if len(made) <= NEWS else [*made[:NEWS], f"and {len(made) - NEWS} more, below"]

    def show(self, plan: Plan) -> Sequence[Block]:
        """The comparison with the creator's bed."""
        made = pages.blocks(self._comparison(), self.own["shown"] == EVERY)
        box = self.own["box"]
        if box:
            low = plan.build.heights.storage
            spare = low - _inches(box, plan.options)
            made.insert(0, Note(f"The lowest wood between the legs is {_write(plan, low)} above the floor: the box "
                                f"goes under with {_write(plan, spare)} to spare."))  # fmt: skip
        return made

    def facts(self, plan: Plan) -> Iterable[Fact]:
        """Facts of shape and cutting of the adapted bed."""
        return facts_of(plan, ["design", "cutting"]).values()


def _write(plan: Plan, x: Fraction) -> str:
    return exact_length(x, plan.options.build.units)


def _inches(value: str | Fraction, options: Options) -> Fraction:
    return value if isinstance(value, Fraction) else read_length(value, options.build.units)


def _read_lengths(own: dict[str, Any], controls: Sequence[Control], options: Options) -> None:
    """Lengths as numbers, so that the sliders stand where the boxes say."""
    for control in controls:
        if control.kind == "length" and not control.bound and own[control.key]:
            own[control.key] = _inches(own[control.key], options)


def _same(options: Options, key: str, value: Any) -> bool:
    """True if the options have this value already."""
    try:
        have = look_up(options, key)
    except AttributeError:
        return False
    return bool(have == value or (isinstance(have, Fraction) and exact_length(have, options.build.units) == value))


def _cut(plan: Plan) -> list[Part]:
    """The parts that are cut from wood."""
    return [part for part in plan.build.made if not part.section.steel]


class WrongCutPanel(Panel):
    """Boards already cut wrong: keep, recut or shim."""

    heading = "Already cut"

    def offered(self) -> tuple[Control, ...]:
        """The parts of this bed that can be cut, and as many pieces as the part in hand has."""
        parts = tuple((p.name, p.key) for p in _cut(self.plan))
        many = Fraction(self._part(self.plan).count)
        return (
            Control(key="part", label="What is cut wrong", kind="choice", choices=parts, value=parts[0][1]),
            _length("actual", "Length they have", 1, 96, "as planned"),
            Control(key="count", label="How many (0: all)", kind="count", low=Fraction(0), high=many, value=0),
        )

    def enabled(self, control: Control) -> bool:
        """How many is asked once there is a length."""
        return control.key != "count" or bool(self.own["actual"])

    def _part(self, plan: Plan) -> Part:
        """The part in hand; the first one of a bed without it."""
        return next((part for part in _cut(plan) if part.key == self.own.get("part")), _cut(plan)[0])

    def change(self, changes: Mapping[str, Any]) -> None:
        """As the base does; the length is then held as a number."""
        super().change(changes)
        if not self.errors:
            _read_lengths(self.own, self.controls, self.options)
            self._refresh()

    def show(self, plan: Plan) -> Sequence[Block]:
        """The three ways."""
        actual = self.own["actual"]
        if not actual:
            part = self._part(plan)
            number = f", {part.count} of them" if part.count > 1 else ""
            return [Note(f"{part.name}, as planned: {_write(plan, part.length)}{number}. Give the length they have.")]
        length = _inches(actual, plan.options)
        return pages.wrong(wrong_cut(plan, self.own["part"], length, self.own["count"] or None))

    def lines(self) -> list[str]:
        """The three ways as text."""
        from tutorial_lib.adapting.wrong_cut import lines

        if not self.own["actual"]:
            return [self.heading]
        length = _inches(self.own["actual"], self.options)
        return list(lines(wrong_cut(self.plan, self.own["part"], length, self.own["count"] or None)))


ASKED, ALL = "the most asked", "every size of the table"
BUILT: dict[str, Mapping[str, Mapping[str, Any]] | None] = {
    "as the creator builds it": None, "every construction": CONSTRUCTIONS, "every leg layout": LEG_LAYOUTS,
}  # fmt: skip
WAYS = tuple((name, name) for name in BUILT)


class FamilyPanel(Panel):
    """All sizes at once, for the creator to look over."""

    heading = "All sizes"
    controls = (
        Control(key="sizes", label="Sizes", kind="choice", choices=((ASKED, ASKED), (ALL, ALL)), value=ASKED),
        Control(key="built", label="Built", kind="choice", choices=WAYS, value="as the creator builds it"),
    )

    def __init__(self, options: Options | None = None) -> None:
        self.members: tuple[Member, ...] = ()
        super().__init__(options)

    def show(self, plan: Plan) -> Sequence[Block]:
        """Sizes by parts, and the rules that trip."""
        sizes = None if self.own["sizes"] == ALL else MOST_ASKED
        self.members = family(self.start.creator, sizes, BUILT[self.own["built"]], progress=self._tell)
        return pages.family_blocks(self.members, plan.options.build.units)

    def _tell(self, done: int, total: int, member: Member) -> None:
        """A bar that grows while the beds are worked out."""
        if self._view is not None:
            left = total - done
            self._view.general.value = "" if not left else f"{'▮' * done}{'▯' * left} {done} of {total}: {member.size}"

    def lines(self) -> list[str]:
        """One line a size."""
        return [
            f"{m.size}, {m.variant}: {'holds' if m.sound else 'no'}; {m.cost}; {'; '.join(m.changes or ('as it is',))}"
            for m in self.members
        ]
