"""What the check reaches on whole talks with answer keys: fourteen voices, builds, units and caption forms."""

from __future__ import annotations

import dataclasses

import pytest

from tests.narration.scorer import captions_of, loaded, names, pooled, score
from tutorial_lib.narration import check, read_captions

TALKS = names()


def test_the_talks_reach_the_goal() -> None:
    got = pooled(TALKS)
    assert got["found"] >= 0.99
    assert got["values"] >= 0.98
    assert got["linked"] >= 0.93
    assert got["slips"] >= 0.95
    assert got["alarms"] < 0.01


def test_the_demo_talk_has_its_five_slips_and_no_alarm() -> None:
    got = score("saltmarsh-shed-spare-room-twin")
    assert (got["slips"], got["caught"], got["alarms"]) == (5, 5, 0)


@pytest.mark.parametrize("name", TALKS)
def test_every_verdict_says_why(name: str) -> None:
    report = check(read_captions(captions_of(name)), loaded(name, "plan"))
    assert all(item.why for item in report.items)
    assert sum(report.counts.values()) == len(report.items)


@pytest.mark.parametrize("name", ["tern-lane-queen-three-lines", "marrow-street-twin-xl-pair"])
def test_keys_may_be_spelt_in_any_way(name: str) -> None:
    """The same talk with meaningless keys: the words of the facts carry the links."""
    plan = loaded(name, "plan")
    renamed = {key: f"q{at}" for at, key in enumerate(plan["quantities"])}
    blind = {**plan, "quantities": {renamed[k]: v for k, v in plan["quantities"].items()}}
    talk = read_captions(captions_of(name))
    with_keys = [renamed.get(i.subject or "") for i in check(talk, plan).items]
    without = [i.subject for i in check(talk, blind).items]
    same = sum(a == b for a, b in zip(with_keys, without, strict=True))
    assert same >= 0.95 * len(without)


def test_value_alone_links_nothing() -> None:
    """A right value among words that speak of nothing in the plan is no claim about it."""
    plan = loaded("saltmarsh-shed-spare-room-twin", "plan")
    report = check(read_captions("My grandmother's kitchen door was 38 1/4 and her cat weighed 14 pounds."), plan)
    assert all(item.subject is None for item in report.items)


def test_report_is_plain_data() -> None:
    name = "saltmarsh-shed-spare-room-twin"
    report = check(read_captions(captions_of(name)), loaded(name, "plan"))
    first = report.as_json()["items"][0]
    assert list(first) == [
        "time",
        "t",
        "cue",
        "quote",
        "value",
        "unit",
        "kind",
        "subject",
        "plan_value",
        "difference",
        "verdict",
        "why",
    ]
    assert dataclasses.is_dataclass(report.items[0])
