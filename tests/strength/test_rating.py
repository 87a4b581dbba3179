"""Ratings by hand: the greatest person within 1, steps, caps and words, on either side of each limit."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tutorial_lib.measures import convert, writer
from tutorial_lib.strength.loads import Case
from tutorial_lib.strength.rating import Rating, kneeling_cap, least, rate, rating_uses, rounded_down
from tutorial_lib.strength.use import FOREVER, Effect, Limit, Use


def use(allowed: float, *effects: tuple[float, float], kind: str = "lying", key: str = "", **more: object) -> Use:
    """A check whose effects are (by the bed, by each pound)."""
    case = Case(key="x", name="x", kind=kind, stands_for="", source="", duration=1.0, people=())
    given = {"part": "slat", "piece": "slat 1", "label": "slat 1", "what": "bending", "unit": "moment"} | more
    return Use(case=case, person=200.0, limit=Limit(allowed, tuple), key=key,
               effects=tuple(Effect(*effect) for effect in effects), **given)  # fmt: skip


@pytest.mark.parametrize(
    ("allowed", "effect", "person"),
    [(100, (20, 0.4), 200), (100, (-20, -0.4), 200), (100, (0, 0.5), 200), (100, (-20, 0.4), 300),
     (100, (20, 0), FOREVER),
     (100, (120, 0.4), 0)],
)  # fmt: skip
def test_the_greatest_person_who_stays_within_one(allowed, effect, person):
    found = use(allowed, effect)
    assert found.holds == pytest.approx(person)
    if 0 < person < FOREVER:
        assert found.at(person) == pytest.approx(1) and found.at(person - 1) < 1 < found.at(person + 1)


def test_the_worst_of_several_effects_governs():
    found = use(100, (0, 0.25), (0, 0.5), (10, 0.1))
    assert found.holds == pytest.approx(200) and found.worst.live == 0.5
    assert (found.ratio, found.dead) == (pytest.approx(1.0), pytest.approx(0.1))


def test_a_person_who_first_relieves_counts_up_to_the_weight_asked_for():
    """-20 by the bed, 0.1 a pound: nobody up to 200 lb makes it less than the bed alone does."""
    assert use(100, (-20, 0.1)).at(150) == pytest.approx(0.2)


@pytest.mark.parametrize("effects", [[(20, 0.4)], [(-20, -0.5)], [(-20, 0.4)], [(20, 0.3), (5, 0.4)], [(0, 1.0)]])
def test_the_working_of_a_rating_comes_to_its_figure(effects):
    """Person x (allowed - bed) / people, with the terms as they are told."""
    found = use(100, *effects, relief=0.1)
    told = rate("lying", 2, [found], "in").working
    person, allowed, bed, people = (term.value for term in told.terms)
    assert person * (allowed - bed) / people == pytest.approx(found.holds)


def test_weight_that_holds_a_leg_upright_adds_to_what_is_allowed():
    assert use(100, (0, 1.0), relief=0.5).at(100) == pytest.approx(100 / 150)


@pytest.mark.parametrize(
    ("pounds", "step"),
    [(0, 0), (9.99, 0), (10, 10), (169.99, 160), (170, 170), (179.9, 170), (299.9, 290), (300, 300), (5000, 300),
     (FOREVER, 300)],
)  # fmt: skip
def test_steps_of_ten_pounds_up_to_three_hundred(pounds, step):
    assert rounded_down(pounds, "in") == step


@pytest.mark.parametrize(
    ("kilograms", "step"), [(4.9, 0), (5, 5), (79.9, 75), (80, 80), (134.9, 130), (135, 135), (900, 135)]
)
def test_steps_of_five_kilograms_up_to_135(kilograms, step):
    pounds = float(convert(Fraction(str(kilograms)), "kg", "lb"))
    assert rounded_down(pounds, "mm") == convert(step, "kg", "lb")


def test_a_rating_names_what_fails_first():
    weak, strong = use(100, (20, 0.4), label="weak"), use(500, (20, 0.4))
    found = rate("lying", 2, [strong, weak, use(1, (0, 1), kind="sitting")], "in")
    assert (found.pounds, found.exact, found.governing, found.capped) == (200, pytest.approx(200), weak, "")
    assert rate("sitting", 1, [strong, weak], "in").capped == "the highest we give"


@pytest.mark.parametrize(
    ("allowed", "pounds", "capped"),
    [(100, 160, "kneeling on a slat"), (124.9, 190, "kneeling on a slat"), (125, 200, ""), (1000, 200, "")],
)
def test_kneeling_at_1_6_caps(allowed, pounds, capped):
    """1.6 x allowed / 1 lb each."""
    found = rate("lying", 2, [use(100, (20, 0.4)), use(allowed, (0, 1), kind="standing", key="kneeling")], "in")
    assert (found.pounds, found.capped) == (pounds, capped)


def test_without_a_rating_there_is_a_reason():
    none = rate("lying", 2, [use(100, (20, 0.4))], "in", why="a leg stands on nothing")
    assert (none.pounds, none.exact, none.governing, none.why) == (0, 0, None, "a leg stands on nothing")


@pytest.mark.parametrize(
    ("people", "kind", "pounds", "said"),
    [(1, "lying", 170, "one person of 170 lb lying"), (2, "lying", 170, "two people of 170 lb each lying"),
     (2, "sitting", 300, "two people of 300 lb each sitting on the edge"),
     (4, "lying", 10, "four people of 10 lb each lying"),
     (5, "lying", 10, "5 of 10 lb each lying"), (2, "sitting", 0, "no rating for sitting on the edge")],
)  # fmt: skip
def test_words(people, kind, pounds, said):
    rating = Rating(kind=kind, people=people, pounds=Fraction(pounds), exact=float(pounds), governing=None)
    assert rating.words(writer("in")) == said
    assert rating.each(writer("in")) == (f"{pounds} lb" if pounds else "no rating")


@pytest.mark.parametrize(
    ("reduced", "whole", "printed", "capped"), [(150, 200, 150, ""), (200, 200, 200, ""), (210, 200, 200, "x")]
)
def test_a_bed_with_less_is_never_rated_higher(reduced, whole, printed, capped):
    small, full = (
        Rating(kind="lying", people=2, pounds=Fraction(n), exact=float(n), governing=None) for n in (reduced, whole)
    )
    found = least(small, full)
    assert found.pounds == printed and bool(found.capped) == bool(capped)


def test_a_knee_that_a_slat_does_not_feel_caps_nothing() -> None:
    assert kneeling_cap([use(100, (20, 0.0), key="kneeling")]) > 1e9
    assert kneeling_cap([use(100, (20, 0.5), key="kneeling"), use(1, (0, 9), key="other")]) == (1.6 * 100 - 20) / 0.5


@pytest.mark.parametrize(("alone", "rated"), [(100, ["runner-alone", "bending"]), (99, None)])
def test_ties_do_not_rate_where_the_runner_alone_carries_as_much(alone: float, rated: list[str] | None) -> None:
    """Only the ties are left out, of their own runner only; all else about it rates on."""
    ties, bare = use(100, (0, 0.5), key="tie-screws"), use(alone, (0, 0.5), key="runner-alone")
    uses = [ties, bare, use(300, (0, 0.5), key="bending")]
    assert [found.key for found in rating_uses(uses)] == (rated or [found.key for found in uses])
    other = use(100, (0, 0.5), key="tie-screws", piece="runner right")
    assert other in rating_uses([*uses, other])
