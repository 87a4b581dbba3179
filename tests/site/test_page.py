"""The sections of the viewers' page: the library's numbers, every string inert, boxes that keep their names."""

from __future__ import annotations

import json
import re
import xml.etree.ElementTree as ET
from html import unescape

import pytest

from tests.conftest import ROOT
from tutorial_lib.adapting import Comparison, comparison
from tutorial_lib.adapting.viewer import Asked, viewers_bed
from tutorial_lib.design.build_file import change, read_build
from tutorial_lib.design.options import Options
from tutorial_lib.facts import facts_of
from tutorial_lib.narration import check, read_captions
from tutorial_lib.site import index, page
from tutorial_lib.site.heard import packed, unpacked
from tutorial_lib.site.wording import every

BUILD = ROOT / "assets" / "builds" / "spare-room-twin.toml"
CAPTIONS = ROOT / "assets" / "captions" / "spare-room-twin.vtt"


@pytest.fixture(scope="module")
def creator() -> Options:
    return read_build(BUILD.read_text(), "creator.toml")


@pytest.fixture(scope="module")
def own(creator: Options) -> Comparison:
    adapted = viewers_bed(creator)
    return comparison(adapted, check(read_captions(CAPTIONS.read_bytes(), "a.vtt"), facts_of(adapted.yours)))


@pytest.fixture(scope="module")
def full(creator: Options, own: Comparison) -> Comparison:
    return comparison(viewers_bed(creator, Asked("full")), own.report)


def text(markup: str) -> str:
    """What a person reads, without the drawings, all blanks alike."""
    bare = re.sub(r"<[^>]+>", " ", re.sub(r"<svg.*?</svg>", "", markup, flags=re.S))
    return re.sub(r"\s+", " ", unescape(bare))


def test_what_changed_is_marked_with_what_it_was(full: Comparison) -> None:
    told = text(str(page.sections(full)["sums"]()))
    assert "outside width 56 1⁄2 in was 41 1⁄2 in" in told
    assert "floor to slat top 16 in" in told


def test_the_video_s_slips_come_before_what_no_longer_holds(full: Comparison) -> None:
    told = text(str(page.sections(full)["video"]()))
    assert 0 < told.index("The video has it wrong") < told.index("No longer holds for your bed")
    assert told.count("use ") >= len(full.slips) > 0


def test_the_packed_report_says_the_same_of_another_bed(creator: Options, full: Comparison) -> None:
    again = comparison(viewers_bed(creator, Asked("full")), unpacked(packed(full.report)))
    assert [slip.said for slip in again.slips] == [slip.said for slip in full.slips]
    assert [(o.said, again.instead(o)) for o in again.outdated] == [(o.said, full.instead(o)) for o in full.outdated]
    assert packed(None) == "" and unpacked("") is None


def test_boxes_have_names_of_their_own_and_a_label(own: Comparison) -> None:
    whole = "".join(make() for make in page.sections(own).values())
    boxes = re.findall(r'data-tick="([^"]+)"', whole)
    assert len(boxes) == len(set(boxes)) > 60
    bare = re.findall(r'<label class="tick bare">(<input[^>]*>)', whole)
    assert bare and all('aria-label="' in box for box in bare)


def test_every_hole_and_every_board_has_its_box(own: Comparison) -> None:
    plan = own.adaptation.yours
    sections = page.sections(own)
    holes = sum(len(group.on(face)) for group in plan.drilling.schedule for face in group.faces)
    assert len(re.findall('data-tick="hole ', sections["holes"]())) == holes
    assert len(re.findall('data-tick="cut ', sections["saw"]())) == len(plan.cutting.sawn.boards)


def test_the_proof_stands_beside_the_cut_plan(own: Comparison) -> None:
    saw = text(str(page.sections(own)["saw"]()))
    assert "Why no list is cheaper" in saw and "can't hold" in saw


def test_boards_are_drawn_to_one_scale_and_marks_have_their_unit(own: Comparison) -> None:
    saw = str(page.sections(own)["saw"]())
    sold = {float(layout.board.length) for layout in own.adaptation.yours.cutting.sawn.layouts}
    shares = {float(share) for share in re.findall(r"max-width: ([0-9.]+)%", saw)}
    assert sorted(shares) == pytest.approx([100 * length / max(sold) for length in sorted(sold)]) and len(shares) > 1
    assert "Marks: 38 1⁄2, 77 1⁄8 in" in text(saw)


def test_lumber_without_a_price_is_told_beside_the_cost(creator: Options) -> None:
    found = comparison(viewers_bed(creator, Asked("queen")))
    told = text(str(page.sections(found)["sums"]()))
    assert re.search(r"all lumber \$[0-9.]+ was \$89.50 without 2×4: no price given", told)


def test_a_fold_of_holes_names_its_pieces_once(own: Comparison) -> None:
    folds = re.findall("<summary>([^<]+)</summary>", str(page.sections(own)["holes"]()))
    assert "Side rail left" in folds and "Slat 2 to 13" in folds and len(folds) == len(set(folds))


def test_strings_of_the_build_file_are_inert(creator: Options) -> None:
    nasty = '</script><img src=x onerror="alert(1)">&<b>'
    options = change(creator, {"build.title": nasty, "build.channel": nasty})
    found = comparison(viewers_bed(options))
    whole = index.index(found, {"name": nasty}, [])
    assert "<img" not in whole and 'onerror="' not in whole
    assert whole.count("</script>") == 2
    data = re.search(r'id="data">(.*?)</script>', whole, re.S)
    assert data and json.loads(data[1])["name"] == nasty


def test_the_page_is_well_formed_and_needs_no_script(own: Comparison) -> None:
    whole = index.index(own, {"name": "a"}, [("Part", "MIT", "licences/1.txt")])
    body = re.sub(r"<(meta|link|input|br|hr|img)([^>]*)>", r"<\1\2/>", whole.partition("\n")[2])
    body = re.sub(r" (hidden|data-script|data-live)(?=[ />])", r' \1=""', body).replace("&nbsp;", "\xa0")
    tree = ET.fromstring(body)
    regions = [element for element in tree.iter() if element.get("data-region")]
    assert len(regions) == 14 and all(len(list(region)) for region in regions)
    names = [element.get("id") for element in tree.iter() if element.get("id")]
    assert len(names) == len(set(names))
    for element in tree.iter():
        if label := element.get("aria-labelledby"):
            assert label in names


def test_the_plain_file_fetches_nothing(own: Comparison, full: Comparison) -> None:
    from tutorial_lib.site.folder import plain

    whole = plain([("own", own), ("full", full)])
    assert "<script" not in whole and "@import" not in whole
    assert set(re.findall(r'(?:src|href)="([^"]+)"', whole)) == {"#bed-0", "#bed-1"}
    assert all(address.startswith("data:") for address in re.findall(r'url\("([^"]+)"\)', whole))


def test_every_text_is_used_somewhere() -> None:
    folder = ROOT / "tutorial_lib" / "site"
    code = "".join(path.read_text() for path in (*folder.glob("*.py"), *(folder / "static").glob("*.js")))
    made = {"stop", "caution", *(name for name in every() if name.startswith(("kind ", "bar ", "units ", "such as ")))}
    assert [name for name in every() if f'"{name}"' not in code and name not in made] == []
