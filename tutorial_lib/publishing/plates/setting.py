"""Plates as typst source: white, with a black edge, at the foot of what is safe; a page for each."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from tutorial_lib.drawing.ink import Disc, Ink, Words
from tutorial_lib.drawing.layout import lay
from tutorial_lib.drawing.lettering import CAP_HEIGHT, typographic
from tutorial_lib.drawing.scene import Scene
from tutorial_lib.drawing.svg import DASHES, colours
from tutorial_lib.publishing.plates.pictures import enlarged
from tutorial_lib.publishing.plates.plate import CHANGED, GROUND, INK, SCREENS, WRONG, Form, Plate
from tutorial_lib.publishing.typeset import quoted

EDGE, INSET = 5, (34, 26)  # [px]
NUMBER, HEAD, MIDDLE, WORDS = 118, 58, 70, 38  # [px] type sizes
ROOM = 4000  # [px] for a line of words on a drawing, which never breaks
COLUMN = 640  # [px] words beside a drawing, in the wide form
HEAD_FILE = f"""
#set document(title: "Screen plates", date: none)
#set text(font: ("Saltmarsh Sans", "Liberation Sans"), size: {WORDS}pt, fill: rgb("{INK}"), lang: "en",
  number-width: "tabular", hyphenate: false)
#set par(leading: 0.32em, spacing: 0.5em)
#let fitting(body) = layout(area => {{
  let (width, height) = measure(block(width: area.width, body))
  let k = calc.min(1, area.height / height)
  if k < 1 {{ scale(k * 100%, reflow: true, origin: bottom + left, block(width: area.width / k, body)) }} else {{ body }}
}})
#let plate(wide, body) = place(bottom + left, pad({EDGE / 2}pt, fitting(align(bottom + left, block(fill: rgb("{GROUND}"),
  stroke: {EDGE}pt + rgb("{INK}"), inset: (x: {INSET[0]}pt, y: {INSET[1]}pt), width: wide, body)))))
#let ring(letter) = box(baseline: 24pt, circle(radius: 43pt, stroke: 6pt + rgb("{INK}"), inset: 0pt,
  align(center + horizon, text(size: 60pt, weight: 700, letter))))
#let head(words) = text(size: {HEAD}pt, weight: 700, words)
#let big(words) = text(size: {NUMBER}pt, weight: 700, tracking: -1pt, words)
#let corrected(words) = box(stroke: (bottom: 10pt + rgb("{CHANGED}")), outset: (bottom: 12pt), big(words))
#let cross = box(width: 44pt, height: 44pt, {{
  place(line(start: (2pt, 2pt), end: (42pt, 42pt), stroke: 9pt + rgb("{WRONG}")))
  place(line(start: (42pt, 2pt), end: (2pt, 42pt), stroke: 9pt + rgb("{WRONG}")))
}})
"""


def source(plates: Sequence[Plate], form: Form) -> str:
    """All plates of one form as typst source, one page each; a point is a pixel."""
    screen = SCREENS[form]
    page = (
        f"#set page(width: {screen.width}pt, height: {screen.height}pt, fill: none, margin: (left: {screen.left}pt, "
        f"top: {screen.top}pt, right: {screen.right}pt, bottom: {screen.bottom}pt))\n"
    )
    return page + HEAD_FILE + "#pagebreak()\n".join(code(plate, form) for plate in plates)


def code(plate: Plate, form: Form) -> str:
    """One plate as typst markup."""
    whole = form == "tall" or plate.kind in ("slats", "legs")
    return f"#plate({'100%' if whole else 'auto'}, {{\n{_body(plate, form)}\n}})\n"


def _body(plate: Plate, form: Form) -> str:
    words = _correction(plate) if plate.kind == "correction" else _words(plate)
    scene = plate.picture(form)
    if scene is None:
        return words
    picture = drawn(scene)
    if form == "tall" or plate.kind in ("slats", "legs"):
        return f"stack(spacing: 18pt, {{{words}}}, {picture})"
    return f"grid(columns: (auto, auto), column-gutter: 40pt, align: horizon, box(width: {_column(plate)}, {{{words}}}), {picture})"


def _column(plate: Plate) -> str:
    return "auto" if plate.kind in ("part", "count") else f"{COLUMN}pt"


def _words(plate: Plate) -> str:
    ring = f"ring({_text(plate.letter)}); h(24pt); " if plate.letter else ""
    lines = [f"par({{{ring}head({_text(plate.head)})}})"]
    if plate.big:
        lines.append(f"block(above: 30pt, big({_text(plate.big)}))")
    lines += [f"block(above: {24 if n == 0 else 16}pt, {_text(line)})" for n, line in enumerate(plate.small)]
    return "; ".join(lines)


def _correction(plate: Plate) -> str:
    wrong = f"text(size: {MIDDLE}pt, weight: 600, {_text(plate.wrong)})"
    lines = [
        f'par({{strong("Correction."); [ ]; {_text(plate.head)}}})',
        f'block(above: 26pt, {{"I said"; h(18pt); cross; h(14pt); {wrong}}})',
        f'block(above: 30pt, {{"It is"; h(18pt); corrected({_text(plate.big)})}})',
        *(f"block(above: {36 if n == 0 else 14}pt, {_text(line)})" for n, line in enumerate(plate.small)),
    ]
    return "; ".join(lines)


def _text(words: str) -> str:
    return quoted(typographic(words))


def drawn(scene: Scene) -> str:
    """A drawing as typst's own shapes and words, so that an SVG of the plate needs no font."""
    inks, (x0, y0, x1, y1) = lay(scene)
    margin = scene.margin
    wide, high = x1 - x0 + 2 * margin, y1 - y0 + 2 * margin
    pen = _Pen(scene, margin - x0, y1 + margin)
    return f"box(width: {_n(wide * pen.k)}pt, height: {_n(high * pen.k)}pt, {{{'; '.join(map(pen.ink, inks))}}})"


