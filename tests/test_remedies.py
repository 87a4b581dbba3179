"""Remedies are told with what comes of them, and what comes of them is so."""

from __future__ import annotations

from functools import cache

import pytest

from tests.design.builds import DEMO
from tests.drilling.builds import demo
from tutorial_lib import remedies
from tutorial_lib.cli import main
from tutorial_lib.design.build_file import change
from tutorial_lib.design.options import Options
from tutorial_lib.findings import Finding
from tutorial_lib.plan import Plan, plan
from tutorial_lib.remedies import helped
from tutorial_lib.strength.words import held

RUNNERS = {"screws": None, "support.kind": "runners", "support.lumber": "2x6", "support.recess": None,
           "support.end_play": None, "legs.place": "under", "legs.side_setback": "2 in"}  # fmt: skip
BEDS = {
    "demo": {},
    "legs set in under a runner": RUNNERS,
    "a centre line in hangers": {"centre.lines": 1, "centre.ends": "hanger", "centre.legs": 0},
    "high on narrow tops": {"legs.place": "under the rail", "heights.underside": "16 in", "screws": None},
}


@cache
def _told(name: str) -> tuple[Plan, tuple[Finding, ...]]:
    before = plan(change(demo(), BEDS[name]) if BEDS[name] else demo())
    return before, tuple(helped(before, before.strength.findings))


@pytest.mark.parametrize("name", BEDS)
def test_what_is_told_comes_true(name: str) -> None:
    """A remedy done alone: its finding is gone, no rating is lower, and the people told are those it carries."""
    before, findings = _told(name)
    cures = [(finding, finding.remedies[-1]) for finding in findings if finding.remedies][:2]
    assert cures
    for finding, cure in cures:
        after = plan(change(before.options, dict(cure.changes))).strength
        assert finding.rule not in {f.rule for f in after.findings if f.severity != "note"}
        assert after.lying.pounds >= before.strength.lying.pounds
        assert after.sitting.pounds >= before.strength.sitting.pounds
        carried = held(after) if after.lying.pounds or after.sitting.pounds else "no load figure"
        assert cure.outcome.endswith(carried)


@pytest.mark.parametrize(
    ("name", "rule", "begins"),
    [
        ("demo", "rows of screws", "Set the cleat's screws 6 in apart: 0.93 of what is allowed"),
        ("demo", "kneeling", "Give it a centre line"),
        ("legs set in under a runner", "across the grain", "Put the legs under the rail"),
        ("a centre line in hangers", "no published value", "Let the centre line stand on legs of its own"),
        ("high on narrow tops", "racking", "Stand the legs inside the corners, up to the slats"),
    ],
)
def test_the_slightest_comes_first(name: str, rule: str, begins: str) -> None:
    _, findings = _told(name)
    (found,) = [finding for finding in findings if finding.rule == rule]
    assert found.remedy.startswith(begins)


def test_legs_set_back_come_into_the_corners_when_they_stand_inside() -> None:
    _, findings = _told("demo")
    (found,) = [finding for finding in findings if finding.rule == "moving"]
    bolts, inside = found.remedies
    assert dict(bolts.changes)["screws.leg.diameter"] == "1/2 in"
    assert inside.text.startswith("Stand the legs inside the corners") and ("legs.setback", None) in inside.changes


def test_a_note_is_left_as_it_is() -> None:
    before, findings = _told("demo")
    notes = [finding for finding in findings if finding.severity == "note"]
    assert notes == [finding for finding in before.strength.findings if finding.severity == "note"]


def test_facts_end_with_what_helps(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["facts", str(DEMO)]) == 0
    assert "Set the cleat's screws 6 in apart: 0.93 of what is allowed" in capsys.readouterr().out


def test_of_one_bed_no_more_is_tried_than_may_be_and_nothing_twice(monkeypatch: pytest.MonkeyPatch) -> None:
    made, tried = [], remedies.plan

    def counted(options: Options, **more: Plan) -> Plan:
        made.append(options)
        return tried(options, **more)

    monkeypatch.setattr(remedies, "plan", counted)
    monkeypatch.setattr(remedies, "TRIED_AT_MOST", 3)
    before = plan(change(demo(), {"load.person": "300 lb"}))
    found = [finding for finding in before.findings if finding.severity != "note"]
    told = list(helped(before, found))
    assert len(made) == 3 and len(set(map(repr, made))) == 3
    assert any(finding.remedies for finding in told)


@pytest.mark.parametrize("what", ["LARGE", "MANY"])
def test_fewer_changes_of_a_large_bed_are_tried(what: str, monkeypatch: pytest.MonkeyPatch) -> None:
    before = plan(change(demo(), {"load.person": "300 lb"}))
    cautions = [f for f in before.findings if f.severity != "note"]
    assert cautions
    assert remedies.LARGE == 100 and remedies.MANY == 1000
    many = {"LARGE": len(before.build.joints), "MANY": sum(len(job.spots) for job in before.drilling.jobs)}
    monkeypatch.setattr(remedies, what, many[what] / 2)  # eight times as long as a large one
    list(helped(before, cautions))
    assert 1 < len(remedies._TRIED[before]) <= round(remedies.TRIED_AT_MOST / 8)
