"""Marks of slats and legs, steps of the assembly and the legs' loads as lists."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tutorial_lib.design.model import SIDES
from tutorial_lib.design.zero import leg_mark, leg_zero_name
from tutorial_lib.lists.table import Cell, Column, List, made, mark, weight
from tutorial_lib.measures import writer

if TYPE_CHECKING:
    from tutorial_lib.design.model import Build, Leg
    from tutorial_lib.plan import Plan


def marks(plan: Plan) -> List:
    """Where every slat and every leg that is set to a mark has its edge nearest the head; none of a bed that stands."""
    build, w = plan.build, writer(plan.options.build.units)
    rows: list[tuple[Cell, ...]] = []
    if not build.bed_stands:
        inner = "the head rail's inner face"
        rows += [(f"slat {n}", mark(w, at), inner, "") for n, at in enumerate(build.slats.marks, 1)]
        legs = [leg for leg in build.legs if not leg.post]
        rows += [(f"leg {leg.label}", mark(w, leg_mark(build, leg)), _zero(build, leg), "") for leg in legs]
    columns = ("piece", Column("edge nearest the head", w.units), "from", "done")
    return made("marks", "Marks of slats and legs", columns, rows)


def _zero(build: Build, leg: Leg) -> str:
    """Where the tape is hooked for a leg."""
    central = build.options.frame.posts and leg.line not in SIDES
    return "the head rail's outer face" if central else leg_zero_name(build)


def steps(plan: Plan) -> List:
    """Every step with what is lifted, by how many people."""
    w = writer(plan.options.build.units)
    rows = (
        (step.number, step.title, " ".join(step.do), step.people, weight(w, step.weight), "")
        for step in plan.assembly.steps
    )
    columns = ("step", "title", "what to do", "people", Column("weight", w.unit("weight")), "done")
    return made("steps", "Assembly", columns, rows)


def leg_loads(plan: Plan) -> List:
    """Each leg's greatest load, and whether the bed stands without it."""
    w = writer(plan.options.build.units)
    rows = (
        (entry.leg.label, entry.name, mark(w, entry.leg.x), mark(w, entry.leg.y),
         weight(w, entry.load), entry.case, entry.word)
        for entry in plan.strength.legs
    )  # fmt: skip
    columns = ("leg", "which", Column("centre from the head rail's outer face", w.units),
               Column("centre from the left rail's outer face", w.units),
               Column("most it carries at rest", w.unit("weight")), "when", "without it")  # fmt: skip
    return made("loads", "Loads on the legs, calculated, not tested", columns, rows)
