"""The design's choices as controls: the basic ones first in each group, the rest folded; only those the bed has."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from tutorial_lib.design.options import NAMED, Options
from tutorial_lib.tables import dressed_sizes, mattresses
from tutorial_lib.workbook.controls import Control, Kind

When = Callable[[Options], bool]
Choices = tuple[tuple[str, object], ...]
HEIGHTS: tuple[tuple[str, str], ...] = (
    ("floor to underside of the frame", "underside"), ("free height, centre lines too", "storage"),
    ("height of the slats", "sleeping"), ("height of the mattress's top", "mattress_top"), ("leg length", "leg"),
)  # fmt: skip


def _mattress_names() -> Choices:
    """Every size once, US ones by their bare name."""
    names = dict.fromkeys(m.name if m.region == "US" else f"{m.region} {m.name}" for m in mattresses())
    return tuple((name, name) for name in names)


def _sections(thin: Fraction, thick: Fraction, narrow: Fraction, wide: Fraction) -> Choices:
    found = (s.name for s in dressed_sizes() if thin <= s.thickness <= thick and narrow <= s.width <= wide)
    return tuple((name, name) for name in dict.fromkeys(found))


class Group:
    """Makes controls under one heading."""

    def __init__(self, name: str) -> None:
        self.name = name

    def length(
        self, key: str, label: str, low: float, high: float, *, empty: str = "", more: bool = False,
        when: When | None = None, step: Fraction = Fraction(1, 8), fact: str = "",
    ) -> Control:  # fmt: skip
        """A length between two sensible ends [in]; others can be typed."""
        return Control(
            key=key, label=label, kind="length", low=Fraction(low), high=Fraction(high), step=step, empty=empty,
            group=self.name, more=more, when=when, fact=fact,
        )  # fmt: skip

    def box(
        self, key: str, label: str, kind: Kind = "text", *, empty: str = "", more: bool = False,
        when: When | None = None,
    ) -> Control:  # fmt: skip
        """A box to type in."""
        return Control(key=key, label=label, kind=kind, empty=empty, group=self.name, more=more, when=when)

    def check(self, key: str, label: str, *, more: bool = False) -> Control:
        """Yes or no."""
        return Control(key=key, label=label, kind="check", group=self.name, more=more)

    def choice(
        self, key: str, label: str, choices: Choices, *, more: bool = False, when: When | None = None
    ) -> Control:
        """One of a list."""
        return Control(key=key, label=label, kind="choice", choices=choices, group=self.name, more=more, when=when)

    def count(
        self, key: str, label: str, low: int, high: int, *, more: bool = False, when: When | None = None
    ) -> Control:
        """A whole number."""
        return Control(
            key=key, label=label, kind="count", low=Fraction(low), high=Fraction(high), group=self.name, more=more,
            when=when,
        )  # fmt: skip


def _cleats(options: Options) -> bool:
    return options.support.kind == "cleats"


def _runners(options: Options) -> bool:
    return options.support.kind == "runners"


def _lines(options: Options) -> bool:
    return options.centre.lines > 0


def _beam(options: Options) -> bool:
    return _lines(options) and options.centre.kind == "beam"


def _wooden(options: Options) -> bool:
    return options.legs.kind != "tube"


def _tube(options: Options) -> bool:
    return options.tubes


def _box_spring(options: Options) -> bool:
    return options.slats.carries == "box spring"


def _one_line(options: Options) -> bool:
    return options.centre.lines == 1


def _boxes(options: Options) -> bool:
    return options.storage.width is not None


def _own_line_legs(options: Options) -> bool:
    return options.centre.lines > 0 and options.line_leg_kind != "tube"


def _l_legs(options: Options) -> bool:
    return options.legs.kind == "corner L"


def _strapped(options: Options) -> bool:
    return options.slats.hold == "straps"


def _fixed_edge(options: Options) -> bool:
    return options.slats.edge == "fixed"


def _beside_the_rail(options: Options) -> bool:
    return _runners(options) and options.leg_place == "under"


def _posts(options: Options) -> bool:
    return options.frame.posts


def _headboard(options: Options) -> bool:
    return options.headboard.kind != "none"


def _plinth(options: Options) -> bool:
    return options.plinth.lumber is not None


def _slatted(options: Options) -> bool:
    return options.headboard.kind == "slats"


def _on_battens(options: Options) -> bool:
    return _headboard(options) and _posts(options)


def _bolted_on(options: Options) -> bool:
    return _headboard(options) and not _posts(options)


def _blocks(options: Options) -> bool:
    return _posts(options) and options.posts.joint == "corner blocks"


def _words(*names: str) -> Choices:
    return tuple((name, name) for name in names)


MATTRESS, FRAME, SLATS, SUPPORT = Group("Mattress"), Group("Frame"), Group("Slats"), Group("Support")
POST, HEAD = Group("Corner posts"), Group("Headboard")
CENTRE, LEGS, HEIGHT = Group("Centre lines"), Group("Legs"), Group("Height")
VIDEO, WORDS = Group("Video"), Group("What I call the parts")
BOXES = Group("Boxes under the bed")
EDGES: Choices = (
    ("against the end rails", "flush"), ("a gap like the others", "equal"), ("a gap of their own", "fixed"),
)  # fmt: skip
POSTS = _sections(Fraction(1, 2), Fraction(4), Fraction(2), Fraction(6))
HALVES: Choices = (("in one piece", False), ("in two halves", True))
BOX_SIDES: Choices = (("both sides", "both"), ("the left side", "left"), ("the right side", "right"))
LINE_LEGS: Choices = (
    ("as the side legs", None), ("posts", "post"), ("two boards, doubled", "doubled"), ("steel tubes", "tube"),
)  # fmt: skip
MADE_AS: Choices = (("one piece", False), ("two halves side by side", True))
SQUARE = tuple((name, name) for name in dict.fromkeys(s.name for s in dressed_sizes() if s.thickness == s.width >= 3))
HEADBOARDS: Choices = (("none", "none"), ("boards across", "boards"), ("upright slats", "slats"))
STANDING: Choices = (("is built with it", "new"), ("stands already", "stands"))
BASES: Choices = (("carries nothing", False), ("is an inner frame", True))
PLINTHS = _sections(Fraction(1, 2), Fraction(2), Fraction(2), Fraction(12))
USUAL_ROOM = "as needed"
SLAT_STOCK = _sections(Fraction(1, 2), Fraction(2), Fraction(2), Fraction(6))
THICK = _sections(Fraction(1), Fraction(2), Fraction(1), Fraction(12))

# fmt: off
DESIGN: tuple[Control, ...] = (
    MATTRESS.choice("mattress.size", "Size", _mattress_names()),
    MATTRESS.length("mattress.width", "Measured width", 24, 84, empty="as named", fact="mattress.width"),
    MATTRESS.length("mattress.length", "Measured length", 60, 90, empty="as named", fact="mattress.length"),
    MATTRESS.length("mattress.thickness", "Thickness", 4, 18, empty="not stated", more=True, fact="mattress.thickness"),
    MATTRESS.length("mattress.box_spring", "Box spring, high", 4, 12, empty="not stated", more=True,
                    when=_box_spring),
    MATTRESS.length("mattress.tolerance", "Larger by at most", 0, 1, empty="its maker's", more=True),
    MATTRESS.choice("mattress.split", "Made as", MADE_AS, more=True),
    FRAME.choice("frame.rail", "Rails", _sections(Fraction(1), Fraction(2), Fraction(3), Fraction(12))),
    FRAME.choice("frame.corners", "Corners", _words("side rails run past", "end rails cap", "rails die into posts")),
    FRAME.length("clearance.side", "Room each side", 0, 1, empty=USUAL_ROOM, more=True, step=Fraction(1, 16),
                 fact="frame.mattress_clearance"),
    FRAME.length("clearance.end", "Room each end", 0, 1, empty=USUAL_ROOM, more=True, step=Fraction(1, 16),
                 fact="frame.end_clearance"),
    POST.choice("posts.lumber", "Lumber", SQUARE, when=_posts),
    POST.choice("posts.joint", "Rails held by", _words("corner blocks", "barrel nuts", "hooks"), when=_posts),
    POST.choice("posts.blocks", "Blocks of", THICK, when=_blocks, more=True),
    POST.length("posts.reveal", "Beyond the rails", 0, 4, empty="as needed", when=_posts, more=True,
                fact="post.reveal"),
    POST.length("posts.above", "Above the rails", 0, 48, when=_posts),
    POST.length("mattress.corner_radius", "Mattress's corner", 0, 12, empty="not measured", when=_posts, more=True),
    HEAD.choice("headboard.kind", "Headboard", HEADBOARDS),
    HEAD.choice("headboard.bed", "The bed", STANDING, when=_bolted_on, more=True),
    HEAD.length("headboard.over", "Above the mattress", 4, 36, when=_headboard),
    HEAD.choice("headboard.lumber", "Boards of", SLAT_STOCK, when=_headboard, more=True),
    HEAD.choice("headboard.slats", "Slats of", SLAT_STOCK, when=_slatted, more=True),
    HEAD.choice("headboard.battens", "Battens of", THICK, when=_on_battens, more=True),
    HEAD.choice("headboard.uprights", "Uprights of", THICK, when=_bolted_on, more=True),
    HEAD.length("headboard.inset", "From the sides", 0, 20, when=_bolted_on, more=True),
    HEAD.length("headboard.gap", "Gaps at most", 0, 4, empty="usual", when=_headboard, more=True),
    SLATS.choice("slats.lumber", "Stock", SLAT_STOCK),
    SLATS.length("slats.gap", "Spacing at most", 0.5, 4, empty="the gap limit", fact="slat.gap.max"),
    SLATS.length("mattress.gap_limit", "Gap limit", 1, 4, empty="our choice", fact="slat.gap.max"),
    SLATS.box("slats.count", "How many", "number", empty="as the spacing has it", more=True),
    SLATS.choice("slats.carries", "They carry", _words("mattress", "box spring"), more=True),
    SLATS.length("slats.spacing_limit", "Centres at most", 6, 24, more=True, when=_box_spring),
    SLATS.choice("slats.edge", "First and last", EDGES, more=True),
    SLATS.length("slats.edge_gap", "That gap", 0, 4, more=True, when=_fixed_edge),
    SLATS.length("slats.play", "Play, each end", 0, 0.5, more=True, step=Fraction(1, 32)),
    SLATS.choice(
        "slats.hold",
        "Held by",
        (("screws", "screws"), ("straps of webbing", "straps"), ("nothing, they lie loose", "loose")),
        more=True,
    ),
    SLATS.choice("slats.middle", "On the centre lines", _words("screwed", "unscrewed"), more=True, when=_lines),
    SLATS.choice("slats.halves", "Each slat", HALVES, more=True, when=_one_line),
    SLATS.count("slats.straps", "Straps", 2, 5, more=True, when=_strapped),
    SLATS.length("slats.strap_width", "Straps, wide", 0.5, 2, more=True, when=_strapped, step=Fraction(1, 4)),
    SUPPORT.choice(
        "support.kind", "Kind", (("cleats inside the rails", "cleats"), ("runners under the frame", "runners"))
    ),
    SUPPORT.choice("support.lumber", "Lumber", THICK),
    SUPPORT.length("support.recess", "Rail above slats", 0, 5, empty="chosen", more=True, when=_cleats,
                   fact="frame.recess"),
    SUPPORT.length("support.end_play", "Shorter, each end", 0, 2, more=True, when=_cleats, step=Fraction(1, 16)),
    CENTRE.count("centre.lines", "Lines", 0, 3),
    CENTRE.choice("centre.lumber", "Lumber", THICK, when=_lines),
    CENTRE.choice("centre.kind", "Laid", (("on edge, as a beam", "beam"), ("flat", "flat")), when=_lines, more=True),
    CENTRE.choice(
        "centre.ends",
        "Ends on",
        (("a leg", "leg"), ("a hanger", "hanger"), ("a block", "block")),
        when=_lines,
        more=True,
    ),
    CENTRE.count("centre.legs", "Legs a line", 0, 6, when=_lines, more=True),
    CENTRE.choice("centre.leg_kind", "Its legs", LINE_LEGS, when=_lines, more=True),
    CENTRE.choice("centre.leg_lumber", "Of", (("the side legs' stock", None), *POSTS), when=_own_line_legs, more=True),
    CENTRE.length("centre.setback", "Its legs' set-back", 0, 24, empty="as side legs", when=_lines, more=True,
                  fact="leg.setback"),
    CENTRE.length("centre.play", "Play, each end", 0, 0.5, when=_beam, more=True, step=Fraction(1, 32)),
    LEGS.count("legs.per_side", "Legs a side", 1, 6),
    LEGS.choice(
        "legs.kind",
        "Kind",
        (
            ("a post", "post"),
            ("two boards, doubled", "doubled"),
            ("an L of two boards", "corner L"),
            ("a steel tube", "tube"),
        ),
    ),
    LEGS.choice("legs.lumber", "Lumber", POSTS, when=_wooden),
    LEGS.choice(
        "legs.place",
        "Place",
        (
            ("chosen", None),
            ("under the rail", "under the rail"),
            ("under the cleat or runner, beside the rail", "under"),
            ("inside the corners", "inside"),
        ),
    ),
    LEGS.choice("legs.glue_blocks", "Glue blocks", (("none", None), *THICK), when=_l_legs, more=True),
    LEGS.length("legs.setback", "Set-back, ends", 0, 20, empty="to the end", fact="leg.setback"),
    LEGS.length("legs.side_setback", "Set-back, sides", 0, 12, empty="flush", when=_beside_the_rail),
    LEGS.length("legs.leveller", "Leveller's height", 0, 2, more=True),
    LEGS.length("legs.tube_diameter", "Tube, across", 1, 3, when=_tube),
    LEGS.length("legs.flange", "Flange, across", 2, 6, when=_tube, more=True),
    LEGS.length("legs.flange_thickness", "Flange, thick", 0.0625, 0.5, when=_tube, more=True, step=Fraction(1, 32)),
    LEGS.choice("plinth.lumber", "Plinth round them", (("none", None), *PLINTHS), more=True, when=_beside_the_rail),
    LEGS.choice("plinth.carries", "It", BASES, more=True, when=_plinth),
    HEIGHT.choice("height_by", "Given as", HEIGHTS),
    HEIGHT.length("height", "That height", 3, 30),
    BOXES.length("storage.width", "Along the bed", 8, 48, empty="no boxes", more=True),
    BOXES.length("storage.depth", "From the side in", 8, 40, empty="not minded", more=True),
    BOXES.length("storage.height", "Height", 3, 20, empty="not minded", more=True),
    BOXES.count("storage.count", "How many", 1, 12, more=True, when=_boxes),
    BOXES.choice("storage.sides", "Drawn out by", BOX_SIDES, more=True, when=_boxes),
    VIDEO.choice("build.units", "Plan in", (("inches", "in"), ("millimetres", "mm")), more=True),
    VIDEO.box("build.title", "Title", more=True),
    VIDEO.box("build.channel", "Channel", more=True),
    VIDEO.box("build.episode", "Episode", more=True),
    VIDEO.box("build.address", "Its address", empty="https://", more=True),
    *(
        WORDS.box(f"names.{part}", part.replace("_", " ").capitalize(), "words", empty="with commas between", more=True)
        for part in NAMED
    ),
)
# fmt: on
