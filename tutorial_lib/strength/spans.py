"""Longest slat span by slat stock: one knee or foot on one slat."""

from __future__ import annotations

from math import sqrt

from tutorial_lib.design.model import Build
from tutorial_lib.records import dataclass
from tutorial_lib.strength.loads import DURATION, KNEE
from tutorial_lib.strength.members import allowed_bending
from tutorial_lib.strength.sections import Size, design_row
from tutorial_lib.strength.working import OURS, Term, Working, step
from tutorial_lib.tables import DesignValues

STOCKS = {"1x4": (0.75, 3.5), "2x3": (1.5, 2.5), "2x4": (1.5, 3.5), "2x6": (1.5, 5.5)}
FEEL = 120  # a slat under a knee goes down at most span / 120; our choice


@dataclass(frozen=True)
class SpanLimit:
    """Longest span of one stock laid flat, without and with a line under its middle [in]."""

    stock: str
    single: float
    continuous: float  # two equal spans
    working: Working


def span_limit(stock: str, wood: DesignValues, size: Size, load: float, duration: float) -> SpanLimit:
    """Longest spans for a point load [lb] at mid-span.

    Single: L <= 4 S F'b / P and sqrt(48 E I / (120 P)).
    Two spans: L <= 64 S F'b / 13 P and sqrt(E I / (0.015 x 120 P)).
    Closed-form beams; the sag limit of span / 120 is our choice.

    >>> wood = design_row("SPF", "No.2", 4)
    >>> found = span_limit("1x4", wood, Size(0.75, 3.5, True), 126, 1.6)
    >>> round(found.single, 1), round(found.continuous, 1)
    (21.9, 26.9)
    """
    allowed, _, how = allowed_bending(wood, size, duration)
    moment, stiff = size.modulus * allowed, wood.E * size.inertia
    single = min(4 * moment / load, sqrt(48 * stiff / (FEEL * load)))
    double = min(64 * moment / (13 * load), sqrt(stiff / (0.015 * FEEL * load)))
    terms = (
        Term("S", size.modulus, "section modulus"),
        Term("F'b", allowed, "stress"),
        Term("P", load, "force"),
        Term("E I", stiff, "stiffness"),
    )
    shown = step(f"longest {stock} span", "least of 4 S F'b / P and sqrt(48 E I / 120 P)", terms,
                    Term("", single, "calculated"), f"closed form; {how.source}; {OURS}")  # fmt: skip
    return SpanLimit(stock, single, double, shown)


def span_limits(build: Build) -> tuple[SpanLimit, ...]:
    """Span limits of the usual slat stocks for the build's wood, its stated person kneeling through the mattress."""
    load, chosen = build.options.load, build.options.wood
    duration = 1.0 if load.careful else DURATION["standing"]
    point = float(load.person) * KNEE
    found = []
    for name, (t, w) in STOCKS.items():
        size = Size(t, w, True)
        found.append(span_limit(name, design_row(chosen.species, chosen.grade, size.nominal), size, point, duration))
    return tuple(found)
