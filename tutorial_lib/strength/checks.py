"""Utilisation and sag of slats, lines and legs in each case."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from tutorial_lib.design.model import Build, Leg
from tutorial_lib.errors import InputError
from tutorial_lib.strength import members
from tutorial_lib.strength.beams import Bent
from tutorial_lib.strength.demands import Demand
from tutorial_lib.strength.loads import Case
from tutorial_lib.strength.members import CREEP, Check
from tutorial_lib.strength.model import Line, Member, leg_joints, member, wood_of
from tutorial_lib.strength.response import OnLine, Response
from tutorial_lib.strength.wood import Size
from tutorial_lib.strength.working import Working, figure, in_words

GREATEST_SAG = 0.25  # [in]; our choice
SPAN_PART = 240  # sag at most span / 240 for rails and lines; our choice


@dataclass(frozen=True)
class Use:
    """One utilisation of one piece in one case; over 1 it is more than the wood or screw is allowed."""

    part: str  # part key
    label: str  # piece, line or joint as a person names it
    case: str
    kind: str  # lying, sitting, standing, bare, end rail, moving
    check: Check
    dead: float  # of the ratio, what the bed, mattress and bedding use by themselves

    @property
    def what(self) -> str:
        """bending, shear, bearing, column, sag, screws …"""
        return self.check.what

    @property
    def ratio(self) -> float:
        """Utilisation."""
        return self.check.ratio

    @property
    def duration(self) -> float:
        """CD used."""
        return self.check.duration

    @property
    def workings(self) -> tuple[Working, ...]:
        """Steps to the figure."""
        return self.check.workings

    def __str__(self) -> str:
        return f"{self.label}, {self.what}, {self.case}: {in_words(self.ratio)} (CD {figure(self.duration)})"


@dataclass(frozen=True)
class Sag:
    """How far a slat or line goes down, creep included."""

    part: str
    label: str
    case: str
    kind: str
    value: float  # [in]
    span: float  # [in]
    limit: float  # [in]
    whole: float  # [in] without creep
    always: float  # [in] of that, from what lies there always

    @property
    def workings(self) -> tuple[Working, ...]:
        """Steps to the figure."""
        shown = Working(
            "sag",
            "people + 1.5 x (bed, mattress, bedding)",
            f"{figure(self.whole - self.always)} + 1.5 x {figure(self.always)}",
            self.value,
            "in",
            "NDS Eq. 3.5-1, its 1.5 from memory",
        )
        rule = Working(
            "most allowed",
            "1/4 in" if self.part == "slat" else "the less of 1/4 in and span / 240",
            f"span {figure(self.span)} in",
            self.limit,
            "in",
            "our choice: no source sets one for furniture",
        )
        return shown, rule


def slat_uses(demand: Demand) -> Iterator[Use]:
    """Bending, shear, bearing and sag of the most loaded slat in each case."""
    slat, build = demand.model.slat, demand.model.build
    area = min(
        (float(j.contact.size[0] * j.contact.size[1]) for j in build.joints if j.kind in ("slat", "slat_line")),
        default=float(build.slats.width),
    )
    for response in demand.responses:
        bent, dead, case = response.slat, response.slat_dead, response.case
        if case.kind == "end rail":
            continue
        yield from _bent_uses(slat, "slat", "slat", bent, dead, 1.0, case)
        push = max(r for _, r in bent.reactions)
        yield _use(
            "slat",
            "slat",
            case,
            members.bearing(slat.wood, push, area),
            max(r for _, r in dead.reactions) / max(push, 1e-9),
        )
        if case.kind in ("lying", "sitting"):
            yield sag_use(sag_of(demand, case, "slat", "slat", bent, dead, max(demand.model.slat_spans)))


def line_uses(demand: Demand) -> Iterator[Use]:
    """Bending, shear and sag of rails, runners and centre lines in each case."""
    for response in demand.responses:
        if response.case.kind in ("bare", "end rail"):
            continue
        for on in response.lines:
            yield from uses_on_line(demand, on, response.case)


def uses_on_line(demand: Demand, on: OnLine, case: Case) -> Iterator[Use]:
    """Uses of one line's members in one case; nothing where it tips."""
    if on.bent is None or on.resting is None:
        return
    for piece in on.line.members:
        share = on.line.share(piece)
        yield from _bent_uses(
            piece, piece.part, piece.label, on.bent, on.resting, share, case, span=longest_span(on.line)
        )
    if case.kind not in ("lying", "sitting"):
        return
    yield sag_use(
        sag_of(
            demand, case, on.line.members[0].part, on.line.members[0].label, on.bent, on.resting, longest_span(on.line)
        )
    )


def longest_span(line: Line) -> float:
    """Longest distance between neighbouring supports [in]."""
    places = [s.x for s in line.supports]
    return max((b - a for a, b in pairwise(places)), default=line.end - line.start)


