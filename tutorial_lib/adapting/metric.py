"""A metric plan computed in millimetres: every choice on whole millimetres, boards in metric sections."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from tutorial_lib import tables
from tutorial_lib.adapting.steps import Step
from tutorial_lib.adapting.stock import SOLD_MM
from tutorial_lib.design.build_file import from_raw
from tutorial_lib.design.options import Options
from tutorial_lib.errors import InputError
from tutorial_lib.measures import exact_length, read_length, round_to, to_mm, write_length

LUMBER_KEYS = (("frame", "rail"), ("support", "lumber"), ("centre", "lumber"), ("slats", "lumber"), ("legs", "lumber"))
STATED_OR_NOT = (  # lengths that have a value also where the build file leaves them out
    ("clearance", "side"), ("clearance", "end"), ("centre", "play"), ("slats", "play"),
    ("saw", "kerf"), ("saw", "trim"),
)  # fmt: skip
TUBE_LEGS = (("legs", "flange"), ("legs", "flange_thickness"), ("legs", "tube_diameter"))
WHOLE = "whole millimetres"
KEEP = {"mattress"}  # measured sizes stay as measured
FASTENERS = {"screws"}  # sold in inches; their sizes stay as sold


def to_metric(options: Options) -> tuple[Options, list[Step]]:
    """The same choices in whole millimetres, and a step for each that moved."""
    raw = options.raw()
    for table, key in STATED_OR_NOT + (TUBE_LEGS if options.legs.kind == "tube" else ()):
        raw.setdefault(table, {}).setdefault(key, exact_length(getattr(getattr(options, table), key)))
    steps: list[Step] = []
    raw["build"]["units"] = "mm"
    renamed = _sections(options, raw, steps)
    _boards(options, raw, renamed, steps)
    raw["lumber"] = {renamed.get(name, name): table for name, table in raw.get("lumber", {}).items()}
    for table in raw:
        if table not in KEEP | FASTENERS:
            raw[table] = _whole(raw[table], table, steps)
    return from_raw(raw, "metric"), steps


def _sections(options: Options, raw: dict[str, Any], steps: list[Step]) -> dict[str, str]:
    renamed: dict[str, str] = {}
    for table, key in LUMBER_KEYS:
        name = getattr(getattr(options, table), key)
        try:
            size = tables.dressed(name)
        except InputError:
            continue
        if size.metric or (table == "centre" and not options.centre.lines):
            continue
        near = tables.nearest_section(size.thickness, size.width, "metric").name
        raw.setdefault(table, {})[key] = near
        renamed[name] = near
        steps.append(Step(f"{table}.{key}", name, near, "the metric section nearest in size"))
    return renamed


def _boards(options: Options, raw: dict[str, Any], renamed: dict[str, str], steps: list[Step]) -> None:
    """Boards of a section that has become a metric one, in the metric length next below."""
    for name, near in renamed.items():
        own = options.lumber.get(name)
        if own is None or not own.stock:
            continue
        lengths = [_sold(row.length) for row in own.stock]
        for row, length in zip(raw["lumber"][name]["stock"], lengths, strict=True):
            row["length"] = f"{length} mm"
        before = ", ".join(write_length(row.length, "in") for row in own.stock)
        steps.append(Step(f"lumber.{near}.stock", before, ", ".join(f"{length} mm" for length in lengths),
                          "as boards are sold in metric lengths; put in your shop's own prices"))


def _sold(length: Fraction) -> int:
    """The metric length next below, or the length itself where it is shorter than all."""
    return max((size for size in SOLD_MM if size <= to_mm(length)), default=int(to_mm(length)))


def _whole(value: Any, path: str, steps: list[Step]) -> Any:
    if isinstance(value, dict):
        return {key: _whole(inner, f"{path}.{key}", steps) for key, inner in value.items()}
    if isinstance(value, list):
        return [_whole(inner, path, steps) for inner in value]
    if not isinstance(value, str) or not value.endswith(" in"):
        return value
    exact = to_mm(read_length(value))
    whole = max(round_to(exact, 1), Fraction(1)) if exact else Fraction(0)
    if whole != exact:
        steps.append(Step(path, value, f"{whole} mm", f"{WHOLE}; {float(whole - exact):+.2f} mm"))
    return f"{whole} mm"
