"""A deck of sheet goods: refused with its reasons, and with what to do instead."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from tutorial_lib.design.mattress_rules import LEAST_OPEN
from tutorial_lib.design.options import Options
from tutorial_lib.design.sizes import clearance, mattress_size
from tutorial_lib.design.slats import wanted_gap
from tutorial_lib.errors import Fault
from tutorial_lib.measures import writer

SHEETS = re.compile(r"\b(ply|plywood|osb|mdf|hdf|chipboard|particle ?board|hardboard|sheet)\b", re.IGNORECASE)
THICK = Fraction(3, 4)  # [in] of the sheet that is worked out here
STIFF = Fraction(440_000)  # [lb in2 per ft] EI of 48/24 plywood along its grain: APA D510, from memory
SLEEPER = (Fraction(20), Fraction(60))  # [in] what one sleeper covers, across and along; our choice
CREEP = Fraction(3, 2)  # long-lasting sag: NDS 2018 Eq. 3.5-1, from memory
FELT = Fraction(1, 4)  # [in] a deeper sag is felt; our choice


def refuse_sheets(options: Options) -> Iterator[Fault]:
    """The fault of a deck of plywood or another sheet, asked for as the slats' lumber."""
    if not SHEETS.search(options.slats.lumber):
        return
    w, span = writer(options.build.units), _span(options)
    sag = sag_of(span, options.load.person)
    sagging = f"; it would sag {w.length(sag)} over {w.length(span)}" if sag > FELT else ""
    yield Fault(
        "slats.lumber",
        f'= "{options.slats.lumber}": no air comes through a sheet and damp stays under the mattress; '
        f"{round(100 * LEAST_OPEN)} % should be open{sagging}. Lay slats: "
        f'lumber = "{_boards(options)}", gap = "{w.length(wanted_gap(options))}".',
    )


def sag_of(span: Fraction, person: Fraction) -> Fraction:
    """How far 3/4 in plywood sags in the end between two bearings [in], one sleeper along its middle.

    A strip one foot wide under a load spread over 20 in of its middle, on a simple span (textbook):
    w (8 L^3 - 4 L c^2 + c^3) / 384 EI with the whole load w; 1.5 times that for what comes with time.

    Args:
        span: between the bearings [in].
        person: weight of the sleeper [lb].

    >>> round(float(sag_of(Fraction(60), Fraction(200))), 3)
    0.582
    """
    across, along = min(SLEEPER[0], span), SLEEPER[1]
    load = person * 12 / along
    return CREEP * load * (8 * span**3 - 4 * span * across**2 + across**3) / (384 * STIFF)


def _span(options: Options) -> Fraction:
    """Between the rails, or from one centre line to the next [in]."""
    side, _ = clearance(options)
    return (mattress_size(options)[0] + 2 * side) / (options.centre.lines + 1)


def _boards(options: Options) -> str:
    """Boards that a slat is usually cut from, in the plan's units."""
    return "1x4" if options.build.units == "in" else "22x95"
