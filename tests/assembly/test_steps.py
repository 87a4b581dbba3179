"""The steps as a person reads them."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache
from pathlib import Path
from types import SimpleNamespace

import pytest

from tests.design.builds import changed, demo
from tests.design.posts import on_posts
from tutorial_lib.assembly.driving import ANGLE, HANGER, Screws, bracket_name, tool
from tutorial_lib.assembly.wording import _listed, counted, numbered
from tutorial_lib.design.build_file import read_build
from tutorial_lib.design.fasteners import Fastener
from tutorial_lib.measures import writer
from tutorial_lib.plan import Plan

RUNNERS = {
    "support__kind": "runners",
    "support__lumber": "2x6",
    "support__recess": None,
    "support__end_play": None,
    "screws": None,
    "legs__kind": "doubled",
    "legs__lumber": "2x4",
}


FULL = {"mattress__width": "53 in", "centre__lines": 1, "centre__kind": "beam", "centre__lumber": "2x6",
        "lumber__2x6": {"stock": [{"length": "8 ft"}]}}  # fmt: skip


@cache
def steps():
    return Plan(demo()).assembly.steps


@cache
def runner_plan():
    return Plan(changed(**RUNNERS))


def step(key):
    return next(s for s in steps() if s.key == key)


def test_the_steps_of_the_demo():
    assert [s.key for s in steps()] == [
        "cleat",
        "dry fit",
        "corner",
        "square",
        "leg",
        "turn",
        "slat",
        "level",
        "retighten",
    ]
    assert [s.number for s in steps()] == list(range(1, 10))


def test_screws_of_the_demo_by_kind_and_count():
    told = {s.key: [(x.count, x.name) for x in s.screws] for s in steps() if s.screws}
    assert told == {
        "corner": [(12, "0.22 in x 4 in structural screw")],
        "cleat": [(18, "#9 x 2 1/2 in wood screw")],
        "leg": [(12, "3/8 x 5 1/2 in carriage bolt")],
        "slat": [(28, "#8 x 1 1/2 in wood screw")],
    }


def test_slats_hide_the_cleat_screws():
    assert step("slat").hides == ("cleat left to side rail left", "cleat right to side rail right")
    assert step("leg").hides == ()


def test_the_frame_is_squared_before_anything_holds_it():
    order = [s.key for s in runner_plan().assembly.steps]
    assert order.index("corner") < order.index("square") < order.index("runner")


def test_a_turn_says_its_weight_and_people():
    turn = step("turn")
    assert turn.people == 2
    assert "two people" in turn.do[0]
    assert f"{turn.weight:.0f} lb" in turn.do[0]


def test_two_helpers_hold_the_ends_of_a_bed_on_posts_up() -> None:
    build = Path(__file__).parents[2] / "assets" / "builds" / "gallery" / "queen-corner-posts.toml"
    found = Plan(read_build(build.read_text(encoding="utf-8"))).assembly
    held = [made for made in found.steps if "helpers holding them" in " ".join(made.do)]
    assert [made.people for made in held] == [3, 3] and found.people >= 3


def test_screws_of_end_blocks_are_told_where_the_end_rail_covers_them() -> None:
    """They run along the end rail, 3/4 in from its face; a driver's body is 1 1/4 in about its axis."""
    build = Path(__file__).parents[2] / "assets" / "builds" / "gallery" / "queen-corner-posts.toml"
    made = {step.key: step.hides for step in Plan(read_build(build.read_text(encoding="utf-8"))).assembly.steps}
    ends, sides = (tuple(label for label in made[key] if " block " in label) for key in ("end", "corner"))
    assert len(ends) == 4 and all(label.startswith("end block ") for label in ends), made
    assert len(sides) == 4 and all(label.startswith("side block ") for label in sides)


def test_boards_of_a_leg_are_made_up_before_the_leg_enters():
    found = runner_plan().assembly.steps
    made, enters = (next(s for s in found if getattr(s, field)) for field in ("made", "new"))
    legs = next(s for s in found if s.made and s.key.startswith("leg"))
    assert set(made.made) < set(legs.made)
    assert made.number < legs.number
    assert enters.key == "corner"


