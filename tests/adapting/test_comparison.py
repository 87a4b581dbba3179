"""The comparison: every fact once, what is new and gone, sentences that no longer hold, the JSON form."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path

from tests.adapting.sized import compared, heavy, report
from tests.design.builds import changed, demo
from tutorial_lib.adapting import Adaptation, adapt, compare, comparison
from tutorial_lib.adapting.comparison import tidy
from tutorial_lib.adapting.telling import text
from tutorial_lib.design.build_file import change, read_build
from tutorial_lib.plan import Plan


def test_every_fact_has_its_row() -> None:
    found = compared("full", captions=False)
    keys = {row.key for row in found.rows}
    assert set(found.before) <= keys
    side_legs = {key for key in found.after if key.startswith(("mid_leg.", "corner_leg."))}  # told as "leg" before
    assert {row.after.key for row in found.rows if row.after} >= set(found.after) - side_legs


def test_what_changes_and_what_stays() -> None:
    rows = {row.key: row for row in compared("full", captions=False).rows}
    slat = rows["slat.length"]
    assert slat.status == "changes" and slat.before and slat.after
    assert (slat.before.value, slat.after.value) == (Fraction(153, 4), Fraction(213, 4))
    assert "53 1/2 in inside" in slat.why
    assert rows["side_rail.length"].status == "stays"
    assert rows["leg.height"].status == "stays", "the side legs are the same under another name"


def test_a_slip_that_is_right_of_your_bed_is_none_for_you() -> None:
    """Thirteen slats are said of fourteen: who lays thirteen is told rightly."""
    options = change(demo(), {"slats.gap": None, "slats.count": 13})
    own, yours = (comparison(compare(demo(), mine), report()) for mine in (demo(), options))
    wrong, left = ({slip.row.key for slip in found.slips} for found in (own, yours))
    assert "slat.count" in wrong and yours.after["slat.count"].value == 13
    assert left == wrong - {"slat.count"}


def test_what_is_new() -> None:
    found = compared("full", captions=False)
    parts = {item.key for item in found.new if item.kind == "part"}
    assert parts == {"centre_beam", "centre_leg"}
    assert {item.key for item in found.new if item.kind == "boards"} == {"2x4"}
    assert {item.key for item in found.new if item.kind == "step"} == {"line"}
    assert all(item.why for item in found.new)
    assert not [item for item in found.gone if item.kind == "part"]


def test_the_way_back_turns_new_into_gone() -> None:
    creator = adapt(demo(), "full").yours.options
    found = comparison(compare(creator, demo()))
    assert {item.key for item in found.gone if item.kind == "part"} == {"centre_beam", "centre_leg"}


def test_sentences_that_no_longer_hold() -> None:
    found = compared("full")
    times = {outdated.said.time for outdated in found.outdated}
    assert {"0:25", "2:03"} <= times and "4:40" not in times  # there the creator's own slip stands
    outside = next(o for o in found.outdated if o.said.time == "2:03")
    assert "56 1/2 in" in found.instead(outside)
    keys = {row.key for outdated in found.outdated for row in outdated.rows}
    assert "side_rail.length" not in keys


def test_json_form() -> None:
    report = compared("king").as_json()
    assert json.loads(json.dumps(report)) == report
    assert set(report) >= {"changes", "new", "gone", "findings", "facts"}
    change = next(c for c in report["changes"] if c["what"] == "slat.length")
    assert (change["before"], change["after"]) == (38.25, 76.25) and change["why"]
    assert all(set(item) == {"what", "why"} for item in report["new"])
    assert len({c["what"] for c in report["changes"]}) == len(report["changes"])
    assert report["facts"]["quantities"]["slat.count"]["value"] == 15


def test_the_same_bed_has_nothing_to_tell() -> None:
    found = comparison(adapt(demo()))
    assert not found.new and not found.gone and {row.status for row in found.rows} == {"stays"}
    assert "Nothing changes" in text(found)


def test_text_names_what_must_be_known() -> None:
    told = text(compared("king"))
    for words in ("centre.lines: 0 → 2", "New, not in the video", "centre beam", "No longer holds", "lumber:"):
        assert words in told


def test_a_stop_is_told_first() -> None:
    assert text(comparison(heavy())).splitlines()[1].startswith("STOP")


def test_metric_beside_inches_says_both_units() -> None:
    report = comparison(adapt(demo(), "EU single", {"build.units": "mm"})).as_json()
    slat = next(c for c in report["changes"] if c["what"] == "slat.length")
    assert (slat["unit_before"], slat["unit"]) == ("in", "mm")
    assert isinstance(slat["after"], int)


def test_gap_kept_apart_from_its_limit() -> None:
    rows = {row.key: row for row in comparison(compare(demo(), changed(slats__gap="1 3/4 in"))).rows}
    assert rows["slat.count"].status == "changes" and rows["slat.gap.max"].status == "stays"


def test_commas() -> None:
    assert tidy("a twin ,so mind") == "a twin, so mind"


def test_boards_not_bought_are_told_by_those_that_are() -> None:
    found = compared("140x200 cm")
    told = {o.said.time: found.instead(o) for o in found.outdated}
    assert told["0:36"] == "lumber of the side rails: 45x145; 8-ft 2x6: 2 of 45x145, 3600 mm"
    assert told["0:41"].startswith("8-ft 4x4: 1 of 95x95")
    slips = text(found).split("No longer holds")[0]
    assert "slats: use 14, as in the creator's plan" in slips and "use 7 of 22x95, 3000 mm" in slips


def test_the_creators_mattress_is_told_in_the_creators_units() -> None:
    (mattress,) = [c for c in compared("140x200 cm").adaptation.changes if c.key == "mattress"]
    assert mattress.before == "38 in x 75 in"


def test_a_bed_on_posts_is_the_same_as_itself() -> None:
    path = Path(__file__).parents[2] / "assets" / "builds" / "gallery" / "twin-headboard.toml"
    bed = Plan(read_build(path.read_text(encoding="utf-8")).bed)
    same = comparison(Adaptation(creator=bed, yours=bed))
    assert [row.key for row in same.rows if row.status != "stays"] == []


def test_the_numbers_that_no_longer_hold_are_marked_in_their_sentence() -> None:
    marked = {o.said.time: o.marked for o in compared("king").outdated}
    assert marked["3:07"] == "That's [nine] screws to a cleat, so [eighteen] for the pair"
    assert marked["0:36"] == "[Three] eight-foot two by sixes for the rails"
