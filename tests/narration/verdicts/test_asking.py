"""The doubtful numbers one after another: the keys, the search, going back, and that answers are kept at once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import pytest

from tests.narration.plans import fact, facts
from tutorial_lib.cli.talk import ask
from tutorial_lib.narration import Answer, Choice, Item, Report, check, read_captions
from tutorial_lib.narration.verdicts.asking import Offer, found, understood

PLAN = facts(
    {
        "slat.length": fact(38.25, "in", "length", "1x4 slat", "slat"),
        "cleat.length": fact(75, "in", "length", "2x2 cleat", "cleat", "ledge"),
        "leg.height": fact(13.75, "in", "length", "4x4 leg", "leg"),
    }
)
TALK = read_captions("[0:05] It came to 39 1/4 for me.\n[0:30] Then 14 1/4 over there.\n[0:40] And 76 at the side.")


def choice(key: str, verdict: str) -> Choice:
    """A fact that a number may be about."""
    one = PLAN[key]
    value = (one.value,)
    return Choice(
        subject=key,
        what=one.what,
        plan_value=value,
        unit="in",
        kind=one.kind,
        verdict=verdict,
        why="",  # type: ignore[arg-type]
    )


def report() -> Report:
    """Three doubtful numbers."""
    made = check(TALK, PLAN)
    offered = [("slat.length", "leg.height"), ("leg.height",), ("cleat.length", "slat.length")]
    items = [
        replace(i, verdict="unsure", subject=None, choices=tuple(choice(k, "conflicts") for k in keys))
        for i, keys in zip(made.items, offered, strict=True)
    ]
    return Report(TALK, "in", tuple(items))


def going_through(*typed: str) -> tuple[tuple[Answer, ...], list[Sequence[Answer]], str]:
    """What comes of the lines typed: the answers, what was kept after each, what was shown."""
    kept: list[Sequence[Answer]] = []
    shown: list[str] = []
    lines: Iterator[str] = iter(typed)

    def read(prompt: str) -> str:
        try:
            return next(lines)
        except StopIteration:
            raise EOFError from None

    return ask(report(), PLAN, (), kept.append, read, shown.append), kept, "\n".join(shown)


def test_a_number_names_the_fact_s_the_slip_n_elsewhere() -> None:
    answered, kept, shown = going_through("2", "s", "n")
    assert [(a.quote, a.kind, a.subject) for a in answered] == [
        ("39 1/4", "part", "leg.height"),
        ("14 1/4", "slip", "leg.height"),
        ("76", "elsewhere", None),
    ]
    assert [len(k) for k in kept] == [1, 2, 3]  # kept after every answer
    assert "1 of 3" in shown and "[39 1/4]" in shown and "1x4 slat: wrong, the plan has 38 1/4 in" in shown


def test_the_rest_of_the_plan_is_searched() -> None:
    answered, _, shown = going_through("/ledge", "1", "q")
    assert [(a.kind, a.subject) for a in answered] == [("part", "cleat.length")]
    assert "2x2 cleat: wrong, the plan has 75 in" in shown
    assert found(PLAN, "4x4 leg") == ["leg.height"]
    assert "Nothing in the plan is called" in going_through("/wheel", "q")[2]


def test_enter_leaves_it_open_and_b_goes_back() -> None:
    assert going_through("", "", "")[0] == ()
    answered, kept, _ = going_through("n", "b", "1", "q")
    assert [(a.quote, a.kind) for a in answered] == [("39 1/4", "part")]
    assert kept[1] == ()  # going back takes the answer away


def test_stopping_keeps_what_was_answered() -> None:
    assert len(going_through("n", "q")[0]) == 1
    assert len(going_through("n")[0]) == 1  # the input ends
    assert "none of the keys" in going_through("x", "q")[2]


def test_nothing_doubtful_asks_nothing() -> None:
    shown: list[str] = []
    quiet = check(read_captions("[0:05] Hello there everyone."), PLAN)
    assert ask(quiet, PLAN, (), print, input, shown.append) == ()
    assert "Nothing to ask" in shown[0]


@pytest.mark.parametrize(
    ("line", "act"),
    [("1", "answer"), ("3", "unclear"), ("s2", "answer"), ("s9", "unclear"), ("", "leave"), ("B", "back"),
     (" q ", "stop"), ("/", "unclear"), ("/leg", "search"), ("0", "unclear"), ("²", "unclear")],
)  # fmt: skip
def test_keys(line: str, act: str) -> None:
    item: Item = report().items[0]
    offered = [Offer("slat.length", "a"), Offer("leg.height", "b")]
    assert understood(line, item, offered).act == act


def test_a_search_offers_only_what_the_unit_can_measure() -> None:
    plan = facts(
        {
            "rating.lying": fact(150, "lb", "load_rating", "people lying on the slats: each may weigh"),
            "slat.length": fact(38.25, "in", "length", "1x4 slat", "slat"),
            "slat.count": fact(14, "count", "part_count", "slats", "slat"),
        }
    )
    assert found(plan, "slat", "kg") == ["rating.lying"]
    assert found(plan, "slat", "in") == found(plan, "slat", "count") == ["slat.count", "slat.length"]
    assert len(found(plan, "slat")) == 3


def test_a_fact_is_found_by_its_key_too() -> None:
    plan = facts(
        {"slat.length": fact(38.25, "in", "length", "1x4 slat", "slat"), "slat.gap": fact(2, "in", "gap", "gap")}
    )
    assert found(plan, "slat length") == ["slat.length"]
    assert found(plan, "slat") == ["slat.length", "slat.gap"] and found(plan, "slat width") == []
