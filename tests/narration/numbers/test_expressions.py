"""Every way a number is said, and that numbers written out are read back."""

from __future__ import annotations

from fractions import Fraction

import inflect
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.narration.talks import ROUGH, TALKS, captions_of, talks
from tutorial_lib.measures import say_length
from tutorial_lib.narration import read_captions
from tutorial_lib.narration.captions.cues import Cue, Talk
from tutorial_lib.narration.numbers.expressions import expression, expressions, may_begin
from tutorial_lib.narration.numbers.lexicon import LENGTHS
from tutorial_lib.narration.numbers.words import words_of

SPEAKER = inflect.engine()  # a general number-to-words library


def said(text: str, **options: object) -> list[tuple[float, str]]:
    """Values and units in a sentence; lengths with a unit in inches or millimetres as said."""
    words = words_of(Talk(name="", form="script", cues=(Cue(number=1, text=text, line=1),)))
    return [(float(e.value), e.unit) for e in expressions(words, **options)]  # type: ignore[arg-type]


ONE = [
    ("one hour fifty", 11 / 6, "h"),
    ("750 millilitres", 750, "ml"),
    ("nine sixty force", 9 / 64, ""),
    ("forty-one and a half", 41.5, ""),
    ("41 and a half", 41.5, ""),
    ("an inch and a quarter below the rim", 1.25, "in"),
    ("two-and-a-halfs", 2.5, ""),
    ("41 1/2", 41.5, ""),
    ("41-1/2", 41.5, ""),
    ("41½", 41.5, ""),
    ("41 1⁄2", 41.5, ""),
    ('12-1/4"', 12.25, "in"),
    ("forty-seven and five eighth inches", 47.625, "in"),
    ("12 inches and 3 quarters", 12.75, "in"),
    ("12 and 3 quarters", 12.75, ""),
    ("twelve three-quarter", 12.75, ""),
    ("an inch and a half", 1.5, "in"),
    ("inch and a half", 1.5, "in"),
    ("a foot and a half", 1.5, "ft"),
    ("seven sixty-fourths", 7 / 64, ""),
    ("fifteen sixteenths", 15 / 16, ""),
    ("three quarters of an inch", 0.75, "in"),
    ("5 eighths", 0.625, ""),
    ("37 and three eights", 37.375, ""),
    ("an inch and five eights long", 1.625, "in"),
    ("three eights thick", 0.375, ""),
    ("an eighth-inch", 0.125, "in"),
    ("half a millimetre", 0.5, "mm"),
    ("half an inch", 0.5, "in"),
    ("one four one oh", 1410, ""),
    ("fourteen ten", 1410, ""),
    ("two eight one", 281, ""),
    ("one thirty-five", 135, ""),
    ("one twenty", 120, ""),
    ("twenty-four ten", 2410, ""),
    ("nine oh five", 905, ""),
    ("eight eighty-eight", 888, ""),
    ("two point four metres", 2.4, "m"),
    ("two point oh eight metres", 2.08, "m"),
    ("a dozen", 12, ""),
    ("two dozen", 24, ""),
    ("half a dozen", 6, ""),
    ("a couple", 2, ""),
    ("six foot three and a half", 75.5, "in"),
    ("6' 3-1/2\"", 75.5, "in"),
    ("five foot four", 64, "in"),
    ("metre forty", 1.4, "m"),
    ("two metres ten", 2.1, "m"),
    ("three mil", 3, "mm"),
    ("sixty-fives", 65, ""),
    ("110s", 110, ""),
    ("one thousand and seventy-five", 1075, ""),
    ("1,920", 1920, ""),
    ("two hundred and sixty euro", 260, "eur"),
    ("$12.50", 12.5, "usd"),
    ("8-footers", 8, "ft"),
    ("M10", 10, "mm"),
    ("five eight inch", 0.625, "in"),
    ("4 and a half inch", 4.5, "in"),
    ("a hundred and fifteen kilos", 115, "kg"),
    ("twelve dollars and fifty cents", 12.5, "usd"),
    ("-22", -22, ""),
    ("a thirty-second", 1 / 32, ""),
    ("3/4's of an inch", 0.75, "in"),
    ("an eight of an inch", 0.125, "in"),
    ("seven feet, ten inches", 94, "in"),
    ("4-foot-6-and-a-half", 54.5, "in"),
    ("four foot six by", 54, "in"),
    ("a foot and an inch", 13, "in"),
    ("5 feet and three eighths", 60.375, "in"),
    ("six and a half feet and three eighths", 78.375, "in"),
    ("2 yards and 7 feet", 156, "in"),
    ("a half dozen", 6, ""),
    ("half-dozen", 6, ""),
    ("every couple of feet", 2, "ft"),
    ("point seventy-five", 0.75, ""),
    ("one comma eight metres", 1.8, "m"),
    ("300 plus feet", 300, "ft"),
    ("a day and a half", 1.5, "days"),
    ("thousand nine hundred twenty", 1920, ""),
    ("a hundred and 60 bucks", 160, "usd"),
    ("one third", 1 / 3, ""),
    ("How many stayed loose? None.", 0, ""),
    ("74 and 3 8", 74.375, ""),
    ("9 1 4 for these", 9.25, ""),
    ("they are 3 8 by", 0.375, ""),
    ("6 foot 3 and 5 16", 75.3125, "in"),
    ("inch and 5 8", 1.625, "in"),
    ("two metre 016", 2.016, "m"),
    ("two metres thirteen point six", 2.136, "m"),
    ("73 euro 80 and a bag", 73.8, "eur"),
    ("it came to ninety-four seventy-five", 94.75, "usd"),
    ("every metre or so", 1, "m"),
    ("every one eighty", 180, ""),
    ("38² long", 38, ""),
    ("negative one", -1, ""),
]


