"""Blocks as HTML with the style on the elements: the same text for the same blocks, no script, nothing fetched."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from html import escape

from tutorial_lib.drawing.scene import PAPER as LETTERED
from tutorial_lib.drawing.scene import STYLE, Scene
from tutorial_lib.drawing.svg import svg
from tutorial_lib.facts.figures import write_value
from tutorial_lib.findings import by_severity
from tutorial_lib.publishing.blocks import (
    Block,
    Caution,
    Columns,
    Figures,
    Findings,
    Heading,
    Items,
    Note,
    PageBreak,
    Picture,
    Table,
    Text,
    Working,
)

FONT = "font-family:'Saltmarsh Sans','Liberation Sans',Arial,Helvetica,sans-serif"  # the page brings the first
INK, PAPER = "var(--ink,#000)", "var(--paper,#fff)"  # the page's own, so that a dark one is readable
BASE = f"{FONT};font-size:14px;line-height:1.4;color:{INK};background:{PAPER};font-variant-numeric:tabular-nums"
BOXES = {  # thick bar for what can hurt, thin for the rest; the word says it too
    "stop": "border:2px solid var(--wrong,#D55E00);border-left-width:10px",
    "caution": f"border:2px solid {INK};border-left-width:8px",
    "note": f"border:1px solid {INK};border-left-width:4px",
}
CELL = "padding:3px 10px 3px 0;border-bottom:1px solid var(--hair,#bbb);vertical-align:top"


def html(blocks: Iterable[Block]) -> str:
    """The blocks as one <div>."""
    return f'<div style="{BASE}">{"".join(map(_block, blocks))}</div>'


def _block(block: Block) -> str:
    if isinstance(block, Heading):
        size = {1: 22, 2: 17, 3: 14}[block.level]
        tag = f"h{block.level + 1}"
        return f'<{tag} style="{FONT};font-size:{size}px;margin:14px 0 6px;color:{INK}">{escape(block.text)}</{tag}>'
    if isinstance(block, Text):
        style = ("font-weight:bold;" if block.strong else "") + ("font-size:12px;" if block.small else "")
        return f'<p style="{style}margin:4px 0 8px;max-width:46em">{escape(block.text)}</p>'
    if isinstance(block, Picture):
        return _picture(block)
    if isinstance(block, Table):
        return _table(block)
    if isinstance(block, Figures):
        return _figures(block)
    if isinstance(block, Caution):
        return box("caution", "Caution", block.text)
    if isinstance(block, Note):
        return box("note", "Note", block.text)
    if isinstance(block, Findings):
        return findings_html(block)
    return _rest(block)


def _rest(block: Items | Working | PageBreak | Columns) -> str:
    if isinstance(block, Items):
        tag = "ol" if block.mark == "number" else "ul"
        lead = "☐ " if block.mark == "box" else ""
        bare = ";list-style:none" if lead else ""
        items = "".join(f"<li>{lead}{escape(item)}</li>" for item in block.items)
        return f'<{tag} style="margin:4px 0 8px;padding-left:24px;max-width:46em{bare}">{items}</{tag}>'
    if isinstance(block, Working):
        source = f'<br/><span style="font-size:12px">Source: {escape(block.source)}</span>' if block.source else ""
        return (
            f'<p style="margin:4px 0 8px"><b>{escape(block.name)}</b> = {escape(block.formula)}<br/>'
            f"= {escape(block.values)} = <b>{escape(block.result)}</b>{source}</p>"
        )
    if isinstance(block, PageBreak):
        return f'<hr style="border:0;border-top:1px solid {INK};margin:16px 0"/>'
    shares = block.shares or (1.0,) * len(block.columns)
    cells = "".join(
        f'<div style="flex:{share:g} 1 0;min-width:220px">{"".join(map(_block, column))}</div>'
        for share, column in zip(shares, block.columns, strict=True)
    )
    return f'<div style="display:flex;flex-wrap:wrap;gap:0 28px">{cells}</div>'


def _picture(picture: Picture) -> str:
    wide = f"width:{picture.width * 100:g}%;" if picture.width else ""
    caption = f'<figcaption style="font-size:12px">{escape(picture.caption)}</figcaption>' if picture.caption else ""
    return f'<figure style="{wide}margin:8px 0">{svg(_set(picture.scene), screen=True)}{caption}</figure>'


def _set(scene: Scene) -> Scene:
    """The drawing in the typeface of paper, which the page brings along."""
    return replace(scene, style=LETTERED) if scene.style == STYLE else scene


def _table(table: Table) -> str:
    side = {"left": "left", "right": "right", "centre": "center"}
    heads = "".join(
        f'<th scope="col" style="{CELL};border-bottom:2px solid {INK};text-align:{side[c.align]}">'
        f"{escape(c.title)}</th>"
        for c in table.columns
    )
    rows = "".join(
        "<tr>"
        + "".join(
            f'<td style="{CELL};text-align:{side[c.align]}{";font-weight:bold" if i in table.strong else ""}">'
            f"{escape(cell)}</td>"
            for c, cell in zip(table.columns, row, strict=True)
        )
        + "</tr>"
        for i, row in enumerate(table.rows)
    )
    caption = (
        f'<caption style="text-align:left;font-weight:bold;padding:4px 0">{escape(table.caption)}</caption>'
        if table.caption
        else ""
    )
    return (
        f'<table style="{FONT};border-collapse:collapse;font-size:13px;margin:6px 0 10px;color:{INK}">{caption}'
        f'<thead><tr style="background:{PAPER}">{heads}</tr></thead><tbody>{rows}</tbody></table>'
    )


def _figures(figures: Figures) -> str:
    rows = []
    for fact in figures.facts:
        new = fact.key in figures.changed
        value = escape(write_value(fact, figures.units))
        shown = f'<b style="color:var(--changed,#0072B2)">▸ {value}</b>' if new else f"<b>{value}</b>"
        work = f'<br/><span style="font-size:12px">{escape(fact.working)}</span>' if figures.working else ""
        rows.append(
            f'<tr style="background:{PAPER}"><td style="{CELL};text-align:left">{escape(fact.what)}{work}</td>'
            f'<td style="{CELL};text-align:right;white-space:nowrap">{shown}</td></tr>'
        )
    return f'<table style="{FONT};border-collapse:collapse;font-size:13px;margin:6px 0 10px">{"".join(rows)}</table>'


def findings_html(block: Findings) -> str:
    """Findings as boxes, stops first."""
    if not block.findings:
        return f'<p style="margin:4px 0 8px">{escape(block.none)}</p>' if block.none else ""
    return "".join(box(f.severity, f.severity.capitalize(), f.told) for f in by_severity(block.findings))


def box(severity: str, word: str, text: str) -> str:
    """One bordered remark that says its weight by word and bar."""
    return (
        f'<div style="{BOXES[severity]};padding:5px 10px;margin:6px 0;max-width:46em">'
        f"<b>{escape(word)}</b> {escape(text)}</div>"
    )
