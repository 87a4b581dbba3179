"""Distances of thick fasteners, typed a second time: NDS 2018, Tables 12.5.1A and B."""

from __future__ import annotations

import pytest

from tests.design.builds import changed
from tutorial_lib.design.end_distances import ROW, THICK, end_wanted
from tutorial_lib.design.platform_bed import design


@pytest.mark.parametrize(("species", "toward"), [("SPF", (7.0, 3.5)), ("Red Oak", (5.0, 2.5))])
def test_an_end_is_kept_clear_by_how_the_fastener_bears(species, toward) -> None:
    """Toward the lower end of a leg seven diameters, in hardwood five; away from its top, and in a rail, four."""
    build = design(changed(wood__species=species))
    leg = build.pieces[build.legs[0].pieces[0]]
    rail = build.pieces["side rail left"]
    found = [end_wanted(build, piece, low) for piece, low in ((leg, True), (leg, False), (rail, True), (rail, False))]
    assert [(one.full, one.least) for one in found] == [toward, (4.0, 2.0), (4.0, 2.0), (4.0, 2.0)]


def test_a_row_keeps_four_diameters_and_three_at_least_from_a_quarter_inch_on() -> None:
    assert (ROW.full, ROW.least, THICK) == (4.0, 3.0, 0.25)