@pytest.mark.parametrize(("text", "value", "unit"), ONE)
def test_one_number(text: str, value: float, unit: str) -> None:
    assert said(text) == [(pytest.approx(value), unit)]


MANY = [
    ("six 12-foot 2x8s", [6, 12, 2]),
    ("four ten-foot one by fours", [4, 10, 1]),
    ("12 2-foot pieces", [12, 2]),
    ("4 2 by 10s", [4, 2]),
    ("two four-inch screws", [2, 4]),
    ("eighty four by forty two", [84, 42]),
    ("two three-eighths bolts", [2, 0.375]),
    ("make those 11 and 1/4 six legs in all", [11.25, 6]),
    ("one twenty and then one eighty", [120, 180]),
    ("10 by 60, drilled 32 deep", [10, 60, 32]),
    ("three by five and a half", [3, 5.5]),
    ("3/8 x 6 bolts", [0.375, 6]),
    ("twelve fourteen and twenty-four", [12, 14, 24]),
    ("nine nine nine", [9, 9, 9]),
    ("two two one and again two two one", [2, 2, 1, 2, 2, 1]),
    ("one two three four", [1, 2, 3, 4]),
    ("one eighty one eighty one eighty", [180, 180, 180]),
    ("58 foot 2x4s", [5, 8, 2]),
    ("610 foot 2 by 4s", [6, 10, 2]),
    ("18 1-foot pieces", [18, 1]),
    ("two 2x4s and a 10-footer two to a board", [2, 2, 10, 2]),
    ("to by sixes and 8/4 oak", [2, 2]),
    ("82 and 5 8 82 and 5 8", [82.625, 82.625]),
    ("one here one there", [1, 1]),
    ("two for the side and one for the middle", [2, 1]),
    ("four in this one and four in that one", [4, 4]),
    ("1 2 3 4", [1, 2, 3, 4]),
    ("① cut it ② sand it", []),
]


def test_a_range_shares_the_unit_said_at_its_end() -> None:
    assert said("two or three centimetres") == [(2, "cm"), (3, "cm")]


def test_figures_in_two_groups_are_one_number_in_millimetres_only() -> None:
    assert said("ten 25 and 20 18", metric=True) == [(1025, ""), (2018, "")]
    assert [v for v, _ in said("ten 25 and 20 18")] == [10, 25, 20, 18]


@pytest.mark.parametrize(("text", "wanted"), MANY)
def test_numbers_side_by_side(text: str, wanted: list[float]) -> None:
    assert [v for v, _ in said(text)] == wanted


@pytest.mark.parametrize(
    "text", ["the short one", "I built one for a cousin", "the corner ones", "a bed like that", "no foot rail"]
)
def test_pronouns_and_articles_are_no_numbers(text: str) -> None:
    assert said(text) == []


def test_nominal_names_are_kept_apart() -> None:
    words = words_of(
        Talk(
            name="",
            form="script",
            cues=(Cue(number=1, text="three 2x6s, two by fours and one-forty by forty-five", line=1),),
        )
    )
    found = expressions(words, frozenset([(Fraction(140), Fraction(45))]))
    assert [e.form for e in found] == ["number", "nominal", "nominal", "nominal"]


