"""The strength panel: people, wood, slats and legs; leg map, utilisations and bent shapes redrawn."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from typing import Any

from tutorial_lib.design.options import Options
from tutorial_lib.facts import Fact, facts_of
from tutorial_lib.findings import Remedy
from tutorial_lib.measures import Writer, writer
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import Block, Findings, Heading, Items, Picture, Text
from tutorial_lib.publishing.topics import strength as pages
from tutorial_lib.remedies import tried
from tutorial_lib.strength.sections import grade_names
from tutorial_lib.strength.use import Use
from tutorial_lib.tables import species_names
from tutorial_lib.workbook.choices import SLAT_STOCK, Group
from tutorial_lib.workbook.controls import Control, weighed
from tutorial_lib.workbook.panel import Panel
from tutorial_lib.workbook.sections import Result

PEOPLE, WOOD = Group("Who lies on it"), Group("Wood and slats")
PERSON = Control(key="person", label="Each weighs", kind="count", low=Fraction(80), high=Fraction(400), value=200,
                 group="Who lies on it")  # fmt: skip
BASE = (
    PEOPLE.count("load.people", "People", 1, 4),
    PERSON,
    PEOPLE.box("load.mattress", "Mattress", "weight", more=True),
    PEOPLE.box("load.bedding", "Bedding", "weight", more=True),
    PEOPLE.box("load.standing", "One who stands", "weight", more=True),
    PEOPLE.check("load.careful", "Careful: every duration factor 1", more=True),
    WOOD.choice("wood.species", "Species", tuple((name, name) for name in species_names())),
    WOOD.choice("wood.grade", "Grade on the stamp", tuple((name, name) for name in grade_names())),
    WOOD.choice("slats.lumber", "Slat stock", SLAT_STOCK),
)


class StrengthPanel(Panel):
    """Who lies on it, what it is made of, which legs are there."""

    heading = "Strength"
    saves = True
    results = (
        Result("rating.lying", "each may weigh {} lying"),
        Result("rating.sitting", "{} sitting on the edge"),
        Result("leg.count", "{} legs"),
    )

    def __init__(self, options: Options | None = None) -> None:
        super().__init__(options)
        self._read_person()

    def offered(self) -> tuple[Control, ...]:
        """People, wood, slats, and a button for every leg there is or was."""
        legs = [leg.label for leg in self.plan.build.legs] + list(self.options.legs.omit)
        self.legs = {f"leg {label}": label for label in sorted(set(legs))}
        base = (weighed(c, self.options.build.units) if c is PERSON else c for c in BASE)
        return (*base, *(
            Control(key=key, label=f"Leg {label}: take away or put back", kind="button", group="Legs")
            for key, label in self.legs.items()
        ))  # fmt: skip

    def change(self, changes: Mapping[str, Any]) -> None:
        """As the base does; a leg's button takes it away or puts it back."""
        full: dict[str, Any] = {}
        for key, value in changes.items():
            if key == "person":
                full |= {"person": value, "load.person": f"{value} {self.written.unit('weight')}"}
            elif key in self.legs:
                full["legs.omit"] = self._toggled(self.legs[key])
            else:
                full[key] = value
        super().change(full)

    def _refresh(self) -> None:
        self._read_person()
        super()._refresh()

    def told_at(self, key: str) -> str:
        """As the base does; one person's weight is a slider."""
        return "person" if key == "load.person" else super().told_at(key)

    def _toggled(self, label: str) -> list[str]:
        gone = list(self.options.legs.omit)
        return [name for name in gone if name != label] if label in gone else [*gone, label]

    def _read_person(self) -> None:
        self.own["person"] = round(self.written.convert("weight", self.options.load.person))

    @property
    def written(self) -> Writer:
        """The plan's units."""
        return writer(self.options.build.units)

    def show(self, plan: Plan) -> Sequence[Block]:
        """Ratings, findings, leg map, utilisations, bent shapes."""
        strong = plan.strength
        heading = Heading("What it carries, by calculation")
        found: list[Block] = [heading, *pages.rating(strong), Findings(strong.findings)]
        if not strong.uses:
            return found
        bars: list[Block] = [Heading("How much of what is allowed is used"), Picture(pages.chart(strong))]
        return [*found, *pages.legs(plan), *bars, *pages.shapes(plan)]

    def facts(self, plan: Plan) -> Iterable[Fact]:
        """The facts of the strength room."""
        return facts_of(plan, ["strength"]).values()


