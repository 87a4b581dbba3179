"""What the shop sells of each lumber, and boards at hand, as controls: prices, measured boards, own boards."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Any

from tutorial_lib.adapting.own_boards import read_own_boards
from tutorial_lib.cutting.yard import usual_lengths
from tutorial_lib.design.options import Options, StockOptions
from tutorial_lib.measures import exact_length, sold_length
from tutorial_lib.records import dataclass
from tutorial_lib.strength.sections import grade_names
from tutorial_lib.tables import dressed_sizes, species_names
from tutorial_lib.workbook.board_list import AtHand
from tutorial_lib.workbook.choices import Group
from tutorial_lib.workbook.controls import Control
from tutorial_lib.workbook.values import shown, stated

HAVE = Control(key="have", label="Boards I have", kind="boards", value=(), group="Boards I have",
               choices=tuple((size.name, size.name) for size in dressed_sizes()))  # fmt: skip
AS_LISTED = "as listed"
AS_SOLD = "as sold; or each, like 95 7/8; 96 1/4"
SPECIES = (("as all wood", None), *((name, name) for name in species_names()))
GRADES = (("as all wood", None), *((name, name) for name in grade_names()))


@dataclass(frozen=True)
class Sold:
    """One length of one lumber: in the build file or not yet."""

    section: str
    length: Fraction  # [in]
    place: int | None  # of its row in the build file

    @property
    def name(self) -> str:
        """ "2x6 8 ft"; a key may have no dot, so a comma stands for it."""
        return f"{self.section} {sold_length(self.length).replace('.', ',')}"

    @property
    def price(self) -> str:
        """The key of its price."""
        return f"price {self.name}"

    @property
    def measured(self) -> str:
        """The key of its boards at hand, each as it really is."""
        return f"measured {self.name}"

    def row(self, options: Options) -> StockOptions | None:
        """Its row in the build file."""
        lumber = options.lumber.get(self.section)
        return lumber.stock[self.place] if lumber and self.place is not None else None


def sold(options: Options, sections: Sequence[str]) -> tuple[Sold, ...]:
    """Every length that is sold, and the usual ones that are not listed, of these lumbers."""
    return tuple(one for section in sections for one in _of(options, section))


def _of(options: Options, section: str) -> Iterator[Sold]:
    lumber = options.lumber.get(section)
    rows = [(place, row) for place, row in enumerate(lumber.stock if lumber else ()) if not row.at_hand]
    yield from (Sold(section, row.length, place) for place, row in rows)
    listed = {row.length for _, row in rows}
    yield from (Sold(section, x, None) for x in usual_lengths(options.build.units) if x not in listed)


def controls(options: Options, sections: Sequence[str]) -> tuple[Control, ...]:
    """A group for each lumber: its prices, folded what else may be said of it; then the boards at hand."""
    made: list[Control] = []
    for section in sections:
        group = Group(f"{section}, prices in {options.shop.currency.upper()}")
        rows = list(_of(options, section))
        bare = all(one.place is None for one in rows)
        made += [group.box(one.price, f"{one.name}, each", "money", empty="no price" if bare else "not sold",
                           more=one.place is None and not bare) for one in rows]  # fmt: skip
        made += [group.box(one.measured, f"{one.name}, measured", "lengths", empty=AS_SOLD, more=True)
                 for one in rows if one.place is not None]  # fmt: skip
        key = f"lumber.{section}."
        made += [group.length(key + "thickness", f"{section}, really thick", 0.5, 4, empty=AS_LISTED, more=True),
                 group.length(key + "width", f"{section}, really wide", 1, 12, empty=AS_LISTED, more=True),
                 group.choice(key + "species", f"{section}, species", SPECIES, more=True),
                 group.choice(key + "grade", f"{section}, grade", GRADES, more=True)]  # fmt: skip
    return (*made, HAVE)


def read(options: Options, rows: Sequence[Sold], have: tuple[AtHand, ...]) -> dict[str, Any]:
    """The values of these controls, as the build has them; own boards as they were typed while they mean the same."""
    units = options.build.units
    own: dict[str, Any] = {"have": have if _same(options, have) else at_hand(options)}
    for one in rows:
        row = one.row(options)
        own[one.price] = shown("money", row.price, units) if row else ""
        own[one.measured] = shown("lengths", row.measured, units) if row else ""
    return own


def at_hand(options: Options) -> tuple[AtHand, ...]:
    """The boards at hand of a build, as one says them."""
    listed = ((name, row) for name, lumber in options.lumber.items() for row in lumber.stock if row.at_hand)
    return tuple(_said(name, row, options) for name, row in listed)


def _said(section: str, row: StockOptions, options: Options) -> AtHand:
    units = options.build.units
    sides = [exact_length(x, units) for x in (row.thickness, row.width) if x is not None]
    count = 1 if row.available is None else row.available
    return AtHand(count, section, exact_length(row.length, units), " x ".join(sides) if len(sides) == 2 else "")


def _same(options: Options, have: tuple[AtHand, ...]) -> bool:
    typed = read_own_boards((board.text for board in have), options.build.units, "have")
    there = read_own_boards((board.text for board in at_hand(options)), options.build.units, "have")
    return sorted(map(repr, typed)) == sorted(map(repr, there))


def with_price(options: Options, one: Sold, price: Any) -> dict[str, Any]:
    """The lumber's rows with one price changed; a length without one is not sold, unless no length has one."""
    rows = _raw(options, one.section)
    row = rows[one.place] if one.place is not None else {"length": exact_length(one.length, options.build.units)}
    row.pop("price", None)
    if price:
        row["price"] = price
    if one.place is None and price:
        rows.append(row)
    others = any("price" in other for other in rows if other is not row)
    if one.place is not None and not price and others and set(row) <= {"length", "available"}:
        rows.remove(row)
    return {f"lumber.{one.section}.stock": rows}


def with_measured(options: Options, one: Sold, lengths: Any) -> dict[str, Any]:
    """The lumber's rows with the boards at hand of one length as they were measured, typed or as a list."""
    rows = _raw(options, one.section)
    assert one.place is not None
    named = stated("lengths", lengths, options.build.units) if isinstance(lengths, str) else lengths
    rows[one.place].pop("measured", None)
    if named:
        rows[one.place]["measured"] = named
    return {f"lumber.{one.section}.stock": rows}


def with_boards(options: Options, have: Sequence[AtHand]) -> dict[str, Any]:
    """The rows of all lumber with other boards at hand.

    Raises:
        InputError: a board can't be read.
    """
    boards = read_own_boards((board.text for board in have), options.build.units, "have")
    changes: dict[str, Any] = {}
    for section in dict.fromkeys((*options.lumber, *(board.section for board in boards))):
        lumber = options.lumber.get(section)
        kept = [raw for raw, row in zip(_raw(options, section), lumber.stock if lumber else (), strict=True)
                if not row.at_hand]  # fmt: skip
        rows = [*kept, *(board.row(options.build.units) for board in boards if board.section == section)]
        changes[f"lumber.{section}.stock"] = rows or None
    return changes


def _raw(options: Options, section: str) -> list[dict[str, Any]]:
    found = options.raw().get("lumber", {}).get(section, {}).get("stock", [])
    return [dict(row) for row in found]
