"""Blocks as typst source, and source as a tagged PDF (PDF/UA-1) that is the same bytes for the same input."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any, Literal

from tutorial_lib.drawing.layout import extent
from tutorial_lib.drawing.lettering import boxed, typographic
from tutorial_lib.drawing.mpl import FONTS
from tutorial_lib.drawing.scene import PAPER
from tutorial_lib.drawing.svg import svg
from tutorial_lib.facts.figures import write_value
from tutorial_lib.findings import by_severity
from tutorial_lib.publishing.blocks import (
    Block,
    Caution,
    Column,
    Columns,
    Figures,
    Findings,
    Heading,
    Items,
    Note,
    Page,
    PageBreak,
    Picture,
    Table,
    Text,
    Working,
)
from tutorial_lib.publishing.booklet.leaf import Leaf, dumped
from tutorial_lib.records import dataclass

Paper = Literal["letter", "a4"]
HERE = Path(__file__).parent
PAPERS = {"letter": "us-letter", "a4": "a4"}
WALL = {"letter": "us-tabloid", "a4": "a3"}  # paper twice the size
WIDTHS = {"letter": 612.0, "a4": 595.28}  # [pt]
MARGIN = 43.0  # [pt] left and right, as in look.typ
LARGE = {"letter": 792 / 612, "a4": 2**0.5}  # the wall format's widths to those of the sheet
FACES: dict[str, Any] = {"font_paths": [str(FONTS)], "ignore_system_fonts": True}
MOST_TIMES = 4  # that a source is set until all its leaves stand where they take themselves to stand
_BEGUN = re.compile(r"^#let begun = \(.*\)$", re.MULTILINE)
MOST_KEPT = 1_500_000  # [letters] of sources whose parts typst may keep in memory: two booklets
FORGOTTEN_AFTER = 11  # documents set since: typst drops what ten did not use


def line_width(paper: Paper) -> float:
    """The width of a line between the margins [pt]."""
    return WIDTHS[paper] - 2 * MARGIN


def quoted(text: str) -> str:
    """A typst string literal.

    >>> quoted('1/2" hole')
    '"1/2\\\\" hole"'
    """
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
    return f'"{escaped}"'


def set_words(text: str) -> str:
    """The same with its fractions, times signs and units set for paper."""
    return quoted(typographic(text))


def source(
    pages: Sequence[Page | Leaf],
    *,
    title: str,
    version: str,
    size: str = "",
    outside: str = "",
    paper: Paper = "letter",
    large: bool = False,
    bars: bool = False,
) -> str:
    """The pages as typst source: the look, then each page on new paper.

    Args:
        pages: leaves of the booklet, and pages of plain blocks.
        title: what stands at the foot of every page, with the rest of what identifies the bed.
        version: the build's short mark.
        size: the mattress.
        outside: the bed's outside size.
        paper: "letter" or "a4".
        large: for the wall: on 11 x 17 in or A3, everything larger but what is drawn full size.
        bars: with upright bars in the margin that prove the print's height.
    """
    names = {"title": title, "size": size, "outside": outside, "version": version}
    told = ", ".join(f"{name}: {set_words(text)}" for name, text in names.items())
    head = (
        f"#show: sheet.with({told}, paper: {quoted((WALL if large else PAPERS)[paper])}, "
        f"upright: {str(bars).lower()})\n"
    )
    width = line_width(paper) - 0.5
    laid = "".join(_page(page, width) for page in pages)
    made = look(tuple(dict.fromkeys(page.kind for page in pages if isinstance(page, Leaf))))
    return (enlarged(made, LARGE[paper]) if large else made) + head + laid


def look(kinds: Sequence[str]) -> str:
    """The look's typst functions, and those of some kinds of leaves."""
    files = (HERE / "look.typ", *(HERE / "booklet" / f"{kind}.typ" for kind in kinds))
    return "".join(path.read_text(encoding="utf-8") for path in files)