@pytest.mark.parametrize(("end", "wanted"), [(1.5, [85, 0]), (11.9, [85, 0]), (None, [85, 0])])
def test_no_number_goes_over_a_pause(end: float | None, wanted: list[float]) -> None:
    """Eighty-five, ten seconds of silence, zero: also where the caption stays on the screen meanwhile."""
    cues = (
        Cue(number=1, text="cut at eighty-five", start=1.0, end=end),
        Cue(number=2, text="zero waste", start=12.0, end=13.0),
    )
    assert [float(e.value) for e in expressions(words_of(Talk(name="", form="vtt", cues=cues)))] == wanted


def test_an_expression_over_a_cue_break_is_one() -> None:
    cues = (
        Cue(number=1, text="cut at forty-one and", start=1.0, end=2.0),
        Cue(number=2, text="a half inches", start=2.0, end=3.0),
    )
    words = words_of(Talk(name="", form="vtt", cues=cues))
    assert [(float(e.value), e.unit) for e in expressions(words)] == [(41.5, "in")]


@settings(max_examples=200, deadline=None)
@given(st.integers(0, 99 * 64), st.sampled_from([2, 4, 8, 16]))
def test_lengths_said_by_the_library_are_read_back(numerator: int, denominator: int) -> None:
    value = Fraction(numerator, denominator)
    if value:
        got = said(say_length(value, "in", 16) + " inches")
        assert [v * float(LENGTHS[u]) for v, u in got] == [pytest.approx(float(value))]


@settings(max_examples=300, deadline=None)
@given(st.integers(2, 999_999))
def test_number_words_of_a_general_library_are_read_back(number: int) -> None:
    words = SPEAKER.number_to_words(number)
    assert said(words.replace(",", "")) == [(number, "")]


@settings(max_examples=200, deadline=None)
@given(st.integers(1, 99), st.integers(10, 99))
def test_pair_wise_reading(first: int, second: int) -> None:
    words = f"{SPEAKER.number_to_words(first)} {SPEAKER.number_to_words(second)}"
    assert said(words) == [(first * 100 + second, "")]


def test_a_word_that_begins_no_number_is_left_out_rightly() -> None:
    texts = [read_captions(captions_of(base)).text for folder in (TALKS, ROUGH) for base in talks(folder)[::5]]
    begin = 0
    for text in [*texts, *(said for said, *_ in ONE)]:
        words = words_of(Talk(name="", form="script", cues=(Cue(number=1, text=text, line=1),)))
        for at, word in enumerate(words):
            found = expression(words, at, frozenset(), metric=at % 2 == 0)
            begin += found is not None
            assert found is None or may_begin(word), (word.text, text[word.start : word.end + 30])
    assert begin > 1000


def test_eights_that_measure_nothing_are_boards() -> None:
    assert said("we need five eights from the store") == [(5, ""), (8, "")]
    assert said("and two eights thick") == [(2, ""), (8, "")]


def test_one_that_others_come_out_of_is_no_count() -> None:
    assert said("you get eight out of one post") == [(8, "")]
    assert said("and one post for the middle") == [(1, "")]


def test_one_after_an_ordinal_is_a_thing() -> None:
    assert said("the third one eleven fifteen sixteenths") == [(3, ""), (11.9375, "")]
    assert said("the first one hundred") == [(1, ""), (100, "")]


def test_four_misheard_in_a_timbers_name() -> None:
    for text in ("the slats are two by for so cut them", "to by for", "two by fore each"):
        assert [v for v, _ in said(text)] == [2]
        assert forms(text) == ["nominal"]
    assert forms("eight by for the lot") == ["number"]


def forms(text: str) -> list[str]:
    """What sort of number each in a sentence is."""
    words = words_of(Talk(name="", form="script", cues=(Cue(number=1, text=text, line=1),)))
    return [e.form for e in expressions(words)]


def test_minutes_go_on_an_hour_and_counts_do_not() -> None:
    assert said("wait one hour fifty screws later") == [(1, "h"), (50, "")]
    assert said("two hours thirty and then sand") == [(2.5, "h")]


def test_a_pair_of_large_numbers_is_one_in_two_groups_by_another() -> None:
    for second in ("two thousand", "2000", "two ten"):
        assert said(f"nine twenty by {second}")[0] == (920, "")
    assert [v for v, _ in said("two nine by twelve boards")] == [2, 9, 12]


@pytest.mark.parametrize("text", ["ninety-five by forty-five", "95x45", "forty-five by ninety-five", "95 by 45"])
def test_a_plans_timber_is_known_the_other_way_round(text: str) -> None:
    words = words_of(Talk(name="", form="script", cues=(Cue(number=1, text=text, line=1),)))
    (found,) = expressions(words, frozenset([(Fraction(45), Fraction(95))]), metric=True)
    assert (found.form, found.values) == ("nominal", (45, 95))