MOST_OPENED = 8


class WorkingPanel(Panel):
    """How the governing figures came about, step by step."""

    heading = "Workings"

    def offered(self) -> tuple[Control, ...]:
        """As many as there are figures, a page of them at most."""
        many = min(len(self._figures(self.plan)), MOST_OPENED)
        return (Control(key="number", label="Figures opened", kind="count", low=Fraction(1), high=Fraction(many or 1),
                        value=min(3, many)),)  # fmt: skip

    def enabled(self, control: Control) -> bool:
        """Nothing to open where nothing could be worked out."""
        return control.high > 1

    @staticmethod
    def _figures(plan: Plan) -> list[Use]:
        return [use for _, use in pages.governing_rows(plan.strength)] if plan.strength.uses else []

    def prepare(self, plan: Plan) -> None:
        """The loads and strengths."""
        plan.strength.uses  # noqa: B018  kept by the plan

    def show(self, plan: Plan) -> Sequence[Block]:
        """The table of what governs, and the steps to its first figures."""
        strong, figures = plan.strength, self._figures(plan)
        if not figures:
            return list(pages.rating(strong))
        opened = pages.workings(strong, figures, int(self.own["number"]))
        return [pages.table(strong), *opened, pages.kinds_of_load(strong), pages.load_cases(strong)]


ORDER = ("first", "second", "third", "fourth")


REMEDIES = {f"remedy {i}": i for i in range(len(ORDER))}


class RemedyPanel(Panel):
    """What would help, each remedy with a button that does it; and what may be said."""

    heading = "What would help"
    controls = tuple(Control(key=f"remedy {i}", label=f"Do the {n} one", kind="button") for i, n in enumerate(ORDER))
    tried: tuple[Plan, tuple[Remedy, ...]] | None = None  # kept: it takes whole plans

    def change(self, changes: Mapping[str, Any]) -> None:
        """As the base does; a button does its remedy."""
        full: dict[str, Any] = {}
        for key, value in changes.items():
            if key not in REMEDIES:
                full[key] = value
            elif REMEDIES[key] < len(self.cures):
                full |= dict(self.cures[REMEDIES[key]].changes)
        super().change(full)

    @property
    def cures(self) -> tuple[Remedy, ...]:
        """What was tried and helps, for the plan in hand."""
        return self.tried[1] if self.tried else ()

    def _cures(self, plan: Plan) -> tuple[Remedy, ...]:
        if self.tried is None or self.tried[0] is not plan:
            self.tried = (plan, cures_of(plan))
        return self.tried[1]

    def prepare(self, plan: Plan) -> None:
        """The remedies, which are whole plans."""
        self._cures(plan)

    def enabled(self, control: Control) -> bool:
        """A button for each remedy there is."""
        return REMEDIES[control.key] < len(self.cures)

    def show(self, plan: Plan) -> Sequence[Block]:
        """Remedies with the figure after, span limits, the words for the camera."""
        lines = tuple(str(remedy) for remedy in self._cures(plan))
        nothing = Text("Nothing needs to be changed, or nothing that was tried helps.")
        helps: list[Block] = [Items(lines, "number") if lines else nothing]
        return [*helps, *pages.spans(plan.strength), *pages.said(plan.strength)]


def cures_of(plan: Plan) -> tuple[Remedy, ...]:
    """What was tried and helps against any finding of the strength, each once."""
    found = {cure.changes: cure for finding in plan.strength.findings for cure in tried(plan, finding)}
    return tuple(found.values())[: len(ORDER)]
