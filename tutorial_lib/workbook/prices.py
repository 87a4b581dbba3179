"""Prices of what is bought beside the lumber, as controls: boxes of screws, nuts and flanges, cans, discs."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from tutorial_lib.design.options import Options
from tutorial_lib.errors import TutorialError
from tutorial_lib.finishing.cans import SOLD
from tutorial_lib.lists.names import joint_name
from tutorial_lib.plan import Plan
from tutorial_lib.workbook.choices import Group
from tutorial_lib.workbook.controls import Control
from tutorial_lib.workbook.values import shown

UNKNOWN = "no price"
BOXES, PIECES, CANS = Group("Screws and bolts, a box"), Group("By the piece"), Group("Finish, a can")
STEEL = {"flange": "Flange", "tube": "Tube"}


def controls(plan: Plan, cans: dict[str, str]) -> tuple[Control, ...]:
    """A price for every kind of thing this bed needs."""
    try:
        return (*_boxes(plan), *_pieces(plan), *(CANS.box(key, size, "money", empty=UNKNOWN, more=True)
                                                 for key, size in cans.items()))  # fmt: skip
    except TutorialError:  # a screw of the build file can't be used: chapter 03 tells
        return ()


def _boxes(plan: Plan) -> Iterator[Control]:
    for table in dict.fromkeys(job.table for job in plan.drilling.jobs):
        name = joint_name(table).capitalize()
        yield BOXES.box(f"screws.{table}.price", name, "money", empty=UNKNOWN, more=True)
        yield BOXES.box(f"screws.{table}.box", f"{name}, in a box", "number", empty="as usually sold", more=True)


def _pieces(plan: Plan) -> Iterator[Control]:
    priced = {item.priced_as for item in plan.drilling.hardware}
    for word in ("nut", "washer", "bracket"):
        if word in priced:
            yield PIECES.box(f"prices.{word}", word.capitalize(), "money", empty=UNKNOWN, more=True)
    if plan.options.legs.kind == "tube":
        yield from (PIECES.box(f"prices.{key}", name, "money", empty=UNKNOWN, more=True) for key, name in STEEL.items())
    if not plan.options.legs.leveller:
        yield PIECES.box("prices.pad", "Felt pad or glide", "money", empty=UNKNOWN, more=True)
    yield PIECES.box("prices.disc", "Sanding disc", "money", empty=UNKNOWN, more=True)


def cans(options: Options) -> dict[str, str]:
    """Sizes of cans by the key of their price: those the build file lists, else the usual ones."""
    listed = [row.size for row in options.finish.cans] or [can.name for can in SOLD[options.build.units]]
    return {f"can {size.replace('.', ',')}": size for size in listed}


def read(options: Options, sizes: dict[str, str]) -> dict[str, Any]:
    """The cans' prices as the build has them."""
    stated = {row.size: row.price for row in options.finish.cans}
    return {key: shown("money", stated.get(size), options.build.units) for key, size in sizes.items()}


def with_can(options: Options, sizes: dict[str, str], key: str, price: Any) -> dict[str, Any]:
    """The rows of cans with one price changed; no rows where none has a price."""
    stated = {row.size: row.price for row in options.finish.cans} | {sizes[key]: price}
    rows = [{"size": size} | ({"price": stated[size]} if stated.get(size) else {}) for size in sizes.values()]
    return {"finish.cans": rows if any("price" in row for row in rows) else None}
