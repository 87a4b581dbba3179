"""Facts of putting the bed together: diagonals, weights, steps, helpers, and what the wood does."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from tutorial_lib.facts.fact import Fact
from tutorial_lib.measures import Units, write_length, writer

if TYPE_CHECKING:
    from tutorial_lib.assembly import Assembly
    from tutorial_lib.plan import Plan

KG = 0.45359237  # in a pound, exact by definition


def facts(plan: Plan) -> Iterator[Fact]:
    """Diagonals, weights, steps and movement."""
    assembly, units = plan.assembly, plan.options.build.units
    yield from _diagonals(assembly, units)
    yield from _weights(assembly, units, plan.options.wood.moisture_bought)
    yield Fact(
        "assembly.step_count",
        len(assembly.steps),
        "count",
        "step_count",
        "steps from dry fit to retightening",
        (),
        ", ".join(step.key for step in assembly.steps),
    )
    yield Fact(
        "assembly.turns",
        assembly.turns,
        "count",
        "turn_count",
        "times the frame is turned over",
        ("flip", "turn"),
        "counted from the order of the steps",
    )
    yield Fact(
        "assembly.people", assembly.people, "count", "people", "people at most in one step", (), _people(assembly)
    )
    yield from _movement(assembly, units)


def _diagonals(assembly: Assembly, units: str) -> Iterator[Fact]:
    square = assembly.squaring
    for key, value, w, l_, what in (
        ("frame.diagonal", square.outside_diagonal, square.width, square.length, "diagonal over the outside corners"),
        (
            "frame.inside_diagonal",
            square.inside_diagonal,
            square.inside_width,
            square.inside_length,
            "diagonal between the inside corners",
        ),
    ):
        yield Fact(
            key,
            value,
            "in",
            "length",
            what,
            ("diagonal", "corner to corner"),
            f"√({write_length(w, units)}² + {write_length(l_, units)}²)",
        )
    yield Fact(
        "frame.diagonal_tolerance",
        square.tolerance,
        "in",
        "tolerance",
        "the diagonals may differ by this much",
        ("diagonal",),
        "common practice, no source",
    )


def _weights(assembly: Assembly, units: str, moisture: float) -> Iterator[Fact]:
    factor, unit = (KG, "kg") if units == "mm" else (1.0, "lb")
    named = [
        ("weight.bed", assembly.weight, "whole bed without mattress"),
        ("weight.frame", assembly.frame_weight, "bed without slats and mattress"),
    ]
    if assembly.lift:
        named.append(("weight.turn", assembly.lift.weight, "what is turned over"))
    for key, pounds, what in named:
        yield Fact(
            key,
            round(pounds * factor),
            unit,
            "weight",
            what,
            (),
            f"volume × density of each piece at {moisture:g} % moisture; screws not counted",
        )


def _people(assembly: Assembly) -> str:
    lift = assembly.lift
    if lift is None:
        return "nothing is turned over"
    return f"half of {lift.weight:.0f} lb in the hands, {lift.limit:.0f} lb limit each, two for anything over 6 ft"


def _movement(assembly: Assembly, units: Units) -> Iterator[Fact]:
    moves = assembly.movement
    yield Fact(
        "slat.gap.dried",
        moves.gap[1],
        "in",
        "gap",
        "gap between slats once the wood has dried to the room",
        (),
        f"each slat shrinks {writer(units).calculated(-moves.slat)} from {moves.bought:g} to {moves.room:g} % moisture",
    )
    yield Fact(
        "assembly.retighten",
        30,
        "d",
        "time",
        "days until the screws are gone over again",
        (),
        "common practice, no source; again when the first heating season ends",
    )
