"""A metric plan computed in millimetres: every choice on whole millimetres, boards and lengths as sold there."""

from __future__ import annotations

from fractions import Fraction
from math import ceil
from typing import Any

from tutorial_lib import tables
from tutorial_lib.adapting.changed import Change
from tutorial_lib.design.build_file import from_raw
from tutorial_lib.design.options import Options
from tutorial_lib.design.screw_options import ScrewOptions
from tutorial_lib.design.sizes import clearance
from tutorial_lib.errors import InputError
from tutorial_lib.measures import exact_length, mm, read_length, round_to, to_mm, writer
from tutorial_lib.tables import DressedSize, Region

LUMBER_KEYS = (
    ("frame", "rail"), ("posts", "lumber"), ("posts", "blocks"), ("headboard", "lumber"), ("headboard", "battens"),
    ("headboard", "uprights"), ("headboard", "slats"),
    ("support", "lumber"), ("centre", "lumber"), ("slats", "lumber"), ("legs", "lumber"), ("centre", "leg_lumber"),
    ("plinth", "lumber"),
)  # fmt: skip
STATED_OR_NOT = (  # lengths that have a value also where the build file leaves them out
    ("centre", "play"), ("slats", "play"), ("saw", "kerf"), ("saw", "trim"),
)  # fmt: skip
TUBE_LEGS = (("legs", "flange"), ("legs", "flange_thickness"), ("legs", "tube_diameter"))
WHOLE = "whole millimetres"
KEEP = {"mattress", "said", "yours"}  # measured sizes stay as measured
FASTENERS = {"screws"}  # their sizes stay as sold
ROOM = {"clearance"}  # never made smaller: a mattress may be as large as before
NOT_THINNER = 0.98  # a size may be that much thinner and still be taken for the same; our choice
SOLD_IN_INCHES = ("gauge", "length", "or_length", "diameter", "root", "head", "thread", "pilot")


def to_metric(options: Options, region: Region | None = None) -> tuple[Options, list[Change]]:
    """The same choices in whole millimetres, and a change for each that moved.

    Args:
        options: a plan in inches or of another region.
        region: whose boards are taken; None takes the same boards by their size in millimetres.
    """
    raw = options.raw()
    for table, key in STATED_OR_NOT + (TUBE_LEGS if options.tubes else ()):
        raw.setdefault(table, {}).setdefault(key, exact_length(getattr(getattr(options, table), key)))
    for key, room in zip(("side", "end"), clearance(options), strict=True):
        raw.setdefault("clearance", {}).setdefault(key, exact_length(room))
    made: list[Change] = []
    raw["build"]["units"] = "mm"
    renamed = _sections(options, raw, region, made)
    if region is None:
        _lengths_in_mm(options, raw, renamed)
    else:
        raw.setdefault("shop", {})["region"] = region
        _shop_there(raw, renamed, region, made)
        _metric_screws(options, raw, made)
    raw["lumber"] = {renamed.get(name, name): table for name, table in raw.get("lumber", {}).items()}
    for table in raw:
        if table not in KEEP | FASTENERS:
            raw[table] = _whole(raw[table], table, made)
    return from_raw(raw, "metric"), made


def _sections(options: Options, raw: dict[str, Any], region: Region | None, made: list[Change]) -> dict[str, str]:
    renamed: dict[str, str] = {}
    for table, key in LUMBER_KEYS:
        name = getattr(getattr(options, table), key)
        if name is None or not _has(options, table, key):
            continue
        try:
            near = _like(tables.dressed(name), region)
        except InputError:
            continue
        if near != name:
            raw.setdefault(table, {})[key] = near
            renamed[name] = near
            why = f"as boards are sold in the {region}" if region else "the same board by its size in millimetres"
            made.append(Change(key=f"{table}.{key}", before=name, after=near, why=why))
    return renamed


def _has(options: Options, table: str, key: str) -> bool:
    """Whether the bed is built of this section at all."""
    blocks = options.posts.joint == "corner blocks"
    return {
        "centre": options.centre.lines > 0,
        "legs": options.legs.kind != "tube",
        "headboard": key in _of_headboard(options),
        "posts": options.frame.posts and (key == "lumber" or blocks),
    }.get(table, True)


