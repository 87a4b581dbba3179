"""Loads on members and joints, for the screws to be chosen from: the strength step's first half."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import ceil

from tutorial_lib.design.model import Build, Joint
from tutorial_lib.strength.loads import EMPTY, Case
from tutorial_lib.strength.model import Model, density, leg_joints, model, wood_of
from tutorial_lib.strength.response import OnLine, Responder, Response

RACKING = 0.4  # of bed and mattress pushed sideways at the frame, at least RACKING_LEAST; our choice
RACKING_LEAST = 100.0  # [lb]


@dataclass(frozen=True)
class JointDemand:
    """What one joint has to carry in one case."""

    joint: Joint
    case: str  # name of the case
    duration: float  # CD
    shear: float = 0.0  # [lb] across the screws, the whole joint
    withdrawal: float = 0.0  # [lb] along the screws, pulling, the whole joint
    shear_per_inch: float = 0.0  # [lb/in] at the most loaded place of a long joint
    withdrawal_per_inch: float = 0.0  # [lb/in] likewise
    places: tuple[tuple[float, float], ...] = ()  # (x [in], lb) loads along a long joint, for the screw by screw check
    kind: str = "lying"  # kind of the case: lying, sitting, standing, bare, end rail, moving; dead for the bed itself

    @property
    def governing(self) -> float:
        """Size to compare cases by: load over duration factor."""
        return max(self.shear, self.withdrawal, self.shear_per_inch, self.withdrawal_per_inch) / self.duration


@dataclass(frozen=True)
class Demand:
    """Loads on members and joints in every case."""

    model: Model
    responses: tuple[Response, ...]
    joints: tuple[JointDemand, ...]
    racking: float  # [lb] push at the frame
    weight: float  # [lb] of the bed without mattress

    def of(self, joint: Joint) -> tuple[JointDemand, ...]:
        """All that is asked of one joint."""
        return tuple(d for d in self.joints if d.joint == joint)

    def governing(self, joint: Joint) -> JointDemand | None:
        """The most that is asked of one joint when lying or sitting, in its most demanding case."""
        found = [d for d in self.of(joint) if d.kind in ("lying", "sitting")]
        return max(found, key=lambda d: d.governing, default=None)

    def spacing(self, joint: Joint, lateral: float, pull: float) -> float:
        """Widest screw spacing [in] for a long joint by one screw's values [lb]; infinite when unloaded."""
        limits = [
            d.duration * value / per_inch
            for d in self.of(joint)
            if d.kind in ("lying", "sitting")
            for per_inch, value in ((d.shear_per_inch, lateral), (d.withdrawal_per_inch, pull))
            if per_inch > 0
        ]
        return min(limits, default=float("inf"))

    def count(self, joint: Joint, lateral: float, pull: float) -> int:
        """Least even count of fasteners for a small joint by one fastener's values [lb]; 2 when unloaded."""
        shares = [d.shear / (d.duration * lateral) for d in self.of(joint) if d.kind in ("lying", "sitting")]
        return max(2, 2 * ceil(max(shares, default=0.0) / 2))


def demand(build: Build) -> Demand:
    """Loads on slats, lines, legs and joints of a build in every case.

    Raises:
        InputError: species or grade not in the tables.
    """
    known = model(build)
    answers = Responder(known)
    responses = tuple(answers.answer(case) for case in answers.cases)
    weight = bed_weight(build, known)
    push = max(RACKING_LEAST, RACKING * (weight + float(build.options.load.mattress + build.options.load.bedding)))
    joints = tuple(_joint_demands(build, known, (answers.answer(EMPTY), *responses), push, weight))
    return Demand(known, responses, joints, push, weight)


def bed_weight(build: Build, known: Model) -> float:
    """Weight of the bed [lb], wood at 12 % moisture; steel at 490 lb/ft3, a tube as 0.15 of its outline."""
    total = 0.0
    for piece in build.pieces.values():
        size = piece.box.size
        section = build.section_of(piece.label)
        if section.steel:
            pcf = 490.0 * (0.15 if piece.shape == "tube" else 1.0)
        else:
            pcf = density(wood_of(build, section).gravity)
        total += float(size[0] * size[1] * size[2]) / 1728 * pcf
    return total


def _joint_demands(
    build: Build, known: Model, responses: tuple[Response, ...], push: float, weight: float
) -> Iterator[JointDemand]:
    index = {f"slat {i + 1}": i for i in range(len(known.slat_places))}
    ys = [line.y for line in known.lines]
    for joint in build.joints:
        if joint.kind in ("slat", "slat_line"):
            y, i = float(joint.contact.centre[1]), index[joint.near]
            yield from _pulled(joint, responses, min(range(len(ys)), key=lambda k: abs(ys[k] - y)), i)
            continue
        for response in responses:
            found = _one(build, known, joint, response)
            if found is not None:
                yield found
    yield from _moving(build, push, weight)


def _pulled(joint: Joint, responses: tuple[Response, ...], line: int, slat: int) -> Iterator[JointDemand]:
    """A slat's screw in the cases in which its slat pulls up there."""
    for response in responses:
        push = response.lines[line].slats[slat]
        if push < -1e-6:
            case = response.case
            yield JointDemand(joint, case.name, case.duration, withdrawal=-push, kind=case.kind)


