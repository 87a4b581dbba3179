"""Plates as typst source: white, with a black edge, at the foot of what is safe; a page for each."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from tutorial_lib.drawing.lettering import typographic
from tutorial_lib.publishing.plates.plate import SCREENS, Form, Plate
from tutorial_lib.publishing.typeset import compile_pages, quoted
from tutorial_lib.publishing.vector import drawn, told

TEMPLATE = Path(__file__).with_name("plate.typ")
PREVIEW = 20.0  # [ppi] of a small picture, where the plate itself has 72
COLUMN = 640  # [px] words beside a drawing, in the wide form


def source(plates: Sequence[Plate], form: Form) -> str:
    """All plates of one form as typst source, one page each; a point is a pixel."""
    screen = SCREENS[form]
    page = (
        f"#set page(width: {screen.width}pt, height: {screen.height}pt, fill: none, margin: (left: {screen.left}pt, "
        f"top: {screen.top}pt, right: {screen.right}pt, bottom: {screen.bottom}pt))\n"
    )
    return page + TEMPLATE.read_text(encoding="utf-8") + "#pagebreak()\n".join(code(plate, form) for plate in plates)


def code(plate: Plate, form: Form) -> str:
    """One plate as typst markup."""
    whole = form == "tall" or plate.kind == "slats"
    return f"#plate({'100%' if whole else 'auto'}, {{\n{_body(plate, form)}\n}})\n"


def _body(plate: Plate, form: Form) -> str:
    words = _correction(plate) if plate.kind == "correction" else _words(plate)
    scene = plate.picture(form)
    if scene is None:
        return words
    picture = drawn(scene)
    if form == "tall" or plate.kind == "slats":
        return f"stack(spacing: 18pt, {{{words}}}, {picture})"
    return f"beside({_column(plate)}, {{{words}}}, {picture})"


def _column(plate: Plate) -> str:
    return "auto" if plate.kind in ("part", "count") else f"{COLUMN}pt"


def _words(plate: Plate) -> str:
    head = f"head({_text(plate.head)})"
    lines = [f"lettered({_text(plate.letter)}, {_text(plate.head)})" if plate.letter else head]
    if plate.big:
        lines.append(f"block(above: 30pt, big({_text(plate.big)}))")
    lines += [f"block(above: {24 if n == 0 else 16}pt, {_text(line)})" for n, line in enumerate(plate.small)]
    return "; ".join(lines)


def _correction(plate: Plate) -> str:
    lines = [
        f'par({{strong("Correction."); [ ]; {_text(plate.head)}}})',
        f'block(above: 26pt, {{"I said"; h(18pt); cross; h(14pt); said({_text(plate.wrong)})}})',
        f'block(above: 30pt, {{"It is"; h(18pt); corrected({_text(plate.big)})}})',
        *(f"block(above: {36 if n == 0 else 14}pt, {_text(line)})" for n, line in enumerate(plate.small)),
    ]
    return "; ".join(lines)


def _text(words: str) -> str:
    return quoted(typographic(words))


def plate_files(plates: Sequence[Plate], form: Form) -> Iterator[tuple[Plate, bytes, bytes, bytes]]:
    """Each plate as PNG, as SVG, whose letters are shapes, and as a small PNG to look at."""
    text, screen = source(plates, form), SCREENS[form]
    if not plates:
        return
    shots = (compile_pages(text, "png"), compile_pages(text, "svg"), compile_pages(text, "png", PREVIEW))
    for plate, png, svg, small in zip(plates, *shots, strict=True):
        yield plate, png, told(svg, plate.alt, screen.width, screen.height), small
