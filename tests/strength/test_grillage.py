"""Slats on their lines: which contacts open, and that a slat stays on two lines."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.builds import Raw, raw, raw_on_posts, raw_with_headboard
from tests.strength.beam import _line
from tutorial_lib.design.build_file import from_raw
from tutorial_lib.plan import Plan
from tutorial_lib.strength import grillage
from tutorial_lib.strength.grillage import Grillage, Restless, State, _lifted
from tutorial_lib.strength.slat import Slat, Spread


@pytest.mark.parametrize(
    ("lines", "before", "after"),
    [(3, {(0, 0), (1, 1)}, {(1, 1), (0, 2)}), (4, {(0, 0), (1, 1)}, {(0, 0), (1, 1), (0, 2)}),
     (4, {(0, 0), (0, 1)}, {(0, 2)})],
)  # fmt: skip
def test_a_slat_that_lifts_off_one_more_line_stays_on_two(lines: int, before: set, after: set) -> None:
    """Where it would be left on one, its others close again first; other slats stay as they are."""
    places = tuple(10.0 * i for i in range(lines))
    bed = Grillage(Slat(0.0, places[-1], places, 1e5), [_line(y) for y in places])
    state = State(bed.closed.lines, frozenset(before))
    assert _lifted(state, (0, 2), lines) == State(state.lines, frozenset(after))


@pytest.mark.parametrize(("make", "seed"), [(raw, 3), (raw, 29), (raw_on_posts, 3), (raw_with_headboard, 29)])
def test_contacts_all_at_once_come_to_the_same_as_one_after_the_other(
    make: Callable[[int], Raw], seed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    def settled() -> list[object]:
        outcome = Plan(from_raw(make(seed))).strength.outcome
        assert outcome is not None and not outcome.fell
        held, fallen = outcome.found
        return [(one.case, one.live) for one in held] + [(one.case, str(one.tips)) for one in fallen]

    at_once, asked = settled(), []

    def never(state: State, wrong: object, lines: int) -> State:
        asked.append(wrong)
        raise Restless(state)

    monkeypatch.setattr(grillage, "_all_righted", never)
    assert settled() == at_once and asked


@pytest.mark.parametrize("load", [Spread(-4.0, 8.0), Spread(30.0, 44.0), Spread(-4.0, 44.0), Spread(5.0, 35.0)])
def test_a_spread_load_sags_as_many_small_ones_do_also_past_the_outer_lines(load: Spread) -> None:
    beam, many = Slat(-4.0, 44.0, (0.0, 20.0, 40.0), 1e6), 4000
    step = (load.b - load.a) / many
    points = [load.a + step * (i + 0.5) for i in range(many)]
    for y in (8.0, 20.0, 31.0):
        assert beam.sag(y, load) == pytest.approx(sum(beam.sag(y, Spread(x, x)) for x in points) / many, rel=1e-6)
