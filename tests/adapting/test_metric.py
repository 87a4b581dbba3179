"""The same choices in millimetres: boards by their region, fasteners of the metric series, room never less."""

from __future__ import annotations

from fractions import Fraction

from tests.design.builds import demo
from tutorial_lib.adapting.metric import to_metric
from tutorial_lib.measures import mm


def test_fasteners_take_the_metric_size_that_is_not_thinner() -> None:
    options, changes = to_metric(demo(), "EU")
    assert (options.screws.cleat.gauge, options.screws.slat.gauge) == ("4.5 mm", "4.5 mm")  # #9 is 4.50 mm, #8 4.17
    assert options.screws.leg.diameter == mm(10)  # 3/8 in is 9.5 mm
    assert options.screws.corner == demo().screws.corner  # a screw with its own data stays
    assert next(c.after for c in changes if c.key == "screws.leg") == "10 mm"


def test_the_same_boards_stay_the_same_where_only_the_units_change() -> None:
    options, _ = to_metric(demo())
    assert (options.frame.rail, options.slats.lumber, options.legs.lumber) == ("38x140", "19x89", "89x89")
    assert options.lumber["38x140"].stock[0].length == mm(2438)  # 8 ft are 2438.4 mm
    assert options.screws.leg == demo().screws.leg


def test_room_for_the_mattress_is_never_made_less() -> None:
    options, _ = to_metric(demo())
    assert options.clearance.side == mm(7)  # 1/4 in is 6.35 mm
    assert options.clearance.side > Fraction(1, 4)