def _bent_uses(
    piece: Member, part: str, label: str, bent: Bent, dead: Bent, share: float, case: Case, span: float = 0.0
) -> Iterator[Use]:
    x, moment = bent.greatest_moment
    # a narrow edge up to four times its breadth needs no more than its ends held (NDS 4.4.1.2)
    unbraced = 1.37 * span + 3 * piece.size.depth if piece.size.depth > 4 * piece.size.breadth else 0.0
    check = members.bending(piece.wood, piece.size, moment * share, case.duration, unbraced)
    yield _use(part, label, case, check, abs(dead.moment(x)) / max(abs(moment), 1e-9))
    force = bent.greatest_shear
    yield _use(
        part,
        label,
        case,
        members.shear(piece.wood, piece.size, force * share, case.duration),
        dead.greatest_shear / max(force, 1e-9),
    )


def _use(part: str, label: str, case: Case, check: Check, dead_part: float) -> Use:
    return Use(part, label, case.name, case.kind, check, check.ratio * min(dead_part, 1.0))


def sag_of(demand: Demand, case: Case, part: str, label: str, bent: Bent, dead: Bent, span: float) -> Sag:
    """Sag with creep: what lies there always counts 1.5 times, people once.

    NDS 2018 Eq. 3.5-1, its 1.5 from memory. Limit: 1/4 in, for rails and lines also span / 240; our choice.
    """
    x, whole = bent.greatest_sag
    always = max(0.0, dead.sag(x))
    value = whole + (CREEP - 1) * always
    limit = GREATEST_SAG if part == "slat" else min(GREATEST_SAG, span / SPAN_PART)
    return Sag(part, label, case.name, case.kind, value, span, limit, whole, always)


def sag_use(sag: Sag) -> Use:
    """Sag as a utilisation of its limit."""
    check = Check("sag", sag.value / sag.limit, 1.0, lambda: sag.workings)
    return Use(sag.part, sag.label, sag.case, sag.kind, check, min(CREEP * sag.always / sag.limit, check.ratio))


@dataclass(frozen=True)
class LegLoad:
    """A leg's push in one case."""

    leg: Leg
    case: Case
    load: float  # [lb]
    dead: float  # [lb]


def leg_loads(response: Response, build: Build) -> Iterator[LegLoad]:
    """Every leg's load in one case."""
    for leg in build.legs:
        on = response.on(leg.line)
        if on.bent is not None and on.resting is not None:
            x = float(leg.x)
            yield LegLoad(leg, response.case, max(0.0, on.bent.reaction(x)), max(0.0, on.resting.reaction(x)))


def leg_uses(demand: Demand) -> Iterator[Use]:
    """Each leg as a column and in bearing, in its most loaded lying and sitting cases."""
    build = demand.model.build
    worst: dict[tuple[str, str], LegLoad] = {}
    for response in demand.responses:
        if response.case.kind in ("lying", "sitting"):
            for found in leg_loads(response, build):
                key = (found.leg.label, found.case.kind)
                if key not in worst or found.load > worst[key].load + 1e-6:
                    worst[key] = found
    for load in worst.values():
        yield from _leg_use(build, load)


def _leg_use(build: Build, load: LegLoad) -> Iterator[Use]:
    piece = build.pieces[load.leg.pieces[0]]
    section, part = build.section_of(piece.label), piece.part
    share = load.dead / max(load.load, 1e-9)
    if not section.steel:
        count = sum(1 for p in load.leg.pieces if build.pieces[p].shape == "box")
        size = Size(float(section.thickness), float(section.width), False)
        wood = wood_of(build, section)
        try:
            # one board is taken to carry it all where two are screwed together: the rail rests on one
            check = members.column(
                wood, size, load.load, float(piece.length), load.case.duration, 1.0 if count == 1 else 0.6
            )
        except InputError:
            check = Check(
                "column",
                float("inf"),
                load.case.duration,
                lambda: (
                    Working(
                        "slenderness",
                        "le / d at most 50",
                        f"{figure(float(piece.length))} in",
                        float("inf"),
                        "",
                        "NDS 3.7.1.4",
                    ),
                ),
            )
        yield _use(part, f"leg {load.leg.label}", load.case, check, share)
    yield from _bearing_use(build, load, share)


def _bearing_use(build: Build, load: LegLoad, share: float) -> Iterator[Use]:
    joints = [
        j
        for j in leg_joints(build, load.leg.label)
        if j.bears
        and not build.pieces[j.near].part.startswith(("cleat", "slat"))
        and not build.pieces[j.far].part.startswith("cleat")
    ]
    area = sum(float(j.contact.size[0] * j.contact.size[1]) for j in joints)
    if not area:
        return
    above = next(
        p
        for p in (joints[0].near, joints[0].far)
        if build.pieces[p].part.split("_")[0] in ("runner", "centre", "side", "end") and p not in load.leg.pieces
    )
    piece = member(build, above)
    low, high = float(joints[0].contact.lo[0]), float(joints[0].contact.hi[0])
    factor = members.bearing_factor(high - low, min(low - piece.start, piece.end - high))
    yield _use(
        piece.part,
        f"{above} on leg {load.leg.label}",
        load.case,
        members.bearing(piece.wood, load.load, area, factor),
        share,
    )