def _one(build: Build, known: Model, joint: Joint, response: Response) -> JointDemand | None:
    case = response.case
    blank = JointDemand(joint, case.name, case.duration, kind=case.kind)
    match joint.kind:
        case "cleat":
            return _along(blank, _line_of(build, response, joint.near), known, joint, 1.0, pull=False)
        case "runner" if build.pieces[joint.far].part.startswith("side_rail"):
            on = _line_of(build, response, joint.near)
            rail = next((m for m in on.line.members if m.label == joint.far), None) if on else None
            return _along(blank, on, known, joint, on.line.share(rail), pull=True) if on and rail else None
        case "corner":
            return _corner(build, joint, blank, response)
        case "line_end":
            return _line_end(build, joint, blank, response)
        case "leg" if joint.fastener != "bearing" and not joint.bears:
            return _leg_beside(build, joint, blank, response)
        case _:
            return None


def _line_of(build: Build, response: Response, label: str) -> OnLine | None:
    for line in build.lines:
        if label in line.members:
            return response.on(line.name)
    return None


def _along(
    blank: JointDemand, on: OnLine | None, known: Model, joint: Joint, share: float, *, pull: bool
) -> JointDemand | None:
    if on is None:
        return None
    low, high = float(joint.contact.lo[0]), float(joint.contact.hi[0])
    places = tuple(
        (x, max(0.0, p) * share) for x, p in zip(known.slat_places, on.slats, strict=True) if low <= x <= high
    )
    strips = {x: b - a for x, (a, b) in zip(known.slat_places, known.strips, strict=True)}
    densest = max((p / strips[x] for x, p in places), default=0.0)
    total = sum(p for _, p in places)
    if pull:
        return replace(blank, withdrawal=total, withdrawal_per_inch=densest, places=places)
    return replace(blank, shear=total, shear_per_inch=densest, places=places)


def _corner(build: Build, joint: Joint, blank: JointDemand, response: Response) -> JointDemand | None:
    """A person on the end rail, and what centre lines hang on it, shared by its two corners."""
    end_rail = next((p for p in (joint.near, joint.far) if build.pieces[p].part.startswith("end_rail")), None)
    if end_rail is None or end_rail_supported(build, end_rail):
        return None
    hung = sum(_hung(build, end_rail, on) for on in response.lines)
    load = (response.case.end_rail + hung) / 2
    return replace(blank, shear=load) if load > 0 else None


def _hung(build: Build, end_rail: str, on: OnLine) -> float:
    head = build.pieces[end_rail].box.lo[0] == 0
    ends = [s for s in on.line.supports if s.kind != "leg"]
    if not ends or on.bent is None:
        return 0.0
    return on.bent.reaction(ends[0 if head else -1].x)


def end_rail_supported(build: Build, label: str) -> bool:
    """True if an end rail stands on legs or runners, not on its corner screws alone."""
    box = build.pieces[label].box
    below = [
        p
        for p in build.pieces.values()
        if p.label != label
        and p.box.hi[2] == box.lo[2]
        and p.part.split("_")[0] in ("runner", "centre", "corner", "mid", "leg", "flange")
    ]
    touching = [p for p in below if (c := p.box.contact(box)) is not None and c.size[2] == 0]
    ys = sorted(float(p.box.centre[1]) for p in touching)
    wide = float(box.hi[1] - box.lo[1])
    return len(ys) >= 2 and ys[-1] - ys[0] >= wide / 2


def _line_end(build: Build, joint: Joint, blank: JointDemand, response: Response) -> JointDemand | None:
    on = _line_of(build, response, joint.near)
    if on is None or on.bent is None or all(s.kind == "leg" for s in on.line.supports):
        return None
    x = float(joint.contact.centre[0])
    support = min(on.line.supports, key=lambda s: abs(s.x - x))
    return replace(blank, shear=max(0.0, on.bent.reaction(support.x)))


def _leg_beside(build: Build, joint: Joint, blank: JointDemand, response: Response) -> JointDemand | None:
    """A rail fixed to the side of a leg: the leg's load, less what its top carries of the cleat directly."""
    leg = next((leg for leg in build.legs if joint.far in leg.pieces or joint.near in leg.pieces), None)
    on = next((on for on in response.lines if leg and on.line.name == leg.line), None)
    if leg is None or on is None or on.bent is None:
        return None
    load = max(0.0, on.bent.reaction(float(leg.x)))
    if any(j.bears and build.pieces[j.near].part.startswith(("cleat", "slat")) for j in leg_joints(build, leg.label)):
        low, high = float(leg.near_edge), float(leg.near_edge + leg.size[0])
        half = float(build.slats.width) / 2
        direct = sum(
            max(0.0, p) * max(0.0, min(high, x + half) - max(low, x - half)) / (2 * half)
            for x, p in zip(_slat_places(build), on.slats, strict=True)
        )
        load = max(0.0, load - direct)
    return replace(blank, shear=load)


def _slat_places(build: Build) -> tuple[float, ...]:
    row = build.slats
    return tuple(float(row.start + mark + row.width / 2) for mark in row.marks)


def _moving(build: Build, push: float, weight: float) -> Iterator[JointDemand]:
    """Pushed sideways: every leg takes its part; lifted by one end: the corners carry the far half."""
    careful = build.options.load.careful
    duration = 1.0 if careful else 1.6
    for leg in build.legs:
        joints = [j for j in leg_joints(build, leg.label) if j.fastener not in ("bearing", "bracket")]
        height = float(build.heights.leg)
        for joint in joints:
            force = push / len(build.legs) / len(joints)
            if joint.axis == 2:  # screwed down into or up from the leg's top: the moment pulls at half its width
                arm = max(0.5, float(min(leg.size)) / 2)
                yield JointDemand(joint, "pushed sideways", duration, force, force * height / arm, kind="moving")
            else:
                yield JointDemand(joint, "pushed sideways", duration, 0.0, force, kind="moving")
    for joint in build.joints_of("corner"):
        yield JointDemand(joint, "lifted by one end", duration, weight / 4, kind="moving")


__all__ = ["Case", "Demand", "JointDemand", "demand"]
