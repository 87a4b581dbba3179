"""The design's blocks say what the plan says."""

from __future__ import annotations

from pathlib import Path

import pytest

from tutorial_lib.design.build_file import change, read_build
from tutorial_lib.design.options import Options
from tutorial_lib.plan import Plan, plan
from tutorial_lib.publishing.identity import version
from tutorial_lib.publishing.topics import design

BUILD = Path(__file__).parents[2] / "assets" / "builds" / "spare-room-twin.toml"


@pytest.fixture(scope="module")
def options() -> Options:
    return read_build(BUILD.read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def demo(options: Options) -> Plan:
    return plan(options)


def test_the_parts_list_has_every_part_and_an_empty_column(demo: Plan) -> None:
    table = design.parts_list(demo, measured=True)
    assert [(row[0], row[1], row[4]) for row in table.rows] == [
        ("side rail", "2", "78 3/4"), ("end rail", "2", "38 1/2"), ("cleat", "2", "73 1/2"),
        ("slat", "14", "38 1/4"), ("leg", "6", "13 3/4"),
    ]  # fmt: skip
    assert {row[-1] for row in table.rows} == {""}


def test_a_metric_plan_has_millimetres_in_its_headings(options: Options) -> None:
    table = design.parts_list(plan(change(options, {"build.units": "mm"})))
    assert "length (mm)" in [column.title for column in table.columns]


def test_the_version_changes_with_the_build_alone(options: Options) -> None:
    assert version(options) == version(change(options, {}))
    assert version(options) != version(change(options, {"slats.gap": "2 in"}))
