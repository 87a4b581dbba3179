"""Adapting: hand-worked expectations, every size of the table, and what must always hold."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.adapting.sized import adapted, heavy
from tests.design.builds import changed, changes, demo
from tutorial_lib import tables
from tutorial_lib.adapting import Adaptation, adapt, compare
from tutorial_lib.adapting.family import every_size
from tutorial_lib.design.build_file import change
from tutorial_lib.errors import InputError
from tutorial_lib.facts import facts_of
from tutorial_lib.facts.gather import Room
from tutorial_lib.plan import plan

SIZES = every_size(demo())


def step(adaptation: Adaptation, key: str) -> tuple[str, str]:
    found = next(s for s in adaptation.changes if s.key == key)
    return found.before, found.after


def test_demo_to_full_by_hand() -> None:
    """The creator is on the 38/53 family, so full is 53 x 75.

    Across: 53 + 2 x 1/4 clearance = 53 1/2 opening; slat 53 1/2 - 2 x 1/8 play = 53 1/4; end rail between the side
    rails = 53 1/2; outside 53 1/2 + 2 x 1 1/2 = 56 1/2. Along nothing changes: 75 3/4 opening, 78 3/4 side rails,
    14 slats with (75 3/4 - 14 x 3 1/2) / 13 = 2 3/52 between. One simple span of 1x4 grows from 37 to 52, and its sag
    with the cube: over the limit, so one centre line comes first (26 in spans), a 2x4 on edge under the slats:
    75 3/4 - 2 x 1/32 play = 75 11/16, on three legs as each side has. A beam on edge tops out where the slats do:
    side leg 13 3/4 carries the cleat (1 1/2 deep); the centre leg carries the beam (3 1/2): 13 3/4 + 1 1/2 - 3 1/2.
    """
    adaptation = adapted("full")
    build = adaptation.yours.build
    assert build.mattress == (Fraction(53), Fraction(75))
    assert build.opening == (Fraction(107, 2), Fraction(303, 4))
    assert build.part("slat").length == Fraction(213, 4) and build.part("slat").count == 14
    assert build.slats.gap == Fraction(107, 52)
    assert build.part("end_rail").length == Fraction(107, 2) and build.part("side_rail").length == Fraction(315, 4)
    assert build.outside[0] == Fraction(113, 2)
    assert step(adaptation, "centre.lines") == ("0", "1")
    assert build.part("centre_beam").length == Fraction(303, 4) - Fraction(1, 16)
    assert build.part("centre_leg").count == 3 and build.part("centre_leg").length == Fraction(47, 4)
    assert build.part("corner_leg").length == build.part("mid_leg").length == Fraction(55, 4)
    assert not adaptation.troubles


def test_demo_to_king_by_hand() -> None:
    """King is 76 x 80 in the creator's family: opening 76 1/2 x 80 3/4, slats 76 1/4, side rails 83 3/4.

    Slats: 80 3/4 with gaps of at most 2 1/4 needs n with (80 3/4 - 3 1/2 n)/(n - 1) <= 2 1/4, n = 15:
    (80 3/4 - 52 1/2)/14 = 2 1/56. One line halves the span to 37 1/2, the creator's own single span, but continuous
    over the middle: each check is no worse than in the twin, so a second line is not asked for by the same measure.
    All still comes out of 8-ft rails (83 3/4 + 1/4 trim <= 96), one slat from each 10-ft board (2 x 76 1/4 > 120).
    """
    adaptation = adapted("king")
    build = adaptation.yours.build
    assert build.opening == (Fraction(153, 2), Fraction(323, 4))
    assert build.part("slat").length == Fraction(305, 4) and build.part("slat").count == 15
    assert build.slats.gap == Fraction(113, 56)
    assert step(adaptation, "centre.lines") == ("0", "2")
    assert facts_of(adaptation.yours, ["cutting"])["slat.per_board"].value == 1
    assert not any(s.key.endswith(".stock") for s in adaptation.changes)
    assert not adaptation.troubles


def test_the_change_tells_its_rule_before_and_after() -> None:
    why = next(s.full for s in adapted("full").changes if s.key == "centre.lines")
    assert "slat bending when people lie on it: 1.04 → 0.24 times what is allowed" in why


def test_clearance_grows_to_the_regions_tolerance() -> None:
    """A UK mattress may be 20 mm over: 10 mm each side; 1/4 in (6.35) is too little, 3/8 in (9.525) goes up to 10."""
    adaptation = adapted("UK double")
    assert step(adaptation, "clearance.side") == ("1/4 in", "10 mm")
    assert step(adaptation, "clearance.end") == ("3/8 in", "10 mm")
    assert "20 mm" in next(s.why for s in adaptation.changes if s.key == "clearance.side")


@pytest.mark.parametrize(
    ("size", "rail", "slat", "length"),
    [("140x200 cm", "45x145", "22x95", 2400), ("UK king", "44x144", "18x94", 1800)],
)
def test_a_size_sold_by_the_centimetre_gives_a_metric_plan_in_its_regions_boards(
    size: str, rail: str, slat: str, length: int
) -> None:
    adaptation = adapted(size)
    options = adaptation.yours.options
    assert options.build.units == "mm"
    assert (options.frame.rail, options.slats.lumber.split("x")[1]) == (rail, slat.split("x")[1])
    assert options.mattress.tolerance == Fraction(20 * 5, 127)
    shortest = min(row.length for row in options.lumber[rail].stock)
    assert shortest == Fraction(length * 5, 127)
    assert all((part.length * Fraction(127, 5)).denominator == 1 for part in adaptation.yours.build.parts)


def test_a_measured_size_that_is_sold_under_no_name_stays_as_measured() -> None:
    options = adapted("53 3/8 x 74 1/2 in").yours.options
    assert (options.build.units, options.mattress.tolerance) == ("in", 0)


def test_one_change_a_key_from_the_first_value_to_the_last() -> None:
    keys = [change.key for change in adapted("UK double").changes]
    assert len(keys) == len(set(keys))


@pytest.mark.parametrize("size", SIZES)
def test_every_size_is_sound_or_says_why(size: str) -> None:
    adaptation = adapted(size)
    own = {f.rule for f in adaptation.creator.findings if f.severity == "stop"}
    new = [f for f in adaptation.yours.findings if f.severity == "stop" and f.rule not in own]
    assert bool(new) <= bool(adaptation.troubles)
    if not adaptation.troubles:
        worse_than_the_creators(adaptation)
    else:
        assert adaptation.stops and adaptation.would


def worse_than_the_creators(adaptation: Adaptation) -> None:
    """No slat check over its limit is worse than the creator's; other parts are covered by the stops."""
    for kind in ("lying", "sitting", "standing", "bare"):
        own, yours = (
            max(u.ratio for u in p.strength.uses if (u.kind, u.part, u.what) == (kind, "slat", "bending"))
            for p in (adaptation.creator, adaptation.yours)
        )
        assert yours <= max(1.0, own * 1.02)