def test_legs_of_two_boards_count_as_legs():
    bed = runner_plan().build
    boards = [label for leg in bed.legs for label in leg.pieces]
    assert counted(bed, boards) == "6 legs"
    assert counted(bed, boards, boards=True) == "12 leg boards"


def test_nothing_is_nothing():
    assert counted(Plan(demo()).build, ()) == "nothing"


@pytest.mark.parametrize(("people", "words"), [(1, "one person"), (2, "two people"), (7, "7 people")])
def test_people_in_words(people, words):
    assert numbered(people) == words


def test_a_lag_screw_is_driven_with_a_wrench():
    lag = Fastener(
        kind="lag screw", gauge="", length=Fraction(3), diameter=0.25, root=0.173, head=0.4, thread=Fraction(2),
        yield_strength=70000.0,
    )  # fmt: skip
    assert lag.told(writer("in")) == "1/4 x 3 in lag screw"
    assert tool(lag) == "socket wrench"


def test_each_step_names_pilot_clearance_and_countersink():
    (cleat,) = step("cleat").screws
    assert cleat.told(writer("in")) == (
        "Drive 18 × #9 x 2 1/2 in wood screw, 9 a joint: bore 13/64 in clearance through the near board, 1/8 in pilot "
        "in the far one, countersink 3/8 in; driver."
    )
    (bolts,) = step("leg").screws
    assert "bore 13/32 in through" in bolts.told(writer("in"))


def test_no_fastener_is_told_without_its_name():
    hanger = Screws(count=2, name="joist hanger for a board 1 1/2 in thick", tool="the screws its maker names")
    assert hanger.told(writer("in")) == "Fix 2 × joist hanger for a board 1 1/2 in thick: the screws its maker names."


def test_cleats_go_on_from_a_spacer_block_as_wide_as_the_printed_drop():
    made = step("cleat")
    assert [(float(b.size), b.holds) for b in made.blocks] == [(1.75, "the cleats")]
    assert "1 3/4 in" in made.do[1]
    assert {"side rail left", "cleat left"} <= set(made.made)


def test_a_beam_step_names_its_height_and_its_bracket():
    found = Plan(changed(**FULL)).assembly.steps
    beam = next(s for s in found if s.key == "line")
    assert [(float(b.size), b.holds) for b in beam.blocks] == [(1.75, "the centre line")]
    assert [x.name for x in beam.screws] == ["angle bracket for a board 1 1/2 in thick"]
    assert all(x.count and x.name for s in found for x in s.screws)


def test_the_turn_speaks_of_legs_only_when_they_are_on():
    for s in (*steps(), *runner_plan().assembly.steps):
        if s.turn is not None:
            legs = any(label.startswith("leg") for label in s.present)
            assert ("legs" in " ".join(s.do)) == legs


def test_the_diagonal_is_a_field():
    assert float(step("square").diagonal) == pytest.approx(89.0158, abs=1e-4)


def test_every_step_says_where_to_look_and_what_can_go_wrong():
    for s in (*steps(), *runner_plan().assembly.steps):
        assert s.do and s.look and s.wrong, s.key


LINED = {"mattress__size": "queen", "mattress__width": None, "mattress__length": None, "centre__lines": 1,
         "centre__legs": 3, "centre__lumber": "2x6", "centre__setback": None}  # fmt: skip


@cache
def lined(**changes):
    return Plan(changed(**RUNNERS, **LINED, centre__kind="flat", **changes))


def test_a_runner_step_says_where_the_centre_line_goes_and_what_is_on_it():
    runner = next(s for s in lined().assembly.steps if s.key == "runner")
    left = writer("in").length(lined().build.lines[1].seat[0])
    assert runner.do[0].startswith("Take 2 runners and 1 centre runner, with 9 legs on: runner left")
    assert f"Mark the centre line's left edge at {left} from the bed's left outer face." in runner.do


