"""Boxes, spares and hardware."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from tests.drilling.builds import drilled
from tutorial_lib.design.build_file import change, read_build
from tutorial_lib.drilling.quantities import boxes
from tutorial_lib.plan import plan

GALLERY = Path(__file__).parents[2] / "assets" / "builds" / "gallery"
STRAPPED, BOLTED = GALLERY / "full-oak-strapped.toml", GALLERY / "king-two-lines.toml"


@given(st.integers(1, 900), st.sets(st.sampled_from([1, 10, 25, 50, 100, 250]), min_size=1))
def test_boxes_hold_what_is_wanted_and_no_box_is_idle(wanted: int, sizes: set[int]) -> None:
    found = boxes(wanted, sorted(sizes))
    bought = sum(count * size for count, size in found)
    assert bought >= wanted
    assert bought - wanted < max(size for _, size in found)


@given(st.integers(1, 300), st.dictionaries(st.sampled_from([10, 25, 50, 100]), st.integers(1, 40), min_size=1))
def test_no_other_two_sizes_of_box_are_cheaper(wanted: int, whole: dict[int, int]) -> None:
    prices = {size: Fraction(price) for size, price in whole.items()}
    cost = sum(count * prices[size] for count, size in boxes(wanted, sorted(prices), prices))
    for large in prices:
        for small in prices:
            for count in range(-(-wanted // large) + 1):
                rest = max(0, -(-(wanted - count * large) // small))
                assert cost <= count * prices[large] + rest * prices[small]


def test_a_screw_is_bought_once_whether_its_length_was_stated_or_chosen() -> None:
    bought = [buy for buy in plan(read_build(STRAPPED.read_text(encoding="utf-8"))).drilling.buys if buy.fastener.gauge]
    sold = [(buy.fastener.gauge, buy.fastener.length) for buy in bought]
    assert len(set(sold)) == len(sold)
    # corners 18, centre line 4 (chosen) and legs 20 (stated), all #10 x 2 3/4: 42, a tenth more are 47
    ten = next(buy for buy in bought if buy.fastener.gauge == "#10")
    assert (ten.needed, ten.with_spares, ten.boxes) == (42, 47, ((1, 50),))


def test_the_demo_s_screws_in_boxes() -> None:
    _, drilling = drilled()
    needed = {buy.used_for[0]: (buy.needed, buy.with_spares, buy.bought) for buy in drilling.buys}
    assert needed == {"corner": (12, 14, 50), "cleat": (18, 20, 50), "leg": (12, 12, 12), "slat": (28, 31, 50)}
    assert {(item.name, item.count, item.mind, item.priced_as) for item in drilling.hardware} == {
        ("nut, 3/8-16 UNC", 12, "", "nut"), ("flat washer, 3/8 in", 12, "1 in across", "washer"),
    }  # fmt: skip


def test_nuts_and_washers_are_bought_by_the_size_of_their_bolts() -> None:
    """Legs on bolts of M8, a headboard on bolts of M10: a nut of one doesn't go on the other."""
    bed = plan(change(read_build(BOLTED.read_text(encoding="utf-8")), {
        "screws.leg.diameter": "8 mm", "screws.upright.diameter": "10 mm",
    }))  # fmt: skip
    bought = {(item.name, item.count) for item in bed.drilling.hardware if item.priced_as in ("nut", "washer")}
    assert bought == {("nut, M8", 12), ("flat washer, M8", 12), ("nut, M10", 4), ("flat washer, M10", 4)}


def test_brackets_are_counted_as_hardware() -> None:
    _, drilling = drilled({"mattress.width": "60 in", "mattress.length": "80 in", "centre.lines": 1})
    brackets = {item.where: item.count for item in drilling.hardware if "bracket" in item.name}
    assert brackets == {"centre line to end rail": 2, "centre line to its leg": 3}
    minded = {item.where: item.mind for item in drilling.hardware if "bracket" in item.name}
    assert minded == {
        "centre line to end rail": "3 1/2 in wide at most; with the screws its maker names, not counted here",
        "centre line to its leg": "1 1/2 in wide at most; with the screws its maker names, not counted here",
    }


def test_straps_are_bought_with_a_spare_staple_in_ten() -> None:
    bed = plan(read_build(STRAPPED.read_text(encoding="utf-8")))
    found = {item.name: item.count for item in bed.drilling.hardware if item.where.startswith(("straps", "along"))}
    # two straps over 14 slats, two staples at each crossing: 56, and a tenth more
    assert found == {"strap of webbing, 1 in wide, 79 3/4 in long": 2, "staple or tack": 62}
