"""Rules of the mattress and its slats: each is judged on the finished build and reported as a Finding."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from math import ceil, floor

from tutorial_lib.design.drying import dried_gap
from tutorial_lib.design.heights import recess_limits
from tutorial_lib.design.model import Build
from tutorial_lib.design.sizes import largest_over
from tutorial_lib.findings import Finding, Remedy
from tutorial_lib.measures import writer

OURS = "our choice"
PRACTICE = "common practice, no source"
LEAST_OPEN, MOST_OPEN = Fraction(15, 100), Fraction(60, 100)  # of the deck, for a mattress; our choice
SCREWED, SLID = Fraction(1), Fraction(3, 4)  # [in] of wood under a slat's end, in place or slid; our choice
Rule = Callable[[Build], Iterator[Finding]]


def written(build: Build, x: Fraction) -> str:
    """A length in the plan's units, to the 32nd."""
    return writer(build.options.build.units).length(x, 32)


def _short(held: Fraction, slid: Fraction) -> tuple[Fraction, Fraction] | None:
    """The wood [in] under a slat's end that is too little, as it is screwed or when it has slid, and its limit."""
    if held < SCREWED:
        return held, SCREWED
    return (slid, SLID) if slid < SLID else None


def _bearing(build: Build) -> Iterator[Finding]:
    """Enough of the slat's end on its seat, also when it has slid to the other side."""
    play = build.options.slats.play
    seat = build.lines[0].seat[1] - build.lines[0].seat[0]
    short = _short(seat - play, seat - 2 * play)
    if short is not None:
        value, limit = short
        yield Finding(
            rule="slat bearing",
            severity="stop",
            what=f"Slat ends rest on only {written(build, value)} of wood.",
            value=written(build, value),
            limit=f"at least {written(build, limit)}",
            whose=OURS,
            remedy="Use a wider cleat or runner, or less slat play.",
            parts=("slat",),
            remedies=_less_play(build, min(seat - SCREWED, (seat - SLID) / 2)),
        )


def _half_bearing(build: Build) -> Iterator[Finding]:
    """Each half of a slat has enough wood under it where two of them meet."""
    if not build.options.slats.halves:
        return
    contacts = [joint.contact.size[1] for joint in build.joints_of("slat_line")]
    held, play = min(contacts, default=Fraction(0)), build.options.slats.play
    short = _short(held, held - play)
    if short is not None:
        value, limit = short
        yield Finding(
            rule="slat bearing",
            severity="stop",
            what=f"Where two half slats meet, each rests on only {written(build, value)} of the centre line.",
            value=written(build, value),
            limit=f"at least {written(build, limit)}",
            whose=OURS,
            remedy="Lay the centre line flat, or use a wider one.",
            parts=("slat", "centre_beam"),
            remedies=(
                Remedy.setting("Lay the centre line flat", centre__kind="flat"),
                Remedy.setting("Use whole slats", slats__halves=None),
            ),
        )


def _less_play(build: Build, most: Fraction) -> tuple[Remedy, ...]:
    """The play that leaves enough bearing [in], where there is one."""
    play = build.grid * floor(most / build.grid)
    if play <= 0:
        return ()
    return (Remedy.setting(f"Give each slat end {written(build, play)} of play", slats__play=written(build, play)),)


def _enough(build: Build, most: Fraction) -> int:
    """The fewest slats between which no gap is wider than this [in], laid as they are now."""
    slats = build.slats
    ends = 2 if slats.edge == slats.gap else 0  # gaps at the ends that grow narrower with the others
    count, apart = slats.count, slats.gap * (slats.count - 1 + ends)
    while apart > most * (count - 1 + ends):
        count, apart = count + 1, apart - slats.width
    return max(count, slats.count + 1)


def _more_slats(build: Build, count: int) -> tuple[Remedy, ...]:
    return (Remedy.setting(f"Lay {count} slats", slats__count=count, slats__gap=None),)


