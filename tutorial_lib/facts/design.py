"""Facts of the bed's shape: sizes, counts, gaps, heights, legs."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib.design.slats import wanted_gap
from tutorial_lib.facts.fact import Fact, Value
from tutorial_lib.facts.words import said_as
from tutorial_lib.measures import write_length

if TYPE_CHECKING:
    from tutorial_lib.design.model import Build, Leg, Part
    from tutorial_lib.plan import Plan

LEG_KEYS = ("leg", "corner_leg", "mid_leg", "centre_leg")


def facts(plan: Plan) -> Iterator[Fact]:
    """All facts of the design room."""
    shape = _Shape(plan.build)
    for group in (shape.mattress, shape.frame, shape.parts, shape.support, shape.slats, shape.legs, shape.heights):
        yield from group()


class _Shape:
    def __init__(self, build: Build) -> None:
        self.build, self.options = build, build.options
        self.units = self.options.build.units

    def w(self, x: Fraction) -> str:
        """A length as the person's tape shows it, for the working."""
        return write_length(x, self.units, 32)

    def fact(self, key: str, value: Value, kind: str, what: str, working: str, unit: str = "in") -> Fact:
        words = said_as(self.options.names, key.split(".")[0])
        return Fact(key, value, unit, kind, what, words, working)

    def mattress(self) -> Iterator[Fact]:
        measured = self.options.mattress.width is not None
        why = "as measured" if measured else f"{self.options.mattress.size}, from the table of sizes"
        for name, size in zip(("width", "length"), self.build.mattress, strict=True):
            yield self.fact(f"mattress.{name}", size, "mattress_size", f"mattress {name}", why)
        if self.options.mattress.thickness is not None:
            yield self.fact(
                "mattress.thickness", self.options.mattress.thickness, "mattress_size", "mattress thickness", "stated"
            )

    def frame(self) -> Iterator[Fact]:
        build, clear = self.build, self.options.clearance
        thick = build.part("side_rail").section.thickness
        for name, size, inside, outside, each, between in zip(
            ("width", "length"), build.mattress, build.opening, build.outside, (clear.side, clear.end),
            ("side rails", "end rails"), strict=True,
        ):  # fmt: skip
            yield self.fact(
                f"frame.inside_{name}",
                inside,
                "length",
                f"opening between the {between}",
                f"{self.w(size)} mattress + 2 × {self.w(each)} clearance = {self.w(inside)}",
            )
            yield self.fact(
                f"frame.{name}",
                outside,
                "length",
                f"outside {name}",
                f"{self.w(inside)} inside + 2 × {self.w(thick)} rail = {self.w(outside)}",
            )
        yield self.fact(
            "frame.mattress_clearance", clear.side, "gap", "room each side of the mattress, across", "stated"
        )
        yield self.fact("frame.end_clearance", clear.end, "gap", "room at each end of the mattress, along", "stated")
        yield self.fact(
            "frame.length.centre",
            build.outside[1] / 2,
            "centre_mark",
            "half the bed's length, for the middle leg",
            f"{self.w(build.outside[1])} / 2 = {self.w(build.outside[1] / 2)}",
        )

    def parts(self) -> Iterator[Fact]:
        for part in self.build.parts:
            if part.key in LEG_KEYS or part.key == "flange":
                continue
            yield self.fact(
                f"{part.key}.length",
                part.length,
                "length",
                f"{part.section.name} {part.name}",
                self._length_working(part),
            )
            yield self.fact(
                f"{part.key}.count", part.count, "part_count", f"{part.name}s", "pieces of the plan", "count"
            )
        yield from self._sections()

    def _length_working(self, part: Part) -> str:
        build, inside = self.build, self.build.opening
        thick, play = build.part("side_rail").section.thickness, self.options.slats.play
        ends = self.options.support.end_play
        past = self.options.frame.corners == "side rails run past"
        span = {
            "side_rail": (inside[1], "+", thick if past else Fraction(0), "rail"),
            "end_rail": (inside[0], "+", Fraction(0) if past else thick, "rail"),
            "slat": (inside[0], "−", play, "play"),
            "cleat": (inside[1], "−", ends, "end play"),
            "runner": (inside[1], "+", thick, "rail"),
        }.get(part.key)
        if span is None or span[0] + (2 if span[1] == "+" else -2) * span[2] != part.length:
            return f"as placed: {self.w(part.length)}"
        change = f" {span[1]} 2 × {self.w(span[2])} {span[3]}" if span[2] else ""
        return f"{self.w(span[0])} inside{change} = {self.w(part.length)}"

    def _sections(self) -> Iterator[Fact]:
        for part, key in (
            ("side_rail", "rail"),
            ("slat", "slat"),
            ("centre_beam", "centre_beam"),
            ("runner", "runner"),
        ):
            if not self.build.has(part):
                continue
            section = self.build.part(part).section
            deep = "depth" if self.build.part(part).stands == "on edge" else "width"
            yield self.fact(
                f"{key}.thickness", section.thickness, "section", f"actual {section.name} thickness", "actual size"
            )
            yield self.fact(f"{key}.{deep}", section.width, "section", f"actual {section.name} width", "actual size")

    def support(self) -> Iterator[Fact]:
        build = self.build
        drop = build.heights.rail_top - build.heights.slat_bottom
        thick = build.part("slat").section.thickness
        if build.has("cleat"):
            yield self.fact(
                "cleat.drop",
                drop,
                "distance",
                "rail top edge down to cleat top",
                f"{self.w(build.heights.recess)} recess + {self.w(thick)} slat = {self.w(drop)}",
            )
        lines = [line for line in build.lines if line.name.startswith("line")]
        yield self.fact("centre_line.count", len(lines), "part_count", "centre lines", "stated", "count")
        for i, line in enumerate(lines, 1):
            y = line.y - build.part("side_rail").section.thickness
            yield self.fact(
                f"centre_line.{i}.from_left",
                y,
                "distance",
                f"centre of line {i} from the left rail's inner face",
                "equal spans between the bearings, on the plan's grid",
            )

    def slats(self) -> Iterator[Fact]:
        row = self.build.slats
        spaces = row.count + 1 if self.options.slats.edge == "equal" else row.count - 1
        room = row.opening - (2 * row.edge if self.options.slats.edge == "fixed" else 0)
        yield self.fact(
            "slat.gap",
            row.gap,
            "gap",
            "gap between slats"
            + (", first and last against the end rails" if self.options.slats.edge == "flush" else ""),
            f"({self.w(room)} − {row.count} × {self.w(row.width)}) / {spaces} = {self.w(row.gap)}, given to 1/32 in"
            if self.units == "in"
            else f"({self.w(room)} − {row.count} × {self.w(row.width)}) / {spaces} = {self.w(row.gap)}",
        )
        yield self.fact("slat.gap_count", spaces, "gap_count", "gaps between slats", f"{row.count} slats", "count")
        yield self.fact(
            "slat.marks",
            tuple(row.marks),
            "centre_mark",
            "near edge of each slat from the head rail's inner face",
            "each from the one end, so that errors never add up",
        )
        if self.options.mattress.gap_limit is not None:
            yield self.fact(
                "slat.gap.max",
                self.options.mattress.gap_limit,
                "gap_limit",
                "largest gap allowed",
                self.options.mattress.gap_limit_from,
            )
        elif self.options.slats.count is None and self.options.slats.carries == "mattress":
            yield self.fact(
                "slat.gap.wanted", wanted_gap(self.options), "gap_limit", "largest gap wanted", "our choice"
            )
        yield self.fact("slat.play", self.options.slats.play, "gap", "slat end to rail, each end", "stated")

    def legs(self) -> Iterator[Fact]:
        build = self.build
        yield self.fact("leg.count", len(build.legs), "part_count", "legs", "the grid less those left out", "count")
        for key in LEG_KEYS:
            if build.has(key):
                yield self.fact(
                    f"{key}.height",
                    self._leg_height(key),
                    "length",
                    f"{build.part(key).section.name} {build.part(key).name}",
                    self._leg_working(),
                )
        for key, legs in self._groups().items():
            if key != "leg" and legs:
                yield self.fact(
                    f"{key}.count",
                    len(legs),
                    "part_count",
                    f"{key.replace('_', ' ')}s",
                    "the grid less those left out",
                    "count",
                )
        sides = [leg for leg in build.legs if leg.line in ("left", "right")]
        if sides:
            first = min(leg.near_edge for leg in sides)
            yield self.fact(
                "leg.setback",
                first,
                "distance",
                "corner leg from the end of the bed",
                "stated set-back" if self.options.legs.setback is not None else "as far out as a leg goes",
            )
            marks = sorted({leg.near_edge for leg in sides})
            yield self.fact(
                "leg.marks",
                tuple(marks),
                "centre_mark",
                "near edge of each side leg from the outer face of the head end",
                "evenly between the set-backs",
            )

    def _leg_height(self, key: str) -> Fraction:
        """A leg's whole length, a tube's flange included."""
        leg = next(leg for leg in self.build.legs if self.build.pieces[leg.pieces[0]].part == key)
        boxes = [self.build.pieces[label].box for label in leg.pieces]
        return max(box.hi[2] for box in boxes) - min(box.lo[2] for box in boxes)

    def _groups(self) -> dict[str, list[Leg]]:
        groups: dict[str, list[Leg]] = {}
        for leg in self.build.legs:
            groups.setdefault(self.build.pieces[leg.pieces[0]].part, []).append(leg)
        return groups

    def _leg_working(self) -> str:
        heights, build = self.build.heights, self.build
        if not build.has("cleat") or self.options.leg_place != "under":
            return "from the floor to the wood it carries"
        slat, cleat = build.part("slat").section.thickness, build.part("cleat").section.width
        level = f" − {self.w(heights.leveller)} leveller" if heights.leveller else ""
        return (
            f"{self.w(heights.rail_top)} rail top − {self.w(heights.recess)} recess − {self.w(slat)} slat − "
            f"{self.w(cleat)} cleat{level} = {self.w(heights.leg)}; centre legs end at their line"
        )

    def heights(self) -> Iterator[Fact]:
        heights = self.build.heights
        rail = self.build.part("side_rail").section.width
        yield self.fact(
            "frame.height",
            heights.rail_top,
            "height",
            "floor to top of rail",
            f"{self.w(heights.rail_bottom)} to the rail's underside + {self.w(rail)} rail = {self.w(heights.rail_top)}",
        )
        yield self.fact(
            "frame.underside",
            heights.underside,
            "clearance",
            "floor to underside along the sides",
            "stated or from the leg",
        )
        yield self.fact(
            "frame.storage",
            heights.storage,
            "clearance",
            "floor to the lowest wood anywhere between the legs",
            "lowest of sides and centre lines",
        )
        yield self.fact(
            "frame.sleep_height",
            heights.slat_top,
            "height",
            "floor to slat top",
            f"{self.w(heights.rail_top)} rail top − {self.w(heights.recess)} recess = {self.w(heights.slat_top)}",
        )
        yield self.fact("frame.recess", heights.recess, "distance", "rail top above slat top", "stated or chosen")
        if heights.sleeping is not None:
            yield self.fact(
                "frame.mattress_top",
                heights.sleeping,
                "height",
                "floor to top of mattress",
                "slat top + mattress thickness",
            )
