"""Templates are full size, prove it, and carry every mark of the story stick."""

from __future__ import annotations

import shutil
import subprocess
from fractions import Fraction
from pathlib import Path

import pytest

from tests.drilling.builds import OPEN, RUNNERS, demo
from tutorial_lib.design.build_file import change
from tutorial_lib.drawing.layout import extent, overlapping_words
from tutorial_lib.measures import inch, mm
from tutorial_lib.plan import Plan
from tutorial_lib.publishing import templates
from tutorial_lib.publishing.blocks import Picture, pictures
from tutorial_lib.publishing.typeset import TEXT_WIDTH

PLANS = {"demo": {}, "runners": RUNNERS | OPEN, "metric": {"build.units": "mm"}}


def plan(name: str) -> Plan:
    return Plan(change(demo(), PLANS[name]) if PLANS[name] else demo())


@pytest.mark.parametrize("name", PLANS)
def test_every_drawing_is_at_full_size_and_fits_both_papers(name: str) -> None:
    for page in templates.template_pages(plan(name)):
        for picture in pictures(page.blocks):
            x0, _, x1, _ = extent(picture.scene)
            assert picture.scene.scale == 72.0 and picture.width is None
            assert x1 - x0 + 2 * picture.scene.margin <= min(TEXT_WIDTH.values()), picture.scene.alt


@pytest.mark.parametrize("name", PLANS)
def test_every_page_has_a_bar_and_no_text_lies_on_text(name: str) -> None:
    for page in templates.template_pages(plan(name)):
        bars = [b for b in page.blocks if isinstance(b, Picture) and "Check bars" in b.scene.alt]
        assert bars
        for picture in pictures(page.blocks):
            assert overlapping_words(picture.scene) == []


def test_rail_end_leg_top_and_slat_end_are_among_them() -> None:
    wanted = {(group.part, face) for group, face in templates.wanted(plan("demo"))}
    assert {("side_rail", "outside face"), ("leg", "outside face"), ("slat", "top"), ("end_rail", "left end")} <= wanted


def test_the_stick_carries_every_hole_and_every_slat_it_meets() -> None:
    made = plan("demo")
    cleat = next(g for g in made.drilling.schedule if "cleat left" in g.pieces)
    marks = templates.stick_marks(made, cleat)
    assert [at for at, _, hole in marks if hole] == [inch("3/4") + 9 * i for i in range(9)]
    edges = {what: at for at, what, hole in marks if not hole}
    assert "slat 1" not in edges and edges["slat 2"] == inch("3 1/2") + Fraction(107, 52) - inch("1 1/8")
    assert len(edges) == 13


def test_strips_cover_the_stick_without_overlap() -> None:
    made = plan("demo")
    cleat = next(g for g in made.drilling.schedule if "cleat left" in g.pieces)
    found = templates.strips(made, cleat)
    assert len(found) == 12
    texts = [text for scene in found for text in scene.texts()]
    assert sum("hole" in text for text in texts) == 9 and sum(text.startswith("slat") for text in texts) == 13


def test_mirror_alike_ends_say_so() -> None:
    made = plan("demo")
    for group, face in templates.wanted(made):
        if group.part == "slat":
            assert templates.mirror_alike(group, face)


@pytest.mark.skipif(shutil.which("pdftoppm") is None, reason="needs poppler's pdftoppm to measure the page")
@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_the_printed_bars_measure_what_they_say(paper: str, tmp_path: Path) -> None:
    """At 144 dots an inch the longest black run of the bars is 4 in and 100 mm, to a dot and the line's width."""
    pdf = tmp_path / "templates.pdf"
    pdf.write_bytes(templates.templates_pdf(plan("demo"), paper))  # type: ignore[arg-type]
    subprocess.run(
        ["pdftoppm", "-r", "144", "-gray", "-f", "4", "-l", "4", str(pdf), str(tmp_path / "page")], check=True
    )
    page = next(tmp_path.glob("page*.pgm")).read_bytes()
    header, size, top, data = page.split(b"\n", 3)
    width = int(size.split()[0])
    rows = [data[i : i + width] for i in range(0, len(data), width)]
    runs = {_longest_dark(row) for row in rows}
    for wanted in (4 * 144, round(float(mm(100)) * 144)):
        assert any(abs(run - wanted) <= 4 for run in runs), (wanted, sorted(runs)[-8:])
    assert header == b"P5" and top == b"255"


def _longest_dark(row: bytes) -> int:
    dark = "".join("x" if value < 128 else " " for value in row)
    return max(map(len, dark.split()), default=0)
