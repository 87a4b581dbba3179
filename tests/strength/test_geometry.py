"""C-delta: the end a bolt bears toward wants more than the others, of softwood more than of hardwood."""

from __future__ import annotations

import pytest

from tests.design.builds import changed
from tutorial_lib.plan import plan
from tutorial_lib.strength.geometry import geometry


@pytest.mark.parametrize(
    ("wood", "full"),
    [("Spruce-Pine-Fir", 7 * 0.375), ("white oak", 5 * 0.375)],  # NDS 2018 Table 12.5.1A
)
def test_a_bolt_near_the_lower_end_of_its_leg(wood: str, full: float) -> None:
    """A leg 3 1/4 in long: its bolts stand 1 3/4 in above its lower end, toward which the bed presses them."""
    made = plan(changed(heights__underside="1 in", wood__species=wood))
    bolts = next(f for f in made.drilling.fastenings if f.joint.kind == "leg")
    assert float(bolts.driven[0].head[2]) == 1.75
    found = geometry(made.build, bolts)
    assert (found.distance, found.full) == (1.75, full)
    assert found.factor == pytest.approx(1.75 / full)
