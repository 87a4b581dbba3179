"""Rules of corner posts: the mattress's corner beside them."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil, sqrt

from tutorial_lib.design.mattress_rules import Rule, written
from tutorial_lib.design.model import Build
from tutorial_lib.design.sizes import clearance
from tutorial_lib.findings import Finding, Remedy

LARGEST_ROOM = Fraction(3, 4)  # [in] each side of the mattress, by the rule of clearance


def _mattress_corner(build: Build) -> Iterator[Finding]:
    """A post in the opening's corner keeps clear of the mattress's corner, by how round that is."""
    past = into_mattress(build)
    if min(past) <= 0:
        return
    wanted, stated = needed_radius(past), build.options.mattress.corner_radius
    if stated is not None and stated >= wanted:
        return
    told = (
        "is not measured: see how round it is, from above"
        if stated is None
        else f"is rounded by {written(build, stated)} only: the mattress bulges there, or doesn't lie flat"
    )
    yield Finding(
        rule="mattress corner",
        severity="caution" if stated is None else "stop",
        what=f"The posts stand {written(build, max(past))} past the mattress's edges in its corners, and the "
        f"mattress's corner {told}.",
        value="not stated" if stated is None else written(build, stated),
        limit=f"at least {written(build, wanted)}",
        whose="geometry",
        remedy="Measure how round it is, give more room beside the mattress, or a larger reveal.",
        parts=("post",),
        remedies=tuple(_more_room(build)),
    )


def into_mattress(build: Build) -> tuple[Fraction, Fraction]:
    """How far the posts' inner corners stand past the mattress's edges, across and along [in]; 0 or less: clear."""
    posts = [build.pieces[leg.pieces[0]].box for leg in build.legs if leg.post]
    if not posts:
        return Fraction(0), Fraction(0)
    thick, room = build.part("side_rail").section.thickness, clearance(build.options)
    return posts[0].hi[1] - thick - room[0], posts[0].hi[0] - thick - room[1]


def needed_radius(past: tuple[Fraction, Fraction]) -> Fraction:
    """The least radius of a mattress's corner that a post's corner stays clear of, up to the next 1/16 [in].

    The post's corner at a and b from the mattress's edges lies on the circle of radius R about (R, R):
    R = a + b + sqrt(2 a b). Geometry.

    >>> needed_radius((Fraction(1), Fraction(1)))
    Fraction(55, 16)
    """
    a, b = (float(x) for x in past)
    return Fraction(ceil(round((a + b + sqrt(2 * a * b)) * 16, 6)), 16)


def _more_room(build: Build) -> Iterator[Remedy]:
    text = written(build, LARGEST_ROOM)
    if max(clearance(build.options)) < LARGEST_ROOM:
        yield Remedy.setting(f"Give the mattress {text} of room all round", clearance__side=text, clearance__end=text)
    if build.options.posts.joint == "hooks" and build.options.posts.reveal is not None:
        yield Remedy.setting("Leave the posts' reveal open: flush with the rails inside", posts__reveal=None)


RULES: tuple[Rule, ...] = (_mattress_corner,)