def test_legs_of_the_centre_line_are_marked_from_the_head_end_of_their_board():
    bench = next(s for s in lined().assembly.steps if s.made and s.key == "leg")
    edges = [leg.near_edge for leg in lined().build.legs if leg.line == "line 1"]
    marks = writer("in").marks(edges)  # on runners the line begins at the head end of the bed
    assert f"Mark the centre legs' head-side edges at {marks} from the head end of each board." in bench.do


def test_a_leg_past_the_end_of_its_cleat_is_told_as_past_it():
    level = Plan(changed(support__lumber="2x4", support__recess="1 1/4 in", support__end_play=None, screws=None,
                         legs__place="under the rail", legs__setback=None))  # fmt: skip
    bench = next(s for s in level.assembly.steps if s.made and s.key == "leg")
    told = " ".join(bench.do)
    assert "at -" not in told
    assert "the first stands 1 1/2 in past that end" in told
    assert "The side legs stand out 1 1/2 in past the board's outer edge" in told


def test_legs_inside_the_corner_stand_on_blocks_as_high_as_the_slats_lie_deep():
    inside = Plan(changed(legs__place="inside", legs__setback=None, support__end_play=None, screws=None))
    legs = next(s for s in inside.assembly.steps if s.key == "leg")
    assert [(float(b.size), b.holds) for b in legs.blocks] == [(1.75, "the legs")]
    assert any("1 3/4 in high" in line for line in legs.do)


def test_a_line_on_blocks_goes_under_them_when_they_are_on():
    blocks = FULL | {"centre__kind": "flat", "centre__lumber": "2x4", "centre__ends": "block"}
    found = Plan(changed(**blocks)).assembly.steps
    keys = [s.key for s in found]
    line = next(s for s in found if s.key == "line")
    assert keys.index("block") < keys.index("line")
    assert [(float(b.size), b.holds) for b in line.blocks] == [(1.75, "the centre line")]
    assert any("sideways under them" in text for text in line.do)


def test_screws_through_a_flange_take_a_pilot_alone():
    tubes = Plan(changed(**(RUNNERS | {"legs__kind": "tube", "legs__lumber": None, "legs__place": None})))
    (screw,) = next(s for s in tubes.assembly.steps if s.key == "leg").screws
    assert screw.bits(writer("in")) == "bore 7/64 in pilot through the plate's holes"


def test_two_kinds_of_fastener_in_one_step_say_where_each_goes():
    level = Plan(changed(support__lumber="2x4", support__recess="1 1/4 in", support__end_play=None, screws=None,
                         legs__place="under the rail", legs__setback=None, **LINED, centre__kind="flat"))  # fmt: skip
    bench = next(s for s in level.assembly.steps if s.made and s.key == "leg")
    assert [x.where for x in bench.screws] == ["cleat to leg", "centre runner to leg"]


@pytest.mark.parametrize(
    ("labels", "words"),
    [(["slat 1"], "1 slat"), (["slat 1", "slat 2", "side rail left"], "2 slats and 1 side rail"),
     (["side rail left", "side rail right", "end rail head", "slat 1"], "2 side rails, 1 end rail and 1 slat")],
)  # fmt: skip
def test_pieces_are_counted_by_part(labels, words):
    assert counted(Plan(demo()).build, labels) == words


@pytest.mark.parametrize(
    ("others", "count", "said"),
    [(("cleat left",), 5, "cleat left, slat 1, slat 2, slat 3, slat 4, slat 5"), (("cleat left",), 6, ""),
     ((), 7, "slat 1 to slat 7")],
)  # fmt: skip
def test_up_to_six_pieces_are_listed_and_more_by_their_ends_if_of_one_kind(
    others: tuple[str, ...], count: int, said: str
) -> None:
    entering = SimpleNamespace(enters=(*others, *(f"slat {i}" for i in range(1, count + 1))))
    assert _listed(Plan(demo()).build, entering) == said  # type: ignore[arg-type]


