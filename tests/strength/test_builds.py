"""Whole builds of the usual kinds: what each is rated and what governs; the demo, the file that `new` writes."""

from __future__ import annotations

from pathlib import Path

import pytest

import tutorial_lib.cli
from tests.design.builds import DEMO
from tutorial_lib.design.build_file import read_build
from tutorial_lib.measures import factor
from tutorial_lib.plan import Plan

BEDS = Path(__file__).parents[2] / "assets" / "builds" / "gallery"
NEW = Path(tutorial_lib.cli.__file__).with_name("new_build.toml")
CAP = "the highest we give"
# file: lying, what sets it, sitting, what sets it; what rates first is worked by hand in the comment
RATED = {
    # kneeling: (1.6 x 538.4 - 40) / 3.69 = 222; cleat screws: (110.9 - 8.1) / 0.724 = 142
    DEMO: (220, "kneeling on a slat", 140, "cleat-screws"),
    # runner 3 in wide over its legs: (2354.6 - 63) / 9.91 = 231
    BEDS / "queen-runners-set-in.toml": (300, CAP, 230, "runner-alone"),
    BEDS / "queen-runners-under-the-rail.toml": (300, CAP, 300, CAP),
    BEDS / "king-two-lines.toml": (300, CAP, 240, "cleat-screws"),
    BEDS / "queen-tubes.toml": (300, CAP, 300, CAP),
    BEDS / "full-box-spring.toml": (300, CAP, 210, "cleat-screws"),
    # two block screws in the rail, sitting down hard: (2 x 99.26 x 1.6 - 16.3) / 1.222 = 246
    BEDS / "queen-corner-posts.toml": (300, CAP, 240, "bolts"),
    # a half slat under a knee, 18 x 94 C24: 1.6 x 1.25 x 7.5 N/mm2 x 5076 mm3 / (0.4 x 736 mm / 4) is 1035 N or 105 kg
    # less what mattress and slat press
    BEDS / "uk-king-over-boxes.toml": (
        100 * factor("kg", "lb"),
        "kneeling on a slat",
        100 * factor("kg", "lb"),
        "kneeling on a slat",
    ),
    # two leg screws, sitting down hard: (489.3 - 26.2) / 1.892 = 244
    BEDS / "full-oak-strapped.toml": (300, CAP, 240, "bolts"),
    NEW: (300, CAP, 300, CAP),
}


def _plan(path):
    return Plan(read_build(path.read_text(encoding="utf-8"), path.name))


@pytest.mark.parametrize("path", RATED, ids=lambda path: path.stem)
def test_what_a_build_is_rated_and_what_sets_it(path):
    strong = _plan(path).strength
    lying, by, sitting, by_sitting = RATED[path]
    assert (strong.lying.pounds, strong.sitting.pounds) == (lying, sitting)
    for rating, wanted in ((strong.lying, by), (strong.sitting, by_sitting)):
        assert wanted in (rating.capped, rating.governing.key)


@pytest.mark.parametrize("name", ["queen-corner-posts", "full-bed-bolts", "twin-headboard"])
def test_a_bed_on_posts_has_no_stop_and_few_cautions(name):
    severities = [finding.severity for finding in _plan(BEDS / f"{name}.toml").findings]
    assert severities.count("stop") == 0
    assert severities.count("caution") <= 3


def test_the_file_new_writes_has_no_stop_and_few_cautions():
    severities = [finding.severity for finding in _plan(NEW).findings]
    assert severities.count("stop") == 0
    assert severities.count("caution") <= 3
