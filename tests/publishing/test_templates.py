"""Templates are full size, prove it, hold every hole where it is seen on the piece, and the sticks carry every mark."""

from __future__ import annotations

import io
import shutil
import subprocess
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest
from pypdf import PdfReader
from pypdf.generic import ContentStream

from tests.drawing.crowded import overlapping_words
from tests.drilling.builds import OPEN, RUNNERS, demo
from tutorial_lib.design.build_file import change
from tutorial_lib.drawing import templates as draw
from tutorial_lib.drawing.layout import extent
from tutorial_lib.drawing.sticks import sticks, strips
from tutorial_lib.drilling.schedule import Hole
from tutorial_lib.measures import inch, mm
from tutorial_lib.plan import Plan
from tutorial_lib.publishing import templates
from tutorial_lib.publishing.blocks import Block, Caution, Columns, Heading, PageBreak, Text, pictures
from tutorial_lib.publishing.paging import PAGE, gathered, height, packed
from tutorial_lib.publishing.typeset import compile_pdf, line_width

PLANS = {
    "demo": {},
    "runners": RUNNERS | OPEN,
    "metric": {"build.units": "mm"},
    "king": OPEN | {"mattress.size": "king", "mattress.width": None, "mattress.length": None, "centre.lines": 2},
}


@cache
def plan(name: str) -> Plan:
    return Plan(change(demo(), PLANS[name]) if PLANS[name] else demo())


@pytest.mark.parametrize("name", PLANS)
def test_every_drawing_is_at_full_size_and_fits_both_papers(name: str) -> None:
    for page in templates.template_pages(plan(name)):
        for block in page.blocks:
            line = min(line_width("letter"), line_width("a4"))
            wide = (line - 18) / 2 if isinstance(block, Columns) else line
            for picture in pictures([block]):
                x0, _, x1, _ = extent(picture.scene)
                assert picture.scene.scale == 72.0 and picture.width is None
                assert x1 - x0 + 2 * picture.scene.margin <= wide, picture.scene.alt


def papers(blocks: tuple[Block, ...]) -> Iterator[list[Block]]:
    """The blocks of one sheet of paper after another."""
    sheet: list[Block] = []
    for block in (*blocks, PageBreak()):
        if isinstance(block, PageBreak):
            yield sheet
            sheet = []
        else:
            sheet.append(block)


@pytest.mark.parametrize("name", PLANS)
def test_no_text_lies_on_text(name: str) -> None:
    for page in templates.template_pages(plan(name)):
        for picture in pictures(page.blocks):
            assert overlapping_words(picture.scene) == []


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", PLANS)
def test_what_belongs_on_one_paper_is_printed_on_it(name: str, paper: str) -> None:
    """As many printed pages as papers were reckoned with: nothing runs over."""
    made = templates.template_pages(plan(name))
    reckoned = sum(len(list(papers(page.blocks))) for page in made)
    assert len(reader(name, paper).pages) == reckoned


def pdf_of(name: str, paper: str) -> bytes:
    return compile_pdf(templates.templates_source(plan(name), paper))  # type: ignore[arg-type]


@cache
def reader(name: str, paper: str = "letter") -> PdfReader:
    return PdfReader(io.BytesIO(pdf_of(name, paper)))


XY = tuple[float, float]
PIECES = (b"l", b"c", b"v", b"y")  # of a path: a line, and curves of three spellings (ISO 32000-1, 8.5.2)


def drawn(name: str) -> list[tuple[list[XY], list[tuple[XY, float]]]]:
    """Outlines and the circles after each, in points of the page, in the order of the PDF."""
    found: list[tuple[list[XY], list[tuple[XY, float]]]] = []
    for page in reader(name).pages:
        for path, curves in paths(ContentStream(page.get_contents(), None)):
            if curves >= 4:
                xs, ys = [p[0] for p in path], [p[1] for p in path]
                centre = ((max(xs) + min(xs)) / 2, (max(ys) + min(ys)) / 2)
                found[-1][1].append((centre, (max(xs) - min(xs)) / 2))
            elif curves == 0 and len(path) in (4, 5) and path[1][0] == path[2][0] < path[0][0] == path[3][0]:
                found.append((path, []))
    return found