class _Pen:
    """Turns laid ink (points, y up) into typst (pixels, y down)."""

    def __init__(self, scene: Scene, left: float, top: float) -> None:
        self.left, self.top, self.k, self.style = left, top, enlarged(scene), scene.style
        self.lines, self.fills, self.weights = colours(scene.style)

    def at(self, point: tuple[float, float]) -> tuple[str, str]:
        return _n((point[0] + self.left) * self.k), _n((self.top - point[1]) * self.k)

    def ink(self, ink: Ink) -> str:
        if isinstance(ink, Words):
            return self._words(ink)
        paint = self._paint(ink.line, ink.fill)
        if isinstance(ink, Disc):
            x, y = self.at((ink.centre[0] - ink.radius, ink.centre[1] + ink.radius))
            return f"place(dx: {x}pt, dy: {y}pt, circle(radius: {_n(ink.radius * self.k)}pt{paint}))"
        (x, y), *rest = [self.at(p) for p in ink.points]
        steps = "".join(f", curve.line(({a}pt, {b}pt))" for a, b in rest)
        close = ', curve.close(mode: "straight")' if ink.closed else ""
        return f"place(curve(curve.move(({x}pt, {y}pt)){steps}{close}{paint}))"

    def _paint(self, line: str, fill: str) -> str:
        filled = self.style.new if (line, fill) == ("none", "new") else self.fills.get(fill)
        inside = f', fill: rgb("{filled}")' if filled else ""
        if line == "none":
            return f"{inside}, stroke: none"
        width = self.weights.get(line, self.style.thin) * self.k
        dash = ", ".join(f"{_n(float(d) * self.k)}pt" for d in DASHES[line].split()) if line in DASHES else ""
        dashed = f", dash: ({dash})" if dash else ""
        colour = self.lines.get(line, self.style.ink)
        return f'{inside}, stroke: (paint: rgb("{colour}"), thickness: {_n(width)}pt, join: "round"{dashed})'

    def _words(self, words: Words) -> str:
        size = words.size * self.k
        drop = size * CAP_HEIGHT / 2
        x, y = (float(v) for v in self.at(words.at))
        x, y = (x + drop, y) if words.rotate else (x, y + drop)
        weight = 600 if words.bold else 400
        look = f'size: {_n(size)}pt, weight: {weight}, top-edge: "baseline", bottom-edge: "baseline"'
        side = {"start": "left", "middle": "center", "end": "right"}[words.anchor]
        text = f'text({look}, fill: rgb("{words.colour}"), {_text(words.text)})'
        back = f'text({look}, stroke: {_n(3 * self.k)}pt + rgb("{GROUND}"), {_text(words.text)})'
        left = {"start": 0, "middle": -ROOM / 2, "end": -ROOM}[words.anchor]
        line = f"place(dx: {_n(left)}pt, box(width: {ROOM}pt, align({side}, {{}})))"
        placed = "; ".join(line.replace("{}", t) for t in ([back, text] if words.halo else [text]))
        inner = f"box(width: 0pt, height: 0pt, {{{placed}}})"
        if words.rotate:
            inner = f"rotate(-90deg, origin: top + left, {inner})"
        return f"place(dx: {_n(x)}pt, dy: {_n(y)}pt, {inner})"


def _n(x: float) -> str:
    text = f"{x:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def sized(svgs: Iterable[str], plates: Sequence[Plate], form: Form) -> list[str]:
    """typst's pages with their size in pixels and their words for who can't see them."""
    from xml.sax.saxutils import escape, quoteattr

    screen = SCREENS[form]
    found = []
    for text, plate in zip(svgs, plates, strict=True):
        head, _, rest = text.partition(">")
        head = head.replace(f'width="{screen.width}pt" height="{screen.height}pt"',
                            f'width="{screen.width}" height="{screen.height}" role="img" aria-label={quoteattr(plate.alt)}')  # fmt: skip
        found.append(f"{head}><title>{escape(plate.alt)}</title>{rest}")
    return found