def test_every_size_of_the_table_is_there() -> None:
    assert len(SIZES) == len({(m.width, m.length) for m in tables.mattresses()})


@pytest.mark.parametrize("size", ["queen", "king"])
def test_a_wide_creators_bed_to_a_twin(size: str) -> None:
    creator = adapted(size).yours.options
    adaptation = adapt(creator, "twin")
    assert adaptation.yours.build.mattress[0] < 40
    assert not adaptation.troubles
    assert adaptation.yours.options.centre.lines == creator.centre.lines  # the creator's choice, kept


@pytest.mark.parametrize("size", ["twin", "US twin", "38x75 in"])
def test_the_same_size_changes_nothing(size: str) -> None:
    adaptation = adapt(demo(), size)
    assert not adaptation.changes and adaptation.yours.options == demo()


def test_back_to_the_creators_returns_every_number() -> None:
    there = adapted("king")
    back = adapt(there.creator.options).yours
    rooms: tuple[Room, ...] = ("design", "cutting", "drilling")
    assert facts_of(back, rooms).as_json() == facts_of(plan(demo()), rooms).as_json()


def test_a_name_with_several_sizes_says_which() -> None:
    assert "also sold" in adapted("full").notes[0]


@settings(max_examples=4, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(changes(), st.sampled_from(["twin", "queen", "UK double"]))
def test_no_stop_goes_unannounced(options: dict[str, object], size: str) -> None:
    try:
        creator = change(demo(), options)
        own = {f.rule for f in plan(creator).findings if f.severity == "stop"}
    except InputError:
        return
    adaptation = adapt(creator, size)
    new = [f for f in adaptation.yours.findings if f.severity == "stop" and f.rule not in own]
    assert not new or adaptation.troubles
    assert adapt(creator).yours.options == creator


def test_asked_for_is_never_overruled() -> None:
    adaptation = adapt(demo(), "full", {"centre.lines": 2})
    assert adaptation.yours.options.centre.lines == 2


def test_heavy_people_are_carried_or_refused_with_a_way_out() -> None:
    adaptation = heavy()
    assert adaptation.troubles and adaptation.stops
    assert adaptation.would.startswith(("This would", "None of these would"))


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ({"saw.kerf": "3/32 in"}, "saw.kerf"),
        ({"wood.species": "Douglas Fir-Larch"}, "wood.species"),
        ({"load.people": 1}, "load.people"),
        ({"heights.underside": "14 in"}, "heights.underside"),
        ({"slats.carries": "box spring"}, "slats.carries"),
        ({"lumber.2x6.thickness": "1 7/16 in"}, "lumber.2x6.thickness"),
    ],
)
def test_other_choices(changes: dict[str, object], key: str) -> None:
    adaptation = adapt(demo(), None, changes)
    assert next(s for s in adaptation.changes if s.key == key).why == "asked for"


def test_measured_boards_carry_through() -> None:
    """2x6 of 1 7/16: the opening stays, the outside is 1/8 in narrower, and with it the side rails."""
    build = adapt(demo(), None, {"lumber.2x6.thickness": "1 7/16 in"}).yours.build
    assert build.opening[0] == Fraction(77, 2) and build.outside[0] == Fraction(77, 2) + Fraction(23, 8)


def test_a_metric_plan_is_whole_millimetres() -> None:
    build = adapt(demo(), "EU single", {"build.units": "mm"}).yours.build
    for part in build.parts:
        assert (part.length * Fraction(127, 5)).denominator == 1, part.key
    assert build.part("side_rail").section.name == "38x140"


def test_longer_boards_are_a_change_with_its_reason() -> None:
    creator = changed(**{"lumber__2x6__stock": [{"length": "8 ft", "price": "8.10"}]})
    adaptation = adapt(creator, "72x94 in")
    found = next(s for s in adaptation.changes if s.key == "lumber.2x6.stock")
    assert found.after == "8 ft and 10 ft" and "10.12" in found.why and "leg" in found.why


def test_two_builds_of_the_same_bed() -> None:
    adaptation = compare(demo(), changed(slats__gap="2 in"))
    assert [(s.key, s.before, s.after) for s in adaptation.changes] == [("slats.gap", "2 1/4 in", "2 in")]


def test_unknown_mattress() -> None:
    with pytest.raises(InputError, match="king"):
        adapt(demo(), "kign")