def _gap_and_count(build: Build) -> Iterator[Finding]:
    """A stated count that leaves wider gaps than the stated one: the count decides, and it is said."""
    asked, gap = build.options.slats, build.slats.gap
    if asked.count is not None and asked.gap is not None and gap > asked.gap:
        yield Finding(
            rule="slat count",
            severity="caution",
            what=f"slats.count = {asked.count} decides and leaves gaps of {written(build, gap)}; "
            f"slats.gap = {written(build, asked.gap)} isn't kept.",
            remedy="Leave one of the two out of the build file.",
            parts=("slat",),
            remedies=(Remedy.setting(f"Leave slats.count out, for gaps of {written(build, asked.gap)} at most",
                                     slats__count=None),),
        )  # fmt: skip


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
        count = _enough(build, limit - (after - gap))
        grown = f", and about {written(build, after)} once the boards have dried" if after > gap else ""
        yield Finding(
            rule="slat gap",
            severity="stop" if wide else "caution",
            what=f"The gap is {written(build, gap)}{grown}.",
            value=written(build, gap if wide else after),
            limit=f"at most {written(build, limit)}",
            whose=options.mattress.gap_limit_from,
            remedy=f"Use {count} slats or more, or wider boards"
            + ("." if wide else "; or let the boards dry in the room before you lay them."),
            parts=("slat",),
            remedies=_more_slats(build, count),
        )


def _box_spring_spacing(build: Build) -> Iterator[Finding]:
    spacing, limit = build.slats.gap + build.slats.width, build.options.slats.spacing_limit
    if spacing > limit:
        count = _enough(build, limit - build.slats.width)
        yield Finding(
            rule="slat spacing",
            severity="stop",
            what=f"Slats stand {written(build, spacing)} centre to centre under the box spring.",
            value=written(build, spacing),
            limit=f"at most {written(build, limit)}",
            whose=OURS,
            remedy=f"Use {count} slats or more.",
            parts=("slat",),
            remedies=_more_slats(build, count),
        )


SEAM = Fraction(3)  # [in] of wood under the seam of two halves, half of it for each; our choice


def _seam(build: Build) -> Iterator[Finding]:
    """Both halves of a split mattress or box spring lie on wood along their seam."""
    if not build.options.mattress.split:
        return
    middle, lines = build.outside[0] / 2, [line for line in build.lines if line.central]
    under = [min(middle - line.seat[0], line.seat[1] - middle) for line in lines]
    if len(lines) > 1 or max(under, default=Fraction(0)) >= SEAM / 2:
        return
    got = max(max(under, default=Fraction(0)), Fraction(0))
    yield Finding(
        rule="seam",
        severity="caution",
        what=f"The two halves meet over {written(build, 2 * got) if got else 'no line at all'}: one of them sinks as "
        "someone lies near the seam.",
        value=written(build, 2 * got),
        limit=f"at least {written(build, SEAM)} under the seam, or a line on each side of it",
        whose=OURS,
        remedy="Lay a flat line under the seam, or two lines.",
        parts=("centre_beam",),
        remedies=(
            Remedy.setting("Lay the centre line flat", centre__kind="flat", centre__lines=1),
            Remedy.setting("Use two centre lines", centre__lines=2),
        ),
    )


def _slat_width(build: Build) -> Iterator[Finding]:
    """Narrow slats mark a foam mattress."""
    if build.slats.width < Fraction(5, 2):
        yield Finding(
            rule="slat width",
            severity="caution",
            what=f"The slats are only {written(build, build.slats.width)} wide.",
            value=written(build, build.slats.width),
            limit=f"at least {written(build, Fraction(5, 2))}",
            whose=PRACTICE,
            remedy="Use a wider board under a foam mattress.",
            parts=("slat",),
        )


def _recess(build: Build) -> Iterator[Finding]:
    """Deep enough to hold the mattress in place, not so deep that it disappears."""
    recess, (low, high) = build.heights.recess, recess_limits(build.options)
    if recess <= 0:
        yield Finding(
            rule="recess",
            severity="stop",
            what="Nothing keeps the mattress from sliding off: the slats lie level with the rails.",
            value=written(build, recess),
            limit=f"at least {written(build, low)}",
            whose=OURS,
            remedy="Lower the slats, or add stops.",
            parts=("slat",),
            remedies=_recessed(build, ceil(low / build.grid) * build.grid),
        )
    elif recess < low:
        yield Finding(
            rule="recess",
            severity="caution",
            what=f"The recess is shallow: the rails hold only {written(build, recess)} of the mattress.",
            value=written(build, recess),
            limit=f"{written(build, low)} to {written(build, high)}",
            whose=OURS,
            remedy="Lower the slats a little, or expect to push the mattress back.",
            parts=("cleat",),
            remedies=_recessed(build, ceil(low / build.grid) * build.grid),
        )
    elif recess > high:
        yield Finding(
            rule="recess",
            severity="caution",
            what=f"The mattress sinks {written(build, recess)} into the frame; sheets are hard to tuck.",
            value=written(build, recess),
            limit=f"{written(build, low)} to {written(build, high)}",
            whose=OURS,
            remedy="Use shallower rails, or raise the slats.",
            parts=("cleat",),
            remedies=_recessed(build, floor(high / build.grid) * build.grid),
        )


