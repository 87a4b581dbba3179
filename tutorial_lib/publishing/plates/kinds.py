"""The plates of a plan: one for each part, count, drawing, step and correction; for single facts, for a chapter."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import cached_property
from typing import TYPE_CHECKING

from tutorial_lib.assembly.wording import counted
from tutorial_lib.design.parts import LEG_KEYS, NAMES
from tutorial_lib.design.zero import leg_zero_short
from tutorial_lib.errors import InputError
from tutorial_lib.facts.figures import write_value
from tutorial_lib.lists.names import letters
from tutorial_lib.measures import writer
from tutorial_lib.narration.verdicts.writing import written_whole
from tutorial_lib.publishing.booklet.steps import to_do
from tutorial_lib.publishing.chapters import chapters, seconds_of_step, several
from tutorial_lib.publishing.corrections import consequence, right_value
from tutorial_lib.publishing.plates import pictures
from tutorial_lib.publishing.plates.plate import FORMS, SCREENS, Form, Plate
from tutorial_lib.tables import unknown

if TYPE_CHECKING:
    from tutorial_lib.assembly.steps import Step
    from tutorial_lib.design.model import Build, Part
    from tutorial_lib.drawing.scene import Scene
    from tutorial_lib.facts import Fact, Facts
    from tutorial_lib.narration import Report
    from tutorial_lib.plan import Plan
    from tutorial_lib.publishing.chapters import Chapter

BESIDE: dict[Form, tuple[float, float]] = {"wide": (1000.0, 640.0), "tall": (800.0, 640.0)}  # [px] a drawing's room
DRAWINGS = {"slat.marks": "slats", "slat.gap": "slats", "leg.marks": "legs", "frame.recess": "section"}
BRIEF = 180  # letters of a step's sentences on a plate, the first in any case; our choice, to be read while it stands


class Plates:
    """Makes the plates of one plan."""

    def __init__(self, plan: Plan, facts: Facts, report: Report | None = None) -> None:
        self.plan, self.facts, self.report = plan, facts, report
        self.build: Build = plan.build
        self.w = writer(plan.options.build.units)

    @cached_property
    def chapters(self) -> tuple[Chapter, ...]:
        """The talk's chapters."""
        return chapters(self.report, self.facts) if self.report else ()

    # Which.

    def all(self) -> list[Plate]:
        """Every part with its count, the slats, the legs, the section, each step, each correction."""
        parts = [plate for part in self.build.made for plate in (self.part(part), self.count(part))]
        return [*parts, self.slats(), self.legs(), self.section(), *self.steps(), *self.corrections()]

    def of_facts(self, keys: Iterable[str]) -> list[Plate]:
        """A plate for each fact; one drawing that shows several stands once.

        Raises:
            InputError: the plan has no fact of a key.
        """
        found: dict[str, Plate] = {}
        for key in keys:
            if key not in self.facts:
                raise InputError(unknown("fact", key, self.facts).faults)
            plate = self.of_fact(self.facts[key])
            found.setdefault(plate.key, plate)
        return list(found.values())

    def of_chapter(self, chapter: Chapter) -> list[Plate]:
        """A plate for each number said in a chapter of the talk, in spoken order, and for what is corrected in it."""
        items = self.report.items if self.report else ()
        said = [i for i in items if i.t is not None and chapter.start <= i.t < chapter.end]
        keys = dict.fromkeys(i.subject for i in said if i.subject in self.facts and i.verdict != "conflicts")
        wrong = [p for p in self.corrections() if p.time is not None and chapter.start <= p.time < chapter.end]
        return [*self.of_facts(key for key in keys if key), *wrong]

    # One by one.

    def of_fact(self, fact: Fact) -> Plate:
        """The plate of one fact: a part's own where it is its length or count, a drawing's where one shows it."""
        drawing = DRAWINGS.get(fact.key)
        if drawing is not None:
            return {"slats": self.slats, "legs": self.legs, "section": self.section}[drawing]()
        head, _, tail = fact.key.partition(".")
        part = self.build.part(head) if self.build.has(head) else None
        if part is not None and (tail == "length" or (tail == "height" and part.use in LEG_KEYS)):
            return self.part(part)
        if part is not None and tail == "count" and fact.value == part.count:
            return self.count(part)
        return Plate(
            key=f"fact-{_file(fact.key)}", kind="fact", head=self.spoken(fact),
            big=write_value(fact, self.facts.units), time=self._time(fact.key),
        )  # fmt: skip

    def part(self, part: Part) -> Plate:
        """A part: its letter, how many are cut, its length and true size, where it goes."""
        section = part.section
        size = f"{self.w.mark(section.thickness)} x {self.w.mark(section.width)} {self.w.units}"
        lumber = section.name if section.steel else f"{section.name}, true size {size}"
        wide, tall = self._placed(part, (740.0, 520.0))
        return Plate(
            key=f"part-{_file(part.key)}", kind="part", letter=self.letter(part),
            head=f"{_upper(self.name(part))}, cut {part.count}", big=self.w.length(part.length), small=(lumber,),
            wide=wide, tall=tall, time=self._time(f"{part.key}.length"),
        )  # fmt: skip

    def count(self, part: Part) -> Plate:
        """How many of a part, where they are."""
        wide, tall = self._placed(part, (740.0, 520.0))
        return Plate(
            key=f"count-{_file(part.key)}", kind="count", letter=self.letter(part),
            head=_upper(self.name(part, many=part.count > 1)), big=str(part.count),
            small=(f"{part.section.name}, {self.w.length(part.length)}",),
            wide=wide, tall=tall, time=self._time(f"{part.key}.count"),
        )  # fmt: skip

    def slats(self) -> Plate:
        """The slat strip."""
        row = self.build.slats
        wide, tall = (pictures.slat_strip(self.build, SCREENS[form].safe[0] - 78) for form in FORMS)
        about = "" if row.gap % self.w.grid == 0 else "about "
        gap = f", gaps of {about}{self.w.length(row.gap)}" if row.count > 1 else ""
        return Plate(
            key="slats", kind="slats", head=f"{row.count} {several(self.own_word('slat'))}{gap}",
            small=("Near edges, all from the head rail's inner face",), wide=wide, tall=tall,
            time=self._time("slat.gap"),
        )  # fmt: skip

    def legs(self) -> Plate:
        """The leg map."""
        wide, tall = (pictures.leg_map(self.build, *BESIDE[form]) for form in FORMS)
        return Plate(
            key="legs", kind="legs", head=f"{len(self.build.legs)} {several(self.own_word('leg'))}, from above",
            small=(f"Head-side edges from {leg_zero_short(self.build)}",), wide=wide, tall=tall,
            time=self._time("leg.marks", "leg.setback"),
        )  # fmt: skip

    def section(self) -> Plate:
        """The section through rail, support and slat."""
        uses = pictures.section_uses(self.build)
        called = {use: min(self.own_words(use), key=len) for use in uses}
        wide, tall = (pictures.section_drawing(self.build, called, *BESIDE[form]) for form in FORMS)
        *first, last = called.values()
        return Plate(
            key="section", kind="section", head=_upper(f"{', '.join(first)} and {last}"),
            small=(f"{self.w.length(self.build.heights.slat_top)} from the floor to the slats' top",),
            wide=wide, tall=tall, time=self._time("frame.recess", "cleat.drop"),
        )  # fmt: skip

    def steps(self) -> list[Plate]:
        """A plate for each step of the assembly that has a drawing."""
        steps = self.plan.assembly.steps
        return [self.step(step, len(steps)) for step in steps if step.operation is not None or step.key == "square"]

    def step(self, step: Step, of: int) -> Plate:
        """One step: what it is called, what to do, what it looks like."""
        wide, tall = (pictures.step_picture(self.build, step, *BESIDE[form]) for form in FORMS)
        screws = tuple(f"{s.count} x {s.name}" for s in step.screws)
        pieces = step.new or step.made
        fetched = (f"{counted(self.build, pieces, step.key == 'ply')}.",) if pieces else ()
        return Plate(
            key=f"step-{step.number:02}-{_file(step.key)}", kind="step", head=f"{step.number} of {of}. {step.title}",
            small=(*fetched, *_brief(to_do(self.plan, step)), *screws), wide=wide, tall=tall,
            time=seconds_of_step(self.chapters, step.key),
        )  # fmt: skip

    def corrections(self) -> list[Plate]:
        """A plate for each slip of the talk: what was said, what it is, what to do about it."""
        if self.report is None:
            return []
        units = self.report.units
        found: list[Plate] = []
        for item in (i for i in self.report.conflicts if i.plan_value and i.value):
            affected = consequence(item)[0]
            fact = self.facts.get(item.subject or "")
            found.append(
                Plate(
                    key=f"correction-{len(found) + 1:02}-{_file(str(item.subject))}", kind="correction",
                    head=self.spoken(fact) if fact else item.what, wrong=written_whole(item.value, item.unit, units),
                    big=right_value(item, units), small=(_sentence(affected),), time=item.t,
                )
            )  # fmt: skip
        return found

    # Words.

    def name(self, part: Part, many: bool = False) -> str:
        """A part, or several of it, by the creator's own word, with its length where there are several kinds of it."""
        own, plain = self.own_word(part.use), NAMES.get(part.use, part.name)
        if not many:
            return part.name.replace(plain, own)
        return part.several.replace(f"{plain}s", several(own)) if own != plain else part.several

    def own_word(self, use: str) -> str:
        """The word the creator says for a part: the first under ``[names]``, else the trade's."""
        return self.own_words(use)[0]

    def own_words(self, use: str) -> tuple[str, ...]:
        """All words of the creator's for a part."""
        return self.plan.options.names.get(use) or (NAMES.get(use, use),)

    def spoken(self, fact: Fact) -> str:
        """What a fact is, with the creator's own word for the part in it."""
        head = fact.what.partition(" (")[0]
        plain = NAMES.get(fact.key.split(".")[0])
        if plain and fact.said_as and not any(re.search(rf"\b{re.escape(w)}", head) for w in fact.said_as[:1]):
            head = re.sub(rf"\b{re.escape(plain)}(?=s?\b)", fact.said_as[0], head)
        return _upper(head)

    def letter(self, part: Part) -> str:
        """The part's letter, in the order of the job."""
        return letters(self.build)[part.key]

    def _placed(self, part: Part, room: tuple[float, float]) -> tuple[Scene, Scene]:
        wide = pictures.in_the_bed(self.build, (part.key,), *room)
        return wide, pictures.in_the_bed(self.build, (part.key,), SCREENS["tall"].safe[0] - 78, 620.0)

    def _time(self, *keys: str) -> float | None:
        """When the talk first speaks of any of some facts [s]."""
        items = self.report.items if self.report else ()
        return next((item.t for item in items if item.subject in keys), None)


def _brief(sentences: Sequence[str]) -> Sequence[str]:
    """The first sentence, and the second where both are short."""
    return sentences[: 2 if sum(map(len, sentences[:2])) <= BRIEF else 1]


def _sentence(told: str) -> str:
    return f"{_upper(told)}."


def _upper(told: str) -> str:
    return told[:1].upper() + told[1:]


def _file(key: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", key.lower()).strip("-")


def chapter_named(found: Sequence[Chapter], name: str) -> Chapter:
    """The chapter of a title, or of a part of it.

    Raises:
        InputError: no chapter has it, or several.
    """
    titles = [chapter.title for chapter in found]
    exact = [c for c in found if c.title.lower() == name.lower()]
    near = exact or [c for c in found if name.lower() in c.title.lower()]
    if len(near) != 1:
        if near:
            raise InputError(f'"{name}" is several chapters; name one: {", ".join(c.title for c in near)}.')
        raise InputError(f'"{name}" is no chapter of the talk; there are {", ".join(titles) or "none"}.')
    return near[0]
