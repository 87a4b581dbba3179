"""Taking a bed apart again: what stays together, what is undone for it, and whether it goes through the door."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from types import SimpleNamespace
from typing import Any

import pytest

from tests.design.builds import NO_DEMO, changed
from tests.design.posts import bolted, hooked, on_posts
from tutorial_lib.assembly.assemble import _door_apart
from tutorial_lib.assembly.knock_down import KnockDown, stays
from tutorial_lib.design.build_file import change
from tutorial_lib.design.platform_bed import design
from tutorial_lib.facts import facts_of
from tutorial_lib.measures import writer
from tutorial_lib.plan import Plan, plan

ASKED = {"room.knock_down": True}
BEDS = {
    "demo": lambda: changed(),
    "blocks": lambda: on_posts(headboard__kind="boards"),
    "bed bolts": lambda: bolted(),
    "hooks": lambda: hooked(),
    "runners": lambda: change(changed(), NO_DEMO | {
        "support.kind": "runners", "support.lumber": "2x6", "legs.place": None, "legs.setback": None}),
}  # fmt: skip


@cache
def _apart(name: str, **keys: Any) -> Plan:
    return plan(change(BEDS[name](), ASKED | {key.replace("__", "."): value for key, value in keys.items()}))


def _found(name: str, **keys: Any) -> KnockDown:
    found = _apart(name, **keys).assembly.apart
    assert found is not None
    return found


@pytest.mark.parametrize("name", BEDS)
def test_every_piece_but_the_slats_is_carried_in_one_part(name: str) -> None:
    build = _apart(name).build
    carried = [label for module in _found(name).modules for label in module.pieces]
    assert sorted(carried) == sorted(label for label, piece in build.pieces.items() if piece.use != "slat")


@pytest.mark.parametrize("name", BEDS)
def test_no_joint_that_stays_runs_between_two_parts(name: str) -> None:
    home = {label: i for i, module in enumerate(_found(name).modules) for label in module.pieces}
    for joint in _apart(name).build.joints:
        if joint.near in home and joint.far in home and stays(_apart(name).build, joint):
            assert home[joint.near] == home[joint.far]


def test_a_bed_on_posts_comes_apart_into_its_ends_and_rails() -> None:
    found = _found("bed bolts")
    kinds = [module.kind for module in found.modules]
    assert kinds.count("side rail") == 2
    assert {"head end", "foot end"} <= set(kinds)
    assert dict(found.opened)["3/8 x 7 in hex bolt"] == 8  # those of the side rails alone
    assert not _found("hooks").opened or "hex" not in str(_found("hooks").opened)
    assert _found("hooks").hooks == 4


def test_the_demo_comes_apart_by_its_corners_and_bolts() -> None:
    found = _found("demo")
    assert sorted(module.kind for module in found.modules) == ["end rail"] * 2 + ["leg"] * 6 + ["side rail"] * 2
    assert [count for _, count in found.opened] == [12, 12]
    assert found.screws


def test_its_step_says_how_and_only_where_it_was_asked() -> None:
    step = _apart("bed bolts").assembly.steps[-1]
    assert step.key == "apart"
    assert any("hex bolt" in told for told in step.do)
    assert "apart" not in [step.key for step in plan(bolted()).assembly.steps]


def test_the_door_is_asked_of_each_part() -> None:
    wide = [f for f in _apart("bed bolts", room__door_width="28 in").assembly.findings if f.rule == "door, taken apart"]
    assert [f.severity for f in wide] == ["note"]
    narrow = _apart("blocks", room__door_width="12 in", room__door_height="40 in").assembly.findings
    stuck = [f for f in narrow if f.rule == "door, taken apart"]
    assert [f.severity for f in stuck] == ["caution"]
    assert "does not go through" in stuck[0].what


def test_facts_tell_its_parts() -> None:
    facts, modules = facts_of(_apart("bed bolts")), _found("bed bolts").modules
    assert facts["knock_down.parts"].value == len(modules)
    assert facts["knock_down.longest"].value == max(Fraction(side) for module in modules for side in module.size)


@pytest.mark.parametrize(("width", "rule"), [("32 in", "the side rail is the largest of it"),
                                             ("3 in", "the side rail does not go through")])  # fmt: skip
def test_of_parts_the_largest_first_the_first_is_told(width: str, rule: str) -> None:
    sizes = {"side rail": (80, 12, 4), "end rail": (42, 12, 4)}
    parts: Any = SimpleNamespace(
        modules=[SimpleNamespace(name=name, size=tuple(map(Fraction, size))) for name, size in sizes.items()]
    )
    build = design(changed(room={"door_width": width, "door_height": "80 in"}))
    (found,) = _door_apart(build, parts, writer("in"))
    assert rule in found.what and found.value == "80 x 12 x 4 in"
