"""Each rule of the bed's shape trips where it should, with its number and its way out."""

from __future__ import annotations

from typing import Any

import pytest

from tests.design.builds import changed, demo
from tutorial_lib.design.platform_bed import design


def found(**keys: Any) -> dict[str, str]:
    return {f.rule: f.severity for f in design(changed(**keys)).findings}


def test_the_demo_has_cautions_and_no_stop() -> None:
    findings = design(demo()).findings
    assert {f.rule for f in findings} == {"recess", "rail end"}
    assert {f.severity for f in findings} == {"caution"}


@pytest.mark.parametrize(
    ("keys", "rule", "severity"),
    [
        ({"slats__play": "5/8 in"}, "slat bearing", "stop"),
        ({"slats__gap": "4 in"}, "slat gap", "stop"),
        ({"slats__lumber": "1x2"}, "slat width", "caution"),
        ({"support__recess": "0 in"}, "recess", "stop"),
        ({"frame__rail": "2x12", "support__recess": "5 in"}, "recess", "caution"),
        ({"mattress__tolerance": "1 in"}, "clearance", "stop"),
        ({"clearance__side": "1 in"}, "clearance", "stop"),
        ({"legs__setback": "15 in"}, "overhang", "caution"),
        ({"legs__omit": ["L1", "L2"]}, "overhang", "stop"),
        ({"slats__count": 5, "mattress__gap_limit": None}, "open share", "caution"),
        ({"legs__lumber": "2x2", "heights__underside": "12 in"}, "slender leg", "caution"),
        ({"slats__carries": "box spring", "slats__count": 4}, "slat spacing", "stop"),
        ({"legs__kind": "tube"}, "flange seat", "stop"),
        ({"mattress__width": "60 in", "centre__lines": 1, "centre__ends": "hanger"}, "rail end", "stop"),
        ({"build__units": "mm"}, "grid", "note"),
    ],
)
def test_rule_trips(keys: dict[str, Any], rule: str, severity: str) -> None:
    assert found(**keys).get(rule) == severity
    finding = next(f for f in design(changed(**keys)).findings if f.rule == rule)
    assert finding.what
    assert finding.severity == "note" or finding.remedy
