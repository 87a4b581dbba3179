"""Wood Handbook (FPL-GTR-282), Table 9-1: deflection of simple beams, 5/384 uniform and 1/48 mid-span.

And NDS Supplement 3.1.3 (from memory): weight of spruce-pine-fir at 12 % moisture, 28.1 lb per cubic foot.
"""

from __future__ import annotations

import pytest

from tutorial_lib.strength.beams import Beam, PointLoad, SpreadLoad, bend
from tutorial_lib.strength.model import density


@pytest.mark.parametrize(("load", "factor"), [(SpreadLoad(0, 100, 1.0), 5 / 384 * 100), (PointLoad(50, 1.0), 1 / 48)])
def test_deflection_factors(load, factor):
    bent = bend(Beam.uniform(0, 100, 2e6, (0, 100)), [load])
    assert bent.greatest_sag[1] == pytest.approx(factor * 100**3 / 2e6)


@pytest.mark.parametrize(("gravity", "printed"), [(0.42, 28.1), (0.43, 28.7), (0.50, 33.2), (0.55, 36.3)])
def test_density_at_twelve_percent(gravity, printed):
    assert density(gravity) == pytest.approx(printed, abs=0.06)
