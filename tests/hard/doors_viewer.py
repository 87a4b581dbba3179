"""The doors of those who build along, and of what goes out with a video."""

from __future__ import annotations

import json
from functools import cache
from typing import Any

from tests.hard.spoil import Case, demo

REFUSED = 2


@cache
def _demo_plan() -> Any:
    from tutorial_lib.design.build_file import read_build
    from tutorial_lib.plan import plan

    return plan(read_build(demo(), "bed.toml"))


def have(case: Case) -> None:
    """Boards at hand, said again as they were read."""
    from tutorial_lib.adapting.own_boards import read_own_boards

    for boards in read_own_boards(case["texts"], case["units"]):
        again = read_own_boards([boards.words(case["units"])])
        assert len(again) == 1 and again[0].count == boards.count, boards.words(case["units"])
        json.dumps(boards.row(case["units"]))


def labels(case: Case) -> None:
    """Sheets of labels; their first and last label lies on the paper."""
    from tutorial_lib.publishing.labels import SIZES, labels_source, read_label_sheets

    for paper, sheet in read_label_sheets(case["size"], case["gap"], case["grid"]).items():
        last = sheet.place(sheet.columns * sheet.rows - 1)
        ends = (last[0] + sheet.width, last[1] + sheet.height)
        assert min(sheet.place(0)) >= 0, sheet
        assert all(end <= size for end, size in zip(ends, SIZES[paper], strict=True)), sheet
        if case["deep"]:
            assert labels_source(_demo_plan(), sheet)


def sizes(case: Case) -> None:
    """Mattresses by name."""
    from tutorial_lib.publishing.kit.sizes import sizes_wanted

    assert sizes_wanted(case["text"], _demo_plan().options)


@cache
def _plates() -> Any:
    from tutorial_lib.facts import facts_of
    from tutorial_lib.publishing.plates.kinds import Plates

    return Plates(_demo_plan(), facts_of(_demo_plan()), None)


@cache
def _chapters() -> Any:
    from tests.hard.spoil import CAPTIONS
    from tutorial_lib.facts import facts_of
    from tutorial_lib.narration import check, read_captions
    from tutorial_lib.publishing.chapters import chapters

    facts = facts_of(_demo_plan())
    return chapters(check(read_captions(CAPTIONS.read_bytes(), "talk.vtt"), facts), facts)


def plates(case: Case) -> None:
    """Plates of facts by their keys; a chapter by a part of its title."""
    from tutorial_lib.errors import InputError
    from tutorial_lib.publishing.plates.kinds import chapter_named

    faults: list[Any] = []
    try:
        assert _plates().of_facts(case["keys"])
    except InputError as error:
        faults += error.faults
    try:
        chapter_named(_chapters(), case["chapter"])
    except InputError as error:
        faults += error.faults
    if faults:
        raise InputError(faults)


def page(case: Case) -> int:
    """The viewers' page: it takes up a link or a file, answers a form, or says what is wrong with it."""
    from tests.hard.doors import judge
    from tutorial_lib.site.live import Live

    live = Live(demo(), "")
    if case["kind"] == "link":
        told = live.from_link(case["text"])
    elif case["kind"] == "file":
        told = live.read(case["text"])
    else:
        told = ""
    if told:
        judge(told)
        assert not live.choices, "what can't be used was taken up"
        return REFUSED
    given = case["choices"] if case["kind"] == "answers" else live.choices.as_json()
    answers = [json.loads(live.ask(json.dumps(given)))]
    while case["deep"] and (part := live.next()):
        answers.append(json.loads(part))
    faults = [fault for answer in answers for fault in answer.get("faults", {}).values()]
    for fault in faults:
        judge(fault)
    if not faults:
        _held(live)
    return REFUSED if faults else 0


def _held(live: Any) -> None:
    """A link brings back the choices it was made from."""
    from tutorial_lib.site.live import Live

    if link := live.link():
        other = Live(demo(), "")
        told = other.from_link(link)
        assert not told and other.choices.asked(other.creator) == live.choices.asked(live.creator), told
