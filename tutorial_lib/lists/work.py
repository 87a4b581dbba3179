"""Steps of the assembly and the legs' loads as lists."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tutorial_lib.lists.table import Column, List, made, mark, weight
from tutorial_lib.measures import writer

if TYPE_CHECKING:
    from tutorial_lib.plan import Plan


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
