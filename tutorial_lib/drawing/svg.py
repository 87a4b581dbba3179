"""Writes a Scene as SVG text: pure Python, the same text for the same Scene."""

from __future__ import annotations

from xml.sax.saxutils import escape

from tutorial_lib.drawing.ink import Disc, Ink, Words
from tutorial_lib.drawing.layout import lay
from tutorial_lib.drawing.lettering import CAP_HEIGHT, typographic
from tutorial_lib.drawing.scene import Scene, Style

LIES = {  # on an isometric floor along an axis, or upright on the near side
    "x": "0.866 0.5 -0.866 0.5", "y": "0.866 -0.5 0.866 0.5", "side": "0.866 0.5 0 1",
}  # fmt: skip
DASHES = {"hidden": "4 2.4", "centre": "11 2.4 1.8 2.4"}  # ISO 128-2 kinds, from memory


def colours(style: Style) -> tuple[dict[str, str], dict[str, str], dict[str, float]]:
    """Line colours, fill colours and line weights [pt] by role."""
    lines = {"new": style.new, "wrong": style.wrong, "grain": style.grain, "clear": "#FFFFFF"}
    fills = {
        "wood": style.wood,
        "wood side": style.wood_side,
        "wood front": style.wood_front,
        "end": style.end_grain,
        "end grain": style.end_grain,
        "new": style.new_tint,
        "wrong": style.wrong_tint,
        "metal": style.metal,
        "paper": "#FFFFFF",
        "ink": style.ink,
    }
    weights = {"outline": style.thick, "new": style.thick * 1.4, "wrong": style.thick * 1.4, "hair": style.hair,
               "grain": style.hair, "clear": 2 * style.clear}  # fmt: skip
    return lines, fills, weights


def svg(scene: Scene, *, full_size: bool = False, alt: bool = True, screen: bool = False) -> str:
    """The scene as one <svg> element.

    Args:
        scene: what to draw.
        full_size: give width and height in points, for print at true size; else it fills what holds it.
        alt: carry the alt text in the element (role="img", aria-label).
        screen: colours follow the page's (CSS variables --ink, --paper, --wood ...), so that a dark page is readable.
    """
    inks, (x0, y0, x1, y1) = lay(scene)
    margin = scene.margin
    width, height = x1 - x0 + 2 * margin, y1 - y0 + 2 * margin
    size = f' width="{_n(width)}pt" height="{_n(height)}pt"' if full_size else f' style="max-width:{_n(width * 1.4)}px"'
    label = f' role="img" aria-label="{escape(scene.alt, {chr(34): "&quot;"})}"' if alt else ""
    body = _Writer(margin - x0, y1 + margin, scene.style, screen)
    label += f' fill="{body.colour(scene.style.ink)}"' if screen else ""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_n(width)} {_n(height)}"{size}{label} '
        f'font-family="{scene.style.font}" stroke-linecap="butt" stroke-linejoin="miter">'
        f"{''.join(map(body.ink, inks))}</svg>"
    )


def _n(x: float) -> str:
    text = f"{x:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def _names(style: Style) -> dict[str, str]:
    """CSS variables by colour; tints apart from the lines they go with."""
    _, fills, _ = colours(style)
    tints = {style.new_tint: "new-tint", style.wrong_tint: "wrong-tint", style.new: "changed", style.wrong: "wrong"}
    return {colour: name.replace(" ", "-") for name, colour in fills.items()} | tints


class _Writer:
    """Turns laid ink (y up) into SVG elements (y down)."""

    def __init__(self, left: float, top: float, style: Style, screen: bool = False) -> None:
        self.left, self.top, self.style = left, top, style
        self.lines, self.fills, self.weights = colours(style)
        self.named = _names(style) if screen else {}

    def colour(self, colour: str) -> str:
        """The colour itself, or on a screen the page's own of that name."""
        return f"var(--{self.named[colour]},{colour})" if colour in self.named else colour

    def ink(self, ink: Ink) -> str:
        if isinstance(ink, Words):
            return self._words(ink)
        paint = self._paint(ink.line, ink.fill)
        if isinstance(ink, Disc):
            x, y = self._at(ink.centre)
            return f'<circle cx="{x}" cy="{y}" r="{_n(ink.radius)}"{paint}/>'
        path = "L".join(" ".join(self._at(p)) for p in ink.points)
        return f'<path d="M{path}{"Z" if ink.closed else ""}"{paint}/>'

    def _at(self, point: tuple[float, float]) -> tuple[str, str]:
        return _n(point[0] + self.left), _n(self.top - point[1])

    def _paint(self, line: str, fill: str) -> str:
        filled = self.style.new if (line, fill) == ("none", "new") else self.fills.get(fill, "none")
        if line == "none":
            return f' fill="{self.colour(filled)}"'
        dash = f' stroke-dasharray="{DASHES[line]}"' if line in DASHES else ""
        return (
            f' fill="{self.colour(filled)}" stroke="{self.colour(self.lines.get(line, self.style.ink))}"'
            f' stroke-width="{_n(self.weights.get(line, self.style.thin))}"{dash}'
        )

    def _words(self, words: Words) -> str:
        drop = words.size * CAP_HEIGHT / 2  # from the middle of the capitals down to the baseline
        x, y = words.at
        place = self._at((x + drop, y) if words.rotate else (x, y - drop))
        paper_face = words.face == "paper"
        turn = f' transform="rotate(-90 {place[0]} {place[1]})"' if words.rotate else ""
        weight = f' font-weight="{600 if paper_face else "bold"}"' if words.bold else ""
        colour = f' fill="{self.colour(words.colour)}"' if words.colour != self.style.ink else ""
        where = f'x="{place[0]}" y="{place[1]}"'
        if words.lies:
            where = f'transform="matrix({LIES[words.lies]} {" ".join(self._at(words.at))})" y="{_n(drop)}"'
        tag = f'{where} font-size="{_n(words.size)}" text-anchor="{words.anchor}"{weight}{turn}'
        text = escape(typographic(words.text) if paper_face else words.text)
        paper = self.colour(self.fills["paper"])
        edge = f'fill="{paper}" stroke="{paper}" stroke-width="{7 if words.lies else 3}" stroke-linejoin="round"'
        back = f"<text {tag} {edge}>{text}</text>" if words.halo else ""
        return f"{back}<text {tag}{colour}>{text}</text>"
