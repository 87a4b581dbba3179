"""Facts of the bed's shape: mattress, frame, parts, support, heights; the slats' and the legs' stand beside."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib.design.parts import LEG_KEYS, names_of
from tutorial_lib.design.sizes import clearance
from tutorial_lib.facts import headboard, legs, plinth, posts, slats, standing, storage
from tutorial_lib.facts.fact import Board, Fact
from tutorial_lib.facts.teller import Teller

if TYPE_CHECKING:
    from tutorial_lib.design.model import Build, Part
    from tutorial_lib.plan import Plan

SECTIONS = (("side_rail", "rail"), ("slat", "slat"), ("centre_beam", "centre_beam"), ("runner", "runner"))


def facts(plan: Plan) -> Iterator[Fact]:
    """All facts of the design room."""
    tell, build = Teller(plan.options), plan.build
    shapes = (posts.facts, headboard.facts, slats.facts, legs.facts)
    if build.bed_stands:
        yield from standing.facts(tell, build)
        yield from (*_mattress(tell, build), *_parts(tell, build), *headboard.facts(tell, build))
        return
    for group in (_mattress, _frame, _parts, _support, *shapes, _heights, storage.facts, plinth.facts):
        yield from group(tell, build)


def _mattress(tell: Teller, build: Build) -> Iterator[Fact]:
    asked = build.options.mattress
    why = "as measured" if asked.width is not None else f"{asked.size}, from the table of sizes"
    for name, size in zip(("width", "length"), build.mattress, strict=True):
        yield tell.length(f"mattress.{name}", size, "mattress_size", f"mattress {name}", why)
    if asked.thickness is not None:
        yield tell.length("mattress.thickness", asked.thickness, "mattress_size", "mattress thickness", "stated")
    if asked.box_spring is not None:
        yield tell.length("mattress.box_spring", asked.box_spring, "height", "height of the box spring", "stated",
                          said=("box spring", "foundation"))  # fmt: skip


def _frame(tell: Teller, build: Build) -> Iterator[Fact]:
    room, thick = clearance(build.options), build.part("side_rail").section.thickness
    for name, size, inside, rails, over, each, between in zip(
        ("width", "length"), build.mattress, build.opening, build.outside, build.overall, room,
        ("side rails", "end rails"), strict=True,
    ):  # fmt: skip
        yield tell.length(
            f"frame.inside_{name}", inside, "length", f"opening between the {between}",
            f"{tell.fine(size)} mattress + 2 × {tell.fine(each)} clearance = {tell.fine(inside)}",
        )  # fmt: skip
        working = f"{tell.fine(inside)} inside + 2 × {tell.fine(thick)} rail = {tell.fine(rails)}"
        if over != rails:  # posts, or a headboard's uprights: a room is measured for what stands out most
            yield tell.length(f"frame.rails_{name}", rails, "length", f"{name} over the rails", working,
                              said=("rails",))  # fmt: skip
            working = f"{tell.fine(rails)} over the rails + {tell.fine(over - rails)} beyond them = {tell.fine(over)}"
        yield tell.length(f"frame.{name}", over, "length", f"outside {name}", working)
    stated = build.options.clearance
    for key, each, given, what in (
        ("mattress", room[0], stated.side, "room each side of the mattress, across"),
        ("end", room[1], stated.end, "room at each end of the mattress, along"),
    ):
        yield tell.length(f"frame.{key}_clearance", each, "gap", what, "our choice" if given is None else "stated")
    yield from _halves(tell, build)
    yield tell.count("frame.corners", 4, "part_count", "corners of the frame", "two rails meet in each",
                     said=("corner",))  # fmt: skip


def _halves(tell: Teller, build: Build) -> Iterator[Fact]:
    """Where a middle leg, a centre line or a seam is marked from."""
    for key, whole, what in (
        ("frame.length.centre", build.outside[1], "half the length over the rails"),
        ("frame.width.centre", build.outside[0], "half the width over the rails"),
        ("frame.inside_length.centre", build.opening[1], "half the opening's length"),
        ("frame.inside_width.centre", build.opening[0], "half the opening's width"),
    ):
        yield tell.length(key, whole / 2, "centre_mark", what, f"{tell.fine(whole)} / 2 = {tell.fine(whole / 2)}")


def _parts(tell: Teller, build: Build) -> Iterator[Fact]:
    for part in build.made:
        if part.use in LEG_KEYS or part.key == "flange":
            continue
        key = f"{part.key}.{'height' if part.use == 'post' else 'length'}"
        yield tell.length(
            key, part.length, "length", f"{part.section.name} {part.name}",
            _length_working(tell, build, part),
        )  # fmt: skip
        yield tell.count(f"{part.key}.count", part.count, "part_count", part.several, "pieces of the plan")
    runners = [part for part in build.parts if part.use in ("runner", "centre_runner")]
    if len(runners) > 1:
        count = sum(part.count for part in runners)
        sums = " + ".join(f"{part.count} {part.several}" for part in runners)
        yield tell.count("runners.count", count, "part_count", "runners in all", sums, said=("runner", "bearer"))
    yield from _sections(tell, build)
    yield from _lumber(tell, build)


def _lumber(tell: Teller, build: Build) -> Iterator[Fact]:
    """The board each part is cut from, whatever its lengths, by the name it is sold under."""
    names = names_of(build.options)
    for use, section in {part.use: part.section for part in build.made if not part.section.steel}.items():
        what = f"lumber of the {names[use]}s"
        yield replace(tell.bare(f"{use}.lumber", section.name, "", "lumber", what, "stated", said=tell.words(use)),
                      board=Board(section.name))  # fmt: skip


def _length_working(tell: Teller, build: Build, part: Part) -> str:
    options, inside = build.options, build.opening
    thick = build.part("side_rail").section.thickness
    past = options.frame.corners == "side rails run past"
    if options.frame.posts and part.use in ("post", "side_rail", "end_rail", "corner_block", "batten", "headboard"):
        return posts.working(tell, build, part)
    span = {
        "side_rail": (inside[1], "+", thick if past else Fraction(0), "rail"),
        "end_rail": (inside[0], "+", Fraction(0) if past else thick, "rail"),
        "slat": (inside[0], "−", options.slats.play, "play"),
        "cleat": (inside[1], "−", options.support.end_play, "end play"),
        "runner": (inside[1], "+", thick, "rail"),
    }.get(part.key)
    if span is None or span[0] + (2 if span[1] == "+" else -2) * span[2] != part.length:
        return f"as placed: {tell.fine(part.length)}"
    change = f" {span[1]} 2 × {tell.fine(span[2])} {span[3]}" if span[2] else ""
    return f"{tell.fine(span[0])} inside{change} = {tell.fine(part.length)}"


def _sections(tell: Teller, build: Build) -> Iterator[Fact]:
    for part, key in SECTIONS:
        if not build.has(part) or (build.bed_stands and part != "side_rail"):
            continue
        section = build.part(part).section
        deep = "depth" if build.part(part).stands == "on edge" else "width"
        for name, size in (("thickness", section.thickness), (deep, section.width)):
            what = f"actual {section.name} {'thickness' if name == 'thickness' else 'width'}"
            yield tell.length(f"{key}.{name}", size, "section", what, "actual size")


def _support(tell: Teller, build: Build) -> Iterator[Fact]:
    drop, thick = build.heights.rail_top - build.heights.slat_bottom, build.part("slat").section.thickness
    if build.has("cleat"):
        yield tell.length(
            "cleat.drop", drop, "distance", "rail top edge down to cleat top",
            f"{tell.fine(build.heights.recess)} recess + {tell.fine(thick)} slat = {tell.fine(drop)}",
        )  # fmt: skip
    lines = [line for line in build.lines if line.central]
    yield tell.count("centre_line.count", len(lines), "part_count", "centre lines", "stated")
    for i, line in enumerate(lines, 1):
        yield tell.length(
            f"centre_line.{i}.from_left", line.y - build.part("side_rail").section.thickness, "distance",
            f"centre of line {i} from the left rail's inner face",
            "equal spans between the bearings, on the plan's grid",
        )  # fmt: skip


def _heights(tell: Teller, build: Build) -> Iterator[Fact]:
    heights, rail = build.heights, build.part("side_rail").section.width
    top, recess = tell.fine(heights.rail_top), tell.fine(heights.recess)
    for key, x, kind, what, working in (
        ("height", heights.rail_top, "height", "floor to top of rail",
         f"{tell.fine(heights.rail_bottom)} to the rail's underside + {tell.fine(rail)} rail = {top}"),
        ("underside", heights.underside, "clearance", "floor to underside along the sides", "stated or from the leg"),
        ("storage", heights.storage, "clearance", "floor to the lowest wood anywhere between the legs",
         "lowest of sides and centre lines"),
        ("sleep_height", heights.slat_top, "height", "floor to slat top",
         f"{top} rail top − {recess} recess = {tell.fine(heights.slat_top)}"),
        ("recess", heights.recess, "distance", "rail top above slat top", "stated or chosen"),
    ):  # fmt: skip
        yield tell.length(f"frame.{key}", x, kind, what, working)
    if heights.sleeping is not None:
        boxed = " + box spring" if build.options.mattress.box_spring is not None else ""
        yield tell.length("frame.mattress_top", heights.sleeping, "height", "floor to top of mattress",
                          f"slat top{boxed} + mattress thickness")  # fmt: skip
