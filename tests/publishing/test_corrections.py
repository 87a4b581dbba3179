"""What is published from the slips: the correction to pin, the overlay, corrected captions, cue cards, as files."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from tests.narration.talks import TALKS, captions_of, facts_of
from tutorial_lib import facts as every
from tutorial_lib.design.build_file import read_build
from tutorial_lib.errors import InputError
from tutorial_lib.narration import Report, check, read_captions
from tutorial_lib.narration.verdicts import answers
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.check_list import check_list, headline
from tutorial_lib.publishing.corrections import (
    consequence,
    corrected_captions,
    corrections,
    corrections_block,
    overlay_track,
    overlays,
)
from tutorial_lib.publishing.cue_cards import cards_text, cue_cards
from tutorial_lib.publishing.said_files import said_files, write_said_files

DEMO = TALKS / "saltmarsh-shed-spare-room-twin"
PLAN = facts_of(DEMO)
TALK = read_captions(captions_of(DEMO))
SLIPS = {  # what the demo says wrongly: the number as captioned, and of what
    "four": next(k for k, f in PLAN.items() if f.kind == "stock_count" and f.value == 5),
    "thirty-five and a half": "end_rail.length",
    "fourteen and three quarters": "leg.height",
    "thirty-eight and three quarters": "slat.length",
    "thirteen": "slat.count",
}


def told(report: Report) -> Report:
    """The check with its slips named by the person, so that these tests don't hang on how sure it is."""
    said = {q: i for i in report.items for q in SLIPS if i.quote == q and i.verdict in ("conflicts", "unsure")}
    return check(TALK, PLAN, None, [answers.of(item, "slip", SLIPS[q]) for q, item in said.items()])


REPORT = told(check(TALK, PLAN))


def test_the_block_says_time_said_right_affected_and_safety() -> None:
    block = corrections_block(REPORT)
    assert len(corrections(REPORT)) == len(REPORT.conflicts) == 5
    assert "1:25" in block and "35 1/2 in" in block and "right is 38 1/2 in" in block
    assert "Affected: whoever has cut it: too short" in block
    assert "Not safe until all are in" in block  # a slat too few
    assert corrections_block(check(read_captions("Cut the slats at 38 1/4."), PLAN)).startswith("No corrections")


def test_corrected_captions_are_whole_and_agree_with_the_plan() -> None:
    text = corrected_captions(REPORT)
    again = check(read_captions(text), PLAN)
    assert again.conflicts == ()
    assert len(again.items) == len(REPORT.items)
    assert len(read_captions(text).cues) == sum(bool(c.text) for c in TALK.cues)
    untouched = next(c for c in TALK.cues if len(c.lines) > 1 and "[" not in c.text)
    assert "\n".join(untouched.lines) in text


def test_overlays_stand_where_the_slip_is_said() -> None:
    for note, slip in zip(overlays(REPORT), REPORT.conflicts, strict=True):
        assert note.start == slip.t
        assert note.end - note.start >= 4
    assert "38 1/2 in, not 35 1/2 in" in overlay_track(REPORT)


def test_a_script_has_no_overlay_and_is_corrected_by_line() -> None:
    base = TALKS / "copper-kettle-daybed-script"
    report = check(read_captions(captions_of(base)), facts_of(base))
    assert overlays(report) == []
    assert all(c.time is None and c.place for c in corrections(report))
    assert not [name for name in said_files(report, facts_of(base)) if name.endswith(".vtt")]


def test_cue_cards_say_the_number_in_words_with_metric_beside() -> None:
    card = next(c for c in cue_cards(PLAN) if c.key == "end_rail.length")
    assert card.say == "thirty-eight and a half inches"
    assert card.show == "38 1/2 in (978 mm)"
    assert card.dont.startswith("not ")
    gap = next(c for c in cue_cards(PLAN) if c.key == "slat.gap")
    assert gap.say.startswith("about two and")
    assert f"say “{card.say}”, show {card.show}" in cards_text([card])


def test_a_bit_is_told_by_its_size_and_not_to_a_tapes_mark() -> None:
    """The metric demo bores 2.5 mm for its cleat screws, which a tape would call 3, and 3 mm at its corners."""
    builds = Path(__file__).parents[2] / "assets" / "builds"
    guest, twin = (Plan(read_build((builds / name).read_text(encoding="utf-8")))
                   for name in ("guest-bed-90.toml", "spare-room-twin.toml"))  # fmt: skip
    metric, inches = ({card.what: card for card in cue_cards(every.facts_of(bed))} for bed in (guest, twin))
    assert metric["pilot bit for the cleat screw"].say == "two point five millimetres"
    assert metric["pilot bit for the cleat screw"].show == "2.5 mm (about 3/32 in)"
    assert metric["pilot bit for the corner screw"].say == "three millimetres"
    assert inches["clearance bit for the slat screw"].show == "3/16 in (4.8 mm)"
    assert inches["saw kerf"].show == "1/8 in (3.2 mm)"
    assert metric["saw kerf"].show == "3 mm (about 1/8 in)"


