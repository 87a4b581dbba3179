"""Where a moved fastener may stand."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from tests.design.builds import NO_DEMO
from tests.drilling.builds import drilled
from tutorial_lib.drilling.clashes import Placed
from tutorial_lib.drilling.job import seams_of
from tutorial_lib.drilling.moving import _fits


@pytest.mark.parametrize(("y", "fits"), [(Fraction(3), False), (Fraction(2), True)])
def test_none_is_moved_into_the_seam_of_a_doubled_leg(y: Fraction, fits: bool) -> None:
    build, drilling = drilled({"legs.kind": "doubled", "legs.lumber": "2x4", "legs.place": "inside"})
    job = next(job for job in drilling.jobs if job.joint.label == "slat 1 to leg L1 ply a")
    (seam,) = seams_of(build, job.joint)
    assert (seam.lo[1], seam.hi[1]) == (3, 3)
    spot = replace(job.spots[0], at=(Fraction(5), y, job.spots[0].at[2]))
    assert _fits(job, spot.at, Placed(()), [seam]) is fits
    assert _fits(job, spot.at, Placed(()), [])


def test_two_screws_moved_out_of_the_way_of_a_third_keep_their_distance() -> None:
    """A block's two screws in the end rail make room for those up into the line: 5 diameters apart along the grain."""
    three = {"mattress.size": "twin", "frame.corners": "end rails cap", "frame.rail": "2x8", "support.lumber": "2x2",
             "centre.lines": 3, "centre.kind": "flat", "centre.ends": "block", "slats.lumber": "1x6",
             "slats.carries": "box spring", "legs.place": "under"}  # fmt: skip
    _, drilling = drilled(NO_DEMO | three)
    blocks = [job for job in drilling.of("line") if "beam block" in job.joint.near and "end rail" in job.joint.far]
    assert len(blocks) == 6 and all(job.moved for job in blocks)
    for job in blocks:
        first, second = (spot.at[1] for spot in job.spots)
        assert abs(first - second) >= 5 * job.fastener.diameter
