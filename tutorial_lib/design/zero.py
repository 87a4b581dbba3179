"""Where the tape is hooked for the legs, and how far the bed reaches over all that stands out."""

from __future__ import annotations

from fractions import Fraction

from tutorial_lib.design.model import SIDES, Build, Leg

Span = tuple[Fraction, Fraction]


def marked(build: Build, side: str = "") -> list[Leg]:
    """The side legs that are set to marks, from the head: all but corner posts."""
    legs = [leg for leg in build.legs if leg.line in SIDES and not leg.post and side in ("", leg.line)]
    return sorted(legs, key=lambda leg: leg.x)


def leg_zero(build: Build) -> Fraction:
    """x from which side legs are marked [in]: the bed's head end, between posts the side rail's."""
    return build.part("side_rail").pieces[0].box.lo[0] if build.options.frame.posts else Fraction(0)


def leg_zero_name(build: Build) -> str:
    """That place in words."""
    return "the side rail's head end" if build.options.frame.posts else "the bed's head end"


def leg_zero_short(build: Build) -> str:
    """The same where it is told of a drawing, which has the legs of centre lines too."""
    if not build.options.frame.posts:
        return "the head end"
    central = any(leg.line not in SIDES for leg in build.legs)
    return leg_zero_name(build) + (", centre legs from the head rail's outer face" if central else "")


def leg_mark(build: Build, leg: Leg) -> Fraction:
    """A leg's edge nearest the head from where it is marked [in]; legs of centre lines from the rails' outer face."""
    return leg.near_edge - (leg_zero(build) if leg.line in SIDES else 0)


def reach(build: Build) -> tuple[Span, Span]:
    """From and to along the bed and across it, over the rails and the posts that stand beyond them [in]."""
    out = (build.overall[0] - build.outside[0]) / 2
    return (-out - build.behind, build.outside[1] + out), (-out, build.outside[0] + out)
