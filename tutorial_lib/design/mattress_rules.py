"""Rules of the mattress and its slats: each is judged on the finished build and reported as a Finding."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction

from tutorial_lib.design.drying import dried_gap
from tutorial_lib.design.heights import recess_limits
from tutorial_lib.design.model import Build
from tutorial_lib.design.sizes import mattress_tolerance
from tutorial_lib.findings import Finding
from tutorial_lib.measures import write_length

OURS = "our choice"
PRACTICE = "common practice, no source"
Rule = Callable[[Build], Iterator[Finding]]


def written(build: Build, x: Fraction) -> str:
    """A length in the plan's units, to the 32nd."""
    return write_length(x, build.options.build.units, 32)


def _bearing(build: Build) -> Iterator[Finding]:
    """Enough of the slat's end on its seat, also when it has slid to the other side."""
    play = build.options.slats.play
    seat = build.lines[0].seat[1] - build.lines[0].seat[0]
    screwed, loose = seat - play, seat - 2 * play
    if screwed < 1 or loose < Fraction(3, 4):
        value, limit = (screwed, Fraction(1)) if screwed < 1 else (loose, Fraction(3, 4))
        yield Finding(
            "slat bearing",
            "stop",
            f"Slat ends rest on only {written(build, value)} of wood.",
            written(build, value),
            f"at least {written(build, limit)}",
            OURS,
            "Use a wider cleat or runner, or less slat play.",
            ("slat",),
        )


def _slat_gap(build: Build) -> Iterator[Finding]:
    """The clear gap with the boards dried to the room stays within the mattress maker's limit."""
    options = build.options
    if options.slats.carries == "box spring":
        yield from _box_spring_spacing(build)
        return
    limit, gap = options.mattress.gap_limit, max(build.slats.gap, build.slats.edge)
    after = max(gap, dried_gap(build, gap))
    if limit is not None and after > limit:
        wide = gap > limit
        grown = f", and about {written(build, after)} once the boards have dried" if after > gap else ""
        yield Finding(
            "slat gap",
            "stop" if wide else "caution",
            f"The gap is {written(build, gap)}{grown}.",
            written(build, gap if wide else after),
            f"at most {written(build, limit)}",
            options.mattress.gap_limit_from,
            f"Use {build.slats.count + 1} slats or more, or wider boards"
            + ("." if wide else "; or let the boards dry in the room before you lay them."),
            ("slat",),
        )


def _box_spring_spacing(build: Build) -> Iterator[Finding]:
    spacing, limit = build.slats.gap + build.slats.width, build.options.slats.spacing_limit
    if spacing > limit:
        yield Finding(
            "slat spacing",
            "stop",
            f"Slats stand {written(build, spacing)} centre to centre under the box spring.",
            written(build, spacing),
            f"at most {written(build, limit)}",
            OURS,
            "Use one slat more.",
            ("slat",),
        )


def _slat_width(build: Build) -> Iterator[Finding]:
    """Narrow slats mark a foam mattress."""
    if build.slats.width < Fraction(5, 2):
        yield Finding(
            "slat width",
            "caution",
            f"The slats are only {written(build, build.slats.width)} wide.",
            written(build, build.slats.width),
            f"at least {written(build, Fraction(5, 2))}",
            PRACTICE,
            "Use a wider board under a foam mattress.",
            ("slat",),
        )


def _recess(build: Build) -> Iterator[Finding]:
    """Deep enough to hold the mattress in place, not so deep that it disappears."""
    recess, (low, high) = build.heights.recess, recess_limits(build.options)
    if recess <= 0:
        yield Finding(
            "recess",
            "stop",
            "Nothing keeps the mattress from sliding off: the slats lie level with the rails.",
            written(build, recess),
            f"at least {written(build, low)}",
            OURS,
            "Lower the slats, or add stops.",
            ("slat",),
        )
    elif recess < low:
        yield Finding(
            "recess",
            "caution",
            f"The recess is shallow: the rails hold only {written(build, recess)} of the mattress.",
            written(build, recess),
            f"{written(build, low)} to {written(build, high)}",
            OURS,
            "Lower the slats a little, or expect to push the mattress back.",
            ("cleat",),
        )
    elif recess > high:
        yield Finding(
            "recess",
            "caution",
            f"The mattress sinks {written(build, recess)} into the frame; sheets are hard to tuck.",
            written(build, recess),
            f"{written(build, low)} to {written(build, high)}",
            OURS,
            "Use shallower rails, or raise the slats.",
            ("cleat",),
        )


def _clearance(build: Build) -> Iterator[Finding]:
    """The mattress must go in even at its largest, and not leave a gap that traps a hand or an infant."""
    tolerance, most = mattress_tolerance(build.options), Fraction(3, 2)
    for name, inside, size in zip(("across", "along"), build.opening, build.mattress, strict=True):
        total = inside - size
        if total < tolerance:
            yield Finding(
                "clearance",
                "stop",
                f"The opening is {written(build, total)} larger than the mattress {name}; "
                f"a mattress may be {written(build, tolerance)} over its size.",
                written(build, total),
                f"at least {written(build, tolerance)}",
                "mattress tolerance of the region",
                "Measure the mattress, or give more clearance.",
                ("side_rail", "end_rail"),
            )
        elif total > most:
            yield Finding(
                "clearance",
                "stop",
                f"The opening is {written(build, total)} larger than the mattress {name}: the gap "
                "beside it can trap a hand, and is dangerous to an infant.",
                written(build, total),
                f"at most {written(build, most)}",
                OURS,
                "Give less clearance.",
                ("side_rail", "end_rail"),
            )


def _storage(build: Build) -> Iterator[Finding]:
    """Air under the mattress."""
    if build.options.slats.carries == "box spring":
        return
    share = 1 - build.slats.count * build.slats.width / build.opening[1]
    if not Fraction(15, 100) <= share <= Fraction(60, 100):
        yield Finding(
            "open share",
            "caution",
            f"{float(share) * 100:.0f} % of the deck is open.",
            f"{float(share) * 100:.0f} %",
            "15 to 60 %",
            OURS,
            "Change the gap or the slat width, so that the mattress can breathe.",
            ("slat",),
        )


def _unsupported_slats(build: Build) -> Iterator[Finding]:
    """Every slat has wood under both ends."""
    for piece in build.part("slat").pieces:
        under = {
            joint.contact.centre[1] < build.outside[0] / 2
            for joint in build.joints_of("slat")
            if joint.near == piece.label
        }
        if len(under) < 2:
            yield Finding(
                "slat end",
                "stop",
                f"{piece.label} has nothing under one end.",
                whose="arithmetic",
                remedy="Let the cleat run further, or move the leg.",
                parts=("slat",),
            )


RULES: tuple[Rule, ...] = (_bearing, _slat_gap, _slat_width, _recess, _clearance, _storage, _unsupported_slats)