def _of_headboard(options: Options) -> tuple[str, ...]:
    """The keys of a headboard's sections that this bed has."""
    if options.headboard.kind == "none":
        return ()
    slats = ("slats",) if options.headboard.kind == "slats" else ()
    return ("lumber", "battens" if options.frame.posts else "uprights", *slats)


def _like(size: DressedSize, region: Region | None) -> str:
    if region is not None:
        sold = any(board.section == size.name for board in tables.sold_boards(region))
        return size.name if sold else tables.section_in(region, size)
    return size.name if size.metric else tables.nearest_section(size.thickness, size.width, "metric").name


def _lengths_in_mm(options: Options, raw: dict[str, Any], renamed: dict[str, str]) -> None:
    """The same boards: their lengths in whole millimetres, never longer than they are."""
    for name in renamed:
        own = options.lumber.get(name)
        if own is not None and own.stock:
            for row, sold in zip(raw["lumber"][name]["stock"], own.stock, strict=True):
                row["length"] = exact_length(mm(to_mm(sold.length) // 1), "mm")


def _shop_there(raw: dict[str, Any], renamed: dict[str, str], region: Region, made: list[Change]) -> None:
    """The region's lengths in place of the creator's shop, whose prices say nothing there."""
    for name, near in renamed.items():
        sold = tables.board_lengths(region, near)
        raw.setdefault("lumber", {})[name] = {"stock": [{"length": exact_length(length, "mm")} for length in sold]}
        made.append(Change(key=f"lumber.{near}.stock", before=f"the creator's shop, {name}", after=_several(sold),
                           why=f"lengths sold in the {region}; put in your shop's prices"))  # fmt: skip


def _several(sold: tuple[Fraction, ...]) -> str:
    return writer("mm").marks(sold)


def _metric_screws(options: Options, raw: dict[str, Any], made: list[Change]) -> None:
    """Screws and bolts stated by inch sizes are chosen anew; those with their own data stay."""
    for name, table in raw.get("screws", {}).items():
        if getattr(options.screws, name).kind == "structural screw":
            continue
        gone = [key for key in SOLD_IN_INCHES if key in table]
        if gone:
            before = ", ".join(str(table.pop(key)) for key in gone)
            table |= _metric_size(getattr(options.screws, name))
            after = ", ".join(str(table[key]) for key in ("gauge", "diameter") if key in table)
            why = "the metric size next above; its length is chosen anew"
            made.append(
                Change(key=f"screws.{name}", before=before, after=after or "chosen from the metric sizes", why=why)
            )


def _metric_size(screw: ScrewOptions) -> dict[str, str]:
    """A stated gauge or shank as the metric size that is not thinner; nothing where none was stated."""
    if screw.gauge is not None:
        shank = tables.screw(screw.gauge).shank
        thick = [row for row in tables.screws("metric") if row.shank >= shank * NOT_THINNER]
        return {"gauge": min(thick, key=lambda row: row.shank).gauge} if thick else {}
    if screw.diameter is None:
        return {}
    sold = tables.lag_screws("metric") if screw.kind == "lag screw" else tables.carriage_bolts("metric")
    fits = [row.shank for row in sold if row.shank >= float(screw.diameter) * NOT_THINNER]
    return {"diameter": writer("mm").length(Fraction(min(fits)))} if fits else {}


def _whole(value: Any, path: str, made: list[Change]) -> Any:
    if isinstance(value, dict):
        return {key: _whole(inner, f"{path}.{key}", made) for key, inner in value.items()}
    if isinstance(value, list):
        return [_whole(inner, path, made) for inner in value]
    if not isinstance(value, str) or not value.endswith(" in"):
        return value
    exact = to_mm(read_length(value))
    up = path.split(".")[0] in ROOM
    whole = Fraction(ceil(exact)) if up else max(round_to(exact, 1), Fraction(1)) if exact else Fraction(0)
    after = writer("mm").length(mm(whole))
    if whole != exact:
        by = f"{'+' if whole > exact else '-'}{writer('mm').stated(mm(abs(whole - exact)))}"
        made.append(Change(key=path, before=value, after=after, why=WHOLE, check=by, rounded=True))
    return after
