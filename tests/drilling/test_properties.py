"""Over random beds: no accepted schedule has a hole outside its part, a tip outside its wood, or axes too near."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from tests.drilling.builds import OPEN, RUNNERS, drilled
from tests.drilling.test_clashes import segment_distance
from tutorial_lib.design.model import Build
from tutorial_lib.drilling.bed import Drilling
from tutorial_lib.errors import TutorialError


@st.composite
def changes(draw: st.DrawFn) -> dict[str, Any]:
    """Another bed: size, support, legs, slats, screws stated or left open."""
    out: dict[str, Any] = dict(draw(st.sampled_from([{}, OPEN, RUNNERS, RUNNERS | OPEN])))
    out["mattress.width"] = f"{draw(st.integers(30, 76))} in"
    out["mattress.length"] = f"{draw(st.integers(70, 84))} in"
    out["centre.lines"] = draw(st.integers(0, 2))
    out["slats.lumber"] = draw(st.sampled_from(["1x3", "1x4", "1x6", "2x4"]))
    out["legs.per_side"] = draw(st.integers(2, 4))
    out["legs.setback"] = f"{draw(st.integers(0, 10))} in"
    if "support.kind" in out:
        out["legs.kind"] = draw(st.sampled_from(["post", "doubled", "corner L", "tube"]))
        out["legs.lumber"] = "4x4" if out["legs.kind"] == "post" else "2x4"
    out["screws.slat.gauge"] = draw(st.sampled_from([None, "#6", "#8", "#10"]))
    out["screws.slat.length"] = draw(st.sampled_from([None, "1 1/2 in", "2 in"]))
    return out


def boxes_hold(build: Build, drilling: Drilling) -> None:
    for fastening, job in zip(drilling.fastenings, drilling.jobs, strict=True):
        near, far = build.pieces[job.joint.near].box, build.pieces[job.joint.far].box
        half = Fraction(job.fastener.diameter) / 2
        axis = job.joint.axis
        for line in fastening.driven:
            for box in (near, far):
                assert all(box.lo[i] + half <= line.head[i] <= box.hi[i] - half for i in range(3) if i != axis)
            if job.fastener.kind != "carriage bolt":
                assert far.lo[axis] + Fraction(1, 8) <= line.tip[axis] <= far.hi[axis] - Fraction(1, 8)


def axes_apart(drilling: Drilling) -> None:
    lines = [
        (tuple(map(float, d.head)), tuple(map(float, d.tip)), f.fastener.diameter)
        for f in drilling.fastenings
        for d in f.driven
    ]
    for i, (p1, q1, d1) in enumerate(lines):
        for p2, q2, d2 in lines[:i]:
            reach = d1 / 2 + d2 / 2 + 0.25
            if all(
                min(p1[k], q1[k]) - reach < max(p2[k], q2[k]) and min(p2[k], q2[k]) - reach < max(p1[k], q1[k])
                for k in range(3)
            ):
                assert segment_distance(p1, q1, p2, q2) >= reach - 1e-6  # type: ignore[arg-type]


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
@given(changes())
def test_an_accepted_schedule_is_sound(wanted: dict[str, Any]) -> None:
    try:
        build, drilling = drilled(wanted)
    except TutorialError:
        assume(False)
        return
    if any(f.severity == "stop" for f in drilling.findings):
        return
    boxes_hold(build, drilling)
    axes_apart(drilling)
    assert len(drilling.fastenings) == sum(1 for j in build.joints if j.fastener in ("screw", "bolt"))
