"""What answers in the browser, tried here: choices in, sections out; links and build files there and back."""

from __future__ import annotations

import base64
import json
import re
import zlib
from dataclasses import replace
from html import unescape
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from tests.adapting.sized import report
from tests.conftest import ROOT
from tutorial_lib.adapting import comparison
from tutorial_lib.adapting.viewer import Asked, viewers_bed
from tutorial_lib.design.build_file import read_build
from tutorial_lib.errors import InputError
from tutorial_lib.narration import Talk
from tutorial_lib.publishing.sheet import sheet_source
from tutorial_lib.site import index, page
from tutorial_lib.site.form import CONTROLS, Choices, form
from tutorial_lib.site.heard import packed
from tutorial_lib.site.live import LONGEST_LINK, Live

CREATOR = (ROOT / "assets" / "builds" / "spare-room-twin.toml").read_text()
MINE = {"measured": "53 3/8 x 74 1/2 in", "saw.kerf": "3/32 in", "have": "2 of 2x6, 92 1/2 in", "price 2x6 0": "9.50"}


@pytest.fixture(scope="module")
def live() -> Live:
    return Live(CREATOR, "")


def answers(live: Live, choices: dict[str, Any]) -> list[dict[str, Any]]:
    found = [json.loads(live.ask(json.dumps(choices)))]
    while part := live.next():
        found.append(json.loads(part))
    return found


@pytest.fixture(scope="module")
def mine(live: Live) -> list[dict[str, Any]]:
    return answers(live, MINE)


def test_the_drawing_comes_first_and_all_sections_after(mine: list[dict[str, Any]]) -> None:
    assert list(mine[0]["regions"]) == ["picture"]
    regions = [name for part in mine[1:] for name in part["regions"]]
    assert regions[0] == "picture" and len(regions) == 14 and mine[-1]["whole"]
    assert mine[1]["title"].endswith("53\u202f3⁄8\xa0×\xa074\u202f1⁄2\xa0in")  # set as in print
    assert json.loads(mine[-1]["space"])["asset"]["version"] == "2.0"


def test_a_page_with_a_worker_that_draws_gets_all_but_the_first_drawing() -> None:
    live = Live(CREATOR, "")
    assert json.loads(live.ask("{}", False)) == {"regions": {}, "faults": {}}
    assert "picture" in json.loads(live.next())["regions"]
    assert "slats.gap" in json.loads(live.ask(json.dumps({"slats.gap": "x" * 401}), False))["faults"]


def test_the_page_says_what_the_library_says_at_the_desk(mine: list[dict[str, Any]]) -> None:
    asked = Asked(
        MINE["measured"],
        ("saw.kerf=3/32 in", 'lumber.2x6.stock=[{length = "96 in", price = "9.50"}]'),
        (MINE["have"],),
    )
    found = comparison(viewers_bed(read_build(CREATOR, "creator.toml"), asked))
    told = {name: html for part in mine for name, html in part["regions"].items()}
    assert told.keys() == page.sections(found).keys() | {"picture"}
    assert told == {**page.first(found.adaptation.yours), **{n: make() for n, make in page.sections(found).items()}}
    assert 'data-tick="own 2x6' in told["shop"]


def test_the_creator_s_own_bed_can_be_printed_and_saved_before_anybody_chose() -> None:
    fresh = Live(CREATOR, "")
    assert "Spare-room twin bed" in fresh.sheet("letter")
    assert read_build(fresh.build_file(), "mine.toml").origin is not None


def test_what_the_video_has_wrong_is_printed_of_the_creators_own_bed_as_at_the_desk() -> None:
    options = read_build(CREATOR, "creator.toml")
    heard = report()
    assert heard.conflicts and heard.with_verdict("rounded")
    untimed = replace(heard, talk=Talk(name="", form="vtt", cues=()))  # the page has no talk
    desk = comparison(viewers_bed(options, Asked()), untimed)
    assert Live(CREATOR, packed(heard)).sheet("letter") == sheet_source(desk.adaptation.yours, "letter", desk)


def test_how_pieces_stand_turned_is_told_in_words() -> None:
    live = Live((ROOT / "assets" / "builds" / "gallery" / "queen-runners-set-in.toml").read_text(), "")
    told = "".join(part.get("regions", {}).get("holes", "") for part in answers(live, {}))
    assert "turned half round" in told and "t, u, r, n" not in told


def test_what_goes_out_is_never_of_choices_before() -> None:
    fresh = Live(CREATOR, "")
    fresh.ask(json.dumps({"mattress": "full"}))
    assert "as a full" in fresh.sheet("a4") and fresh.sheet_name() == "saltmarsh-shed-spare-room-twin-full-sheet.pdf"
    fresh.ask(json.dumps({"measured": "junk"}))
    with pytest.raises(InputError, match="is not a known mattress"):
        fresh.sheet("a4")


def test_a_link_and_a_build_file_hold_the_same_choices(live: Live, mine: list[dict[str, Any]]) -> None:
    link, file = live.link(), live.build_file()
    assert len(link) < 2000
    before = live.choices.asked(live.creator)
    other = Live(CREATOR, "")
    assert other.from_link(link) == "" and other.choices.asked(other.creator) == before
    assert other.read(file) == "" and other.choices.asked(other.creator) == before
    assert viewers_bed(read_build(file, "mine.toml")).yours.options.build.title.endswith("53 3/8 x 74 1/2 in")