def paths(content: ContentStream) -> Iterator[tuple[list[XY], int]]:
    """Every path of a page: its points on the page, and how many of its pieces are curves."""
    stack, matrix = [], (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
    path: list[XY] = []
    curves = 0
    for operands, name in content.operations:
        numbers = [float(x) for x in operands] if name in (b"cm", b"m", *PIECES) else []
        if name == b"q":
            stack.append(matrix)
        elif name == b"Q":
            matrix = stack.pop()
        elif name == b"cm":
            matrix = times(numbers, matrix)
        elif name == b"m":
            path, curves = [on(matrix, numbers)], 0
        elif name in PIECES:
            path.append(on(matrix, numbers[-2:]))
            curves += name != b"l"
        elif name == b"S" and path:
            yield path, curves
            path = []


def times(a: list[float], m: tuple[float, ...]) -> tuple[float, float, float, float, float, float]:
    return (
        a[0] * m[0] + a[1] * m[2], a[0] * m[1] + a[1] * m[3], a[2] * m[0] + a[3] * m[2], a[2] * m[1] + a[3] * m[3],
        a[4] * m[0] + a[5] * m[2] + m[4], a[4] * m[1] + a[5] * m[3] + m[5],
    )  # fmt: skip


def on(m: tuple[float, ...], p: list[float]) -> XY:
    return (round(p[0] * m[0] + p[1] * m[2] + m[4], 3), round(p[0] * m[1] + p[1] * m[3] + m[5], 3))


def seen(made: Plan, end: draw.End, hole: Hole) -> tuple[Fraction, Fraction]:
    """Where a person who looks at the face sees a hole, from the face's lower left corner, the end on the left [in].

    Worked out in the bed's space, without the schedule's distances: to the right away from the end, up by the rule of
    the right hand.
    """
    box, piece = end.group.piece.box, end.group.piece
    along = next(i for i in (0, 1, 2) if i != hole.axis) if hole.end_face else piece.axis
    away = -1 if along == 2 else 1
    if hole.end_face and along == 1 and box.centre[1] > made.build.outside[0] / 2:
        away = -1
    right = [0, 0, 0]
    right[along] = -away if end.far else away
    n = [0, 0, 0]
    n[hole.axis] = -hole.into
    up = [n[1] * right[2] - n[2] * right[1], n[2] * right[0] - n[0] * right[2], n[0] * right[1] - n[1] * right[0]]
    return tuple(  # type: ignore[return-value]
        hole.at[i] - box.lo[i] if way[i] > 0 else box.hi[i] - hole.at[i]
        for way in (right, up) for i in (0, 1, 2) if way[i]
    )  # fmt: skip


def in_order(made: Plan, ends: list[draw.End]) -> list[draw.End]:
    """The ends as they come on the pages, where each stands on the first that has room."""
    left = {id(end): draw.template(made.build, end) for end in ends}
    found = []
    for picture in pictures(templates.template_pages(made)[0].blocks):
        end = next(end for end in ends if left.get(id(end)) == picture.scene)
        del left[id(end)]
        found.append(end)
    assert not left
    return found


@pytest.mark.parametrize("name", PLANS)
def test_every_hole_is_printed_where_it_is_seen_on_the_piece(name: str) -> None:
    made = plan(name)
    ends = list(draw.ends(made))
    printed = drawn(name)
    assert len(printed) == len(ends)
    for end, (outline, circles) in zip(in_order(made, ends), printed, strict=True):
        left, low = min(x for x, _ in outline), min(y for _, y in outline)
        assert max(x for x, _ in outline) - left == pytest.approx(float(end.cut) * 72, abs=0.02)
        wanted = sorted((*map(float, seen(made, end, hole)), float(hole.diameter) / 2) for hole in end.holes)
        got = sorted(((x - left) / 72, (y - low) / 72, radius / 72) for (x, y), radius in circles)
        assert len(got) == len(wanted)
        for a, b in zip(got, wanted, strict=True):
            assert a == pytest.approx(b, abs=0.001), (end.group.name, end.face, end.name)


@pytest.mark.parametrize("name", PLANS)
def test_a_template_holds_every_hole_within_its_length(name: str) -> None:
    for end in draw.ends(plan(name)):
        within = {hole for hole in end.group.on(end.face) if end.along(hole) <= end.cut}
        assert within == set(end.holes)
        long, _ = draw.face_size(end.group, end.face)
        last = max(map(end.along, end.holes))
        following = min((end.along(h) for h in end.group.on(end.face) if end.along(h) > end.cut), default=long)
        room = min(inch("3/4"), (following - last) / 2)
        assert end.cut == long or end.cut - last >= room > 0


def test_a_joints_holes_are_on_one_paper_or_on_none() -> None:
    end = next(end for end in draw.ends(plan("demo")) if end.group.part == "side_rail")
    assert {hole.table for hole in end.holes} == {"corner"}  # the leg's bolts at 5 1/2 and 7 in stand on the stick
    assert end.cut == 2


def test_the_other_end_is_told_or_has_its_own() -> None:
    for name in PLANS:
        for end in draw.ends(plan(name)):
            far = None if end.far else draw.end_of(end.group, end.face, far=True)
            told = templates._other_end(end)
            if far is not None and far.holes and not end.holes[0].end_face:
                own = any(other.far and other.face == end.face and other.group is end.group
                          for other in draw.ends(plan(name)))  # fmt: skip
                assert ("face down" in told) != own


def test_rail_end_leg_top_and_slat_end_are_among_them() -> None:
    wanted = {(end.group.part, end.face) for end in draw.ends(plan("demo"))}
    assert {("side_rail", "outside face"), ("leg", "outside face"), ("slat", "top"), ("end_rail", "left end")} <= wanted


@pytest.mark.parametrize("name", PLANS)
def test_every_stick_is_printed_whole_and_says_what_it_is_for(name: str) -> None:
    made = plan(name)
    (page,) = (page for page in templates.template_pages(made) if page.title.startswith("Story sticks"))
    found = sticks(made)
    assert all(any(group in stick.groups for stick in found)
               for group in made.drilling.schedule if group.method == "story stick")  # fmt: skip
    heads = [block.text for block in page.blocks if isinstance(block, Heading)]
    assert [head.split(":")[0] for head in heads] == [f"Stick {stick.number}" for stick in found] != []
    assert [p.scene for p in pictures(page.blocks)] == [scene for stick in found for scene in strips(stick)]
    told = " ".join(block.text for block in page.blocks if isinstance(block, Text))
    assert all(f"For {stick.which}, from the {stick.datum}." in told for stick in found)
    assert "No mark is nearer than" in told


@pytest.mark.parametrize("name", PLANS)
def test_a_piece_whose_holes_are_all_on_templates_gets_no_stick(name: str) -> None:
    made, spared = plan(name), 0
    marked = [group for stick in sticks(made) for group in stick.groups]
    for group in made.drilling.schedule:
        on_paper = {hole for end in draw.ends(made) if end.group is group for hole in draw.served(end)}
        if group.method != "story stick" and all(hole.end_face or hole in on_paper for hole in group.holes):
            assert group not in marked
            spared += 1
    assert spared


@pytest.mark.parametrize("name", PLANS)
def test_strips_carry_every_mark_once_with_its_words(name: str) -> None:
    for stick in sticks(plan(name)):
        shown = [words for scene in strips(stick) for words in draw_words(scene) if ": " in words]
        assert len(shown) == len(stick.marks)


def draw_words(scene: draw.Scene) -> list[str]:
    from tutorial_lib.drawing.ink import Words
    from tutorial_lib.drawing.layout import lay

    return [ink.text for ink in lay(scene)[0] if isinstance(ink, Words)]


@pytest.mark.skipif(shutil.which("pdftoppm") is None, reason="needs poppler's pdftoppm to measure the page")
@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_the_printed_bars_measure_what_they_say(paper: str, tmp_path: Path) -> None:
    """At 144 dots an inch the longest black runs of the margins are 4 in and 100 mm and the line's width, to a dot, and
    a quarter inch from the paper's edge stays free: few printers reach it."""
    pdf = tmp_path / "templates.pdf"
    pdf.write_bytes(pdf_of("demo", paper))
    subprocess.run(["pdftoppm", "-r", "144", "-gray", str(pdf), str(tmp_path / "page")], check=True)
    pages = sorted(tmp_path.glob("page*.pgm"))
    assert len(pages) == len(reader("demo", paper).pages)
    for page in pages:
        header, size, top, data = page.read_bytes().split(b"\n", 3)
        width = int(size.split()[0])
        rows = [data[i : i + width] for i in range(0, len(data), width)]
        level = {run for row in rows[: 49 * 2] for run in _dark(row)}  # in the upper margin
        upright = {run for x in range(43 * 2) for run in _dark(data[x::width])}  # in the left margin
        line = 1.2 / 72  # [in] half of it goes out at each end
        for wanted in ((4 + line) * 144, float(mm(100) + line) * 144):
            assert any(abs(run - wanted) <= 1.5 for run in level), (wanted, sorted(level)[-8:])
            assert any(abs(run - wanted) <= 1.5 for run in upright), (wanted, sorted(upright)[-8:])
        edge = [*rows[:36], *rows[-36:], *(row[:36] for row in rows), *(row[-36:] for row in rows)]
        assert header == b"P5" and top == b"255" and not any(_dark(row) for row in edge)


def _dark(row: bytes) -> list[int]:
    """Lengths of the dark runs."""
    return [len(run) for run in "".join("x" if value < 128 else " " for value in row).split()]


def test_the_first_paper_holds_no_more_than_is_left_under_its_title(monkeypatch: pytest.MonkeyPatch) -> None:
    """Lines of text in place of the templates: the first sheet has the title, the caution and how to use them."""
    line = (Text("x"),)
    monkeypatch.setattr(templates, "_abreast", lambda _plan: [line] * 200)
    sheets = list(papers(templates.template_pages(plan("demo"))[0].blocks))
    for sheet, over in zip(sheets[:3], (templates.TOP, 0.0, 0.0), strict=True):
        used = over + height([block for block in sheet if not isinstance(block, Caution)])
        assert used <= PAGE < used + height(line)


def test_a_template_stands_on_the_first_page_with_room_for_it() -> None:
    """Two of two thirds of a page, then one of a quarter: it goes below the first, not after the second."""
    high = [[Text("x")] * int(PAGE * share / height([Text("x")])) for share in (2 / 3, 2 / 3, 1 / 4)]
    assert gathered(high) == [*high[0], *high[2], PageBreak(), *high[1]]
    assert packed(high) == [*high[0], PageBreak(), *high[1], *high[2]]
    assert gathered(high, used=PAGE / 2) == [*high[2], PageBreak(), *high[0], PageBreak(), *high[1]]
