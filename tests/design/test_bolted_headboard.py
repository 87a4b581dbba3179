"""A headboard bolted to the head rail of a bed that stands already: clear of slats, mattress and every hole."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.builds import raw_with_headboard
from tests.design.builds import changed
from tests.design.posts import QUEEN
from tests.soundness import failures_with_headboard
from tutorial_lib.adapting.adapt import adapt
from tutorial_lib.adapting.novelties import new
from tutorial_lib.design.build_file import from_raw, read_build
from tutorial_lib.design.options import Options
from tutorial_lib.design.platform_bed import design
from tutorial_lib.errors import DesignError
from tutorial_lib.facts import facts_of
from tutorial_lib.plan import plan
from tutorial_lib.strength.headboard import leaning

KING = QUEEN.with_name("king-two-lines.toml")


def _headed(**keys: str | None) -> Options:
    return changed(headboard__kind="boards", **keys)


def test_its_uprights_stand_on_the_floor_behind_the_head_rail() -> None:
    build = design(_headed(headboard__inset="5 in", headboard__over="12 in"))
    left, right = (build.pieces[f"upright {side}"].box for side in ("left", "right"))
    assert (left.lo[0], left.hi[0], left.lo[2]) == (Fraction(-3, 2), 0, 0)
    assert left.lo[1] == build.outside[0] - right.hi[1] == 5
    assert build.heights.sleeping is not None
    assert left.hi[2] == build.heights.sleeping + 12
    assert build.overall == (build.outside[0], build.outside[1] + Fraction(3, 2))
    assert plan(build.options).assembly.squaring.length == build.outside[1]


@pytest.mark.parametrize("seed", range(7200, 7206))
def test_it_leaves_every_fastener_of_the_bed_in_its_place(seed: int) -> None:
    assert list(failures_with_headboard(seed)) == []


def test_its_nuts_keep_off_the_slats() -> None:
    made = plan(_headed())
    slats = [piece.box for piece in made.build.pieces.values() if piece.use == "slat"]
    bolts = [driven for f in made.drilling.fastenings if f.joint.kind == "upright" for driven in f.driven]
    assert len(bolts) == 4
    for bolt in bolts:
        assert bolt.tip[2] <= slats[0].lo[2] - Fraction(1, 2) or bolt.tip[2] >= slats[0].hi[2] + Fraction(1, 2)


def test_one_who_adds_it_is_told_what_is_new_and_nothing_else_changes() -> None:
    found = adapt(changed(), changes={"headboard.kind": "boards"})
    told = [item.what for item in new(found)]
    assert any("uprights" in text for text in told)
    assert any("bolts of the headboard's uprights" in text for text in told)
    mine, theirs = facts_of(found.yours), facts_of(found.creator)
    for key in ("side_rail.length", "slat.length", "leg.height", "frame.diagonal"):
        assert mine[key].value == theirs[key].value


def test_its_bolts_hold_the_push_by_their_heads_over_the_rails_edge() -> None:
    strong = plan(_headed()).strength
    assert strong.outcome is not None
    found = leaning(strong.outcome)
    assert found is not None
    bolts = next(f for f in strong.fastenings if f.joint.kind == "upright")
    low = float(strong.build.heights.rail_bottom)
    area = 3.14159 / 4 * (0.844**2 - 0.4375**2)  # head less hole
    couple = 425 * area * sum(float(d.head[2]) - low for d in bolts.driven)
    assert found.couple == pytest.approx(couple, rel=1e-3)
    assert found.held == pytest.approx(couple / (found.top - found.corner), rel=1e-3)


REFUSED = {
    "headboard.inset": {"headboard__inset": "20 in"},
    "headboard.lumber": {"headboard__lumber": "4x4"},
    "screws.batten": {"screws__batten__gauge": "#8"},
}


@pytest.mark.parametrize("where", REFUSED)
def test_what_cannot_be_is_refused_by_its_name(where: str) -> None:
    with pytest.raises(DesignError) as caught:
        design(_headed(**REFUSED[where]))
    assert where in [fault.where for fault in caught.value.faults]


def test_an_upright_before_the_end_of_a_centre_line_is_refused_and_the_place_told_works() -> None:
    """Three flat lines: the first ends behind an upright that stands in by 8 in."""
    tables = raw_with_headboard(51004)
    with pytest.raises(DesignError, match="headboard.inset.*in the way of its nuts") as caught:
        plan(from_raw(tables)).build  # noqa: B018  refused
    told = str(caught.value).split("With ")[1].removesuffix(" there is room.")
    made = plan(from_raw(tables | {"headboard": tables["headboard"] | {"inset": told}}))
    assert made.drilling.clashes == ()
    keys = [operation.key for operation, _ in made.assembly.order.operations]
    assert keys.index("headboard") > max(keys.index(key) for key in ("corner", "line", "leg"))
    assert not [finding for finding in made.assembly.findings if finding.severity == "stop"]


def test_a_head_is_let_in_where_no_screw_sold_fits_else() -> None:
    """British boards 18 mm thick on uprights of 44 mm: 50 mm is too short, 60 mm too long."""
    creator = read_build(KING.read_text(encoding="utf-8"), KING.name)
    jobs = adapt(creator, "UK super king").yours.drilling.of("panel")
    assert {job.stack.head_depth for job in jobs} == {Fraction(1, 4)}
    assert all(job.choice.fits and not job.choice.stated for job in jobs)
    assert {job.stack.head_depth for job in plan(creator).drilling.of("panel")} == {0}