def enlarged(text: str, times: float) -> str:
    """Every length in points of the look's own source made larger."""
    return re.sub(r"(?<![\w.])(-?\d+(?:\.\d+)?)pt\b", lambda found: f"{float(found[1]) * times:.3f}pt", text)


def _page(page: Page | Leaf, width: float) -> str:
    start = "#v(20pt, weak: true)\n" if page.joined else "#pagebreak(weak: true)\n"
    if isinstance(page, Leaf):
        return f"{start}#{page.kind}(json(bytes({quoted(dumped(page.data))})))\n"
    blocks = levelled((Heading(page.title, 1), *page.blocks))
    laid = "".join(f"#{code(block, width)}\n" for block in blocks)
    if page.close:
        laid = f"#first-that-fits(y => [\n#let rows = rows.with(y: y)\n{laid}], 3pt, 2pt, 1.2pt)\n"
    return f"{start}{laid}"


def levelled(blocks: Sequence[Block], above: int = 0) -> list[Block]:
    """The blocks with no heading level skipped, as PDF/UA asks."""
    out: list[Block] = []
    for block in blocks:
        if isinstance(block, Heading):
            above = min(block.level, above + 1)
            out.append(Heading(block.text, above))  # type: ignore[arg-type]
        elif isinstance(block, Columns):
            out.append(Columns(tuple(tuple(levelled(column, above)) for column in block.columns), block.shares))
        else:
            out.append(block)
    return out


def compile_pdf(text: str) -> bytes:
    """The source as a PDF/UA-1 file, boxes for letters the font has not; typst wants titles and alt texts."""
    return bytes(_typst(text, "pdf", pdf_standards=["ua-1"]))


def compile_pages(text: str, form: Literal["png", "svg"], ppi: float = 72.0) -> list[bytes]:
    """The source as one picture a page, a point a pixel; the letters of an SVG are shapes and need no font."""
    made = _typst(text, form, **({"ppi": ppi} if form == "png" else {}))
    return [bytes(page) for page in made] if isinstance(made, list) else [bytes(made)]


def _typst(text: str, form: str, **options: Any) -> Any:
    _kept.count(len(text))
    return settled(boxed(text), format=form, **options)[1]


def settled(text: str, **options: Any) -> tuple[str, Any]:
    """A source that typst needs no more than its five attempts for, and what it makes of it.

    Leaves that ask where they begin are settled one after another. Where that takes more, the source is set again from
    where they were then.
    """
    import typst

    for _ in range(MOST_TIMES):
        set_any: Any = typst.compile_with_warnings  # its overloads want each format apart
        made, warnings = set_any(text.encode(), **FACES, **options)
        if not unsettled(warnings):
            break
        found: list[list[Any]] = json.loads(typst.query(text.encode(), "<begun>", field="value", **FACES))
        begun = "".join(f"{name}: {start}pt, " for name, start in found)
        text = _BEGUN.sub(f"#let begun = ({begun or ':'})", text, count=1)
    return text, made


def unsettled(warnings: Sequence[Any]) -> bool:
    """Whether typst gave up before all stood where it took itself to stand."""
    return any("did not converge" in warning.message for warning in warnings)


@dataclass
class _Kept:
    """What typst keeps of documents set in this process, to be quick with the next: 170 MB of a booklet, and of ten
    booklets. So after long ones it is made to forget, by setting nothing often enough."""

    letters: int = 0

    def count(self, more: int) -> None:
        """Another source of so many letters is about to be set."""
        import typst

        if self.letters and self.letters + more > MOST_KEPT:
            for _ in range(FORGOTTEN_AFTER):
                typst.compile(b" ", format="svg", ignore_system_fonts=True)
            self.letters = 0
        self.letters += more


_kept = _Kept()


