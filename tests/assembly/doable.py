"""What every step must be: possible in its state. Pieces, driver room, what holds what, what the frame stands on."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from tutorial_lib.assembly import Step
from tutorial_lib.assembly.order import stance_of
from tutorial_lib.design.model import SIDES, Build
from tutorial_lib.drilling.access import DriverRoom, reach
from tutorial_lib.plan import Plan


def failures(made: Plan) -> Iterator[str]:
    """What is wrong with the steps of a bed."""
    told = {f.rule for f in made.assembly.findings}
    access = partial(reach, driver=DriverRoom(made.options.driver.length, made.options.driver.radius))
    for step in made.assembly.steps:
        yield from pieces_at_hand(step)
        yield from stood_on(made.build, step)
        if step.operation is not None:
            yield from driven(step)
            yield from held(made.build, step)
            if not told & {"locked away", "driver room"}:
                yield from reached(made.build, step, access)
    yield from whole(made)


def pieces_at_hand(step: Step) -> Iterator[str]:
    """All that is screwed together is there: in the frame, new, or on the bench; nothing enters twice."""
    here = set(step.present) | set(step.new) | set(step.made)
    joints = step.operation.joints if step.operation else ()
    if any({joint.near, joint.far} - here for joint in joints):
        yield f"{step.key}: a joint with a piece that is not there"
    if set(step.new) & set(step.present):
        yield f"{step.key}: a piece enters twice"


def driven(step: Step) -> Iterator[str]:
    """Screws go down or sideways, never up into what lies above."""
    if step.made:
        return
    for joint in step.operation.joints:
        if stance_of(joint) not in ("either", step.way):
            yield f"{step.key}: screws driven upward ({joint.kind}, frame {step.way})"


def held(build: Build, step: Step) -> Iterator[str]:
    """Every piece that enters is joined, over others that enter with it, to what is there; or stands on the bench."""
    known = set(step.present)
    new = set(step.new)
    if not known or not new:
        return
    joints = [{j.near, j.far} for j in (*step.operation.joints, *build.joints) if {j.near, j.far} <= known | new]
    joints += [set(leg.pieces) for leg in build.legs if build.options.tubes]
    grown = True
    while grown:
        grown = False
        for ends in joints:
            if ends & known and ends - known:
                known, grown = known | ends, True
    if new - known:
        yield f"{step.key}: {sorted(new - known)[0]} enters and is joined to nothing there"


def reached(build: Build, step: Step, access: partial) -> Iterator[str]:
    """A driver fits at every screw, past all that stands then."""
    here = (*step.present, *step.new, *step.made)
    for fastening in step.operation.fastenings:
        joint = fastening.joint
        if joint.kind == "flange":  # its tube is turned in afterwards
            continue
        own = {joint.near, joint.far, *joint.beyond}
        beside = own_leg(build, joint.near) if step.key == "ply" else here  # each leg is made up by itself
        others = [build.pieces[label].box for label in beside if label not in own]
        if not all(r.free for r in access(fastening, others)):
            yield f"{step.key}: no driver reaches {joint.kind}"


def own_leg(build: Build, label: str) -> tuple[str, ...]:
    """The boards of the leg that a piece belongs to."""
    return next(leg.pieces for leg in build.legs if label in leg.pieces)


def stood_on(build: Build, step: Step) -> Iterator[str]:
    """Legs enter a frame that lies upside down, or one that stands on its legs; upside down it lies on its rails."""
    if step.made or step.key in ("turn", "retighten", "apart"):
        return
    legs = [label for label in step.new if build.pieces[label].axis == 2]
    sides = {label for leg in build.legs if leg.line in SIDES for label in leg.pieces}
    stands = sides <= set(step.present)
    if build.options.frame.posts:  # the frame stands on its posts from its first step on
        posts = {label for leg in build.legs if leg.post for label in leg.pieces}
        stands = posts <= {*step.present, *step.new}
    if legs and step.way == "upright" and not stands:
        yield f"{step.key}: loose legs under an upright frame"
    if step.way == "upside down" and any(
        build.pieces[label].box.hi[2] > build.heights.rail_top for label in (*step.present, *step.new)
    ):
        yield f"{step.key}: upside down it would lie on a piece above the rails"


def whole(made: Plan) -> Iterator[str]:
    """Everything is in the bed at last, and it stands upright."""
    entered = [label for step in made.assembly.steps for label in step.new]
    if sorted(entered) != sorted(made.build.pieces):
        yield "whole: a piece is left over or enters twice"
    if made.assembly.steps[-1].way != "upright":
        yield "whole: the bed ends upside down"