def test_what_not_to_say_is_another_number_as_it_is_written() -> None:
    guest = Path(__file__).parents[2] / "assets" / "builds" / "guest-bed-90.toml"
    for facts in (PLAN, every.facts_of(Plan(read_build(guest.read_text(encoding="utf-8"))))):
        cards = cue_cards(facts)
        assert any(card.dont for card in cards)
        assert [c for c in cards if c.dont and c.dont.split(":")[0].removeprefix("not ") in c.show.split(" (")] == []
        assert not any("the half" in card.dont for card in cards)


def test_what_the_cards_say_is_read_back_as_the_plan() -> None:
    for card in cue_cards(PLAN, ["slat.length", "cleat.length", "end_rail.length"]):
        item = check(read_captions(f"The {card.what} is {card.say} long."), PLAN).items[-1]
        assert item.value[0] == Fraction(str(PLAN[card.key].value))


def test_the_list_opens_with_what_there_is_to_do_and_marks_the_number() -> None:
    text = check_list(REPORT)
    assert text.splitlines()[0] == headline(REPORT)
    assert headline(REPORT).startswith("5 to correct, ")
    assert "[thirty-five and a half]" in text and "the plan has 38 1/2 in, said 35 1/2 in" in text
    assert "To pin under the video" in text
    assert len(check_list(REPORT, everything=True).splitlines()) > len(text.splitlines())


def test_the_files_are_written_together_or_not_at_all(tmp_path: Path) -> None:
    made = write_said_files(tmp_path, REPORT, PLAN)
    assert [path.name for path in write_said_files(tmp_path / "new" / "one", REPORT, PLAN)] == [p.name for p in made]
    assert sorted(p.suffixes[-2] for p in made) == [".corrected", ".cue-cards", ".overlay", ".pinned"]
    assert (tmp_path / f"{DEMO.name}.pinned.txt").read_text(encoding="utf-8") == corrections_block(REPORT)
    made[0].unlink()
    with pytest.raises(InputError):
        write_said_files(tmp_path, REPORT, PLAN)
    assert not made[0].exists()


@pytest.mark.parametrize(("key", "cut"), [("frame.length", False), ("frame.diagonal", False), ("slat.length", True)])
def test_nobody_is_told_to_trim_what_no_piece_is_cut_to(key: str, cut: bool) -> None:
    """The bed's outside is an inch too long in the talk: its pieces are right, there is nothing to trim."""
    base = next(item for item in REPORT.conflicts if item.kind == "length")
    for more, what in ((1, "trim it to length"), (-1, "too short can't be put right")):
        item = replace(base, subject=key, value=(base.plan_value[0] + more,))
        assert (what in consequence(item)[0]) == cut
        assert ("no piece of the bed is cut to it" in consequence(item)[0]) != cut


def test_a_length_said_in_figures_is_not_told_twice() -> None:
    talk = read_captions("The end rails are 35 1/2 inches long. The slats are thirty-nine and a quarter inches.")
    report = check(talk, PLAN)
    assert [c.said for c in corrections(report)] == ["35 1/2 inches", "thirty-nine and a quarter inches (39 1/4 in)"]


def test_no_two_cue_cards_are_called_alike() -> None:
    """A bolt's length and thickness, a leg's screws and those between its boards; the same number of a thing once."""
    builds = Path(__file__).parents[2] / "assets" / "builds" / "gallery"
    for name in ("king-two-lines", "queen-runners-set-in", "full-oak-strapped"):
        made = Plan(read_build((builds / f"{name}.toml").read_text(encoding="utf-8")))
        cards = cue_cards(every.facts_of(made))
        assert len({card.what for card in cards}) == len(cards)
    told = {card.what: card.say for card in cue_cards(every.facts_of(Plan(read_build(
        (builds / "queen-runners-set-in.toml").read_text(encoding="utf-8")))))}  # fmt: skip
    assert (told["screws that hold one leg's boards together"], told["screws in one leg"]) == ("two", "four")
    assert "actual 2x6 width" in told
