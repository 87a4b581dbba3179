"""Notebook 02's panel: own prices, kerf, trim, what to prefer, the car; the boards redrawn while a control moves."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from typing import Any

from tutorial_lib.design.options import Options
from tutorial_lib.errors import Fault, TutorialError
from tutorial_lib.facts import Fact, facts_of
from tutorial_lib.measures import exact_length
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import Block, Findings, Heading
from tutorial_lib.publishing.topics import cutting as pages
from tutorial_lib.workbook import lumber, prices
from tutorial_lib.workbook.choices import Group
from tutorial_lib.workbook.controls import Control
from tutorial_lib.workbook.panel import Panel
from tutorial_lib.workbook.sections import Result

PREFER = (
    ("fewest layouts first", ("fewest layouts", "longest offcut")),
    ("longest offcut first", ("longest offcut", "fewest layouts")),
)
REGIONS = (("as the lumber says", None), *((name, name) for name in ("US", "EU", "UK", "AU")))
AT_SAW, SHOP = Group("Saw"), Group("Shop and car")
SAW: tuple[Control, ...] = (
    AT_SAW.choice("saw.kind", "Saw", (("a power saw", "power"), ("a hand saw", "hand"))),
    AT_SAW.length("saw.kerf", "Kerf", 0.0625, 0.25, step=Fraction(1, 64)),
    AT_SAW.length("saw.trim", "Lost at the ends", 0, 2, step=Fraction(1, 16)),
    AT_SAW.choice("saw.prefer", "Among equals", PREFER),
    SHOP.length("shop.carry", "Longest for the car", 48, 192, step=Fraction(6), empty="no limit"),
    SHOP.count("shop.store_cuts", "Free store cuts", 0, 10),
    SHOP.count("shop.spare_boards", "Spares of each lumber", 0, 3),
    SHOP.length("shop.store_tolerance", "Store cuts stray by", 0, 1, step=Fraction(1, 16), more=True),
    SHOP.box("shop.currency", "Currency", empty="usd", more=True),
    SHOP.choice("shop.region", "Boards as sold in", REGIONS, more=True),
)
SHORTEN = Control(key="shorten", label="Shorten the slats to the next yield cliff", kind="button", value=False)


class CuttingPanel(Panel):
    """Prices, boards at hand, saw, car and store; the shopping list, every board, and yield cliffs to take."""

    heading = "Cutting"
    saves = True
    results = (
        Result("lumber.boards", "{} boards"),
        Result("lumber.cost"),
        Result("lumber.yield", "{} of the length in the bed"),
    )

    def __init__(self, options: Options | None = None) -> None:
        super().__init__(options)
        self._read_prices()

    def offered(self) -> tuple[Control, ...]:
        """The lumber of this bed, its saw and shop, and what else has a price."""
        parts = (part.section for part in self.plan.build.made if not part.section.steel)
        sections = tuple(dict.fromkeys(section.name for section in parts))
        self.rows = {key: one for one in lumber.sold(self.options, sections) for key in (one.price, one.measured)}
        self.cans = prices.cans(self.options)
        return (*lumber.controls(self.options, sections), *SAW, *prices.controls(self.plan, self.cans), SHORTEN)

    def _read_prices(self) -> None:
        sold = tuple(dict.fromkeys(self.rows.values()))
        self.own |= lumber.read(self.options, sold, self.own["have"]) | prices.read(self.options, self.cans)

    def _refresh(self) -> None:
        self._read_prices()
        super()._refresh()

    def place_of(self, fault: Fault, keys: list[str]) -> str:
        """A price's fault is told beside the price, not beside the table it goes into."""
        return next((key for key in keys if "." not in key), None) or super().place_of(fault, keys)

    def enabled(self, control: Control) -> bool:
        """The button works where a cliff is near."""
        return control.key != "shorten" or bool(self.plan.cutting.cliffs)

    def change(self, changes: Mapping[str, Any]) -> None:
        """As the base does; prices and boards go into their rows, the button lengthens the slats' play."""
        try:
            full = {key: value for name, given in changes.items() for key, value in self._meant(name, given).items()}
        except TutorialError as error:
            self._refuse(error, list(changes))
            return
        asked = {key: given for key, given in changes.items() if "." not in key and key != "shorten"}
        super().change(asked | full)

    def _meant(self, key: str, value: Any) -> dict[str, Any]:
        """What a control's value changes in the build."""
        if key == "shorten":
            return self._shortened()
        if key == "have":
            return lumber.with_boards(self.options, value)
        if key in self.cans:
            return prices.with_can(self.options, self.cans, key, value)
        if key in self.rows:
            one = self.rows[key]
            return (lumber.with_price if key == one.price else lumber.with_measured)(self.options, one, value)
        return {key: list(value) if key == "saw.prefer" else value}

    def _shortened(self) -> dict[str, Any]:
        cliffs = self.plan.cutting.cliffs
        if not cliffs:
            return {}
        play = self.options.slats.play + cliffs[0].by / 2
        return {"slats.play": exact_length(play, self.options.build.units)}

    def show(self, plan: Plan) -> Sequence[Block]:
        """Boards at hand, proofs, other ways to buy, the boards, what to mind; the list stands below the panel."""
        return [
            Findings(plan.cutting.findings),
            *pages.beside_shopping(plan),
            *pages.alternatives(plan),
            *pages.store(plan),
            Heading("At the saw"),
            *pages.boards(plan),
        ]

    def facts(self, plan: Plan) -> Iterable[Fact]:
        """The cutting facts, and the slat they hang on."""
        slats = facts_of(plan, ["design"])
        return [slats["slat.length"], *facts_of(plan, ["cutting"]).values()]


class MarkingPanel(Panel):
    """How marking methods compare for the slats of the build."""

    heading = "Marking"
    controls = (
        Control(
            key="mattress.gap_limit",
            label="Gap limit",
            kind="length",
            low=Fraction(1),
            high=Fraction(4),
            empty="our choice",
        ),
    )

    def show(self, plan: Plan) -> Sequence[Block]:
        """The plot and what it assumes."""
        return pages.marking(plan)

    def facts(self, plan: Plan) -> Iterable[Fact]:
        """The slats that are marked."""
        found = facts_of(plan, ["design"])
        return [found[key] for key in ("slat.count", "slat.gap", "slat.gap.max") if key in found]