def code(block: Block, width: float) -> str:
    """One block as a typst expression (without its #), set on a line of ``width`` points."""
    if isinstance(block, Heading):
        return f"heading(level: {block.level}, {set_words(block.text)})"
    if isinstance(block, Text):
        inner = f"strong({set_words(block.text)})" if block.strong else set_words(block.text)
        return f"par(text({'size: 9.5 * unit, ' if block.small else ''}{inner}))"
    if isinstance(block, Picture):
        return _picture(block, width)
    if isinstance(block, Table):
        return _table(block)
    if isinstance(block, Figures):
        return _figures(block)
    if isinstance(block, Caution):
        return _remark("Caution", block.text)
    if isinstance(block, Note):
        return _remark("Note", block.text)
    if isinstance(block, Findings):
        return _findings(block)
    return _rest(block, width)


def _rest(block: Items | Working | PageBreak | Columns, width: float) -> str:
    if isinstance(block, Items):
        kind = "enum" if block.mark == "number" else "list"
        box = "marker: tick(1, size: 8 * unit), " if block.mark == "box" else ""
        return f"{kind}({box}{''.join(set_words(item) + ', ' for item in block.items)})"
    if isinstance(block, Working):
        return _working(block)
    if isinstance(block, PageBreak):
        return "pagebreak()"
    return _columns(block, width)


def _working(block: Working) -> str:
    parts = [
        f"strong({set_words(block.name)})",
        set_words(f" = {block.formula}"),
        "linebreak()",
        set_words(f"= {block.values} = "),
        f"strong({set_words(block.result)})",
    ]
    if block.source:
        parts += ["linebreak()", f"text(size: 9.5 * unit, {set_words('Source: ' + block.source)})"]
    return f"par({' + '.join(f'[#{part}]' for part in parts)})"


def _columns(block: Columns, width: float) -> str:
    shares = block.shares or (1.0,) * len(block.columns)
    tracks = ", ".join(f"{share:g}fr" for share in shares)
    free = width - 18 * (len(shares) - 1)
    cells = []
    for share, column in zip(shares, block.columns, strict=True):
        inner = "".join(f"#{code(b, free * share / sum(shares))}\n" for b in column)
        cells.append(f"[{inner}]")
    return f"grid(columns: ({tracks},), column-gutter: 18pt, {', '.join(cells)})"


def _picture(picture: Picture, width: float) -> str:
    scene = replace(picture.scene, style=PAPER)
    x0, _, x1, _ = extent(scene)
    own = x1 - x0 + 2 * scene.margin
    wide = width * picture.width if picture.width else min(own, width)
    return (
        f"picture({quoted(svg(scene, alt=False))}, {set_words(scene.alt)}, {wide:.2f} * unit, "
        f"{set_words(picture.caption)})"
    )


def _table(table: Table) -> str:
    side = {"left": "left", "right": "right", "centre": "center"}
    tracks = ", ".join(f"{c.share:g}fr" if c.share else "auto" for c in table.columns)
    aligns = ", ".join(side[c.align] for c in table.columns)
    heads = "".join(f"{set_words(c.title)}, " for c in table.columns)
    cells = "".join(f"{_cell(cell, i in table.strong)}, " for i, row in enumerate(table.rows) for cell in row)
    caption = set_words(table.caption) if table.caption else "none"
    return f"rows(columns: ({tracks},), align: ({aligns},), head: ({heads}), caption: {caption}, ({cells}))"


def _cell(text: str, strong: bool) -> str:
    return f"strong({set_words(text)})" if strong else set_words(text)


def _figures(figures: Figures) -> str:
    rows = []
    for fact in figures.facts:
        what = f"{fact.what}: {fact.working}" if figures.working and fact.working else fact.what
        new = fact.key in figures.changed
        rows.append((what, ("→ " if new else "") + write_value(fact, figures.units)))
    return _table(Table((Column("what"), Column("value", align="right")), tuple(rows)))


def _remark(word: str, text: str) -> str:
    return f"remark({set_words(word)}, {set_words(text)})"


def _findings(block: Findings) -> str:
    if not block.findings:
        return code(Text(block.none), 0.0) if block.none else "[]"
    found: Iterable[str] = (_remark(f.severity.capitalize(), f.told) for f in by_severity(block.findings))
    return "{" + "; ".join(found) + "}"
