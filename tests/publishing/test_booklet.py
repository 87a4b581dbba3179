"""The booklet: few pages, none half empty, nothing over an edge, no type too small, every promised figure on it."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest
from pypdf import PdfReader

from tests.adapting.sized import compared
from tests.publishing import pages
from tests.publishing.test_templates import plan
from tutorial_lib.design.build_file import change, from_raw, read_build
from tutorial_lib.drawing.layout import extent
from tutorial_lib.drawing.scene import PAPER, Rect, Running, Scene
from tutorial_lib.measures import writer
from tutorial_lib.plan import Plan
from tutorial_lib.publishing import typeset
from tutorial_lib.publishing.booklet import cover, deck, holes, joints, parts, saw, steps, store, video
from tutorial_lib.publishing.booklet.leaf import Book, Leaf, dumped
from tutorial_lib.publishing.sheet import KINDS, sheet_pages, sheet_source
from tutorial_lib.publishing.typeset import compile_pdf

MOST = {"demo": 12, "king": 18, "runners": 18, "metric": 18}
BOOKLET = Path(typeset.__file__).parent / "booklet"


@cache
def source(name: str, paper: str = "letter", **asked: bool) -> str:
    return sheet_source(plan(name), paper, **asked)  # type: ignore[arg-type]


@cache
def reader(name: str, paper: str = "letter") -> PdfReader:
    return PdfReader(io.BytesIO(compile_pdf(source(name, paper))))


@cache
def texts(name: str) -> list[str]:
    """The words of each page, as a reader takes them from the PDF."""
    return [plain(page.extract_text()) for page in reader(name).pages]


@cache
def words(name: str) -> str:
    """Of the demo what a reader takes from its PDF; of other beds, quicker, what is handed to the typesetter."""
    if name == "demo":
        return " ".join(texts(name))
    return plain(source(name))


def plain(text: str) -> str:
    """Words as they are read: fractions with a slash, one space for any."""
    text = text.replace("\N{NARROW NO-BREAK SPACE}", " ").replace("\N{FRACTION SLASH}", "/")
    return re.sub(r"\s+", " ", text.replace("\N{MULTIPLICATION SIGN}", "x"))


@cache
def covers() -> list[Leaf]:
    return list(cover.leaves(Book(plan=plan("demo"))))


@cache
def shown(name: str, paper: str = "letter") -> pages.Seen:
    return pages.seen(source(name, paper))


@pytest.mark.parametrize("name", MOST)
def test_it_has_few_pages(name: str) -> None:
    found = shown(name) if name in ("demo", "king") else reader(name)
    assert len(found.pages) <= MOST[name]


def test_stops_of_the_saw_go_on_overleaf_and_the_parts_begin_below_them() -> None:
    """Kept whole they would begin a page that the parts leave half empty: a page more."""
    made = Plan(read_build((pages.GALLERY / "king-two-lines.toml").read_text(encoding="utf-8")))
    assert len(PdfReader(io.BytesIO(compile_pdf(sheet_source(made)))).pages) <= 14


def test_on_a4_too() -> None:
    assert len(shown("demo", "a4").pages) <= 12


@pytest.mark.parametrize(("name", "paper"), [("demo", "letter"), ("demo", "a4"), ("king", "letter")])
def test_no_page_is_half_empty_nothing_stands_alone_or_runs_over(name: str, paper: str) -> None:
    assert list(pages.faults(shown(name, paper))) == []


@pytest.mark.parametrize("seed", [9, 18])  # both had nearly empty pages, the second 19 of them
def test_nor_in_beds_with_many_pieces_and_own_boards(seed: int) -> None:
    tables, asked = pages.bed(seed)
    assert list(pages.faults(pages.seen(sheet_source(Plan(from_raw(tables)), **asked)))) == []


BAD = {
    "empty: ink ends at 0.09 of page 1": "#page-head([A], [b])\n#pagebreak()\n== B\n#v(500pt) c",
    "empty: ink ends at 0.06 of page 2 (a last one)": "#page-head([A], [b])\n#v(500pt) c\n#pagebreak()\n d",
    "over: right of page 1": "#page-head([A], [b])\n#v(500pt)\n#box(width: 560pt, height: 4pt, fill: black)",
    "alone: a heading at the foot of page 1": "#page-head([A], [b])\n#v(628pt)\n#block(sticky: false)[\n== B\n]",
    "alone: nothing but a lead under a heading of page 1": "#page-head([A], [b])\n#v(350pt)\n= B\nb\n#pagebreak()\nc",
    "alone: a row on page 2 of a table": "#page-head([A], [b])\n#table(table.header[a], ..range(39).map(str))",
    "boxes: 3 on page 1": "#page-head([A], [b])\n#v(400pt)\n#stopped[a]\n#stopped[b]\n#stopped[c]",
    "type: 7.0 pt in a drawing on page 1": "#page-head([A], [b])\n#figure-of((svg: \"<svg "
    "xmlns='http://www.w3.org/2000/svg' viewBox='0 0 100 900'><text y='800' font-size='10'>a</text></svg>\", "
    "alt: \"a\", width: 70))",
    "pages: 19": "#page-head([A], [b])\n#v(500pt) c\n#pagebreak()\n" * 18 + "#page-head([A], [b])",
}  # fmt: skip


@pytest.mark.parametrize("told", BAD)
def test_what_is_held_against_a_page_is_seen_on_one(told: str) -> None:
    made = typeset.look([]) + '#show: sheet.with(title: "t", paper: "us-letter")\n'
    assert told in list(pages.faults(pages.seen(made + BAD[told])))


def test_no_type_is_too_small() -> None:
    sizes = [float(size) for path in (BOOKLET.parent / "look.typ", *BOOKLET.glob("*.typ"))
             for size in re.findall(r"text\(size: ([\d.]+)pt", path.read_text(encoding="utf-8"))]  # fmt: skip
    assert len(sizes) > 20 and min(sizes) >= 9.5
    drawn = [mark["type"] for mark in shown("demo").marks if mark["kind"] == "drawing" and mark["type"]]
    assert len(drawn) > 30 and min(drawn) >= pages.LEAST_DRAWN


def test_every_fraction_is_set_and_holds_together() -> None:
    data = "".join(re.findall(r'json\(bytes\("(.*?)"\)\)\)', source("demo")))
    assert not re.search(r"\d/\d", data)
    assert not re.search(r"\d \d+\N{FRACTION SLASH}", data)
    assert not re.search(r"\d (?:in|ft|lb)\b(?! )", re.sub(r"<svg.*?</svg>", "", data))


@pytest.mark.parametrize("name", ["demo", "king", "metric"])
def test_every_promised_figure_can_be_read_off_the_pdf(name: str) -> None:
    made, text, w = plan(name), words(name), writer(plan(name).options.build.units)
    build = made.build
    wanted = [w.mark(part.length) for part in build.parts] + [w.mark(mark) for mark in build.slats.marks]
    wanted += [w.mark(leg.near_edge) for leg in build.legs]
    wanted += [w.mark(x) for group in made.drilling.schedule for hole in group.holes for x in (hole.u, hole.v)]
    wanted += [w.mark(board.offcut) for board in made.cutting.sawn.boards if board.offcut > 4]
    wanted += [w.length(x) for x in (build.heights.rail_top, build.heights.slat_top, build.slats.gap)]
    wanted += [made.cutting.money.write(made.cutting.cost)]
    wanted += [f"{made.finishing.days[0]:.1f} to", "Cut the pieces", "Mark and bore the holes"]
    assert not sorted({value for value in wanted if value not in text})


def test_every_page_names_the_bed() -> None:
    for number, text in enumerate(texts("demo"), 1):
        assert "Spare-room twin bed" in text and "mattress 38 x 75 in" in text and "outside 41 1/2 x 78 3/4 in" in text
        assert re.search(rf"version [0-9a-f]{{8}}\s*{number} of {len(texts('demo'))}", text)


@pytest.mark.parametrize("name", ["demo", "king", "runners", "metric"])
def test_every_caution_stands_on_it(name: str) -> None:
    text = "".join(words(name).split())
    for finding in plan(name).findings:
        if finding.severity != "note":
            assert "".join(plain(finding.what).split()) in text


def test_the_limits_say_at_what_weight() -> None:
    """The sentence above them speaks of other weights."""
    assert "how far, at 200 lb each" in words("demo") and "how far, at 91 kg each" in words("metric")


def test_what_can_hurt_is_said_to_everyone() -> None:
    for told in ("eye protection", "Rags", "calculated, not tested", "clamp", "Lift the frame with two people"):
        assert told.lower() in words("demo").lower()


def test_a_stop_is_said_on_the_cover() -> None:
    wide = Plan(change(plan("demo").options, {"slats.gap": "4 in", "mattress.gap_limit": "2 in"}))
    (leaf,) = cover.leaves(Book(plan=wide))
    assert [stop["severity"] for stop in leaf.data["stops"]] == ["stop"] * len(leaf.data["stops"]) != []  # type: ignore


@pytest.mark.parametrize(("title", "times"), [("A long title " * 4, 1), ("A short one", 2)])
def test_a_cover_with_much_to_say_stays_one_page(title: str, times: int) -> None:
    (leaf,) = covers()
    many = {**leaf.data, "cautions": list(leaf.data["cautions"]) * times, "title": title}  # type: ignore[call-overload]
    assert len(pages.seen(typeset.source([Leaf("cover", many)], title="t", version="1")).pages) == 1


def test_short_pieces_that_take_the_same_bits_stand_together() -> None:
    """Blocks on a post differ by their marks alone: the bits are told once, and no mark is lost."""
    book = Book(plan=Plan(read_build((pages.GALLERY / "queen-corner-posts.toml").read_text(encoding="utf-8"))))
    (leaf,) = holes.leaves(book)
    (blocks,) = [block for block in leaf.data["pieces"] if block["which"] == "8 corner blocks"]  # type: ignore[attr-defined]
    assert len(blocks["sets"]) == 2
    assert sum(len(one["boxes"]) for piece in blocks["kin"] for one in piece["sets"]) == 16
    for piece in blocks["kin"]:
        joints = [one["for"].split(", ")[1] for one in piece["sets"]]
        assert joints == [one["for"] for one in blocks["sets"]]
        assert all(len(one["rows"]) in (2, 3) for one in piece["sets"])


def test_the_demos_hole_tables_agree_with_a_tape_and_a_pencil() -> None:
    """Side rails by hand: cleat 2 5/8 from the rail's end, its screws 3/4 in and 9 apart, half a cleat under slats that
    lie 1 in under the top; corner screws into the middle of an end rail; leg bolts 1 in inside a 3 1/2 in leg that
    stands 4 1/2 in."""
    (leaf,) = holes.leaves(Book(plan=plan("demo")))
    rails, *_ = leaf.data["pieces"]  # type: ignore[misc]
    assert rails["which"] == "Side rail left, right"
    cleat, corner, leg = rails["sets"]
    assert [row[0][0] for row in cleat["rows"]] == [
        "3 3/8", "12 3/8", "21 3/8", "30 3/8", "39 3/8", "48 3/8", "57 3/8", "66 3/8", "75 3/8",
    ]  # fmt: skip
    assert {row[1][0] for row in cleat["rows"]} == {"2 1/2"}
    assert (cleat["bit"], cleat["deep"]) == ("1/8 in", "1 1/16 in deep")
    assert [row[0][0] for row in corner["rows"]] == ["3/4"] * 3 + ["78"] * 3
    assert [row[1][0] for row in corner["rows"]] == ["1 1/4", "2 3/4", "4 1/4"] * 2
    assert [row[0][0] for row in leg["rows"]][:2] == ["5 1/2", "7"] and leg["boxes"] == ["left", "right"]


@pytest.mark.parametrize("name", ["demo", "king", "runners"])
def test_every_hole_stands_in_a_table_and_every_piece_is_named(name: str) -> None:
    made, w = plan(name), writer("in")
    pairs = holes.alike(made.drilling.schedule, w)
    told = {piece for pair in pairs for piece in pair.pieces}
    assert told == {piece for group in made.drilling.schedule for piece in group.pieces}
    for pair in pairs:
        data = holes._piece(Book(plan=made), pair)
        rows = {(row[0][0], row[1][0]) for one in data["sets"] for row in one["rows"]}  # type: ignore[attr-defined]
        for group in (pair.group, pair.mirror):
            if group is not None:
                assert {(w.mark(hole.u), w.mark(hole.v)) for hole in group.holes} == rows


@pytest.mark.parametrize(("least", "wide"), [(0.0, False), (300.0, True)])
def test_a_face_with_many_rows_of_marks_is_not_drawn_too_small_to_read(least: float, wide: bool) -> None:
    """Thirty marks on a yard of board, close in pairs: by its height alone the drawing would be a stamp."""
    marks = [Fraction(12 * i + 7 * (i % 2), 10) for i in range(30)]
    shapes = [Rect(0, 0, 36, 3, "wood"), Running((Fraction(0), Fraction(3)), tuple(marks), ("11 11/16",) * 30, 14)]
    scene = Scene(tuple(shapes), 10, "a rail", style=PAPER)
    x0, _, x1, _ = extent(holes._wide_enough(scene, 500, 56, least))
    assert (x1 - x0 > 300) == wide


def test_rails_that_differ_have_a_table_each() -> None:
    left, right = (g for g in plan("demo").drilling.schedule if g.part == "side_rail")
    moved = replace(right, holes=(replace(right.holes[0], v=right.holes[0].v + 1), *right.holes[1:]))
    assert [pair.pieces for pair in holes.alike((left, right), writer("in"))] == [("side rail left", "side rail right")]
    apart = [("side rail left",), ("side rail right",)]
    assert [pair.pieces for pair in holes.alike((left, moved), writer("in"))] == apart


def test_the_saw_sheet_agrees_with_adding_up_by_hand() -> None:
    """A leg of 13 3/4 in six times with 1/8 in between; slats of 38 1/4 in; what an 8 ft board less 1/4 in leaves."""
    (leaf,) = saw.leaves(Book(plan=plan("demo"), both=True))
    marks = {board["section"]: [mark[0] for mark in board["marks"]] for board in leaf.data["boards"]}  # type: ignore
    assert marks["4x4"] == ["13 3/4", "27 5/8", "41 1/2", "55 3/8", "69 1/4", "83 1/8"]
    assert marks["2x2"] == ["73 1/2"] and marks["1x4"] == ["38 1/4", "76 5/8"]
    assert [stop["count"] for stop in leaf.data["stops"]] == [2, 2, 2, 14, 6]  # type: ignore[attr-defined]
    assert leaf.data["boards"][0]["marks"][0] == ["78 3/4", "2000 mm"]  # type: ignore[index]


def test_marks_that_a_board_shows_are_told_in_the_other_system_alone() -> None:
    (leaf,) = saw.leaves(Book(plan=plan("demo"), both=True))
    legs = next(board for board in leaf.data["boards"] if board["section"] == "4x4")  # type: ignore[attr-defined]
    assert legs["also"] == ["349", "702", "1054", "1407", "1759", "2111"]
    (alone,) = saw.leaves(Book(plan=plan("demo")))
    assert not any(board["also"] for board in alone.data["boards"])  # type: ignore[attr-defined]


@pytest.mark.parametrize("name", ["demo", "king", "runners"])
def test_the_joints_total_what_is_driven(name: str) -> None:
    made = plan(name)
    rows = [row for leaf in joints.leaves(Book(plan=made)) for row in leaf.data["rows"]]  # type: ignore[attr-defined]
    assert sum(int(row["all"]) for row in rows) == sum(len(job.spots) for job in made.drilling.jobs)
    centre = sum(len(job.spots) for job in made.drilling.jobs if job.joint.kind == "slat_line")
    assert sum(int(row["all"]) for row in rows if row["joint"] == "slat to centre line") == centre


def test_the_store_page_has_a_box_a_board_and_one_total() -> None:
    (leaf,) = store.leaves(Book(plan=plan("demo")))
    assert [board["count"] for board in leaf.data["boards"]] == [3, 2, 5, 1]  # type: ignore[attr-defined]
    assert leaf.data["total"] == "$89.50" and leaf.data["unpriced"] == "without the 10 lines that have no price"


def test_a_bed_without_lumber_that_fits_still_has_its_pages() -> None:
    none = {f"lumber.{s}.stock": [{"length": "1 ft"}] for s in ("2x6", "2x2", "1x4", "4x4")}
    pages = sheet_pages(Book(plan=Plan(change(plan("demo").options, none))))
    assert [page.kind for page in pages if isinstance(page, Leaf)][:3] == ["cover", "store", "parts"]


def test_what_the_video_has_wrong_comes_right_after_the_cover() -> None:
    found = compared("full")
    (leaf,) = video.leaves(Book(plan=found.adaptation.yours, found=found))
    assert [slip["quote"] for slip in leaf.data["slips"]] == [slip.said.quote for slip in found.slips]  # type: ignore
    assert len(leaf.data["outdated"]) == len(found.outdated) > 0  # type: ignore[arg-type]
    assert KINDS[:2] == (cover, video)


def test_steps_name_the_time_of_the_video() -> None:
    found = compared("full")
    (leaf,) = steps.leaves(Book(plan=found.adaptation.yours, found=found))
    times = [step["video"] for step in leaf.data["steps"]]  # type: ignore[attr-defined]
    assert sum(bool(re.fullmatch(r"\d:\d\d", time)) for time in times) >= 3


def test_workings_are_an_appendix() -> None:
    sheet, whole = source("demo"), source("demo", workings=True)
    assert whole.startswith(sheet[:2000]) and "NDS 12.1.5.3" not in sheet
    added = whole[len(sheet) :]
    assert added.index("Workings: the lumber") < added.index("NDS 12.1.5.3") < added.index('"Noted"')


def test_a_checker_of_pdf_ua_finds_nothing(tmp_path: Path) -> None:
    """Sheet and appendix, by the checks of pdfua; no conformity is claimed."""
    pdfua = pytest.importorskip("pdfua")
    path = tmp_path / "sheet.pdf"
    path.write_bytes(compile_pdf(source("demo", workings=True)))
    assert [(found.rule_id, found.message) for found in pdfua.validate(str(path)).findings] == []


def test_the_wall_format_is_larger_but_for_what_is_full_size() -> None:
    made = PdfReader(io.BytesIO(compile_pdf(source("demo", "a4", large=True))))
    assert float(made.pages[0].mediabox.width) == pytest.approx(841.89, abs=0.1)
    assert "text(size: 14.142pt" in source("demo", "a4", large=True)
    assert "* 25.4mm" in source("demo", "a4", large=True)


def test_both_systems_beside_each_other() -> None:
    book = Book(plan=plan("demo"), both=True)
    text = "".join(dumped(leaf.data) for kind in (parts, deck) for leaf in kind.leaves(book))
    for pair in ('"78 3/4", "2000 mm"', '"13 3/4", "349 mm"', '"5 9/16", "141 mm"'):
        assert pair in plain(text)
    metric = next(store.leaves(Book(plan=plan("metric"), both=True)))
    assert compile_pdf(typeset.source([metric], title="t", version="1")).startswith(b"%PDF")


def test_both_systems_stand_in_sentences_too() -> None:
    book = Book(plan=plan("demo"), both=True)
    kinds = (cover, store, parts, deck, joints, steps, saw)
    text = plain("".join(dumped(leaf.data) for kind in kinds for leaf in kind.leaves(book)))
    for told in (
        "965 x 1905 mm",
        "rail 17 in (432 mm) high",
        "1 1/2 x 5 1/2 in (38 x 140 mm)",
        "1 1/2 in (38 mm) from zero 1",
        "legs at 4 1/2, 37 5/8, 70 3/4 in (114, 956, 1797 mm)",
        "16 in (406 mm)",
        "within 4 in (102 mm)",
        "89 in (2261 mm)",
        "1/8 in (3.2 mm) for each cut",
        "3/32 in (2.4 mm)",
        "in mm: 1 1/2 = 38",
        "Millimetres stand beside inches",
    ):
        assert told in text, told
    foot = sheet_source(plan("demo"), both=True)
    assert all(outer.replace(" ", "\N{NO-BREAK SPACE}") in foot for outer in ("\\n965 × 1905 mm", "\\n1054 × 2000 mm"))


def test_posts_in_the_mattress_s_corners_ask_how_round_it_is() -> None:
    told = {}
    for name in ("queen-corner-posts", "full-box-spring"):
        made = Plan(read_build((pages.GALLERY / f"{name}.toml").read_text(encoding="utf-8")))
        told[name] = [(row["what"], row["here"]) for row in next(store.leaves(Book(plan=made))).data["mattress"]]  # type: ignore
    assert ("corners' radius", "3 7/8 in or more") in told["queen-corner-posts"]
    assert "corners' radius" not in dict(told["full-box-spring"])
