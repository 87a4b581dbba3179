"""What is worth trying, by what was found: nothing that can't be enough by far."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from tests.design.builds import demo
from tutorial_lib.findings import Finding
from tutorial_lib.plan import Plan, plan
from tutorial_lib.worth_trying import BY_FAR, candidates


@pytest.fixture(scope="module")
def made() -> Plan:
    return plan(demo())


def found(made: Plan, rule: str) -> Finding:
    return next(finding for finding in made.findings if finding.rule == rule)


def stated(made: Plan, finding: Finding, key: str) -> list[object]:
    return [dict(r.changes)[key] for _, r in candidates(made, finding) if key in dict(r.changes)]


@pytest.mark.parametrize(
    ("ratio", "spacings"),
    [
        (BY_FAR * 6 / 5, ["7 1/2 in", "6 in", "4 1/2 in", "3 in"]),
        (BY_FAR * 6 / 5 + 0.001, ["6 in", "4 1/2 in", "3 in"]),
        (BY_FAR * 2 + 0.001, ["3 in"]),
        (BY_FAR * 3 + 0.001, []),
    ],
)
def test_screws_so_close_that_by_the_rule_of_three_they_nearly_hold(
    made: Plan, ratio: float, spacings: list[str]
) -> None:
    """9 in apart now, of which five sixths, two thirds, a half and a third are tried."""
    finding = replace(found(made, "rows of screws"), ratio=ratio)
    assert BY_FAR == 1.1 and stated(made, finding, "screws.cleat.spacing") == spacings


@pytest.mark.parametrize(
    ("ratio", "heights"),
    [
        (BY_FAR * 16 / 14, ["9 1/2 in", "7 1/2 in"]),
        (BY_FAR * 16 / 14 + 0.001, ["7 1/2 in"]),
        (BY_FAR * 16 / 12 + 0.001, []),
    ],
)
def test_a_bed_so_low_that_a_push_at_its_slats_nearly_turns_no_leg(
    made: Plan, ratio: float, heights: list[str]
) -> None:
    """The slats are 16 in high, the frame's underside 11 1/2."""
    finding = replace(found(made, "moving"), ratio=ratio)
    assert stated(made, finding, "heights.underside") == heights


def test_a_finding_knows_how_many_times_what_is_allowed(made: Plan) -> None:
    for rule in ("rows of screws", "moving"):
        assert f"{found(made, rule).ratio:.2f}" == found(made, rule).value


def test_thicker_slats_take_a_screw_of_their_own_length(made: Plan) -> None:
    assert made.options.screws.slat.length == Fraction(3, 2)
    changes = [dict(r.changes) for kind, r in candidates(made, found(made, "kneeling")) if kind == "_slats"]
    assert changes == [{"slats.lumber": "2x4", "screws.slat.length": None}]
