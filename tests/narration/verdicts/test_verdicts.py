"""Verdicts by what a tape shows, hedges, corrections, and numbers that are no claims."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from tests.narration.plans import fact, facts, subject, told
from tutorial_lib.narration import check, read_captions
from tutorial_lib.narration.linking.subjects import subject as subject_of
from tutorial_lib.narration.verdicts import answers
from tutorial_lib.narration.verdicts.judging import verdict

FACTS = facts(
    {
        "slat.length": fact(38.25, "in", "length", "1x4 slat", "slat", "slats"),
        "slat.count": fact(14, "count", "part_count", "slats", "slat", "slats"),
        "slat.gap": fact(2.0577, "in", "gap", "gap between slats", "slat", "slats"),
        "rail.length": fact(78.75, "in", "length", "2x6 side rail", "side rail", "side rails"),
        "rail.count": fact(2, "count", "part_count", "side rails", "side rail", "side rails"),
        "cleat.screw_length": fact(2.5, "in", "screw_length", "cleat to rail", "cleat", "cleats"),
        "cleat.screws_each": fact(9, "count", "screw_count", "screws in one cleat", "cleat", "cleats"),
        "cleat.screw_total": fact(18, "count", "screw_count", "cleat screws in all", "cleat", "cleats"),
        "cleat.thickness": fact(1.5, "in", "section", "dressed 2x2 thickness", "cleat", "cleats"),
        "rail.thickness": fact(1.5, "in", "section", "dressed 2x6 thickness", "rail", "rails"),
        "grit.first": fact(120, "grit", "grit", "first sanding grit"),
        "recoat": fact(4, "h", "time", "hours between coats of oil"),
    },
)


def verdicts(text: str) -> list[tuple[str, str | None, str]]:
    """Quote, subject and what is told of every number in a talk."""
    return [(i.quote, *told(i)) for i in check(read_captions(text), FACTS).items]


@pytest.mark.parametrize(
    ("said", "hedge", "expected"),
    [
        (Fraction(153, 4), 0, "agrees"),
        (Fraction(153, 4) + Fraction(1, 64), 0, "agrees"),
        (Fraction(153, 4) + Fraction(1, 32), 0, "conflicts"),
        (Fraction(38), 0, "conflicts"),
        (Fraction(38), 2, "rounded"),
        (Fraction(39), -1, "rounded"),
        (Fraction(39), 1, "conflicts"),
        (Fraction(38), 1, "rounded"),
        (Fraction(45), 2, "conflicts"),
    ],
)
def test_lengths(said: Fraction, hedge: int, expected: str) -> None:
    slat = subject_of(FACTS["slat.length"])
    assert slat is not None
    assert verdict(said, slat, hedge, "in")[0] == expected


@pytest.mark.parametrize(
    ("said", "expected"),
    [(Fraction(69, 2), "rounded"), (Fraction(137, 4), "conflicts"), (Fraction(551, 16), "rounded")],
)
def test_what_the_plan_writes_for_a_length_is_right(said: Fraction, expected: str) -> None:
    """34 15/32 is written 34 1/2."""
    cleat = subject("cleat.length", fact(34.46875, "in", "length", "2x3 cleat", "cleat"))
    assert verdict(said, cleat, 0, "in")[0] == expected


def test_what_is_said_right_after_the_right_value_is_not_surely_wrong() -> None:
    right, after = (
        i for i in check(read_captions("That's eighteen cleat screws. I ran out at seventeen."), FACTS).items
    )
    assert right.verdict == "agrees"
    assert after.verdict != "conflicts"
    alone = check(read_captions("The cleats get seventeen screws in all."), FACTS).items
    assert [i.verdict for i in alone] == ["conflicts"]


def test_a_thing_called_by_its_size_is_not_surely_wrong() -> None:
    plan = facts({"block.length": fact(5.3125, "in", "length", "2x3 corner block", "block")})
    called, measured = (
        check(read_captions(text), plan).items[0].verdict
        for text in ("Don't hold a five inch block in your fingers.", "The blocks are five inches long.")
    )
    assert (called, measured) == ("unsure", "conflicts")


def test_counts_are_exact() -> None:
    slats = subject_of(FACTS["slat.count"])
    assert slats is not None
    assert verdict(Fraction(14), slats, 0, "in")[0] == "agrees"
    assert verdict(Fraction(13), slats, 0, "in")[0] == "conflicts"


def test_a_slip_stays_linked_to_its_subject() -> None:
    """38 3/4 said of the slats, though nothing in the plan is 38 3/4."""
    assert verdicts("Slats next. Cut the slats at thirty-eight and three quarters.") == [
        ("thirty-eight and three quarters", "slat.length", "wrong")
    ]


@pytest.mark.parametrize("words", ["no, sorry,", "no, scratch that,", "I mean", "wait,", "correction,"])
def test_a_value_taken_back_is_no_claim(words: str) -> None:
    got = verdicts(f"Cut the slats at thirty-nine and a quarter, {words} thirty-eight and a quarter.")
    assert [g[2] for g in got] == ["not_a_claim", "right"]


def test_a_correction_to_a_wrong_value_is_a_slip() -> None:
    got = verdicts("Cut the slats at thirty-eight and a quarter, no, sorry, thirty-nine and a quarter.")
    assert [g[2] for g in got] == ["not_a_claim", "wrong"]


@pytest.mark.parametrize(
    "text",
    [
        "We started back in 1974.",
        "This is part 3.",
        "It was ninety degrees in the shop.",
        "She is twenty-six years old.",
        "He did it nine times out of ten.",
        "The first one is easy.",
        "I'm a hundred percent done.",
        "It's half eight.",
        "A 3-inch screw would come through the rail.",
        "We had two cups of tea.",
        "It took me three weeks.",
    ],
)
def test_no_claims(text: str) -> None:
    assert {v for _, _, v in verdicts(text)} == {"not_a_claim"}


def test_nominal_names_are_never_compared() -> None:
    got = verdicts("The side rails are two by sixes. A two by six isn't really two inches by six.")
    assert {v for _, _, v in got} == {"not_a_claim"}


def test_own_price_and_load_are_claims_the_plan_does_not_hold() -> None:
    assert verdicts("The whole lot came to ninety dollars.")[0][2] == "not_in_plan"
    assert verdicts("I'd trust it with four hundred pounds.")[0][2] == "not_in_plan"


def test_what_contradicts_itself_is_found_across_claims() -> None:
    talk = read_captions(
        "Cleats. Each cleat gets nine screws, so twenty-two screws in all for the cleats.\n\n"
        "Slats. The slats are thirty-eight and a quarter long.\n\n"
        "So remember, the slats are thirty-eight and a half long."
    )
    open_ones = check(talk, FACTS)
    assert all(f.rule not in RULES for f in open_ones.cross if not open_ones.conflicts)  # sure or silent
    said = {i.quote: i for i in open_ones.items}
    named = [
        answers.of(said["nine"], "part", "cleat.screws_each"),
        answers.of(said["twenty-two"], "part", "cleat.screw_total"),
        answers.of(said["thirty-eight and a quarter"], "part", "slat.length"),
        answers.of(said["thirty-eight and a half"], "part", "slat.length"),
    ]
    assert {f.rule for f in check(talk, FACTS, None, named).cross} == RULES


RULES = {"total isn't the product", "said twice, differently"}
TEN = ("1x4", 120)
BOARDS = facts(
    {
        "slat.length": fact(38.25, "in", "length", "1x4 slat", "slat", "slats"),
        "slat.count": fact(14, "count", "part_count", "slats", "slat", "slats"),
        "slat.per_board": fact(3, "count", "pieces_per_board", "slats of one 10-ft 1x4", "slat", "slats", board=TEN),
        "stock.count": fact(5, "count", "stock_count", "10-ft 1x4", "one by four", board=TEN),
        "stock.length": fact(120, "in", "stock_length", "10-ft 1x4", "one by four", board=TEN),
    }
)


def test_boards_that_do_not_yield_are_found_by_the_planner() -> None:
    asked = []

    def planner(pieces: Any, boards: Any, kerf: Fraction) -> bool:
        asked.append((pieces, boards, kerf))
        return False

    talk = read_captions("Shopping. For the slats I bought four ten-foot one by fours.")
    four = next(i for i in check(talk, BOARDS).items if i.quote == "four")
    named = [answers.of(four, "slip", "stock.count")]
    found = check(talk, BOARDS, planner, named).cross
    assert [f.rule for f in found] == ["the boards don't yield the pieces"]
    assert asked == [(((Fraction(153, 4), 14),), ((Fraction(120), 4),), Fraction(1, 8))]
    assert check(talk, BOARDS, lambda p, b, k: True, named).cross == ()
    assert [f.rule for f in check(talk, BOARDS, None, named).cross] == ["the boards don't yield the pieces"]


def test_a_sentence_is_quoted_whole_and_without_sentences_cut_with_an_ellipsis() -> None:
    long = "So I draw a line down from the top of the rail and that is where the top of these "
    (whole,) = check(read_captions(f"Well. {long}14 slats of mine will go. Now."), FACTS).items
    assert whole.sentence == f"{long}14 slats of mine will go"
    (cut,) = check(read_captions(long * 3 + "14 slats of mine will go and so on and on we " + long * 3), FACTS).items
    assert cut.before.startswith("… ") and cut.after.endswith(" …") and len(cut.sentence.split()) < 40


def test_a_direction_whose_bracket_stands_before_the_first_word_is_not_quoted() -> None:
    (item,) = check(read_captions("# A bed\n\n[shot of the saw] I cut 14 slats.\n"), FACTS).items
    assert (item.before, item.quote, item.after) == ("I cut ", "14", " slats")
