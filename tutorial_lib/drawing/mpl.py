"""Draws the same Scene with matplotlib, for a figure to edit or a PNG; matplotlib is imported on use."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from tutorial_lib.drawing.ink import Disc, Ink, Words
from tutorial_lib.drawing.layout import lay
from tutorial_lib.drawing.lettering import CAP_HEIGHT, boxed
from tutorial_lib.drawing.svg import DASHES, colours

FONTS = Path(__file__).parent / "fonts"  # Liberation Sans 2, SIL Open Font License 1.1

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from tutorial_lib.drawing.scene import Scene


def figure(scene: Scene) -> Figure:
    """The scene as a matplotlib Figure at its paper size; ``figure(scene).savefig("slats.png", dpi=150)``."""
    from matplotlib.figure import Figure

    inks, (x0, y0, x1, y1) = lay(scene)
    margin = scene.margin
    fig = Figure(figsize=((x1 - x0 + 2 * margin) / 72, (y1 - y0 + 2 * margin) / 72))
    axes = fig.add_axes((0, 0, 1, 1))
    axes.set_xlim(x0 - margin, x1 + margin)
    axes.set_ylim(y0 - margin, y1 + margin)
    axes.set_axis_off()
    for order, ink in enumerate(inks):
        _draw(ink, axes, scene, order)
    return fig


def _draw(ink: Ink, axes: Any, scene: Scene, order: int) -> None:
    from matplotlib.patches import Circle, Polygon

    if isinstance(ink, Words):
        _write(ink, axes, scene, order)
        return
    lines, fills, weights = colours(scene.style)
    fill = scene.style.new if (ink.line, ink.fill) == ("none", "new") else fills.get(ink.fill, "none")
    dash = tuple(map(float, DASHES[ink.line].split())) if ink.line in DASHES else None
    paint = {
        "facecolor": fill,
        "edgecolor": "none" if ink.line == "none" else lines.get(ink.line, scene.style.ink),
        "linewidth": weights.get(ink.line, scene.style.thin),
        "linestyle": (0, tuple(d / weights.get(ink.line, scene.style.thin) for d in dash)) if dash else "-",
        "zorder": order,
    }
    if isinstance(ink, Disc):
        axes.add_patch(Circle(ink.centre, ink.radius, **paint))
    else:
        axes.add_patch(Polygon(ink.points, closed=ink.closed, **paint))


def _write(words: Words, axes: Any, scene: Scene, order: int) -> None:
    from matplotlib.font_manager import FontProperties
    from matplotlib.patheffects import withStroke

    drop = words.size * CAP_HEIGHT / 2
    x, y = words.at
    side = {"start": "left", "middle": "center", "end": "right"}[words.anchor]
    at = (x + drop, y) if words.rotate else (x, y - drop)
    cut = "Bold" if words.bold else "Regular"
    font = FontProperties(fname=str(FONTS / f"LiberationSans-{cut}.ttf"), size=words.size)
    text = axes.text(
        *at,
        boxed(words.text),
        color=words.colour,
        rotation=words.rotate,
        rotation_mode="anchor",
        ha=side,
        va="baseline",
        zorder=order,
        fontproperties=font,
    )
    if words.halo:
        text.set_path_effects([withStroke(linewidth=3, foreground="white")])
