"""A drawing as typst's own shapes and words, so that its SVG needs no font: every letter becomes a shape."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby
from xml.sax.saxutils import escape, quoteattr

from tutorial_lib.drawing.ink import Disc, Ink, Stroke, Words
from tutorial_lib.drawing.layout import lay
from tutorial_lib.drawing.lettering import CAP_HEIGHT, typographic
from tutorial_lib.drawing.scene import PAPER, LineRole, Scene
from tutorial_lib.drawing.svg import DASHES, colours
from tutorial_lib.publishing.typeset import compile_pages, quoted

PREVIEW = 72.0  # [ppi] of a small picture
ROOM = 4000  # [pt] for a line of words, which never breaks
FACES = {"paper": "Saltmarsh Sans", "screen": "Liberation Sans"}
SIZE = re.compile(rb'width="[0-9.]+pt" height="[0-9.]+pt"')


def drawings_svg(scenes: Sequence[Scene]) -> list[tuple[bytes, bytes]]:
    """Each drawing as an SVG file at its size on paper [pt], with its words for who can't see it; and a small PNG."""
    head = '#set page(width: auto, height: auto, margin: 0pt, fill: none)\n#set text(lang: "en")\n'
    pages = [f"#{drawn(scene)}\n" for scene in scenes]
    if not pages:
        return []
    text = head + "#pagebreak()\n".join(pages)
    shots = zip(scenes, compile_pages(text, "svg"), compile_pages(text, "png", PREVIEW), strict=True)
    return [(told(svg, scene.alt), small) for scene, svg, small in shots]


def told(svg: bytes, alt: str, width: int | None = None, height: int | None = None) -> bytes:
    """An SVG of typst's with its title, and with its size in pixels where that is given."""
    head, _, rest = svg.partition(b">")
    if width is not None:
        head = SIZE.sub(f'width="{width}" height="{height}"'.encode(), head)
    label = f' role="img" aria-label={quoteattr(alt)}><title>{escape(alt)}</title>'
    return head + label.encode() + rest


def drawn(scene: Scene) -> str:
    """A drawing as typst's own shapes and words, so that an SVG of the plate needs no font."""
    inks, (x0, y0, x1, y1) = lay(scene)
    margin = scene.margin
    wide, high = x1 - x0 + 2 * margin, y1 - y0 + 2 * margin
    pen = _Pen(scene, margin - x0, y1 + margin)
    return f"box(width: {_n(wide)}pt, height: {_n(high)}pt, {{{'; '.join(pen.inks(inks))}}})"


def _plain_line(ink: Ink) -> LineRole | None:
    """The kind of a line that can be one shape with its neighbours; None for all else, dashes among it."""
    if not isinstance(ink, Stroke) or ink.closed or ink.fill != "none" or ink.line in ("none", *DASHES):
        return None
    return ink.line


class _Pen:
    """Turns laid ink (points, y up) into typst (points, y down)."""

    def __init__(self, scene: Scene, left: float, top: float) -> None:
        self.left, self.top, self.style = left, top, scene.style
        self.lines, self.fills, self.weights = colours(scene.style)

    def at(self, point: tuple[float, float]) -> tuple[str, str]:
        return _n(point[0] + self.left), _n(self.top - point[1])

    def inks(self, inks: Iterable[Ink]) -> Iterator[str]:
        """All of a drawing; lines of one kind that follow each other are one shape, which is set much sooner."""
        for line, members in groupby(inks, key=_plain_line):
            if line is None:
                yield from map(self.ink, members)
            else:
                paths = ", ".join(self._path(stroke) for stroke in members if isinstance(stroke, Stroke))
                yield f"place(curve({paths}{self._paint(line, 'none')}))"

    def ink(self, ink: Ink) -> str:
        if isinstance(ink, Words):
            return self._words(ink)
        paint = self._paint(ink.line, ink.fill)
        if isinstance(ink, Disc):
            x, y = self.at((ink.centre[0] - ink.radius, ink.centre[1] + ink.radius))
            return f"place(dx: {x}pt, dy: {y}pt, circle(radius: {_n(ink.radius)}pt{paint}))"
        return f"place(curve({self._path(ink)}{paint}))"

    def _path(self, stroke: Stroke) -> str:
        (x, y), *rest = [self.at(p) for p in stroke.points]
        steps = "".join(f", curve.line(({a}pt, {b}pt))" for a, b in rest)
        close = ', curve.close(mode: "straight")' if stroke.closed else ""
        return f"curve.move(({x}pt, {y}pt)){steps}{close}"

    def _paint(self, line: str, fill: str) -> str:
        filled = self.style.new if (line, fill) == ("none", "new") else self.fills.get(fill)
        inside = f', fill: rgb("{filled}")' if filled else ""
        if line == "none":
            return f"{inside}, stroke: none"
        width = self.weights.get(line, self.style.thin)
        longer = self.style.thin / PAPER.thin  # dashes are told for paper's thin line
        dash = ", ".join(f"{_n(float(d) * longer)}pt" for d in DASHES[line].split()) if line in DASHES else ""
        dashed = f", dash: ({dash})" if dash else ""
        colour = self.lines.get(line, self.style.ink)
        return f'{inside}, stroke: (paint: rgb("{colour}"), thickness: {_n(width)}pt, join: "round"{dashed})'

    def _words(self, words: Words) -> str:
        drop = words.size * CAP_HEIGHT / 2  # from the middle of the capitals down to the baseline
        x, y = self.at(words.at)
        line = f"box(width: 0pt, height: 0pt, place(dy: {_n(drop)}pt, {self._line(words)}))"
        if words.rotate:
            line = f"rotate(-90deg, origin: top + left, {line})"
        if words.lies:  # an isometric floor: turned by 45 degrees, then pressed flat
            turned = f"rotate({'45' if words.lies == 'x' else '-45'}deg, origin: top + left, {line})"
            line = f"scale(x: 122.47%, y: 70.71%, origin: top + left, {turned})"
        return f"place(dx: {x}pt, dy: {y}pt, {line})"

    def _line(self, words: Words) -> str:
        """A line of words about a point on its baseline."""
        side = {"start": "left", "middle": "center", "end": "right"}[words.anchor]
        left = {"start": 0, "middle": -ROOM / 2, "end": -ROOM}[words.anchor]
        said = quoted(typographic(words.text) if words.face == "paper" else words.text)
        look = (
            f'font: "{FACES[words.face]}", size: {_n(words.size)}pt, weight: {600 if words.bold else 400}, '
            'top-edge: "baseline", bottom-edge: "baseline"'
        )
        texts = [f"text({look}, fill: rgb({quoted(words.colour)}), {said})"]
        if words.halo:
            texts.insert(0, f"text({look}, stroke: (paint: white, thickness: 3pt, join: {quoted('round')}), {said})")
        placed = "; ".join(f"place(dx: {_n(left)}pt, box(width: {ROOM}pt, align({side}, {text})))" for text in texts)
        return f"box(width: 0pt, height: 0pt, {{{placed}}})"


def _n(x: float) -> str:
    text = f"{x:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text
