"""HTML elements as text, every string escaped: what is said is never markup.

>>> str(element("p", "1 < 2", class_="lead"))
'<p class="lead">1 &lt; 2</p>'
"""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from tutorial_lib.drawing.lettering import typographic
from tutorial_lib.drawing.scene import Scene
from tutorial_lib.drawing.svg import svg

# [pt] At this width a phone and a column of a desk show a drawing's letters at the size they are drawn.
WIDE = 340.0
VOID = ("br", "hr", "img", "input", "link", "meta")


class Markup(str):
    """Text that is HTML already."""

    __slots__ = ()


Child = str | Iterable["Child"] | None


def element(name: str, /, *children: Child, **attributes: str | bool | None) -> Markup:
    """One element; plain text inside is escaped, ``class_`` is class, ``data_x`` is data-x, True stands alone."""
    told = "".join(map(_attribute, attributes.items()))
    if name in VOID:
        return Markup(f"<{name}{told}>")
    return Markup(f"<{name}{told}>{joined(*children)}</{name}>")


def _attribute(pair: tuple[str, str | bool | None]) -> str:
    name, value = pair[0].rstrip("_").replace("_", "-"), pair[1]
    if value is None or value is False:
        return ""
    return f" {name}" if value is True else f' {name}="{escape(value)}"'


def joined(*children: Child) -> Markup:
    """Children one after another; plain text is set as in print (fractions, times signs) and escaped."""
    return Markup("".join(map(_child, children)))


def _child(child: Child) -> str:
    if child is None:
        return ""
    if isinstance(child, Markup):
        return child
    if isinstance(child, str):
        return escape(typographic(child))
    return joined(*child)


def drawing(scene: Scene, class_: str = "") -> Markup:
    """A drawing whose colours follow the page's."""
    return element("figure", Markup(svg(scene, screen=True)), class_=class_ or None)


def tick(key: str, label: str, *shown: Child) -> Markup:
    """A box to tick off; the whole line is the target, and what is ticked stays on this device."""
    box = element("input", type="checkbox", data_tick=key, aria_label=None if shown else label)
    return element("label", box, *shown, class_="tick" if shown else "tick bare")


def folded(heading: str, inside: Child) -> Markup:
    """What is shown on asking, under its heading."""
    return element("details", element("summary", heading), inside)


def table(
    heads: Iterable[str], rows: Iterable[Iterable[Child]], caption: str = "", right: Iterable[int] = ()
) -> Markup:
    """A table with a heading row; ``right`` names the columns set to the right."""
    sides = frozenset(right)

    def cell(name: str, place: int, child: Child) -> Markup:
        scope = "col" if name == "th" else None
        return element(name, child, class_="figure" if place in sides else None, scope=scope)

    return element(
        "table",
        element("caption", caption) if caption else None,
        element("thead", element("tr", [cell("th", i, head) for i, head in enumerate(heads)])),
        element("tbody", [element("tr", [cell("td", i, c) for i, c in enumerate(row)]) for row in rows]),
    )
