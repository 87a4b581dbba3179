"""What a working shows comes to what it says: each formula worked out anew from the terms that stand beside it."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import cache
from math import prod
from pathlib import Path

import pytest

from tutorial_lib.design.build_file import read_build
from tutorial_lib.plan import plan
from tutorial_lib.strength.working import Working, times

BUILDS = Path(__file__).parents[2] / "assets" / "builds"
BEDS = ("spare-room-twin", "gallery/queen-corner-posts", "gallery/full-box-spring", "gallery/full-oak-strapped")
Terms = dict[str, float]


def _all(terms: Terms) -> float:
    return prod(terms.values())


FORMULAS: dict[str, Callable[[Terms], float]] = {
    "bed + people": lambda t: t["bed"] + t["people"],
    "bed alone, as people ease it": lambda t: max(t["bed"], t["bed"] + t["people"]),
    "F'b S": _all,
    "effect / allowed": lambda t: t[""] / t["allowed"],
    "Fv CD CM Ct Ci": _all,
    "F'v A / 1.5": lambda t: _all(t) / 1.5,
    "Fc-perp CM Ct Ci Cb A": _all,
    "(2/3) F'v b de (de/d)^2": lambda t: 2 / 3 * t["F'v"] * t["b"] * t["de"] * (t["de"] / t["d"]) ** 2,
    "(2/3) F'v b de": lambda t: 2 / 3 * t["F'v"] * t["b"] * t["de"],
    "Fc CD CM Ct CF Ci CP A": lambda t: t["Fc"] * t["CD"] * t["CF"] * t["CP"] * t["A"],
    "n Z' CD": _all,
    "K G^2 D x thread": lambda t: t["K"] * t["G"] ** 2 * t["D"] * t["thread"],
    "1.5 x push x height": lambda t: 1.5 * _all(t),
    "Z' CD x sum r^2 / r": _all,
    "n x one": _all,
}


@cache
def _workings() -> tuple[Working, ...]:
    texts = ((BUILDS / f"{bed}.toml").read_text(encoding="utf-8") for bed in BEDS)
    return tuple(work for text in texts for use in plan(read_build(text)).strength.uses for work in use.workings)


def _of(formula: str) -> Iterator[tuple[Terms, Working]]:
    for work in _workings():
        if work.formula == formula:
            yield {term.sign: term.value for term in work.terms}, work


@pytest.mark.parametrize("formula", FORMULAS)
def test_a_formula_comes_to_its_result(formula: str) -> None:
    found = list(_of(formula))
    assert found
    for terms, work in found:
        assert work.result.value == pytest.approx(FORMULAS[formula](terms), rel=1e-6), work


def test_bending_stress_is_the_table_s_times_its_factors() -> None:
    found = list(_of("Fb CD CM Ct CL CF Cfu Ci Cr"))
    assert found
    for terms, work in found:
        factors = [float(value) for value in re.findall(r"C\w+ ([\d.]+)", work.words)]
        assert len(factors) == 8 and work.result.value == pytest.approx(terms["Fb"] * prod(factors), rel=1e-3), work


@pytest.mark.parametrize(
    ("ratio", "said"), [(0.5, "0.50 times"), (1.0, "1.00 times"), (1.003, "1.003 times"), (1.0049, "1.005 times"),
                        (1.005, "1.00 times"), (1.384, "1.38 times")],
)  # fmt: skip
def test_only_just_over_one_has_a_third_place(ratio: float, said: str) -> None:
    assert times(ratio) == said
