"""The figures of finishing, typed a second time, and the limits of its findings from either side."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.design.builds import changed
from tutorial_lib.design.platform_bed import design
from tutorial_lib.finishing.cans import SOLD, Can, choose
from tutorial_lib.finishing.coats import KINDS, OTHER, coats, kind_of
from tutorial_lib.finishing.exposure import collected, listed
from tutorial_lib.finishing.finish import finish
from tutorial_lib.finishing.sanding import sanding
from tutorial_lib.finishing.timeline import from_first_cut, timeline

# recoat, handling, curing [h]; oily rags, solvent; coverage [sq ft/gal]
TIMES = {
    "oil": ((4, 24), (12, 24), (48, 72), True, True, (200, 400)),
    "oil stain": ((8, 24), (12, 24), (48, 72), True, True, (200, 400)),
    "water stain": ((2, 4), (4, 12), (48, 72), False, False, (300, 600)),
    "varnish": ((6, 24), (24, 48), (72, 168), True, True, (500, 600)),
    "water varnish": ((2, 4), (6, 12), (48, 72), False, False, (500, 600)),
    "paint": ((4, 16), (12, 24), (48, 72), False, False, (350, 450)),
    "oil paint": ((8, 24), (24, 48), (72, 168), True, True, (350, 450)),
}


@pytest.mark.parametrize("name", list(TIMES))
def test_every_kind_of_finish(name):
    kind = KINDS[name]
    found = coats(name, 1, Fraction(10), Fraction(0), SOLD["in"])
    rates = (found.coverage.low, found.coverage.high)
    assert (kind.recoat, kind.handle, kind.cure, kind.oily, kind.solvent, rates) == TIMES[name]
    assert found.gallons == pytest.approx((10 / rates[1] * 1.1, 10 / rates[0] * 1.15))


def test_all_kinds_are_typed_twice_and_an_unknown_one_is_taken_for_oil():
    assert set(KINDS) == set(TIMES)
    assert (OTHER.recoat, OTHER.handle, OTHER.cure, OTHER.oily, OTHER.solvent) == TIMES["oil"][:5]


@pytest.mark.parametrize(
    ("said", "kind"),
    [("stain", "oil stain"), ("poly", "varnish"), ("water-based polyurethane", "water varnish"), ("primer", "paint"),
     ("tung oil", "oil"), ("hardwax oil", "oil"), ("Latex Paint", "paint")],
)  # fmt: skip
def test_names_of_the_trade(said, kind):
    assert kind_of(said).name == kind


def test_the_range_in_both_units():
    found = coats("oil", 2, Fraction(20), Fraction(1), SOLD["in"])
    assert found.gallons == pytest.approx((0.121, 0.2645))
    assert found.amount("in") == "15 to 34 fl oz"
    assert found.amount("mm") == "458 to 1001 ml"


@pytest.mark.parametrize(
    ("units", "names", "gallons"),
    [("in", ["1/2 pint", "1 pint", "1 quart", "1 gallon"], [0.0625, 0.125, 0.25, 1.0]),
     ("mm", ["250 ml", "375 ml", "750 ml", "1 litre", "2.5 litres", "5 litres"],
      [0.06604, 0.09906, 0.19813, 0.26417, 0.66043, 1.32086])],
)  # fmt: skip
def test_cans_sold(units, names, gallons):
    assert [can.name for can in SOLD[units]] == names
    assert [float(can.gallons) for can in SOLD[units]] == pytest.approx(gallons, abs=1e-5)


@pytest.mark.parametrize(
    ("need", "said"),
    [(0.125, "1 pint"), (0.126, "1 quart"), (0.25, "1 quart"), (0.26, "2 x 1 quart"), (0.51, "1 gallon"),
     (1.0, "1 gallon"), (1.01, "2 x 1 gallon"), (2.5, "3 x 1 gallon"), (0.0, "1/2 pint")],
)  # fmt: skip
def test_the_least_that_holds_it(need, said):
    assert str(choose(need, SOLD["in"])).split(",")[0] == said


def test_with_prices_the_cheapest_then_the_least_left_over():
    pint, quart = Can("1 pint", Fraction(1, 8), Fraction(8)), Can("1 quart", Fraction(1, 4), Fraction(16))
    assert choose(0.2, [pint, quart]).gallons == Fraction(1, 4)
    assert choose(0.3, [pint, quart]).gallons == Fraction(3, 8)
    assert choose(0.25, [pint, Can("1 quart", Fraction(1, 4), Fraction(15))]).lots[0][0].name == "1 quart"


@pytest.mark.parametrize(
    ("numbers", "rules"),
    [
        ((100, 120, 150), set()),
        ((80, 120, 220), {"grit step"}),
        ((80, 100), set()),
        ((60, 80), {"last grit"}),
        ((150, 220), set()),
        ((150, 240), {"grit step", "last grit"}),
    ],
)
def test_limits_of_the_grits(numbers, rules):
    """A step of 1.6 at most; the last one from 100 to 220."""
    assert {finding.rule for finding in sanding(numbers, Fraction(20), Fraction(10))[1]} == rules


@pytest.mark.parametrize(
    ("area", "discs", "minutes"),
    [
        (8, (1, 1), (16, 32)),
        (Fraction(81, 10), (1, 2), (17, 33)),
        (10, (1, 2), (20, 40)),
        (Fraction(101, 10), (2, 2), (21, 41)),
    ],
)
def test_discs_and_minutes(area, discs, minutes):
    plan = sanding((120, 180), Fraction(area), Fraction(7))[0]
    assert (plan.discs, plan.minutes, plan.edges) == (discs, minutes, 7)
    assert [g.number for g in plan.grits] == [120, 180]


def test_the_timeline_by_hand():
    sand = sanding((120, 180), Fraction(30), Fraction(10))[0]
    paint = coats("oil", 2, Fraction(27), Fraction(3), SOLD["in"])
    tasks = timeline(sand, paint, None)
    assert [task.hours for task in tasks] == [(1, 2), (0.25, 0.5), (1, 2), (4, 24), (1, 2), (12, 24), (2, 4), (34, 44)]
    assert [task.work for task in tasks].count("waiting") == 3
    assert tasks[-1].end == (1 + 0.25 + 1 + 4 + 1 + 12 + 2 + 34, 2 + 0.5 + 2 + 24 + 2 + 24 + 4 + 44)
    assert [task.start for task in tasks][:3] == [(0, 0), (1, 2), (1.25, 2.5)]
    whole = from_first_cut(tasks, 30, 120)  # 2 to 4 min a cut, 1/2 to 1 min a hole
    assert [(task.name, task.hours) for task in whole[:2]] == [
        ("Cut the pieces", (1, 2)), ("Mark and bore the holes", (1, 2))]  # fmt: skip
    assert [task.hours for task in whole[2:]] == [task.hours for task in tasks]
    assert whole[-1].end == (tasks[-1].end[0] + 2, tasks[-1].end[1] + 4)
    assert from_first_cut(tasks, 0, 0) == tasks
    stated = timeline(sand, paint, 6.0)
    assert (
        stated[3].hours == (6, 6)
        and len(timeline(sand, coats("oil", 0, Fraction(9), Fraction(0), SOLD["in"]), None)) == 3
    )


@pytest.mark.parametrize(
    ("faces", "said"),
    [(["outer face"], ["the outer face"]), (["outer face", "inner face"], ["the outer and inner faces"]),
     (["top edge"], ["the top edge"]), (["top edge", "bottom edge"], ["both edges"]),
     (["a face", "b face", "c face", "d face"], ["all four faces"]),
     (["a face", "b face", "c face"], ["the a, b and c faces"]),
     (["left end", "right end", "top face"], ["the top face", "both ends"])],
)  # fmt: skip
def test_faces_told_together(faces, said):
    assert collected(tuple(face.split()) for face in faces) == said


@pytest.mark.parametrize(
    ("words", "said"), [([], ""), (["a"], "a"), (["a", "b"], "a and b"), (["a", "b", "c"], "a, b and c")]
)
def test_lists_in_a_sentence(words, said):
    assert listed(words) == said


@pytest.mark.parametrize(
    ("numbers", "rule", "value", "limit"),
    [((80, 180), "grit step", "2.44 times", "1.6 times"), ((60, 80), "last grit", "80 grit", "100 to 220 grit"),
     ((220, 240), "last grit", "240 grit", "100 to 220 grit")],
)  # fmt: skip
def test_a_grit_beyond_its_limit_tells_it(numbers, rule, value, limit):
    found = next(f for f in sanding(numbers, Fraction(20), Fraction(10))[1] if f.rule == rule)
    assert limit in found.limit and found.value == value


@pytest.mark.parametrize(("wait", "told"), [("4 h", False), ("3.9 h", True)])
def test_a_shorter_wait_than_the_least_is_told(wait, told):
    found = [f for f in finish(design(changed(finish__recoat=wait))).findings if f.rule == "recoat"]
    assert [(f.severity, f.value, f.limit) for f in found] == [("caution", "3.9 h", "4 to 24 h")] * told
