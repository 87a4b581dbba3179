"""Each strength rule is silent at its limit and tells its figure just over it, whatever bed it comes from."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from types import SimpleNamespace
from typing import Any

import pytest

from tests.drilling.builds import bed
from tutorial_lib.findings import Finding
from tutorial_lib.strength import rules

BUILD = bed()
Rule = Callable[[Any], Iterable[Finding]]


def outcome(**known: Any) -> Any:
    """What a rule looks at of a worked-out bed."""
    return SimpleNamespace(**({"build": BUILD, "fell": None, "found": ((), ()), "uses": [], "tippings": [], "sag": None}
                           | known))  # fmt: skip


def use(ratio: float, key: str = "", kind: str = "lying", what: str = "") -> Any:
    case = SimpleNamespace(name="lying", key="left")
    return SimpleNamespace(ratio=ratio, key=key, kind=kind, what=what, label="the runner", case=case, part="runner")


@pytest.mark.parametrize(
    ("rule", "name", "severity", "known"),
    [
        (rules._racking, "racking", "stop", {"what": "racking"}),
        (rules._racking, "racking", "stop", {"what": "racking", "kind": "sitting"}),
        (rules._moving, "moving", "caution", {"what": "racking", "kind": "moving"}),
        (rules._kneeling, "kneeling", "caution", {"key": "kneeling"}),
        (rules._kneeling, "bare slats", "note", {"key": "bare-315"}),
        (rules._across, "across the grain", "caution", {"key": "cross-grain"}),
        (rules._across, "across the grain", "caution", {"key": "cross-grain-slat"}),
        (rules._hold_down, "hold-down screws", "caution", {"key": "hold-down"}),
    ],
)
def test_over_one_is_told_and_one_is_not(rule: Rule, name: str, severity: str, known: dict[str, str]) -> None:
    assert list(rule(outcome(uses=[use(1.0, **known)]))) == []
    (found,) = rule(outcome(uses=[use(0.5, **known), use(1.01, **known)]))
    assert (found.rule, found.severity, found.value, found.limit) == (name, severity, "1.01", "1")


def test_a_use_of_another_kind_trips_no_rule_but_its_own() -> None:
    other = outcome(uses=[use(2.0, key="slat-bending", what="bending")])
    for rule in (rules._racking, rules._moving, rules._kneeling, rules._across, rules._hold_down):
        assert list(rule(other)) == []


@pytest.mark.parametrize(("ratio", "told"), [(1.49, True), (1.5, False)])
def test_tipping_wants_one_and_a_half_times(ratio: float, told: bool) -> None:
    tips = [SimpleNamespace(ratio=ratio, name="to the left"), SimpleNamespace(ratio=9.0, name="to the right")]
    found = [(f.rule, f.severity, f.value, f.limit) for f in rules._balance(outcome(tippings=tips))]
    assert found == [("tipping", "stop", "1.49", "1.5 times")] * told


@pytest.mark.parametrize(("sag", "told"), [(0.25, False), (0.26, True)])
def test_a_soft_deck_is_told_over_a_quarter_inch(sag: float, told: bool) -> None:
    deepest = SimpleNamespace(value=sag, case=SimpleNamespace(name="lying, all in the middle"))
    found = [(f.severity, f.value, f.limit) for f in rules._comfort(outcome(sag=deepest)) if "sags" in f.what]
    assert found == [("note", "0.26 in", "0.25 in")] * told
