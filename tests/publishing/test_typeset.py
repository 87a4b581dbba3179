"""typst source and the PDF made of it: any words survive, it is tagged, and the same bytes each time."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest

from tutorial_lib.drawing.lettering import typographic
from tutorial_lib.drawing.scene import Rect, Scene
from tutorial_lib.findings import Finding
from tutorial_lib.publishing import blocks as b
from tutorial_lib.publishing import typeset
from tutorial_lib.publishing.typeset import compile_pdf, source

typst = pytest.importorskip("typst")
AWKWARD = 'hash # star * under_score $x$ "1/2" \\ back [b] @at <l> // c'
PAGES = [
    b.Page(
        "First",
        (
            b.Text(AWKWARD),
            b.Items(("one", AWKWARD), "number"),
            b.Items(("tick",), "box"),
            b.Table((b.Column("part"), b.Column("length", "in", "right")), ((AWKWARD, "38 1/4"),), "Cut list"),
            b.Picture(Scene((Rect(0, 0, 4, 2),), 10, AWKWARD), caption=AWKWARD),
            b.Caution(AWKWARD),
            b.Findings((Finding(rule="r", severity="stop", what="Too wide."),)),
            b.Findings(()),
            b.Working("fb", "M/S", "1/2", "5", "NDS"),
            b.Columns(((b.Text("left"),), (b.Text("right"),))),
        ),
    ),
    b.Page("Second", (b.Text("two"),)),
]


def made(paper: str = "letter") -> str:
    return source(PAGES, title="A bed", version="abcd1234", paper=paper)  # type: ignore[arg-type]


def words(pdf: bytes, folder: Path) -> str:
    if shutil.which("pdftotext") is None:
        pytest.skip("pdftotext (poppler-utils) is not on this machine")
    path = folder / "sheet.pdf"
    path.write_bytes(pdf)
    return subprocess.run(["pdftotext", "-layout", path, "-"], check=True, capture_output=True, text=True).stdout


def test_awkward_words_arrive_as_they_are(tmp_path: Path) -> None:
    assert "".join(typographic(AWKWARD).split()) in "".join(words(compile_pdf(made()), tmp_path).split())


def test_every_page_says_version_and_number(tmp_path: Path) -> None:
    pages = words(compile_pdf(made()), tmp_path).split("\f")[:-1]
    assert len(pages) == 2
    for number, page in enumerate(pages, 1):
        assert "version abcd1234" in page
        assert f"{number} of 2" in page


def test_the_same_source_is_the_same_bytes_and_tagged() -> None:
    pdf = compile_pdf(made())
    assert pdf == compile_pdf(made())
    assert b"StructTreeRoot" in pdf or b"pdfuaid" in pdf


def test_a_skipped_heading_level_is_closed() -> None:
    page = b.Page("First", (b.Heading("Deep", 3), b.Columns(((b.Heading("Deeper", 3),),))))
    assert compile_pdf(source([page], title="A", version="1"))


def test_the_typesetter_forgets_long_documents(monkeypatch: pytest.MonkeyPatch) -> None:
    # it keeps 170 MB of a booklet until ten more documents did not use them: 1.8 GB for the booklets of a kit
    asked: list[bytes] = []

    def noted(text: bytes, **options: Any) -> bytes:
        asked.append(text)
        return b""

    monkeypatch.setattr(typst, "compile", noted)
    monkeypatch.setattr(typst, "compile_with_warnings", lambda text, **options: (noted(text), []))
    monkeypatch.setattr(typeset, "_kept", typeset._Kept())
    booklet = "x" * 600_000
    for number in range(5):
        compile_pdf(f"{booklet}{number}")
    assert [len(text) for text in asked] == [600_001] * 2 + [1] * 11 + [600_001] * 2 + [1] * 11 + [600_001]


def test_leaves_that_wait_for_each_other_are_settled_though_typst_gives_up() -> None:
    """Each of ten begins where the one before ends, and is the higher the lower it begins."""
    leaf = '#placed("n{}", (room, begin, below) => block(height: 20pt + begin / 40, above: 0pt, below: 0pt)[{}])\n'
    page = "#set page(height: 800pt, margin: 40pt)\n"
    asked = typeset.look([]) + page + "".join(leaf.format(n, n) for n in range(10))
    alone = typst.compile_with_warnings(asked.encode(), format="svg", **typeset.FACES)
    assert typeset.unsettled(alone[1])
    text, made = typeset.settled(asked, format="svg")
    again = typst.compile_with_warnings(text.encode(), format="svg", **typeset.FACES)
    assert not typeset.unsettled(again[1]) and again[0] == made != alone[0]
