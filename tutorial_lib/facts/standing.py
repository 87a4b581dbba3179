"""Facts of a headboard for a bed that stands already: what to measure on the bed, and what the work comes to."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from tutorial_lib.facts.fact import Fact
from tutorial_lib.facts.teller import Teller

if TYPE_CHECKING:
    from tutorial_lib.design.model import Build
    from tutorial_lib.plan import Plan


def facts(tell: Teller, build: Build) -> Iterator[Fact]:
    """What the bed should measure where the headboard meets it."""
    why = "as the bed's own plan has it; measure it"
    yield tell.length("frame.width", build.outside[0], "length", "the standing bed over its side rails", why)
    yield tell.length("frame.height", build.heights.rail_top, "height", "the standing bed's rail top", why)


def work(tell: Teller, plan: Plan) -> Iterator[Fact]:
    """Weight of the headboard, steps and people."""
    assembly = plan.assembly
    yield tell.measure("weight", "weight.headboard", assembly.weight, "weight", "the headboard",
                       "volume × density of each piece; screws not counted", said=())  # fmt: skip
    yield tell.count("assembly.step_count", len(assembly.steps), "step_count", "steps from bench to retightening",
                     ", ".join(step.key for step in assembly.steps), said=())  # fmt: skip
    yield tell.count("assembly.people", assembly.people, "people", "people at most in one step",
                     "the headboard is held while it is bolted", said=())  # fmt: skip
