"""The finishing of whole beds."""

from __future__ import annotations

import pytest

from tests.design.builds import changed, demo
from tutorial_lib.design.platform_bed import design
from tutorial_lib.finishing import finish


@pytest.fixture(scope="module")
def done():
    return finish(design(demo()))


def test_the_demo_takes_two_coats_four_hours_apart(done):
    assert (done.coats.coats, done.recoat) == (2, (4.0, 4.0))
    assert [g.number for g in done.sanding.grits] == [120, 180]


def test_what_can_hurt_is_always_said(done):
    assert {"wood dust", "oily rags", "solvents"} <= {f.rule for f in done.hazards}
    assert done.findings == ()


def test_water_varnish_has_no_oily_rags():
    rules = {f.rule for f in finish(design(changed(finish__kind="water varnish", finish__recoat=None))).hazards}
    assert "oily rags" not in rules
    assert "wood dust" in rules


def test_too_short_a_wait_is_told():
    found = finish(design(changed(finish__recoat="2 h"))).findings
    assert next(f for f in found if f.rule == "recoat").limit == "4 to 24 h"


def test_sealing_hidden_faces_takes_more(done):
    sealed = finish(design(changed(finish__seal_hidden=True)))
    assert sealed.coats.gallons[1] > 2 * done.coats.gallons[1]
    assert sealed.seen == done.seen


def test_an_unknown_finish_is_a_note():
    found = finish(design(changed(finish__kind="shoe polish"))).findings
    typed = next(f for f in finish(design(changed(finish__kind="oyl"))).findings if f.rule == "finish")
    assert "known are oil, oil stain, water stain" in typed.what
    assert typed.remedy.startswith('If it is oil, write kind = "oil".')
    assert next(f for f in found if f.rule == "finish").severity == "note"


def test_open_faces_add_up(done):
    assert done.seen + done.touched + done.hidden == sum(s.open for s in done.states) / 144
