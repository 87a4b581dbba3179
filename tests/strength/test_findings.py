"""Which findings a bed gets, with their figures, on either side of their limits."""

from __future__ import annotations

from functools import cache

import pytest

from tests.drilling.builds import demo
from tutorial_lib.design.build_file import change
from tutorial_lib.findings import Finding
from tutorial_lib.plan import Plan
from tutorial_lib.strength.result import Strength
from tutorial_lib.strength.rules import ROWS, SHALLOW, TOLD_BY, trips

ALWAYS = {"outside the table", "calculated, not tested"}  # the demo's slats are 1x4


@cache
def strong(*changes: tuple[str, object]) -> Strength:
    return Plan(change(demo(), dict(changes)) if changes else demo()).strength


def rules(known: Strength) -> set[tuple[str, str]]:
    return {(finding.rule, finding.severity) for finding in known.findings if finding.rule not in ALWAYS}


def one(known: Strength, rule: str) -> Finding:
    (found,) = [finding for finding in known.findings if finding.rule == rule]
    return found


def worst(known: Strength, rows: bool) -> float:
    """Greatest use of a part (or of a row of screws) by the stated people, lying or sitting."""
    found = [use.ratio for use in known.uses
             if use.kind in ("lying", "sitting") and use.what != "racking" and (use.key in ROWS) == rows]  # fmt: skip
    return max(found)


def test_the_demo():
    known = strong()
    assert rules(known) == {
        ("rows of screws", "caution"),
        ("kneeling", "caution"),
        ("moving", "caution"),
        ("comfort", "note"),
    }
    assert one(known, "rows of screws").value == f"{worst(known, rows=True):.2f}" and worst(known, rows=False) <= 1


@pytest.mark.parametrize("person", ["60 lb", "100 lb", "150 lb", "200 lb", "250 lb", "300 lb"])
def test_a_part_or_a_row_is_told_of_where_it_takes_more_than_is_allowed(person):
    known = strong(("load.person", person))
    told = {rule for rule, _ in rules(known)}
    for rule, rows, severity in (("strength", False, "stop"), ("rows of screws", True, "caution")):
        greatest = worst(known, rows)
        assert (rule in told) == (greatest > 1)
        if rule in told:
            finding = one(known, rule)
            assert (finding.severity, finding.value, finding.limit) == (severity, f"{greatest:.2f}", "1")


@pytest.mark.parametrize("person", ["60 lb", "130 lb", "300 lb"])
def test_kneeling_is_told_of_over_one_and_a_bare_slat_only_where_it_is_not(person):
    known = strong(("load.person", person))
    (knee,), (bare,) = ([use.ratio for use in known.uses if use.key == key] for key in ("kneeling", "bare-315"))
    assert (("kneeling", "caution") in rules(known)) == (knee > 1)
    assert (("bare slats", "note") in rules(known)) == (knee <= 1 < bare)
    told = one(known, "kneeling" if knee > 1 else "bare slats")
    assert (told.value, told.limit) == (f"{knee if knee > 1 else bare:.2f}", "1")


def test_pushing_is_told_by_the_worse_way():
    known = strong()
    ways = [use.ratio for use in known.uses if use.kind == "moving"]
    assert len(ways) == 2 and one(known, "moving").value == f"{max(ways):.2f}" and one(known, "moving").limit == "1"


@pytest.mark.parametrize("person", ["60 lb", "100 lb", "200 lb"])
def test_a_deck_is_called_soft_beyond_a_quarter_inch(person):
    told = [f for f in strong(("load.person", person)).findings if f.rule == "comfort" and f.value.endswith(" in")]
    assert all(float(f.value.split()[0]) >= SHALLOW and f.limit == "0.25 in" for f in told)
    assert bool(told) == (person == "200 lb")


def test_fewer_legs_never_make_it_easier_to_push():
    few, many = (one(strong(("legs.per_side", count)), "moving") for count in (2, 3))
    assert float(few.value) > float(many.value) > 1 and few.severity == "caution"


@pytest.mark.parametrize("person", [150, 220, 300])
def test_a_rule_asked_for_alone_finds_what_it_finds_among_all(person):
    changes = {"load.person": f"{person} lb"}
    found = {f.rule for f in Plan(change(demo(), changes)).strength.findings if f.severity != "note"}
    alone = Plan(change(demo(), changes)).strength
    assert {rule for rule in (*TOLD_BY, "strength") if trips(alone, rule)} == found & {*TOLD_BY, "strength"}
    assert found & set(TOLD_BY)
