"""Blocks as typst source, and source as a tagged PDF (PDF/UA-1) that is the same bytes for the same input."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from pathlib import Path
from typing import Any, Literal

from tutorial_lib.drawing.layout import extent
from tutorial_lib.drawing.lettering import boxed
from tutorial_lib.drawing.mpl import FONTS
from tutorial_lib.drawing.svg import svg
from tutorial_lib.facts.figures import write_value
from tutorial_lib.findings import by_severity
from tutorial_lib.measures import mm
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

Paper = Literal["letter", "a4"]
TEMPLATE = Path(__file__).with_name("sheet.typ")
PAPERS = {"letter": "us-letter", "a4": "a4"}
MARGINS = Fraction(6, 5)  # [in] both
TEXT_WIDTH = {"letter": float(Fraction(17, 2) - MARGINS) * 72, "a4": float(mm(210) - MARGINS) * 72}  # [pt]
WEIGHT = {"stop": "1.8pt", "caution": "1.2pt", "note": "0.6pt"}


def quoted(text: str) -> str:
    """A typst string literal.

    >>> quoted('1/2" hole')
    '"1/2\\\\" hole"'
    """
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
    return f'"{escaped}"'


def source(pages: Sequence[Page], *, title: str, subtitle: str, version: str, size: str = "",
           paper: Paper = "letter") -> str:
    """The sheet as typst source: template, then the pages, each on new paper."""
    head = (f"#show: sheet.with(title: {quoted(title)}, subtitle: {quoted(subtitle)}, "
            f"version: {quoted(version)}, size: {quoted(size)}, paper: {quoted(PAPERS[paper])})\n")
    width = TEXT_WIDTH[paper]
    bodies = []
    for page in pages:
        blocks = levelled((Heading(page.title, 1), *page.blocks))
        bodies.append("".join(f"#{code(block, width)}\n" for block in blocks))
    return TEMPLATE.read_text(encoding="utf-8") + head + "#pagebreak()\n".join(bodies)


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


def compile_pages(text: str, form: Literal["png", "svg"]) -> list[bytes]:
    """The source as one picture a page, a point a pixel; the letters of an SVG are shapes and need no font."""
    options = {"ppi": 72.0} if form == "png" else {}
    made = _typst(text, form, **options)
    return [bytes(page) for page in made] if isinstance(made, list) else [bytes(made)]


def _typst(text: str, form: str, **options: Any) -> Any:
    import typst

    compile_any: Any = typst.compile  # its overloads want each format apart
    return compile_any(boxed(text).encode(), format=form, font_paths=[str(FONTS)], ignore_system_fonts=True,
                         **options)


def code(block: Block, width: float) -> str:
    """One block as a typst expression (without its #), set on a line of ``width`` points."""
    if isinstance(block, Heading):
        return f"heading(level: {block.level}, {quoted(block.text)})"
    if isinstance(block, Text):
        inner = f"strong({quoted(block.text)})" if block.strong else quoted(block.text)
        return f"par(text({'size: 8pt, ' if block.small else ''}{inner}))"
    if isinstance(block, Picture):
        return _picture(block, width)
    if isinstance(block, Table):
        return _table(block)
    if isinstance(block, Figures):
        return _figures(block)
    if isinstance(block, Caution):
        return _remark("caution", "Caution", block.text)
    if isinstance(block, Note):
        return _remark("note", "Note", block.text)
    if isinstance(block, Findings):
        return _findings(block)
    return _rest(block, width)


def _rest(block: Items | Working | PageBreak | Columns, width: float) -> str:
    if isinstance(block, Items):
        kind = "enum" if block.mark == "number" else "list"
        box = "marker: box(width: 7pt, height: 7pt, stroke: 0.6pt), " if block.mark == "box" else ""
        return f"{kind}({box}{''.join(quoted(item) + ', ' for item in block.items)})"
    if isinstance(block, Working):
        return _working(block)
    if isinstance(block, PageBreak):
        return "pagebreak()"
    return _columns(block, width)


def _working(block: Working) -> str:
    parts = [f"strong({quoted(block.name)})", quoted(f" = {block.formula}"), "linebreak()",
             quoted(f"= {block.values} = "), f"strong({quoted(block.result)})"]
    if block.source:
        parts += ["linebreak()", f"text(size: 8pt, {quoted('Source: ' + block.source)})"]
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
    scene = picture.scene
    x0, _, x1, _ = extent(scene)
    own = x1 - x0 + 2 * scene.margin
    wide = width * picture.width if picture.width else min(own, width)
    return (f"picture({quoted(svg(scene, alt=False))}, {quoted(scene.alt)}, {wide:.2f}pt, "
            f"{quoted(picture.caption)})")


def _table(table: Table) -> str:
    side = {"left": "left", "right": "right", "centre": "center"}
    tracks = ", ".join(f"{c.share:g}fr" if c.share else "auto" for c in table.columns)
    aligns = ", ".join(side[c.align] for c in table.columns)
    heads = "".join(f"{quoted(c.title)}, " for c in table.columns)
    cells = "".join(f"{_cell(cell, i in table.strong)}, " for i, row in enumerate(table.rows) for cell in row)
    caption = quoted(table.caption) if table.caption else "none"
    return f"rows(columns: ({tracks},), align: ({aligns},), head: ({heads}), caption: {caption}, ({cells}))"


def _cell(text: str, strong: bool) -> str:
    return f"strong({quoted(text)})" if strong else quoted(text)


def _figures(figures: Figures) -> str:
    rows = []
    for fact in figures.facts:
        what = f"{fact.what}: {fact.working}" if figures.working and fact.working else fact.what
        new = fact.key in figures.changed
        rows.append((what, ("→ " if new else "") + write_value(fact, figures.units)))
    return _table(Table((Column("what"), Column("value", align="right")), tuple(rows)))


def _remark(severity: str, word: str, text: str) -> str:
    return f"remark({quoted(word)}, {WEIGHT[severity]}, {quoted(text)})"


def _findings(block: Findings) -> str:
    if not block.findings:
        return code(Text(block.none), 0.0) if block.none else "[]"
    found: Iterable[str] = (_remark(f.severity, f.severity.capitalize(), f.told)
                            for f in by_severity(block.findings))
    return "{" + "; ".join(found) + "}"
