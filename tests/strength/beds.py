"""Random beds over all options that bear on strength; 300 of them by hand: python -m tests.strength.beds 0 300."""

from __future__ import annotations

import random
import sys
import traceback
from dataclasses import replace

from tests.design.builds import NO_DEMO, SIZES, demo
from tests.strength.mirror import Mirror
from tutorial_lib.design.build_file import change
from tutorial_lib.design.platform_bed import design
from tutorial_lib.drilling import drill
from tutorial_lib.errors import TutorialError
from tutorial_lib.strength import demand, results
from tutorial_lib.strength.joints import holding
from tutorial_lib.strength.outcome import without_legs

CARRY = ("cleat", "runner", "leg", "flange", "corner")  # joints whose screws or bolts carry people


def random_changes(rng):
    """Changes to the demo; some can't exist and are refused."""
    runners = rng.random() < 0.5
    legs = rng.choice(["post", "doubled", "corner L", "tube"])
    return NO_DEMO | {
        "mattress.size": rng.choice(SIZES), "frame.corners": rng.choice(["side rails run past", "end rails cap"]),
        "frame.rail": rng.choice(["2x6", "2x8"]), "support.kind": "runners" if runners else "cleats",
        "support.lumber": rng.choice(["2x4", "2x6"] if runners else ["2x2", "2x3"]),
        "centre.lines": rng.randint(0, 3), "centre.kind": rng.choice(["beam", "flat"]),
        "centre.ends": rng.choice(["leg", "leg", "hanger", "block"]), "centre.legs": rng.randint(2, 4),
        "slats.lumber": rng.choice(["1x3", "1x4", "2x4", "1x6"]),
        "slats.carries": rng.choice(["mattress", "box spring"]), "legs.kind": legs,
        "legs.lumber": "4x4" if legs == "post" else "2x4",
        "legs.place": rng.choice([None, "under", "inside", "under the rail"]), "legs.per_side": rng.randint(2, 4),
        "legs.setback": rng.choice([None, "2 in", "6 in"]), "heights.underside": f"{rng.randint(8, 16)} in",
        "load.person": f"{rng.randrange(120, 300, 10)} lb",
    }  # fmt: skip


def random_bed(seed):
    """(build, fastenings) of the first bed of a seed that can exist."""
    rng = random.Random(seed)
    while True:
        try:
            build = design(change(demo(), random_changes(rng)))
            return build, drill(build, demand(build), holding).fastenings
        except TutorialError:
            continue


def check(seed):
    """What must hold for one bed; its strength."""
    build, fastenings = random_bed(seed)
    strong = results(build, fastenings)
    outcome = strong.outcome
    for kind, rating in (("lying", strong.lying), ("sitting", strong.sitting)):
        assert 0 <= rating.pounds <= 300
        assert rating.pounds <= rating.exact + 1e-6 or rating.why
        barred = any(kind in barrier.kinds for barrier in outcome.barriers)
        assert bool(rating.why) == barred
        if not barred and rating.pounds:
            over = [use for use in outcome.uses if use is rating.governing and use.at(float(rating.pounds)) > 1 + 1e-6]
            assert not over
    cautions = [finding for finding in strong.findings if finding.severity != "note"]
    assert len(cautions) <= 7
    assert outcome.barriers or outcome.responses
    for response in outcome.responses:  # nobody's weight gets lost on its way to the floor
        live = sum(load.whole.live for load in outcome.lines.leg_loads(response))
        ends = sum(
            response.live.carried[i][k]
            for i, line in enumerate(outcome.lines.lines)
            for k, link in enumerate(line.links)
            if link.kind == "end"
        )
        assert abs(live + ends - build.options.load.people) < 1e-4 or outcome.gaps
    return strong


def check_legs(strong):
    """No leg taken away raises what is printed."""
    for entry in strong.legs:
        assert entry.lying.pounds <= strong.lying.pounds
        assert entry.sitting.pounds <= strong.sitting.pounds


def less_a_line(build, name):
    """The same bed without one of its centre lines and the legs under it."""
    line = next(line for line in build.lines if line.name == name)
    less = without_legs(build, line.legs)
    parts = [replace(p, pieces=tuple(q for q in p.pieces if q.label not in line.members)) for p in less.parts]
    joints = tuple(j for j in less.joints if not {j.near, j.far} & set(line.members))
    return replace(less, parts=tuple(p for p in parts if p.pieces), joints=joints,
                   lines=tuple(other for other in less.lines if other.name != name))  # fmt: skip


def less_a_screw(fastenings, rng):
    """The same fasteners less one that carries people."""
    which = rng.choice([i for i, f in enumerate(fastenings) if f.joint.kind in CARRY and f.driven])
    one = fastenings[which]
    gone = rng.randrange(one.count)
    fewer = replace(one, driven=one.driven[:gone] + one.driven[gone + 1 :])
    return (*fastenings[:which], fewer, *fastenings[which + 1 :])


def check_taken(strong, rng, screws=3):
    """No line and no screw taken away raises what is printed; how often the frame alone would have."""
    build, fastenings, raised = strong.build, strong.fastenings, 0
    less = [(less_a_line(build, line.name), fastenings) for line in build.lines if line.central]
    less += [(build, less_a_screw(fastenings, rng)) for _ in range(screws)]
    for reduced in less:
        printed, alone = results(*reduced, whole=lambda: strong), results(*reduced)
        for kind in ("lying", "sitting"):
            whole = getattr(strong, kind)
            held = not strong.outcome.barriers  # else the whole bed has no figure
            assert not held or getattr(printed, kind).pounds <= whole.pounds
            raised += held and getattr(alone, kind).pounds > whole.pounds
    return raised


def check_mirrored(strong):
    """Left for right and head for foot the bed is rated the same, to the last figure."""
    for axis in (0, 1):
        turned = results(*Mirror(strong.build, axis).bed(strong.fastenings)).outcome
        for kind in ("lying", "sitting"):
            ours, theirs = strong.outcome.rating(kind), turned.rating(kind)
            assert (ours.why, ours.pounds) == (theirs.why, theirs.pounds)
            assert abs(ours.exact - theirs.exact) <= 1e-6 * max(1.0, abs(ours.exact)) or ours.exact == theirs.exact


def check_heavier(strong):
    """A heavier person never lowers a use."""
    found = []
    for person in ("120 lb", "290 lb"):
        options = change(strong.build.options, {"load.person": person})
        worst = {}
        for use in results(replace(strong.build, options=options), strong.fastenings).uses:
            key = (use.key, use.case.key, "" if use.part == "slat" else use.piece)  # of slats only the worst is kept
            worst[key] = max(worst.get(key, 0.0), use.ratio)
        found.append(worst)
    light, heavy = found
    assert [key for key in light if key in heavy and light[key] > heavy[key] + 1e-9] == []


def check_all(seed):
    """All checks of one bed; its strength, and how often the frame alone would have raised what is printed."""
    strong = check(seed)
    check_legs(strong)
    raised = check_taken(strong, random.Random(seed))
    check_mirrored(strong)
    check_heavier(strong)
    return strong, raised


def main(first, last):
    """All checks on many beds; the number of beds that failed."""
    failed = 0
    for seed in range(first, last):
        try:
            strong, raised = check_all(seed)
        except AssertionError:
            failed += 1
            print(seed, "FAILED", traceback.format_exc(limit=-2), flush=True)
            continue
        barriers = [barrier.rule for barrier in strong.outcome.barriers]
        print(seed, float(strong.lying.pounds), float(strong.sitting.pounds), barriers, raised, flush=True)
    return failed


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:3])) > 0)
