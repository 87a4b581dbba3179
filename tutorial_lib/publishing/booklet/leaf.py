"""A page of the booklet as data, and what its pages are made from.

A leaf's strings reach typst as data, never as markup.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from functools import cached_property
from typing import TYPE_CHECKING

from tutorial_lib.drawing.layout import extent
from tutorial_lib.drawing.lettering import typographic
from tutorial_lib.drawing.scene import Dimension, Scene
from tutorial_lib.drawing.svg import svg
from tutorial_lib.facts import Facts, facts_of
from tutorial_lib.facts.figures import write_value
from tutorial_lib.findings import Finding, by_severity
from tutorial_lib.finishing.timeline import Task, from_first_cut
from tutorial_lib.lists.names import letters
from tutorial_lib.measures import Writer, writer
from tutorial_lib.publishing.chapters import Chapter, chapters
from tutorial_lib.records import dataclass

if TYPE_CHECKING:
    from tutorial_lib.adapting import Comparison
    from tutorial_lib.assembly import Assembly
    from tutorial_lib.plan import Plan

Data = Mapping[str, object]
INCHES_OR_MM = {"": "", "in": "inches", "mm": "mm"}  # what a unit is called in a sentence
MUCH, BOTH = 27, 6  # kinds of drilled pieces and steps from which all is set closer; what a second unit counts for
MOST = 38  # from which drawings are smaller still


@dataclass(frozen=True)
class Leaf:
    """One or more pages laid out by the typst function ``kind``, which stands in the .typ file of the same name."""

    kind: str
    data: Data
    joined: bool = False  # goes on below the page before, where there is room


@dataclass(frozen=True, kw_only=True)
class Book:
    """What the pages are made from."""

    plan: Plan
    found: Comparison | None = None  # the creator's bed beside this one, and what the video says
    both: bool = False  # lengths in the other system too
    width: float = 509.0  # [pt] of a line

    @property
    def w(self) -> Writer:
        """The plan's units; lengths in sentences in the other system's too, where both are asked for."""
        return writer(self.plan.options.build.units, self.both)

    @cached_property
    def assembly(self) -> Assembly:
        """The steps in these units."""
        return self.plan.assembly_by(self.w) if self.both else self.plan.assembly

    @cached_property
    def close(self) -> bool:
        """Whether there is so much to tell that drawings are smaller and rows closer, so the booklet stays thin."""
        return self.much >= MUCH

    @cached_property
    def tight(self) -> bool:
        """Whether there is so very much to tell that drawings are smaller still."""
        return self.much >= MOST

    @property
    def much(self) -> int:
        """How much there is to tell: kinds of drilled pieces and steps, in two units more."""
        return len(self.plan.drilling.schedule) + len(self.plan.assembly.steps) + (BOTH if self.both else 0)

    @cached_property
    def tasks(self) -> tuple[Task, ...]:
        """One timeline from the first cut to the mattress."""
        plan = self.plan
        cuts = len(plan.cutting.sawn.boards) + sum(part.count for part in plan.build.made)  # each squared, each piece
        holes = sum(len(group.holes) * len(group.pieces) for group in plan.drilling.schedule)
        return from_first_cut(plan.finishing.tasks, cuts, holes)

    @cached_property
    def facts(self) -> Facts:
        """All facts of the plan."""
        return facts_of(self.plan)

    @cached_property
    def letters(self) -> dict[str, str]:
        """The letter of each part, by its key."""
        return letters(self.plan.build)

    @cached_property
    def chapters(self) -> tuple[Chapter, ...]:
        """The chapters of the video, where its captions were given."""
        report = self.found.report if self.found else None
        return chapters(report, self.found.before) if self.found and report else ()

    def fact(self, key: str) -> str:
        """A fact's value with its unit; a length as ``w`` has it."""
        return write_value(self.facts[key], self.facts.units, self.both)

    def mark(self, x: Fraction) -> list[str]:
        """A length at the tape's mark for a column; after it, where both are asked for, the other system's."""
        return [self.w.mark(x), *([self.w.other.length(x)] if self.both else [])]

    def bare(self, x: Fraction) -> list[str]:
        """A length at the tape's mark without a unit; after it, where both are asked for, the other system's."""
        return [self.w.mark(x), *([self.w.other.mark(x)] if self.both else [])]

    def bare_size(self, *xs: Fraction) -> list[str]:
        """Thickness by width without a unit; after it, where both are asked for, the other system's."""
        return [" x ".join(map(w.mark, xs)) for w in (self.w, *((self.w.other,) if self.both else ()))]

    def also(self, lengths: Sequence[Fraction]) -> list[str]:
        """Lengths that stand in a drawing, in the other system where both are asked for, without their unit."""
        return [self.w.other.mark(x) for x in lengths] if self.both else []

    def also_drawn(self, *scenes: Scene) -> str:
        """The dimensions of drawings in the other system where both are asked for: "in mm: 1 1/2 = 38, 35 = 889"."""
        if not self.both:
            return ""
        drawn = sorted({x for scene in scenes for x in dimensions(scene)})
        told = dict.fromkeys(f"{self.w.mark(x)} = {self.w.other.mark(x)}" for x in drawn)
        return f"in {INCHES_OR_MM[self.second]}: {', '.join(told)}"

    def length(self, x: Fraction) -> list[str]:
        """A length with its unit; after it, where both are asked for, the other system's."""
        return [f"{self.w.mark(x)} {self.w.units}", *([self.w.other.length(x)] if self.both else [])]

    def bit(self, x: Fraction) -> list[str]:
        """A bit by its sold size, without its unit in a column of its own system."""
        return [self.w.bit_number(x), *([self.w.other.nearest_bit(x)] if self.both else [])]

    @property
    def second(self) -> str:
        """The other system's unit where both are asked for."""
        return self.w.other.units if self.both else ""