def test_a_beam_s_end_hangs_in_a_hanger_and_all_else_in_an_angle() -> None:
    queen = {"mattress__width": "60 in", "centre__lines": 1, "centre__kind": "beam"}
    for ends, kind in (("hanger", HANGER), ("block", ANGLE)):
        build = Plan(changed(**queen, centre__ends=ends, frame__rail="2x8")).build
        held = [joint for joint in build.joints_of("line_end") if joint.fastener == "bracket"]
        assert len(held) == 2
        assert {bracket_name(build, joint, writer("in")) for joint in held} == {f"{kind} for a board 1 1/2 in thick"}
        legs = [joint for joint in build.joints_of("line_leg") if joint.fastener == "bracket"]
        assert legs and all(bracket_name(build, joint, writer("in")).startswith(ANGLE) for joint in legs)


def test_half_slats_are_shared_out_after_their_marks_are_made() -> None:
    halved = Plan(changed(**FULL, slats__halves=True, slats__middle="screwed"))
    told = next(s for s in halved.assembly.steps if s.key == "slat").do
    marked, shared = (next(i for i, line in enumerate(told) if word in line) for word in ("Mark every", "Two half"))
    assert marked < shared


def test_the_dry_fit_tells_only_of_rails_that_are_loose_then() -> None:
    assert step("dry fit").wrong == ("A rail that is too long or short shows now, before the corners are screwed.",)
    posts = next(s for s in Plan(on_posts()).assembly.steps if s.key == "dry fit")
    assert posts.wrong == ("A side rail that is too long or short shows now, before it is fixed to its posts.",)


def test_a_cleat_is_clamped_against_the_spacer_it_was_told_of() -> None:
    told = " ".join(step("cleat").do)
    assert "Cut a spacer 1 3/4 in wide" in told and "Clamp the cleat against the spacer" in told
    assert "block" not in told


def test_the_dry_fit_lays_out_rails_with_what_is_on_them() -> None:
    assert step("dry fit").do[0] == (
        "On a flat floor lay out 2 side rails and 2 end rails, with 2 cleats on, top edges down, without screws."
    )


@pytest.mark.parametrize(("leveller", "pads", "act"), [(None, 1, "shim that leg"), ("1/2 in", 0, "turn its leveller")])
def test_a_bed_is_levelled_by_what_its_legs_have(leveller: str | None, pads: int, act: str) -> None:
    level = next(s for s in Plan(changed(legs__leveller=leveller)).assembly.steps if s.key == "level")
    assert sum("felt pad" in told for told in level.do) == pads
    assert level.do[-1].endswith(f"where it goes through, {act}.")


def test_steps_are_told_in_both_systems_where_that_is_asked_for() -> None:
    both = {s.key: " ".join((*s.do, *s.look)) for s in Plan(demo()).assembly_by(writer("in", both=True)).steps}
    assert "each should read 89 in (2261 mm)" in both["square"]
    assert "4 1/2, 37 5/8, 70 3/4 in (114, 956, 1797 mm)" in both["leg"]
    assert "1 3/4 in (44 mm) wide" in both["cleat"]
    posts = Path(__file__).parents[2] / "assets" / "builds" / "gallery" / "uk-king-over-boxes.toml"
    metric = Plan(read_build(posts.read_text(encoding="utf-8"))).assembly_by(writer("mm", both=True))
    lengths = [
        told
        for s in metric.steps
        for told in (*s.do, *s.look)
        if " mm" in told and not told.startswith(("Take ", "On a flat floor"))
    ]  # names of cleats of two lengths
    assert lengths and all(re.search(r"mm \([^)]* in\)", told) for told in lengths)


def test_levellers_are_told_once_before_the_bed_is_levelled() -> None:
    """Where the frame is turned they go in while the feet are up; else one end of the bed is lifted."""
    told = {}
    high = {"legs__leveller": "1/2 in"}
    for name, options in (("turned", changed(**high)), ("stood up", on_posts(**high))):
        told[name] = [(s.key, line) for s in Plan(options).assembly.steps for line in s.do if "a leveller" in line]
    assert told == {
        "turned": [("turn", "Fit a leveller to the foot of every leg, as its maker says, so that 1/2 in of it show.")],
        "stood up": [("level", "Lift one end at a time and fit a leveller to the foot of every leg, as its maker says, "
                               "so that 1/2 in of it show.")],
    }  # fmt: skip
    assert not any("a leveller" in line for s in steps() for line in s.do)
