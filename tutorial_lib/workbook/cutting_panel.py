"""Notebook 02's panel: own prices, kerf, trim, what to prefer, the car; the boards redrawn while a control moves."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from typing import Any

from tutorial_lib.design.options import Options, StockOptions
from tutorial_lib.errors import TutorialError
from tutorial_lib.facts import Fact, facts_of
from tutorial_lib.measures import exact_length, sold_length
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import Block, Findings, Heading
from tutorial_lib.publishing.topics import cutting as pages
from tutorial_lib.workbook import current
from tutorial_lib.workbook.controls import Control
from tutorial_lib.workbook.panel import Panel

PREFER = (
    ("fewest layouts first", ("fewest layouts", "longest offcut")),
    ("longest offcut first", ("longest offcut", "fewest layouts")),
)
SAW = (
    Control(key="saw.kind", label="Saw", kind="choice", choices=(("a power saw", "power"), ("a hand saw", "hand"))),
    Control(
        key="saw.kerf", label="Kerf", kind="length", low=Fraction(1, 16), high=Fraction(1, 4), step=Fraction(1, 64)
    ),
    Control(key="saw.trim", label="Lost at the ends", kind="length", high=Fraction(2), step=Fraction(1, 16)),
    Control(key="saw.prefer", label="Among equals", kind="choice", choices=PREFER),
    Control(
        key="shop.carry",
        label="Longest for the car",
        kind="length",
        low=Fraction(48),
        high=Fraction(192),
        step=Fraction(6),
        empty="no limit",
    ),
    Control(key="shop.store_cuts", label="Free store cuts", kind="count", high=Fraction(10)),
    Control(key="shop.spare_boards", label="Spares of each lumber", kind="count", high=Fraction(3)),
)
SHORTEN = Control(key="shorten", label="Shorten the slats to the next yield cliff", kind="button", value=False)


class CuttingPanel(Panel):
    """Prices, saw, car and store; the shopping list, every board, and yield cliffs to take."""

    heading = "Cutting"
    saves = True

    def __init__(self, options: Options | None = None) -> None:
        chosen = current.current().options if options is None else options
        self.rows = dict(_price_rows(chosen))
        # The build decides which lumber has prices, so the controls are this panel's own.
        prices = [_price(key) for key in self.rows]
        boards = [_boards(key) for key in self.rows]
        self.controls = (*prices, *SAW, *boards, SHORTEN)  # type: ignore[misc]  # a class's controls are its own
        super().__init__(options)
        self._read_prices()

    def _read_prices(self) -> None:
        for key, (section, place) in self.rows.items():
            lumber = self.options.lumber.get(section)
            price = lumber.stock[place].price if lumber and place < len(lumber.stock) else None
            self.own[key] = "" if price is None else f"{float(price):.2f}"
            units = self.options.build.units
            measured = lumber.stock[place].measured if lumber and place < len(lumber.stock) else ()
            self.own[_boards(key).key] = "; ".join(exact_length(n, units) for n in measured)

    def _take(self, options: Options) -> None:
        super()._take(options)
        self._read_prices()
        self._refresh()

    def _refuse(self, error: TutorialError, keys: list[str]) -> None:
        """Tells a price's fault beside the price, not beside the table it goes into."""
        super()._refuse(error, keys)
        own = {*self.rows, *(_boards(key).key for key in self.rows)}
        price = next((key for key in keys if key in own), None)
        if price is not None:
            self.errors = {price: " ".join(self.errors.values())}
            self._refresh()

    def enabled(self, control: Control) -> bool:
        """The button works where a cliff is near."""
        return control.key != "shorten" or bool(self.plan.cutting.cliffs)

    def change(self, changes: Mapping[str, Any]) -> None:
        """As the base does; prices go into their stock rows, the button lengthens the slats' play."""
        full = dict(changes)
        if full.pop("shorten", False):
            full |= self._shortened()
        for key in [k for k in full if k in self.rows]:
            full |= self._with_price(key, str(full[key] or ""))
        for key in [k for k in self.rows if _boards(k).key in full]:
            full |= self._with_measured(key, str(full[_boards(key).key] or ""))
        if "saw.prefer" in full:
            full["saw.prefer"] = list(full["saw.prefer"])
        super().change(full)
        if not self.errors:
            self._read_prices()

    def _shortened(self) -> dict[str, Any]:
        cliffs = self.plan.cutting.cliffs
        if not cliffs:
            return {}
        play = self.options.slats.play + cliffs[0].by / 2
        return {"slats.play": exact_length(play, self.options.build.units)}

    def _with_price(self, key: str, text: str) -> dict[str, Any]:
        """The section's stock rows with one price changed; an empty box is a price not known."""
        return self._with(key, "price", text.strip().lstrip("$€£"))

    def _with_measured(self, key: str, text: str) -> dict[str, Any]:
        """The section's stock rows with the boards at hand as they were measured."""
        units = self.options.build.units
        lengths = [part.strip() for part in text.split(";") if part.strip()]
        named = [n if any(c.isalpha() or c in "'\"′″" for c in n) else f"{n} {units}" for n in lengths]
        return self._with(key, "measured", named)

    def _with(self, key: str, name: str, value: Any) -> dict[str, Any]:
        section, place = self.rows[key]
        rows = [dict(row) for row in self.options.raw()["lumber"][section]["stock"]]
        rows[place].pop(name, None)
        if value:
            rows[place][name] = value
        return {f"lumber.{section}.stock": rows}

    def show(self, plan: Plan) -> Sequence[Block]:
        """Shopping list, other ways to buy, the boards, what to mind."""
        return [
            Findings(plan.cutting.findings),
            *pages.shopping(plan),
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


def _price_rows(options: Options) -> Iterable[tuple[str, tuple[str, int]]]:
    """Key, section and place of every stock row that is bought."""
    for section, lumber in options.lumber.items():
        for place, row in enumerate(lumber.stock):
            if not row.at_hand:
                yield f"price {section} {_label(row)}", (section, place)


def _label(row: StockOptions) -> str:
    return sold_length(row.length).replace(".", ",")


def _price(key: str) -> Control:
    return Control(key=key, label=key.removeprefix("price ") + ", each", kind="text")


def _boards(key: str) -> Control:
    """Boards at hand of a stock row: their real lengths, set off by semicolons."""
    sold = key.removeprefix("price ")
    return Control(
        key=f"measured {sold}", label=f"{sold}, measured", kind="text", empty="as sold; or each, like 95 7/8; 96 1/4"
    )
