"""A short talk for each bed of the gallery: every right number agrees or leans to it, and the one slip is found.

A slip stands in braces with what it speaks of: {said|fact}. The talks are ours, one writer's way of telling.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tutorial_lib.design.build_file import read_build
from tutorial_lib.facts import facts_of
from tutorial_lib.narration import check, read_captions
from tutorial_lib.plan import plan

GALLERY = Path(__file__).parents[2] / "assets" / "builds" / "gallery"
SLIP = re.compile(r"\{(?P<said>[^|]+)\|(?P<fact>[^}]+)\}")
TALKS = {
    "full-bed-bolts": """The side rails are cut at seventy-five and three quarter inches.
Each post is sixteen and a half inches tall. There are sixteen bed bolts in all, two in each rail's end.
The bed bolts are seven inches long and three eighths in diameter.
You need {eighteen|barrel_nut.count} barrel nuts. The slats are fifty-four and a half inches long.""",
    "full-box-spring": """The side rails are seventy-eight and three quarter inches long.
Only six slats go in under a box spring. Each slat is fifty-four and a half inches long.
The legs are eleven and three quarter inches tall, two carriage bolts in each leg.
The end rails are {fifty-six|end_rail.length} and three quarter inches long.""",
    "full-oak-strapped": """Fourteen slats lie on two straps of webbing.
The side rails are seventy-eight and three quarter inches. The corner legs are twelve and a quarter inches tall.
Cut each slat at {fifty-four and three quarter|slat.length} inches. The strap is seventy-nine and three quarter
inches long.""",
    "king-two-lines": """The slats are seventy-six and a half inches long, and there are fifteen slats.
Two centre runners go down the middle. The headboard is thirty-nine and a quarter inches high from the floor.
The uprights are {thirty-nine and three quarter|upright.length} inches long.
Four headboard boards go across. Each headboard board is seventy-nine and three quarter inches long.""",
    "queen-corner-posts": """Each corner post is seventeen inches tall.
The side rails are seventy-seven and three quarter inches long, the end rails fifty-seven and three quarters.
There are fourteen slats. Each slat is {sixty and a quarter|slat.length} inches long.""",
    "queen-runners-set-in": """The runners are eighty-three and three sixteenths inches long.
The plinth sides are eighty and eleven sixteenths inches. Fifteen slats, each sixty and an eighth inches long.
The plinth stands {eight and a quarter|plinth.height} inches high.""",
    "queen-runners-under-the-rail": """The end rails are sixty-three and three eighths inches.
The legs are ten and five eighths inches tall. There are fifteen slats with two inch gaps between the slats.
The side rails are {eighty-one and three sixteenths|side_rail.length} inches long.""",
    "queen-tubes": """The tube legs are nine inches tall, and each sits in a flange four inches across.
There are nine flanges, four screws in each flange. The slats are sixty and a half inches long.
The side rails are {eighty-one and three quarter|side_rail.length} inches long.""",
    "twin-headboard": """The head posts are thirty-eight and a quarter inches tall.
Eight headboard slats stand on two headboard rails. Each headboard slat is twenty inches long.
The headboard rails are {thirty-seven and three quarter|headboard.length} inches long.""",
    "uk-king-over-boxes": """The side rails are 2020 millimetres long, the end rails 1608 millimetres.
Each half slat is 755 millimetres. Six storage boxes go under the bed.
The corner legs are {317|corner_leg.height} millimetres tall.""",
}


ASKED = ("full-bed-bolts",)  # its slip is a number that two other things might have: the person is asked


def test_every_bed_of_the_gallery_has_a_talk() -> None:
    assert set(TALKS) == {path.stem for path in GALLERY.glob("*.toml")}


@pytest.mark.parametrize("bed", TALKS)
def test_right_numbers_agree_and_the_slip_is_found(bed: str) -> None:
    path = GALLERY / f"{bed}.toml"
    facts = facts_of(plan(read_build(path.read_text(encoding="utf-8"), path.name)), ["design", "drilling"])
    slip = SLIP.search(TALKS[bed])
    assert slip is not None
    report = check(read_captions(SLIP.sub(r"\g<said>", TALKS[bed]).encode(), "talk.txt"), facts)
    wrong = {item.subject for item in report.items if item.verdict == "conflicts"}
    asked = [item for item in report.items if item.verdict == "unsure"]
    maybe = {choice.subject for item in asked for choice in item.choices if choice.verdict == "conflicts"}
    assert wrong == {slip["fact"]} or (not wrong and bed in ASKED and slip["fact"] in maybe)
    right = [item for item in report.items if item.verdict in ("agrees", "fits", "rounded")]
    assert len(right) >= 3
    leaning = [item for item in asked if item.choices[0].verdict == "agrees"]
    numbers = [item for item in report.items if item.verdict != "not_a_claim"]  # "half" of a half slat is none
    assert len(right) + len(leaning) == len(numbers) - 1
