"""Rules of the bed's shape: each is judged on the finished build and reported as a Finding.

The build is drawn whatever they say; only what can't exist is refused, before this module is reached.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction

from tutorial_lib.design.model import Build, Leg, SupportLine
from tutorial_lib.design.sizes import mattress_tolerance
from tutorial_lib.findings import Finding, Severity
from tutorial_lib.measures import write_length

OURS = "our choice"
PRACTICE = "common practice, no source"
MOVEMENT = Fraction(25, 10000)  # width change per 1 % moisture; softwood across the grain, from memory


def judge(build: Build) -> Build:
    """The build with what its rules found."""
    return replace(build, findings=build.findings + tuple(f for rule in RULES for f in rule(build)))


def _write(build: Build, x: Fraction) -> str:
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
            f"Slat ends rest on only {_write(build, value)} of wood.",
            _write(build, value),
            f"at least {_write(build, limit)}",
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
    limit = options.mattress.gap_limit
    wood = options.wood
    drying = build.slats.width * MOVEMENT * Fraction(str(max(wood.moisture_bought - wood.moisture_room, 0)))
    after = max(build.slats.gap, build.slats.edge) + drying
    if limit is not None and after > limit:
        yield Finding(
            "slat gap",
            "stop",
            f"The gap is {_write(build, build.slats.gap)} and about {_write(build, after)} once the boards have dried.",
            _write(build, after),
            f"at most {_write(build, limit)}",
            options.mattress.gap_limit_from,
            f"Use {build.slats.count + 1} slats or more, or wider boards.",
            ("slat",),
        )


def _box_spring_spacing(build: Build) -> Iterator[Finding]:
    spacing, limit = build.slats.gap + build.slats.width, build.options.slats.spacing_limit
    if spacing > limit:
        yield Finding(
            "slat spacing",
            "stop",
            f"Slats stand {_write(build, spacing)} centre to centre under the box spring.",
            _write(build, spacing),
            f"at most {_write(build, limit)}",
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
            f"The slats are only {_write(build, build.slats.width)} wide.",
            _write(build, build.slats.width),
            f"at least {_write(build, Fraction(5, 2))}",
            PRACTICE,
            "Use a wider board under a foam mattress.",
            ("slat",),
        )


def _recess(build: Build) -> Iterator[Finding]:
    """Deep enough to hold the mattress in place, not so deep that it disappears."""
    recess, thick = build.heights.recess, build.options.mattress.thickness
    box = build.options.slats.carries == "box spring"
    low, high = (Fraction(1), Fraction(2)) if box else (Fraction(3, 2), Fraction(3))
    if recess <= 0:
        yield Finding(
            "recess",
            "stop",
            "Nothing keeps the mattress from sliding off: the slats lie level with the rails.",
            _write(build, recess),
            f"at least {_write(build, low)}",
            OURS,
            "Lower the slats, or add stops.",
            ("slat",),
        )
    elif recess < low:
        yield Finding(
            "recess",
            "caution",
            f"The recess is shallow: the rails hold only {_write(build, recess)} of the mattress.",
            _write(build, recess),
            f"{_write(build, low)} to {_write(build, high)}",
            OURS,
            "Lower the slats a little, or expect to push the mattress back.",
            ("cleat",),
        )
    elif recess > high or (thick is not None and recess > thick / 2):
        yield Finding(
            "recess",
            "caution",
            f"The mattress sinks {_write(build, recess)} into the frame; sheets are hard to tuck.",
            _write(build, recess),
            f"{_write(build, low)} to {_write(build, high)}",
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
                f"The opening is {_write(build, total)} larger than the mattress {name}; "
                f"a mattress may be {_write(build, tolerance)} over its size.",
                _write(build, total),
                f"at least {_write(build, tolerance)}",
                "mattress tolerance of the region",
                "Measure the mattress, or give more clearance.",
                ("side_rail", "end_rail"),
            )
        elif total > most:
            yield Finding(
                "clearance",
                "stop",
                f"The opening is {_write(build, total)} larger than the mattress {name}: the gap "
                "beside it can trap a hand, and is dangerous to an infant.",
                _write(build, total),
                f"at most {_write(build, most)}",
                OURS,
                "Give less clearance.",
                ("side_rail", "end_rail"),
            )


def _rail_ends(build: Build) -> Iterator[Finding]:
    """A rail end or line end stands on a leg, runner, block or hanger, not on end-grain screws alone."""
    if build.lines[0].kind == "runner":
        return
    for line in build.lines:
        if line.name.startswith("line") and line.ends == "leg" and len(line.legs) < 2:
            yield Finding(
                "rail end",
                "stop",
                f"The ends of {line.name} stand on nothing but screws into end grain.",
                f"{len(line.legs)} legs",
                "2 legs, blocks or hangers",
                "NDS 12.2.2.3 and our choice",
                "Give the line legs near its ends, hangers or blocks.",
                line.members,
            )
    loaded = any(line.ends in ("hanger", "block") for line in build.lines if line.name.startswith("line"))
    if build.options.frame.corners == "end rails cap":
        sides = [line for line in build.lines if line.name in ("left", "right") and len(line.legs) < 2]
        if sides:
            yield Finding(
                "rail end",
                "stop",
                "The side rails carry the slats and end on screws into their end grain alone.",
                whose="NDS 12.2.2.3 and our choice",
                remedy="Put a leg near each end of the side rails.",
                parts=("side_rail",),
            )
    if build.options.frame.corners == "side rails run past":
        severity: Severity = "stop" if loaded else "caution"
        yield Finding(
            "rail end",
            severity,
            "The end rails hang on screws into their end grain alone"
            + (" and carry the centre line." if loaded else "; don't sit on an end rail."),
            whose="NDS 12.2.2.3 and our choice",
            remedy="Put a leg or block under the end rails' ends" + ("." if loaded else ", or leave them unloaded."),
            parts=("end_rail",),
        )


def _overhang(build: Build) -> Iterator[Finding]:
    """A line or rail runs on past its last leg by at most a quarter of the next span."""
    legs = {leg.label: leg for leg in build.legs}
    for line in build.lines:
        mine = [legs[label] for label in line.legs]
        ends = (Fraction(0), build.outside[1]) if not line.name.startswith("line") else line.x
        if line.ends not in ("hanger", "block"):
            yield from _overhangs(build, line, mine, ends)


def _overhangs(build: Build, line: SupportLine, legs: list[Leg], ends: tuple[Fraction, Fraction]) -> Iterator[Finding]:
    if len(legs) < 2:
        if not line.name.startswith("line") or line.legs:
            yield Finding(
                "overhang",
                "stop",
                f"The {line.name} side or line has {'one leg' if legs else 'no leg'}; it would tip or hang.",
                f"{len(legs)} {'leg' if legs else 'legs'}",
                "at least 2 legs",
                OURS,
                "Put back a leg.",
                line.members,
            )
        return
    over = (legs[0].near_edge - ends[0], ends[1] - (legs[-1].near_edge + legs[-1].size[0]))
    spans = (legs[1].x - legs[0].x, legs[-1].x - legs[-2].x)
    for name, past, span in zip(("head", "foot"), over, spans, strict=True):
        if past > span / 4:
            yield Finding(
                "overhang",
                "caution",
                f"The {line.name} line runs {_write(build, past)} past its last leg at the {name}.",
                _write(build, past),
                f"at most {_write(build, span / 4)}, a quarter of the next span",
                OURS,
                "Use a smaller set-back.",
                line.members,
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


def _slender(build: Build) -> Iterator[Finding]:
    """Tall thin legs rack."""
    section = build.section_of(build.legs[0].pieces[0])
    across = build.options.legs.flange if section.steel else min(build.legs[0].size)
    tall = max(build.pieces[leg.pieces[0]].length for leg in build.legs)
    if tall > 5 * across:
        yield Finding(
            "slender leg",
            "caution",
            f"The legs are {_write(build, tall)} long and {_write(build, across)} across.",
            f"{float(tall / across):.1f} times",
            "5 times",
            OURS,
            "Brace them, or use thicker or shorter legs.",
            ("leg",),
        )


def _closes(build: Build) -> Iterator[Finding]:
    """The chain of sizes closes to nothing."""
    thick = build.part("side_rail").section.thickness
    for inside, outside in zip(build.opening, build.outside, strict=True):
        if inside + 2 * thick != outside:
            yield Finding(
                "closing chain",
                "stop",
                "The opening and two rails don't add up to the outside size.",
                _write(build, outside),
                _write(build, inside + 2 * thick),
                "arithmetic",
                "Report this.",
                ("side_rail",),
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


def _flange_seat(build: Build) -> Iterator[Finding]:
    """A tube leg's flange needs wood over all of it to be screwed to."""
    for joint in build.joints_of("flange"):
        size, plate = joint.contact.size, build.options.legs.flange
        if min(size[0], size[1]) < plate:
            narrow = min(size[0], size[1])
            yield Finding(
                "flange seat",
                "stop",
                f"The flange is {_write(build, plate)} across, the wood above it {_write(build, narrow)}.",
                _write(build, narrow),
                f"at least {_write(build, plate)}",
                OURS,
                "Use a flat runner as wide as the flange, or a smaller flange.",
                ("flange",),
            )
            return


RULES: tuple[Callable[[Build], Iterator[Finding]], ...] = (
    _bearing, _slat_gap, _slat_width, _recess, _clearance, _rail_ends, _overhang, _storage, _slender, _closes,
    _unsupported_slats, _flange_seat,
)  # fmt: skip
