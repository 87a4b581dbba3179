"""Numbers sorted before any is linked."""

from __future__ import annotations

import gc

import pytest

from tests.narration.plans import fact, facts
from tutorial_lib.narration import check, read_captions
from tutorial_lib.narration.linking.claims import name_last
from tutorial_lib.narration.linking.hearing import ENDLESS, endless
from tutorial_lib.narration.numbers.expressions import expressions
from tutorial_lib.narration.numbers.words import words_of
from tutorial_lib.narration.verdicts import checking

PLAN = facts({"slat.count": fact(17, "count", "part_count", "slats", "slat", "slats")})
WHY = "one of many numbers with no word between them"


@pytest.mark.parametrize(("many", "apart"), [(ENDLESS, False), (ENDLESS + 1, True)])
def test_a_row_of_numbers_without_end_says_nothing(many: int, apart: bool) -> None:
    report = check(read_captions("17 " * many + "and then there are 17 slats."), PLAN)
    *row, last = report.items
    assert len(row) == many and {item.why == WHY for item in row} == {apart}
    assert (last.subject, last.verdict) == ("slat.count", "agrees")


def test_a_word_between_two_numbers_ends_the_row() -> None:
    found = expressions(words_of(read_captions("17 " * 40 + "slats " + "17 " * 40)))
    assert len(found) == 80 and endless(found) == set()
    assert endless(expressions(words_of(read_captions("17 " * 80)))) == set(range(80))


def test_a_timber_size_named_up_to_fifty_words_before_holds() -> None:
    for words, known in ((49, True), (50, True), (51, False)):
        found = expressions(words_of(read_captions("the 2x4s " + "so " * words + "7 boards")))
        assert bool(name_last(found, len(found) - 1)) == known, words


def test_garbage_is_looked_for_again_when_a_talk_is_checked(monkeypatch: pytest.MonkeyPatch) -> None:
    def none_while_checked(*_: object) -> list[object]:
        assert not gc.isenabled()
        raise ZeroDivisionError

    monkeypatch.setattr(checking, "find", none_while_checked)
    assert gc.isenabled()
    with pytest.raises(ZeroDivisionError):
        check(read_captions("17 slats"), PLAN)
    assert gc.isenabled()
