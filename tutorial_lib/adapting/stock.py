"""Boards long enough for every piece, in lengths that are sold; else where a piece may be split."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from tutorial_lib.adapting.boards import lengths
from tutorial_lib.adapting.changed import Change
from tutorial_lib.cutting.boards import Board
from tutorial_lib.cutting.minding import shorter_board
from tutorial_lib.design.build_file import change
from tutorial_lib.design.model import Build, Part
from tutorial_lib.design.options import Options, StockOptions
from tutorial_lib.measures import exact_length, read_length, sold_length, writer
from tutorial_lib.plan import Plan
from tutorial_lib.records import dataclass


def with_stock(plan: Plan) -> tuple[Options, list[Change]]:
    """Options whose boards are long enough for every piece, and the step for each section that needed it."""
    options, steps = plan.options, list[Change]()
    for part in longest_parts(plan.build):
        row = longer(options, part)
        if row is None:
            continue
        section = part.section.name
        rows = options.raw()["lumber"][section]["stock"]
        before = ", ".join(sold_length(have.length) for have in options.lumber[section].stock)
        options = change(options, {f"lumber.{section}.stock": [*rows, row]})
        steps.append(
            Change(
                key=f"lumber.{section}.stock",
                before=before,
                after=f"{before} and {sold_length(read_length(row['length']))}",
                why=_why(plan.build, part, row),
            )
        )
    return options, steps


def longest_parts(build: Build) -> Iterator[Part]:
    """The longest wooden part of each section that has boards listed."""
    longest: dict[str, Part] = {}
    for part in build.parts:
        known = longest.get(part.section.name)
        if not part.section.steel and (known is None or part.length > known.length):
            longest[part.section.name] = part
    for section, part in longest.items():
        lumber = build.options.lumber.get(section)
        if lumber and lumber.stock:
            yield part


def longer(options: Options, part: Part) -> dict[str, Any] | None:
    """A row of stock with the shortest length sold that takes the part; None when one is listed or none is sold."""
    section = part.section.name
    stock, need = options.lumber[section].stock, part.length + options.saw.trim
    bought = [row for row in stock if not row.at_hand]
    if not bought or any(row.length >= need for row in stock):
        return None
    fits = [length for length in lengths(options, section) if length >= need]
    return _row(options, section, fits[0]) if fits else None


def _row(options: Options, section: str, length: Fraction) -> dict[str, Any]:
    """A row of stock, with a price in proportion where the others have one."""
    made: dict[str, Any] = {"length": exact_length(length, options.build.units)}
    price = likely_price(options.lumber[section].stock, length)
    return made if price is None else made | {"price": price}


def with_short_boards(plan: Plan, creator: Plan) -> tuple[Options, list[Change]]:
    """Options with a short length where a long board would be bought for a few pieces; the creator's own aside."""
    options, changes = plan.options, list[Change]()
    known = {part.section.name for part in creator.build.parts if _long(creator, part.section.name)}
    for section in dict.fromkeys(part.section.name for part in plan.build.made if not part.section.steel):
        found = _long(plan, section) if section not in known and options.lumber.get(section) else None
        if found is None:
            continue
        long, short = found
        row = _row(options, section, short.length)
        rows = options.raw()["lumber"][section].get("stock", [])
        options = change(options, {f"lumber.{section}.stock": [*rows, row]})
        count = sum(number for _, number in short.counts)
        price = f"; its price, {row['price']}, is in proportion: put in your own" if "price" in row else ""
        why = f"{sold_length(short.length)} is enough for {count} of its pieces, no second {long.stock}{price}"
        both = f"{long.stock} and {sold_length(short.length)}"
        changes.append(Change(key=f"lumber.{section}.stock", before=long.stock, after=both, why=why))
    return options, changes


def _long(plan: Plan, section: str) -> tuple[Board, Board] | None:
    parts = {part.section for part in plan.cutting.plan.sections}
    return shorter_board(plan.cutting, section) if section in parts else None


def likely_price(stock: tuple[StockOptions, ...], length: Fraction) -> str | None:
    """A price in proportion to the longest board that has one; a guess, and told as one."""
    priced = [row for row in stock if row.price is not None and not row.at_hand]
    if not priced:
        return None
    nearest = max(priced, key=lambda row: row.length)
    assert nearest.price is not None
    return f"{float(nearest.price * length / nearest.length):.2f}"


def _why(build: Build, part: Part, row: dict[str, Any]) -> str:
    units = build.options.build.units
    text = f"the {part.name} is {writer(units).length(part.length)} long"
    if "price" in row:
        text += f"; its price, {row['price']}, is in proportion to the shorter board: put in your own"
    splits = split(build, part)
    return f"{text}; or {splits}" if splits else text


@dataclass(frozen=True)
class Split:
    """Where a long piece may be made of two, over a leg."""

    piece: str
    leg: str
    lengths: tuple[Fraction, Fraction]


def split_of(build: Build, part: Part) -> Split | None:
    """The split nearest the middle that stands over a leg, for a piece that runs along the bed on legs."""
    piece = part.pieces[0]
    line = next((line for line in build.lines if piece.label in line.members), None)
    if piece.axis != 0 or line is None:
        return None
    middle = piece.box.centre[0]
    legs = [leg for leg in build.legs if leg.label in line.legs and piece.box.lo[0] < leg.x < piece.box.hi[0]]
    leg = min(legs, key=lambda leg: abs(leg.x - middle), default=None)
    if leg is None or len(legs) < 3:  # the two halves need an end leg each
        return None
    return Split(piece.label, leg.label, (leg.x - piece.box.lo[0], piece.box.hi[0] - leg.x))


def split(build: Build, part: Part) -> str:
    """The split in words, or nothing."""
    found = split_of(build, part)
    if found is None:
        return ""
    units = build.options.build.units
    one, two = (writer(units).length(length) for length in found.lengths)
    return (
        f"make it of two pieces, {one} and {two}, that meet over leg {found.leg}, with a board screwed across the joint"
    )
