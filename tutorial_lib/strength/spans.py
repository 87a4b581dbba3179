"""Longest slat span by slat stock: one knee or foot on one slat."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from tutorial_lib.design.model import Build
from tutorial_lib.strength.loads import DURATION, THROUGH_MATTRESS
from tutorial_lib.strength.members import allowed_bending
from tutorial_lib.strength.wood import Size, Wood, wood
from tutorial_lib.strength.working import Working, figure

STOCKS = {"1x4": (0.75, 3.5), "2x3": (1.5, 2.5), "2x4": (1.5, 3.5), "2x6": (1.5, 5.5)}
FEEL = 120  # a slat under a knee goes down at most span / 120; our choice


@dataclass(frozen=True)
class SpanLimit:
    """Longest span of one stock laid flat, without and with a line under its middle [in]."""

    stock: str
    single: float
    continuous: float  # two equal spans
    working: Working


def span_limit(stock: str, kind: Wood, size: Size, load: float, duration: float) -> SpanLimit:
    """Longest spans for a point load [lb] at mid-span.

    Single: L <= 4 S F'b / P and sqrt(48 E I / (120 P)).
    Two spans: L <= 64 S F'b / 13 P and sqrt(E I / (0.015 x 120 P)).
    Closed-form beams; the sag limit of span / 120 is our choice.
    """
    allowed, _, _ = allowed_bending(kind, size, duration)
    moment, stiff = size.modulus * allowed, kind.stiffness * size.inertia
    single = min(4 * moment / load, sqrt(48 * stiff / (FEEL * load)))
    double = min(64 * moment / (13 * load), sqrt(stiff / (0.015 * FEEL * load)))
    how = Working(
        f"longest {stock} span",
        "min(4 S F'b / P, sqrt(48 E I / 120 P))",
        f"S {figure(size.modulus)} in3, F'b {figure(allowed)} psi, P {figure(load)} lb, "
        f"EI {figure(stiff)} lb in2, CD {figure(duration)}",
        single,
        "in",
        "closed form; NDS 3.3; our choice",
    )
    return SpanLimit(stock, single, double, how)


def span_limits(build: Build) -> tuple[SpanLimit, ...]:
    """Span limits of the usual slat stocks for the build's wood, someone kneeling through the mattress."""
    load = build.options.load
    duration = 1.0 if load.careful else DURATION["standing"]
    point = float(load.standing) * THROUGH_MATTRESS
    chosen = build.options.wood
    return tuple(
        span_limit(name, wood(chosen.species, chosen.grade, w, t), Size(t, w, True), point, duration)
        for name, (t, w) in STOCKS.items()
    )
