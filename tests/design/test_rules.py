"""Each rule of the bed's shape trips at its limit, with its number and its way out, and not on the other side of it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from tests.design.builds import changed, demo
from tests.drilling.builds import RUNNERS, bed
from tutorial_lib.design.build_file import change
from tutorial_lib.design.mattress_rules import _unsupported_slats
from tutorial_lib.design.platform_bed import design
from tutorial_lib.design.standing_rules import _closes, _rail_ends
from tutorial_lib.findings import Finding
from tutorial_lib.plan import plan


def found(rule: str, **keys: Any) -> list[Finding]:
    return [finding for finding in design(changed(**keys)).findings if finding.rule == rule]


ON_RUNNERS: dict[str, Any] = {"support__kind": "runners", "support__lumber": "2x6", "support__recess": None,
                              "support__end_play": None, "screws__leg": None, "legs__kind": "tube"}  # fmt: skip
BOX: dict[str, Any] = {"slats__carries": "box spring"}
TALL: dict[str, Any] = {"legs__lumber": "2x2", "heights__underside": None}
HIGH: dict[str, Any] = {"heights__underside": None, "slats__lumber": "2x4", "support__recess": "1 in"}
MM: dict[str, Any] = {"build__units": "mm", "heights__underside": None}
NO_LIMIT: dict[str, Any] = {"mattress__gap_limit": None}


def test_the_demo_has_cautions_and_no_stop() -> None:
    findings = design(demo()).findings
    assert {f.rule for f in findings} == {"recess", "rail end"}
    assert {f.severity for f in findings} == {"caution"}


@pytest.mark.parametrize(
    ("rule", "trips", "severity", "value", "limit", "passes"),
    [
        ("slat bearing", {"slats__play": "7/16 in"}, "stop", "5/8 in", "at least 3/4 in", {"slats__play": "3/8 in"}),
        ("slat gap", {"mattress__gap_limit": "2 1/32 in"}, "stop", "2 1/16 in", "at most 2 1/32 in",
         {"mattress__gap_limit": "2 3/16 in"}),
        ("slat gap", {"mattress__gap_limit": "2 1/16 in"}, "caution", "2 1/8 in", "at most 2 1/16 in",
         {"mattress__gap_limit": "2 1/8 in"}),
        ("slat width", {"slats__lumber": "1x2"}, "caution", "1 1/2 in", "at least 2 1/2 in", {"slats__lumber": "1x3"}),
        ("recess", {"support__recess": "0 in"}, "stop", "0 in", "at least 1 1/2 in", {"support__recess": "1 1/2 in"}),
        ("recess", {"support__recess": "1 7/16 in"}, "caution", "1 7/16 in", "1 1/2 in to 3 in",
         {"support__recess": "1 1/2 in"}),
        ("recess", {"frame__rail": "2x12", "support__recess": "3 1/16 in"}, "caution", "3 1/16 in", "1 1/2 in to 3 in",
         {"frame__rail": "2x12", "support__recess": "3 in"}),
        ("recess", BOX | {"support__recess": "2 1/16 in"}, "caution", "2 1/16 in", "1 in to 2 in",
         BOX | {"support__recess": "2 in"}),
        ("recess", {"mattress__thickness": "3 3/4 in", "support__recess": "1 15/16 in"}, "caution", "1 15/16 in",
         "1 1/2 in to 1 7/8 in", {"mattress__thickness": "3 3/4 in", "support__recess": "1 7/8 in"}),
        ("clearance", {"mattress__tolerance": "9/16 in"}, "stop", "1/2 in", "at least 9/16 in",
         {"mattress__tolerance": "1/2 in"}),
        ("clearance", {"clearance__side": "13/16 in"}, "stop", "1 5/8 in", "at most 1 1/2 in",
         {"clearance__side": "3/4 in"}),
        ("overhang", {"legs__setback": "8 3/16 in"}, "caution", "8 3/16 in",
         "at most 7 3/8 in, a quarter of the next span", {"legs__setback": "7 in"}),
        ("overhang", {"legs__omit": ["L1", "L2"]}, "stop", "1 leg", "at least 2 legs", {"legs__omit": ["L2"]}),
        ("open share", NO_LIMIT | {"slats__count": 8}, "caution", "63 %", "15 to 60 %", NO_LIMIT | {"slats__count": 9}),
        ("open share", {"slats__count": 19}, "caution", "12 %", "15 to 60 %", {"slats__count": 18}),
        ("slender leg", TALL | {"heights__leg": "7 9/16 in"}, "caution", "5.04 times", "at most 5 times",
         TALL | {"heights__leg": "7 1/2 in"}),
        ("slat spacing", BOX | {"slats__count": 5}, "stop", "18 1/16 in", "at most 16 in", BOX | {"slats__count": 6}),
        ("flange seat", ON_RUNNERS | {"legs__flange": "5 9/16 in"}, "stop", "99 %", "100 %",
         ON_RUNNERS | {"legs__flange": "5 1/2 in"}),
        ("raised bed", HIGH | {"heights__sleeping": "31 9/16 in"}, "stop", "30 1/16 in", "at most 30 in",
         HIGH | {"heights__sleeping": "31 1/2 in"}),
        ("raised bed", MM | {"heights__sleeping": "600 mm"}, "stop", "600 mm", "under 600 mm",
         MM | {"heights__sleeping": "599 mm"}),
        ("fall height", HIGH | {"heights__sleeping": "23 9/16 in"}, "caution", "23 9/16 in", "at most 23 1/2 in",
         HIGH | {"heights__sleeping": "23 1/2 in"}),
        ("rail and leg apart", {"support__recess": "1 15/16 in"}, "stop", "", "", {"support__recess": "1 7/8 in"}),
        ("grid", {"build__units": "mm"}, "note", "", "1 mm", {}),
    ],
)  # fmt: skip
def test_a_rule_at_its_limit(
    rule: str, trips: dict[str, Any], severity: str, value: str, limit: str, passes: dict[str, Any]
) -> None:
    over = found(rule, **trips)
    assert [(f.severity, f.value, f.limit) for f in over] == [(severity, value, limit)]
    assert over[0].what
    assert severity == "note" or over[0].remedy
    assert found(rule, **passes) == []


def test_end_rails_that_hang_are_a_caution_and_with_a_line_on_them_a_stop() -> None:
    assert [f.severity for f in found("rail end")] == ["caution"]
    hung = {"mattress__width": "60 in", "centre__lines": 1, "centre__ends": "hanger"}
    assert [f.severity for f in found("rail end", **hung)] == ["stop"]
    held = {"legs__setback": None, "support__recess": None}
    assert found("rail end", **held, legs__place="under the rail", screws__leg=None) == []
    assert found("rail end", **held, legs__place="inside") == []


def test_a_slat_that_lies_on_nothing_at_one_end_is_a_stop() -> None:
    build = design(demo())
    less = replace(build, joints=tuple(j for j in build.joints if not (j.near == "slat 3" and "left" in j.far)))
    found = [(f.rule, f.severity, f.what) for f in _unsupported_slats(less)]
    assert found == [("slat end", "stop", "slat 3 has nothing under one end.")]
    assert list(_unsupported_slats(build)) == []


def test_sizes_that_do_not_add_up_are_told_with_both_sums() -> None:
    build = design(demo())
    width, length = build.outside
    found = list(_closes(replace(build, outside=(width + 1, length))))
    assert [(f.severity, f.value, f.limit) for f in found] == [("stop", "42 1/2 in", "41 1/2 in")]
    assert list(_closes(build)) == []


@pytest.mark.parametrize(
    ("cleat", "told"),
    [("1 3/8 in", "5/16 in"), ("1 1/16 in", "1/16 in"), ("1 1/2 in", "3/8 in"), ("2 1/2 in", "7/8 in")],
)
def test_a_slat_that_bears_too_little_is_given_the_play_that_leaves_enough(cleat: str, told: str) -> None:
    """At least 1 in where it is screwed; at least 3/4 in where it lies loose and has moved all the way."""
    keys = {"slats__play": "1 in", "lumber__2x2": {"thickness": cleat, "width": cleat}}
    remedies = found("slat bearing", **keys)[0].remedies
    assert remedies[0].changes == (("slats.play", told),)


def test_rails_on_runners_have_nothing_to_mind_at_their_ends_with_a_centre_line_either() -> None:
    build = bed(RUNNERS | {"mattress.size": "queen", "centre.lines": 1, "centre.kind": "flat"})
    assert [line.kind for line in build.lines] == ["runner", "flat", "runner"]
    assert not list(_rail_ends(build))
    hung = bed({"mattress.size": "queen", "centre.lines": 1})
    assert [finding.rule for finding in _rail_ends(hung)]


def test_the_open_share_of_a_deck_is_told_in_whole_per_cent() -> None:
    # 20 and 8 slats of 3 1/2 in cover 70 and 28 of 75 3/4 in
    for gap, told in (("3/8 in", "8 %"), ("7 in", "63 %")):
        found = [f for f in plan(changed(slats__gap=gap)).findings if f.rule == "open share"]
        assert [(f.what, f.value, f.limit) for f in found] == [(f"{told} of the deck is open.", told, "15 to 60 %")]


@pytest.mark.parametrize("count", [8, 10, 12])
def test_as_many_slats_are_named_as_keep_the_gap(count: int) -> None:
    """75 3/4 in inside: 13 of 3 1/2 in leave 12 gaps of 2.52 in, 12 leave 11 of 3.07 in; at most 2 3/4 in."""
    bed = design(changed(slats__count=count, slats__gap=None))
    (found,) = (f for f in bed.findings if f.rule == "slat gap")
    assert found.remedy == "Use 13 slats or more, or wider boards."
    (remedy,) = found.remedies
    after = design(change(bed.options, dict(remedy.changes)))
    assert after.slats.count == 13 and not [f for f in after.findings if f.rule == "slat gap"]


@pytest.mark.parametrize("count", [3, 5])
def test_under_a_box_spring_too(count: int) -> None:
    bed = design(changed(slats__count=count, slats__gap=None, slats__carries="box spring"))
    (found,) = (f for f in bed.findings if f.rule == "slat spacing")
    (remedy,) = found.remedies
    after = design(change(bed.options, dict(remedy.changes)))
    fewer = design(change(bed.options, {"slats.count": after.slats.count - 1}))
    assert [[f.rule for f in made.findings if f.rule == "slat spacing"] for made in (after, fewer)] == [
        [],
        ["slat spacing"],
    ]
