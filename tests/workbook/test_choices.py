"""Every choice of a build file has its control in some chapter; what has none is listed with the reason."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from pydantic import BaseModel

from tests.workbook.sweep import PANELS, builds
from tutorial_lib.design.build_file import read_build
from tutorial_lib.design.deck_options import HEIGHT_KEYS
from tutorial_lib.design.options import Options

# Not a key of the build file as such, but what a control of its own stands for.
BY_ANOTHER = {
    "load.person": "person",
    "legs.omit": "leg L1",
    **{f"heights.{name}": "height" for name in HEIGHT_KEYS},
    "finish.cans": "can 1 quart",
    "prices.bracket": "prices.nut",  # offered where a hanger or bracket is in the bed
}
WITHOUT = {
    "build.name": "the field beside Save",
    "mattress.gap_limit_from": "whose limit it is, said once in the file",
    "said.captions": "chapter 06 remembers the captions with the build",
    "names": "a control for each part",
    "lumber": "a group for each lumber of the bed",
    "yours": "what a viewer asked for, written by chapter 07",
    "from": "the creator's build, written by the program",
    "origin": "the same",
}


BEDS = ("spare-room-twin", "queen-tubes", "queen-runners-set-in")


def keys(model: type[BaseModel], before: str = "") -> Iterator[str]:
    for name, field in model.model_fields.items():
        kind = field.annotation
        if isinstance(kind, type) and issubclass(kind, BaseModel):
            yield from keys(kind, f"{before}{name}.")
        else:
            yield before + name


@pytest.fixture(scope="module")
def offered() -> set[str]:
    twin, tubes, runners = (read_build(builds()[name].read_text(encoding="utf-8")).bed for name in BEDS)
    shown = [PANELS[kind](twin) for kind in ("DesignPanel", "StrengthPanel", "FinishingPanel", "AssemblyPanel")]
    shown += [PANELS["MovementPanel"](twin), PANELS["CuttingPanel"](twin), PANELS["DrillingPanel"](twin)]
    shown += [PANELS[kind](bed) for bed in (tubes, runners) for kind in ("CuttingPanel", "DrillingPanel")]
    return {control.key for panel in shown for control in panel.controls}


def test_every_key_has_its_control(offered: set[str]) -> None:
    wanted = {key for key in keys(Options) if key.split(".")[0] not in WITHOUT and key not in WITHOUT}
    lacking = sorted(key for key in wanted if BY_ANOTHER.get(key, key) not in offered)
    assert [key for key in lacking if not key.startswith("screws.")] == []


def test_every_joint_the_bed_has_offers_its_screws(offered: set[str]) -> None:
    for table in ("corner", "cleat", "runner", "slat", "leg", "ply", "line", "flange"):
        for name in ("kind", "gauge", "length", "count", "head_depth", "pilot", "price", "box"):
            assert f"screws.{table}.{name}" in offered


def test_every_lumber_and_part_of_the_bed_has_its_own(offered: set[str]) -> None:
    for key in ("thickness", "width", "species", "grade"):
        assert f"lumber.2x6.{key}" in offered
    assert {"price 2x6 8 ft", "measured 2x6 8 ft", "have", "names.slat"} <= offered