def test_faults_stand_beside_their_control(live: Live) -> None:
    told = answers(live, {"measured": "junk"})[-1]
    assert list(told["faults"]) == ["measured"] and '"junk" is not a known mattress' in told["faults"]["measured"]
    told = answers(live, {"slats.gap": "wide"})[-1]
    assert list(told["faults"]) == ["slats.gap"]
    told = answers(live, {"slats.gap": "x" * 401})[-1]
    assert "at most 400" in told["faults"]["slats.gap"]
    told = answers(live, {"price 2x6 0": "9,20", "saw.kerf": "1/16 in"})[-1]
    assert list(told["faults"]) == ["price 2x6 0"] and '"9,20" is not a price' in told["faults"]["price 2x6 0"]


@pytest.mark.parametrize(("key", "value", "what"), [
    ("saw.kerf", "3", "A kerf of more than 1 in"),  # its table's own check
    ("measured", "200 x 300 in", "300 in is no mattress"),  # each side's own check
])  # fmt: skip
def test_a_fault_of_a_table_or_of_a_side_stands_beside_what_was_typed(
    live: Live, key: str, value: str, what: str
) -> None:
    told = answers(live, {key: value})[-1]["faults"]
    assert list(told) == [key] and what in told[key] and "--set" not in told[key]


def test_a_bare_figure_has_the_plan_s_unit_and_a_price_may_have_its_sign() -> None:
    creator = read_build(CREATOR, "creator.toml")
    told = {"load.person": "220", "saw.kerf": "3", "slats.gap": "2 in", "price 2x6 0": "$9.20"}
    assert Choices("", (), told).asked(creator).changes[:3] == (
        "load.person=220 lb", "saw.kerf=3 in", "slats.gap=2 in",
    )  # fmt: skip
    assert 'price = "9.20"' in Choices("", (), told).asked(creator).changes[3]
    metric = Choices("", (), {"build.units": "mm", "load.person": "100"}).asked(creator).changes
    assert metric[1] == "load.person=100 kg"


def test_each_bed_that_is_looked_at_is_told_to_who_waits() -> None:
    tried: list[int] = []
    live = Live(CREATOR, "", lambda: tried.append(1))
    assert "STOP" in answers(live, {"legs.per_side": "1"})[5]["regions"]["cautions"]
    assert len(tried) > 10
    before = len(tried)
    Live(CREATOR, "").next()
    assert len(tried) == before


@pytest.mark.parametrize(
    "text",
    ["", "abc", "é", "A" * (LONGEST_LINK + 1),
     base64.urlsafe_b64encode(zlib.compress(b"0" * 10_000_000)).decode(),
     base64.urlsafe_b64encode(zlib.compress(b"[build]")).decode()],
    ids=["empty", "short", "odd letters", "too long", "a bomb", "no build"],
)  # fmt: skip
def test_a_damaged_link_is_told_and_changes_nothing(text: str) -> None:
    other = Live(CREATOR, "")
    assert other.from_link(text)
    assert not other.choices


@settings(max_examples=40, deadline=None)
@given(some.text(max_size=60), some.dictionaries(some.text(max_size=12), some.text(max_size=30), max_size=4))
def test_any_answers_are_taken_or_refused_in_words(link: str, answered: dict[str, str]) -> None:
    other = Live(CREATOR, "")
    other.from_link(link)
    told = json.loads(other.ask(json.dumps(answered)))
    assert set(told) == {"regions", "faults"}


def test_another_creator_s_build_file_is_refused(live: Live) -> None:
    guest = (ROOT / "assets" / "builds" / "guest-bed-90.toml").read_text()
    assert "no build file of a viewer's from" in live.read(guest)


def test_the_form_has_a_field_for_every_control() -> None:
    made = form(read_build(CREATOR, "creator.toml"))
    for control in CONTROLS:
        assert f'name="{control.key}"' in made
    assert made.count("<label") == made.count("<select") + made.count("<input") + made.count("<textarea")


def test_a_field_shows_the_creator_s_with_its_unit_and_asks_nothing_that_is_the_creator_s_alone() -> None:
    made = unescape(form(read_build(CREATOR, "creator.toml")))
    for own in (
        "38\xa0×\xa075\xa0in",
        "200 lb",
        "1/8 in",
        "$8.10",
        "Spruce-Pine-Fir",
        "side rails run past",
        "any length",
    ):
        assert f"the creator's: {own}" in made
    assert "king, 76\xa0×\xa080\xa0in" in made and "('" not in made
    names = re.findall(r' name="([^"]+)"', made)
    assert len(names) == len(set(names)) and not any(name.startswith("names.") for name in names)
    assert [name for name in names if name.startswith("build.")] == ["build.units"]


def test_a_creator_in_millimetres_has_metric_examples_and_paper() -> None:
    guest = read_build((ROOT / "assets" / "builds" / "guest-bed-90.toml").read_text())
    made = unescape(form(guest))
    assert "such as 1380\xa0×\xa01890\xa0mm" in made and "such as 53" not in made
    whole = index.index(comparison(viewers_bed(guest)), {"name": "a"}, [])
    assert '<option value="a4" selected>' in whole and "said at" not in whole.partition('id="data"')[0]


def test_a_field_of_what_this_bed_has_not_is_not_offered(live: Live) -> None:
    keys = json.loads(live.form())["keys"]
    assert "legs.per_side" in keys and "posts.lumber" not in keys


def test_choices_there_and_back() -> None:
    choices = Choices("full", ("2 of 2x6, 92 in",), {"slats.gap": "2 in"})
    assert Choices.read(choices.as_json()) == choices
    assert bool(Choices()) is False
