"""Random beds over all options that bear on strength; 300 of them by hand: python -m tests.strength.beds 300."""

from __future__ import annotations

import random
import sys

from tests.design.builds import NO_DEMO, SIZES, demo
from tutorial_lib.design.build_file import change
from tutorial_lib.design.platform_bed import design
from tutorial_lib.drilling import drill
from tutorial_lib.errors import TutorialError
from tutorial_lib.strength import demand, results
from tutorial_lib.strength.joints import holding


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


def main(count):
    """All checks on many beds."""
    for seed in range(count):
        strong = check(seed)
        check_legs(strong)
        print(seed, float(strong.lying.pounds), float(strong.sitting.pounds), [b.rule for b in strong.outcome.barriers])


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 300)
