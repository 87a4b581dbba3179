"""Our frame of slats, lines, screws and legs against a general structural FE library (PyNite, MIT) on random beds.

The library gets every bar, screw, contact and leg of ours as members and springs; contacts that stand open in our
answer are left out. Pushes of all slats and forces in all links agree within 1 %.
"""

from __future__ import annotations

import random
from functools import cache

import pytest

from tests.design.builds import demo
from tests.validation.frame import Frame
from tutorial_lib.design.build_file import change
from tutorial_lib.design.platform_bed import design
from tutorial_lib.errors import TutorialError
from tutorial_lib.strength.grillage import Tips
from tutorial_lib.strength.outcome import work_out
from tutorial_lib.strength.response import REFERENCE, summed

BEDS, CASES = 16, ("middle", "left", "sit-left-middle", "sit-right-foot")


def _parted(outcome):
    """True where a slat lies on a leg's top and on a board beside it: the elements would tie the board's end to the
    leg through the slat, where a contact only pushes."""
    seats = (seat for line in outcome.responder.grillage.lines for seat in line.seats)
    return any(seat.bar is None and seat.share < 1 for seat in seats)


@cache
def _beds():
    """Random beds that can be built and stand: any size, support, lines, slats and legs."""
    rng, found = random.Random(7), []
    while len(found) < BEDS:
        runners = rng.random() < 0.5
        keys = {
            "mattress.size": rng.choice(["twin", "full", "queen", "king"]),
            "mattress.width": None,
            "mattress.length": None,
            "support.recess": None,
            "support.end_play": None,
            "screws": None,
            "legs.setback": f"{rng.randint(2, 10)} in",
            "support.kind": "runners" if runners else "cleats",
            "support.lumber": rng.choice(["2x4", "2x6"]) if runners else "2x2",
            "centre.lines": rng.randint(0, 3),
            "centre.kind": rng.choice(["beam", "flat"]),
            "centre.legs": rng.randint(2, 4),
            "slats.lumber": rng.choice(["1x4", "2x4"]),
            "legs.per_side": rng.randint(2, 4),
            "legs.place": rng.choice([None, "under"]),
        }
        try:
            outcome = work_out(design(change(demo(), keys)), None)
            if outcome.fell is None and not outcome.gaps and not outcome.found[1] and not _parted(outcome):
                found.append(outcome)
        except (TutorialError, Tips):
            continue
    return tuple(found)


@pytest.mark.parametrize("number", range(BEDS))
def test_ours_equals_the_finite_elements(number):
    outcome = _beds()[number]
    wanted = CASES[number % len(CASES)]
    response = next(r for r in outcome.responses if r.case.key == wanted)
    grillage = outcome.responder.grillage
    load = summed(outcome.responder.dead_load, response.people, REFERENCE)
    state, ours = grillage.settle(load)
    theirs = Frame(grillage, load, state)
    total = sum(pounds for row in load.on_slats for pounds, _ in row)
    for line, pushes in enumerate(ours.pushes):
        if all(sum(s.slat == i for s in grillage.lines[line].seats) == 1 for i in range(grillage.count)):
            for slat, push in enumerate(pushes):
                assert abs(theirs.push(line, slat)) == pytest.approx(abs(push), rel=0.01, abs=0.002 * total)
        for link, force in enumerate(ours.carried[line]):
            assert abs(theirs.carried(line, link)) == pytest.approx(abs(force), rel=0.01, abs=0.002 * total)


HALVED = {"mattress.size": "queen", "mattress.width": None, "mattress.length": None, "centre.lines": 1,
          "centre.kind": "flat", "centre.lumber": "2x6", "slats.halves": True}  # fmt: skip


@pytest.mark.parametrize("wanted", CASES)
def test_slats_in_two_halves_equal_elements_that_turn_freely_over_the_line(wanted):
    outcome = work_out(design(change(demo(), HALVED)), None)
    response = next(r for r in outcome.responses if r.case.key == wanted)
    grillage = outcome.responder.grillage
    load = summed(outcome.responder.dead_load, response.people, REFERENCE)
    state, ours = grillage.settle(load)
    theirs = Frame(grillage, load, state)
    for line, pushes in enumerate(ours.pushes):
        for slat, push in enumerate(pushes):
            assert abs(theirs.push(line, slat)) == pytest.approx(abs(push), rel=0.01, abs=0.5)
        for link, force in enumerate(ours.carried[line]):
            assert abs(theirs.carried(line, link)) == pytest.approx(abs(force), rel=0.01, abs=1.0)
