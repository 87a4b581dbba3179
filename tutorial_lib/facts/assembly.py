"""Facts of putting the bed together: diagonals, weights, steps, helpers, and what the wood does."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from tutorial_lib.facts import knock_down, standing
from tutorial_lib.facts.fact import Fact
from tutorial_lib.facts.teller import Teller

if TYPE_CHECKING:
    from tutorial_lib.assembly import Assembly
    from tutorial_lib.plan import Plan


def facts(plan: Plan) -> Iterator[Fact]:
    """Diagonals, weights, steps and movement."""
    tell, assembly = Teller(plan.options), plan.assembly
    if plan.build.bed_stands:
        yield from standing.work(tell, plan)
        return
    yield from _diagonals(tell, assembly)
    yield from _weights(tell, assembly, plan.options.wood.moisture_bought)
    yield tell.count("assembly.step_count", len(assembly.steps), "step_count", "steps, all of them",
                     ", ".join(step.key for step in assembly.steps), said=())  # fmt: skip
    yield tell.count("assembly.turns", assembly.turns, "turn_count", "times the frame is turned over",
                     "counted from the order of the steps", said=("flip", "turn"))  # fmt: skip
    yield tell.count("assembly.people", assembly.people, "people", "people at most in one step",
                     _people(tell, assembly), said=())  # fmt: skip
    yield from _movement(tell, assembly)
    if assembly.apart is not None:
        yield from knock_down.facts(tell, assembly.apart)


def _diagonals(tell: Teller, assembly: Assembly) -> Iterator[Fact]:
    square, words = assembly.squaring, ("diagonal", "corner to corner")
    for key, value, across, along, what in (
        ("frame.diagonal", square.outside_diagonal, square.width, square.length, "diagonal over the outside corners"),
        ("frame.inside_diagonal", square.inside_diagonal, square.inside_width, square.inside_length,
         "diagonal between the inside corners"),
    ):  # fmt: skip
        working = f"√({tell.w.length(across)}² + {tell.w.length(along)}²)"
        yield tell.length(key, value, "length", what, working, said=words)
    what = "the diagonals may differ by this much"
    yield tell.length("frame.diagonal_tolerance", square.tolerance, "tolerance", what, "common practice, no source",
                      said=words[:1])  # fmt: skip


def _weights(tell: Teller, assembly: Assembly, moisture: float) -> Iterator[Fact]:
    named = [
        ("weight.bed", assembly.weight, "whole bed without mattress"),
        ("weight.frame", assembly.frame_weight, "bed without slats and mattress"),
    ]
    if assembly.lift:
        named.append(("weight.turn", assembly.lift.weight, "what is turned over"))
    working = f"volume × density of each piece at {moisture:g} % moisture; screws not counted"
    for key, pounds, what in named:
        yield tell.measure("weight", key, pounds, "weight", what, working, said=())


def _people(tell: Teller, assembly: Assembly) -> str:
    lift = assembly.lift
    if lift is None:
        return "nothing is turned over"
    return (
        f"half of {tell.w.weight(lift.weight)} in the hands, {tell.w.weight(lift.limit)} limit each, two for anything "
        f"over {'1.8 m' if tell.w.metric else '6 ft'}"
    )


def _movement(tell: Teller, assembly: Assembly) -> Iterator[Fact]:
    moves = assembly.movement
    working = f"each slat shrinks {tell.w.calculated(-moves.slat)} from {moves.bought:g} to {moves.room:g} % moisture"
    yield tell.length("slat.gap.dried", moves.gap[1], "gap", "gap between slats once the wood has dried to the room",
                      working, said=())  # fmt: skip
    yield tell.bare("assembly.retighten", 30, "d", "time", "days until the screws are gone over again",
                    "common practice, no source; again when the first heating season ends", said=())  # fmt: skip
