"""Choices that can't be had together with corner posts, or without them."""

from __future__ import annotations

from collections.abc import Iterator

from tutorial_lib.design.bolted_headboard import bolted
from tutorial_lib.design.headboard_options import HeadboardOptions
from tutorial_lib.design.options import Options
from tutorial_lib.design.post_options import PostOptions
from tutorial_lib.design.screw_options import ScrewOptions, ScrewsOptions
from tutorial_lib.errors import Fault
from tutorial_lib.measures import writer

CORNERS = 'frame.corners = "rails die into posts"'
NOTHING, UNSTATED = ScrewOptions(), ScrewsOptions()


def of_posts(options: Options) -> Iterator[Fault]:
    """Every stated choice that the bed's corners have no use for."""
    yield from _under_posts(options) if options.frame.posts else _without_posts(options)
    blocks = options.frame.posts and options.posts.joint == "corner blocks"
    for name in ("block", "post") if not blocks else ():
        if _stated(options, name):
            yield Fault(f"screws.{name}", "is for corner blocks beside posts, and this bed has none. Leave it out.")
    yield from _of_bed_bolts(options)
    yield from _of_headboard(options)


def _stated(options: Options, name: str) -> bool:
    """Whether the build file says something of one kind of joint's screws."""
    return bool(getattr(options.screws, name) != getattr(UNSTATED, name))


def _of_headboard(options: Options) -> Iterator[Fault]:
    unused = ["batten"] if bolted(options) else ["upright"]
    unused += [] if options.headboard.kind == "slats" else ["panel_slat"]
    if options.headboard.kind != "none":
        yield from _of_standing_bed(options)
        for name in unused:
            if _stated(options, name):
                yield Fault(f"screws.{name}", "holds no part of this headboard. Leave it out.")
        return
    if options.headboard != HeadboardOptions():
        yield Fault("headboard", 'has no use without kind = "boards" or "slats". Leave it out.')
    for name in ("batten", "panel", "panel_slat", "upright"):
        if _stated(options, name):
            yield Fault(f"screws.{name}", "is for a headboard, and this bed has none. Leave it out.")


def _of_standing_bed(options: Options) -> Iterator[Fault]:
    """A headboard alone is bolted to rails that meet."""
    if options.headboard.bed == "stands" and options.frame.posts:
        yield Fault(
            "headboard.bed",
            '= "stands" bolts a headboard to the head rail of a bed whose rails meet. On corner posts the head posts '
            'run up with it: make two new head posts with the bed, headboard.bed = "new".',
        )


def _of_bed_bolts(options: Options) -> Iterator[Fault]:
    stated = options.screws.bed_bolt
    if stated != NOTHING and not (options.frame.posts and options.posts.joint == "barrel nuts"):
        yield Fault("screws.bed_bolt", 'is for posts.joint = "barrel nuts". Leave it out.')
    elif stated.model_copy(update=dict.fromkeys(("diameter", "length", "price", "box"))) != NOTHING:
        yield Fault("screws.bed_bolt", "takes diameter, length, price and box; there are two bolts in each rail's end.")


def _without_posts(options: Options) -> Iterator[Fault]:
    if options.posts != PostOptions():
        yield Fault("posts", f"is for a bed on corner posts. Leave it out, or say {CORNERS}.")


def _under_posts(options: Options) -> Iterator[Fault]:
    if options.support.kind == "runners":
        yield Fault("support.kind", '= "runners" lie under rails that meet; between posts the slats lie on "cleats".')
    if options.centre.lines and options.centre.ends != "leg":
        yield Fault(
            "centre.ends",
            f'= "{options.centre.ends}" hangs the line on end rails that hang on posts; let it stand on a "leg" at '
            "each end.",
        )
    if options.screws.corner != NOTHING:
        yield Fault("screws.corner", "is for rails that meet each other; posts have blocks or hooks. Leave it out.")
    yield from _of_legs_between(options)
    if options.heights.leg is not None:
        yield Fault("heights.leg", "is the length of corner legs; on posts give underside or sleeping.")


def _of_legs_between(options: Options) -> Iterator[Fault]:
    """Choices of legs: posts stand at the corners, and legs only between them."""
    legs, units = options.legs, options.build.units
    if legs.setback is not None:
        yield Fault(
            "legs.setback",
            f"= {writer(units).length(legs.setback)} is for corner legs; the posts stand in their place. Leave it out.",
        )
    if legs.per_side < 2:
        yield Fault("legs.per_side", f"= {legs.per_side} is less than the two posts of a side; they are counted too.")
    if legs.kind == "corner L":
        yield Fault("legs.kind", '= "corner L" is for corners; between posts use "post" or "doubled".')
    posts = {f"{letter}{number}" for letter in "LR" for number in (1, legs.per_side)}
    for label in sorted(posts & set(legs.omit)):
        yield Fault("legs.omit", f'has "{label}", which is a corner post: the rails end there.')
