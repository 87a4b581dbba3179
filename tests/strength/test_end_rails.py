"""A centre line on blocks: their screws, the end rails and what holds these up, by hand."""

from __future__ import annotations

from functools import cache

import pytest

from tests.design.builds import NO_DEMO, demo
from tutorial_lib.design.build_file import change
from tutorial_lib.plan import Plan
from tutorial_lib.strength.result import Strength

QUEEN = NO_DEMO | {
    "mattress.size": "queen", "mattress.width": None, "mattress.length": None, "slats.lumber": "2x4",
    "frame.rail": "2x8", "frame.corners": "end rails cap", "heights.underside": "8 in", "legs.setback": None,
    "centre.lines": 1, "centre.kind": "flat", "centre.ends": "block", "centre.legs": 1, "load.person": "200 lb",
}  # fmt: skip


@cache
def strong(*changes: tuple[str, object]) -> Strength:
    return Plan(change(demo(), QUEEN | dict(changes))).strength


def worst(known: Strength, key: str) -> float:
    return max(use.ratio for use in known.uses if use.key == key)


def ends(known: Strength, case: str) -> list[float]:
    """What a line of 200 lb people presses on its head and foot block [lb]."""
    outcome = known.outcome
    assert outcome is not None
    number = next(i for i, line in enumerate(outcome.bed.lines) if line.central)
    response = next(r for r in outcome.responses if r.case.key == case)
    links = [i for i, link in enumerate(outcome.lines.lines[number].links) if link.kind == "end"]
    return [response.dead.carried[number][i] + 200 * response.live.carried[number][i] for i in links]


def test_a_line_on_blocks_is_rated() -> None:
    known = strong(("legs.place", "under the rail"))
    assert known.outcome is not None and not known.outcome.barriers
    assert known.lying.pounds == 300 and known.sitting.pounds > 0


def test_the_blocks_screws_and_the_rail_by_hand() -> None:
    """Two #10 x 2 3/4 screws, 99.3 lb each; the rail bends between the middles of its legs' tops, 60 in apart."""
    known = strong(("legs.place", "under the rail"))
    pressed = max(ends(known, "middle"))
    assert worst(known, "end-rail-screws") == pytest.approx(pressed / (2 * 99.26), rel=2e-3)
    assert known.outcome is not None
    span = 63.5 - 3.5  # the corner legs' middles
    rail = known.outcome.build.pieces["end rail head"]
    own = 28.1 / 1728 * 1.5 * 7.25  # [lb/in]
    bent = pressed * span / 4 + own * span**2 / 8
    assert float(rail.box.size[1]) == pytest.approx(63.5)
    assert worst(known, "end-rail-bending") == pytest.approx(bent / (875 * 1.2 * 1.5 * 7.25**2 / 6), rel=0.01)


def test_beside_its_leg_a_rail_hangs_on_its_screws() -> None:
    known = strong(("legs.place", "inside"))
    names = {use.title for use in known.uses if use.key == "end-rail-screws"}
    assert any("head left leg" in name for name in names) and any("beam block" in name for name in names)


@pytest.mark.parametrize(
    ("changes", "words"),
    [({"centre.ends": "hanger"}, "hangers whose worth"), ({"legs.setback": "6 in"}, "no leg holds up")],
)
def test_without_a_value_by_rule_there_is_no_figure(changes, words) -> None:
    known = strong(("legs.place", "under the rail"), *changes.items())
    (found,) = [finding for finding in known.findings if finding.rule == "no published value"]
    assert words in found.what and known.lying.pounds == 0
