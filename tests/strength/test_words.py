"""What is said of the load figures."""

from __future__ import annotations

from tests.drilling.builds import demo
from tutorial_lib.design.build_file import change
from tutorial_lib.plan import plan
from tutorial_lib.strength.words import may_not_say


def test_the_sentence_nobody_may_say_has_the_bed_s_own_total() -> None:
    made = plan(demo()).strength
    assert (made.lying.people, made.lying.pounds) == (2, 220)
    assert may_not_say(made).startswith('Not: "This bed holds 440 lb, we tested it."')
    weak = plan(change(demo(), {"screws.leg.count": 1})).strength
    assert not weak.lying.pounds and "holds half a ton, we tested it" in may_not_say(weak)
