"""Notebook 05's panels: the steps, an order of one's own, the door, and what the wood does."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from itertools import permutations

from tutorial_lib.assembly.refusals import NOUNS
from tutorial_lib.design.options import Options
from tutorial_lib.errors import Fault, InputError
from tutorial_lib.facts import Fact
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import Block, Heading
from tutorial_lib.publishing.topics import assembly as pages
from tutorial_lib.workbook.choices import Group
from tutorial_lib.workbook.controls import Control
from tutorial_lib.workbook.panel import Panel
from tutorial_lib.workbook.sections import Result

ROOM, WOOD = Group("Room"), Group("")


def _door(options: Options) -> bool:
    return options.room.door_width is not None


def _stairs(options: Options) -> bool:
    return options.room.stair_width is not None


def _percents(*found: int) -> tuple[tuple[str, float], ...]:
    return tuple((f"{m} %", float(m)) for m in found)


class AssemblyPanel(Panel):
    """All steps with their drawings."""

    heading = "Assembly"
    saves = True
    results = (
        Result("assembly.step_count", "{} steps"),
        Result("assembly.people", "people needed: {}"),
        Result("weight.bed", "the bed weighs {}"),
    )
    controls = (
        ROOM.count("room.helpers", "People at hand", 1, 4),
        ROOM.length("room.door_width", "Door, clear width", 20, 48, empty="not asked"),
        ROOM.length("room.door_height", "Door, clear height", 60, 96, empty="usual height", when=_door),
        ROOM.choice("room.knock_down", "It will move house", (("no", False), ("yes", True)), more=True),
        ROOM.length("room.stair_width", "Stairs, clear width", 24, 60, empty="none"),
        ROOM.length("room.landing", "Passage they turn into", 24, 72, empty="as wide", when=_stairs),
        ROOM.length("room.stair_headroom", "Headroom on them", 60, 120, empty="usual height", when=_stairs),
    )

    def show(self, plan: Plan) -> Sequence[Block]:
        """Overview, step cards, weights."""
        return [*pages.overview(plan), *pages.cards(plan), Heading("Weights"), pages.weights_table(plan)]

    def facts(self, plan: Plan) -> Iterable[Fact]:
        """The assembly facts."""
        return pages.facts(plan)


class OrderPanel(Panel):
    """Another order of the work, tried against the joints and the driver's room."""

    heading = "Another order"

    def offered(self) -> tuple[Control, ...]:
        """Every order of this bed's work; the last one first, which is seldom possible."""
        keys = [o.key for o in self.plan.assembly.operations if not o.prepares]
        orders = list(permutations(keys))[:MOST_ORDERS]
        shown = tuple((", ".join(NOUNS.get(key, key) for key in order), order) for order in orders)
        return (Control(key="order", label="Order", kind="choice", choices=shown, value=orders[-1]),)

    def show(self, plan: Plan) -> Sequence[Block]:
        """Whether the order chosen can be worked."""
        bench = tuple(operation.key for operation in plan.assembly.operations if operation.prepares)
        return pages.told(plan.assembly, (*bench, *self.own["order"]))


MOST_ORDERS = 120


class MovementPanel(Panel):
    """The wood's moisture, the slat gap, and the day to go over the screws."""

    heading = "When the wood settles"
    controls = (
        WOOD.choice("wood.moisture_bought", "Moisture as bought", _percents(8, 10, 12, 15, 19)),
        WOOD.choice("wood.moisture_room", "Moisture in the room", _percents(6, 7, 8, 9, 10, 12)),
        Control(key="today", label="Put together on", kind="text", value="", empty="2026-05-02"),
    )

    def show(self, plan: Plan) -> Sequence[Block]:
        """Gaps before and after, and the dates."""
        return [*pages.squaring(plan), *pages.after(plan, self._today())]

    def facts(self, plan: Plan) -> Iterable[Fact]:
        """The gap after drying."""
        return [fact for fact in pages.facts(plan) if fact.key in ("slat.gap.dried", "frame.diagonal")]

    def _today(self) -> date | None:
        text = (self.own["today"] or "").strip()
        if not text:
            return None
        try:
            return date.fromisoformat(text)
        except ValueError:
            raise InputError(Fault("today", f'"{text}" is no date; write year-month-day, as in 2026-05-02.')) from None
