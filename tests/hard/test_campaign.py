"""A part of the campaign on every run, and every failure there ever was tried again."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.hard import campaign, odd
from tests.hard.spoil import Case

CASES = 5000  # 200,000 by hand: python -m tests.hard.campaign 200000
SEED = 20


@pytest.mark.parametrize(("door", "count"), campaign.shares(CASES).items())
def test_no_hostile_input_gets_the_better_of_it(door: str, count: int) -> None:
    counts, failures = campaign.run(SEED, door, count)
    assert not failures, "\n".join(f"{door} {index}: {became}" for index, became in failures.items())
    assert sum(counts.values()) == count
    assert counts["refused"] or door in ("captions", "panel")


@pytest.mark.parametrize("path", sorted(campaign.KEPT.glob("*.json")), ids=lambda path: path.stem)
def test_what_once_failed_does_so_no_more(path: Path) -> None:
    kept = json.loads(path.read_text(encoding="utf-8"))
    assert campaign.attempt(kept["door"], kept["case"]) in ("used", "refused")


def test_a_case_can_be_had_again_from_its_number() -> None:
    for door in odd.DOORS:
        assert odd.case(1, door, 7) == odd.case(1, door, 7)
        assert json.loads(json.dumps(odd.case(1, door, 7))) == json.loads(json.dumps(odd.case(1, door, 7)))


def test_the_harness_would_notice(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(_: Case) -> None:
        raise KeyError("x")

    def endless(_: Case) -> None:
        while True:
            pass

    monkeypatch.setitem(campaign.doors.DOORS, "length", broken)
    assert campaign.attempt("length", {}).startswith("failed: KeyError")
    monkeypatch.setitem(campaign.doors.DOORS, "length", endless)
    monkeypatch.setattr(campaign, "SECONDS", 0.2)
    assert "more than 0.2 s of processor time" in campaign.attempt("length", {})