def _recessed(build: Build, recess: Fraction) -> tuple[Remedy, ...]:
    """Cleats are moved; runners have the recess that rails and slats leave."""
    if build.options.support.kind == "runners":
        return ()
    text = written(build, recess)
    return (Remedy.setting(f"Set the slats {text} below the rails' top edges", support__recess=text),)


def _clearance(build: Build) -> Iterator[Finding]:
    """The mattress must go in even at its largest, and not leave a gap that traps a hand or an infant."""
    over, most = largest_over(build.options), Fraction(3, 2)
    for name, inside, size, tolerance in zip(("across", "along"), build.opening, build.mattress, over, strict=True):
        total = inside - size
        if total < tolerance:
            yield Finding(
                rule="clearance",
                severity="stop",
                what=f"The opening is {written(build, total)} larger than the mattress {name}; "
                f"a mattress may be {written(build, tolerance)} over its size.",
                value=written(build, total),
                limit=f"at least {written(build, tolerance)}",
                whose="mattress tolerance of the region",
                remedy="Measure the mattress, or give more clearance.",
                parts=("side_rail", "end_rail"),
                remedies=(_room_left_open(),),
            )
        elif total > most:
            yield Finding(
                rule="clearance",
                severity="stop",
                what=f"The opening is {written(build, total)} larger than the mattress {name}: the gap "
                "beside it can trap a hand, and is dangerous to an infant.",
                value=written(build, total),
                limit=f"at most {written(build, most)}",
                whose=OURS,
                remedy="Give less clearance.",
                parts=("side_rail", "end_rail"),
                remedies=(_room_left_open(),),
            )


def _room_left_open() -> Remedy:
    text = "Leave the room beside the mattress open, so that it follows what a mattress may be over its size"
    return Remedy.setting(text, clearance__side=None, clearance__end=None)


def _storage(build: Build) -> Iterator[Finding]:
    """Air under the mattress."""
    if build.options.slats.carries == "box spring":
        return
    share = 1 - build.slats.count * build.slats.width / build.opening[1]
    if not LEAST_OPEN <= share <= MOST_OPEN:
        yield Finding(
            rule="open share",
            severity="caution",
            what=f"{float(share) * 100:.0f} % of the deck is open.",
            value=f"{float(share) * 100:.0f} %",
            limit=f"{round(100 * LEAST_OPEN)} to {round(100 * MOST_OPEN)} %",
            whose=OURS,
            remedy="Change the gap or the slat width, so that the mattress can breathe.",
            parts=("slat",),
            remedies=(Remedy.setting("Leave count and gap of the slats open", slats__count=None, slats__gap=None),),
        )


def _unsupported_slats(build: Build) -> Iterator[Finding]:
    """Every slat has wood under both ends."""
    joints = (*build.joints_of("slat"), *(build.joints_of("slat_line") if build.options.slats.halves else ()))
    for piece in build.part("slat").pieces:
        under = {joint.contact.centre[1] < piece.box.centre[1] for joint in joints if joint.near == piece.label}
        if len(under) < 2:
            yield Finding(
                rule="slat end",
                severity="stop",
                what=f"{piece.name} has nothing under one end.",
                whose="arithmetic",
                remedy="Let the cleat run further, or move the leg.",
                parts=("slat",),
            )


RULES: tuple[Rule, ...] = (
    _bearing, _half_bearing, _seam, _gap_and_count, _slat_gap, _slat_width, _recess, _clearance, _storage,
    _unsupported_slats,
)  # fmt: skip
