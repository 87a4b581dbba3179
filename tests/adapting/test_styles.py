"""What would carry a bed that can't be built as it was asked for: told only after it was worked out."""

from __future__ import annotations

from tests.design.builds import demo
from tutorial_lib.adapting import adapt

HEAVY = {"load.person": "220 lb", "legs.per_side": 2}


def test_one_choice_of_ones_own_is_given_up_before_the_style_changes() -> None:
    would = adapt(demo(), "queen", HEAVY).would
    line = "the slats span less with 1 centre line (2x4 on 3 legs)"
    assert would == f"This would: legs a side: 3 in place of 2; {line}."
    made = adapt(demo(), "queen", HEAVY | {"legs.per_side": 3})
    assert not made.troubles and made.yours.options.centre.lines == 1


def test_several_choices_are_given_up_where_none_alone_helps() -> None:
    would = adapt(demo(), "queen", HEAVY | {"centre.lines": 0}).would
    assert would == "This would: legs a side: 3 in place of 2; centre lines: 1 in place of 0."
