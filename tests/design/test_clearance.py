"""Room beside the mattress: as stated, or as much as a mattress may be over its size."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.design.builds import changed
from tutorial_lib.design.platform_bed import design
from tutorial_lib.design.sizes import clearance

OPEN = {"clearance__side": None, "clearance__end": None, "mattress__width": None, "mattress__length": None}
MM = Fraction(5, 127)


@pytest.mark.parametrize(
    ("more", "each"),
    [
        ({"mattress__size": "twin"}, Fraction(3, 8)),
        ({"mattress__size": "EU single"}, Fraction(7, 16)),  # 20 mm over its size: 10 mm each side, up to 1/16 in
        ({"mattress__size": "EU single", "build__units": "mm"}, 10 * MM),
        ({"mattress__size": "twin", "mattress__tolerance": "1 1/4 in"}, Fraction(5, 8)),
    ],
)
def test_left_open_the_room_is_what_the_mattress_may_be_over_its_size(more: dict[str, str], each: Fraction) -> None:
    options = changed(**(OPEN | more))
    assert clearance(options) == (each, each)
    assert not [f for f in design(options).findings if f.rule == "clearance"]


def test_a_stated_room_is_kept_and_judged() -> None:
    options = changed(**(OPEN | {"clearance__side": "1/8 in", "mattress__size": "twin"}))
    assert clearance(options)[0] == Fraction(1, 8)
    assert [f.severity for f in design(options).findings if f.rule == "clearance"] == ["stop"]
