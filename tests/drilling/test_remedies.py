"""What drilling and design would change is tried on whole plans: told where it helps, and not where it doesn't."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from tests.design.builds import changed
from tutorial_lib.findings import Remedy
from tutorial_lib.plan import Plan
from tutorial_lib.remedies import tried


def changes(rule: str, part: str, **keys: Any) -> list[tuple[tuple[str, object], ...]]:
    """What was tried and helps against one finding of the demo with some keys changed."""
    plan = Plan(changed(**keys))
    (finding,) = [f for f in (*plan.build.findings, *plan.drilling.findings) if f.rule == rule and part in f.parts]
    return [remedy.changes for remedy in tried(plan, finding)]


@pytest.mark.parametrize(
    ("rule", "part", "keys", "helps"),
    [
        ("end distance", "cleat", {}, [(("screws.cleat.inset", "15/16 in"),)]),
        ("slat bearing", "slat", {"slats__play": "7/16 in"}, [(("slats.play", "3/8 in"),)]),
        ("bolt length", "leg", {"screws__leg__length": "4 in"}, [(("screws.leg.length", None),)]),
        ("recess", "cleat", {}, []),  # lower slats leave the bolts a shorter lap: the bed would carry less
    ],
)
def test_a_sure_change_is_tried(rule: str, part: str, keys: dict[str, Any], helps: list[Any]) -> None:
    assert changes(rule, part, **keys) == helps


def test_what_leaves_the_finding_standing_is_not_told() -> None:
    plan = Plan(changed(screws__cleat__pilot="3/16 in"))
    (finding,) = [f for f in plan.drilling.findings if f.rule == "pilot bit"]
    wider = Remedy.setting("Take a wider bit", screws__cleat__pilot="13/64 in")
    assert list(tried(plan, replace(finding, remedies=(wider,)))) == []
