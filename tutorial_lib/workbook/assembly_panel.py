"""Notebook 05's panels: the steps, an order of one's own, the door, and what the wood does."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from fractions import Fraction
from itertools import permutations

from tutorial_lib.assembly.refusals import NOUNS
from tutorial_lib.errors import Fault, InputError
from tutorial_lib.facts import Fact
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import Block, Heading
from tutorial_lib.publishing.topics import assembly as pages
from tutorial_lib.workbook.controls import Control
from tutorial_lib.workbook.panel import Panel


class AssemblyPanel(Panel):
    """All steps with their drawings."""

    heading = "Assembly"
    controls = (
        Control(key="room.helpers", label="People at hand", kind="count", low=Fraction(1), high=Fraction(4)),
        Control(
            key="room.door_width",
            label="Door, clear width",
            kind="length",
            low=Fraction(20),
            high=Fraction(48),
            empty="not asked",
        ),
        Control(
            key="room.door_height",
            label="Door, clear height",
            kind="length",
            low=Fraction(60),
            high=Fraction(96),
            empty="usual height",
        ),
        Control(
            key="room.stair_width",
            label="Stairs, clear width",
            kind="length",
            low=Fraction(24),
            high=Fraction(60),
            empty="none",
        ),
        Control(
            key="room.landing",
            label="Passage they turn into",
            kind="length",
            low=Fraction(24),
            high=Fraction(72),
            empty="as wide",
        ),
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

    def __init__(self) -> None:
        from tutorial_lib.workbook import current

        plan = Plan(current.current().options)
        keys = [o.key for o in plan.assembly.operations if not o.prepares]
        orders = list(permutations(keys))[:MOST_ORDERS]
        shown = tuple((", ".join(NOUNS.get(key, key) for key in order), order) for order in orders)
        self.controls = (Control(key="order", label="Order", kind="choice", choices=shown, value=orders[-1]),)  # type: ignore[misc]
        super().__init__()

    def show(self, plan: Plan) -> Sequence[Block]:
        """Whether the order chosen can be worked."""
        bench = tuple(operation.key for operation in plan.assembly.operations if operation.prepares)
        return pages.told(plan.assembly, (*bench, *self.own["order"]))


MOST_ORDERS = 120


class MovementPanel(Panel):
    """The wood's moisture, the slat gap, and the day to go over the screws."""

    heading = "When the wood settles"
    controls = (
        Control(
            key="wood.moisture_bought",
            label="Moisture as bought",
            kind="choice",
            choices=tuple((f"{m:g} %", m) for m in (8.0, 10.0, 12.0, 15.0, 19.0)),
        ),
        Control(
            key="wood.moisture_room",
            label="Moisture in the room",
            kind="choice",
            choices=tuple((f"{m:g} %", m) for m in (6.0, 7.0, 8.0, 9.0, 10.0, 12.0)),
        ),
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