class Drawn(dict[str, object]):
    """A drawing for a leaf, with the scene it was made from."""

    def __init__(self, scene: Scene, told: Data) -> None:
        super().__init__(told)
        self.scene = scene


def drawn(scene: Scene, full_size: bool = False) -> Drawn:
    """A drawing for a leaf, as wide as it was laid out; one in full size is never enlarged with the page."""
    x0, y0, x1, y1 = extent(scene)
    wide, high = x1 - x0 + 2 * scene.margin, y1 - y0 + 2 * scene.margin
    size = {"inches": round(wide / 72, 4)} if full_size else {"width": round(wide, 2)}
    size["steep"] = round(high / wide, 5)
    return Drawn(scene, {"svg": svg(scene, alt=False), "alt": scene.alt, **size})


def dimensions(scene: Scene) -> Iterator[Fraction]:
    """The lengths [in] that a drawing's dimension lines measure."""
    for shape in scene.shapes:
        if isinstance(shape, Dimension):
            wide, high = (abs(Fraction(b) - Fraction(a)) for a, b in zip(shape.p, shape.q, strict=True))
            yield {"x": wide, "y": high, None: max(wide, high)}[shape.along]


def scenes_in(data: object) -> Iterator[Scene]:
    """Every drawing of a leaf's data, in its order."""
    if isinstance(data, Drawn):
        yield data.scene
    elif isinstance(data, Mapping):
        yield from (scene for value in data.values() for scene in scenes_in(value))
    elif isinstance(data, list | tuple):
        yield from (scene for value in data for scene in scenes_in(value))


def cautions(findings: Sequence[Finding], notes: bool = False) -> list[Data]:
    """Findings for a leaf, stops first; notes where they are asked for."""
    wanted = [f for f in by_severity(findings) if notes or f.severity != "note"]
    return [
        {"severity": f.severity, "what": f.what,
         "rest": " ".join(filter(None, (_limit(f), f.remedy)))}
        for f in wanted
    ]  # fmt: skip


def _limit(finding: Finding) -> str:
    whose = f", {finding.whose}" if finding.whose else ""
    return f"(limit {finding.limit}{whose})" if finding.limit else ""


def dumped(data: object) -> str:
    """A leaf's data as JSON, its words set for paper; drawings have set theirs."""
    return json.dumps(_set(data), ensure_ascii=False)


def _set(data: object, key: str = "") -> object:
    if isinstance(data, str):
        return data if key == "svg" else typographic(data)
    if isinstance(data, Mapping):
        return {name: _set(value, name) for name, value in data.items()}
    if isinstance(data, list | tuple):
        return [_set(value) for value in data]
    return data
