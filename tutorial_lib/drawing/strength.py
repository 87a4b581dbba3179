"""Drawings of strength: legs with what they carry, utilisations as bars, slat and side as they bend."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from tutorial_lib.design.model import Build
from tutorial_lib.drawing.scene import Anchor, Line, LineRole, Mark, Rect, Scene, Shape, Text, fitted
from tutorial_lib.strength.working import in_words

if TYPE_CHECKING:
    from tutorial_lib.strength.beams import Bent
    from tutorial_lib.strength.leg_map import LegEntry

WIDTH = 470.0  # [pt]
SHOWN_TO = 2.5  # utilisations above this end in an arrow's worth of bar and their figure


def leg_loads(build: Build, legs: Sequence[LegEntry], left_out: Sequence[str] = (), width: float = WIDTH) -> Scene:
    """The legs from above, each with its load and what happens without it, by word and shape."""
    shapes: list[Shape] = []
    for piece in build.pieces.values():
        if piece.part.startswith(("side_rail", "end_rail", "runner", "centre_beam", "centre_runner")):
            (x, y, _), (dx, dy, _) = piece.box.lo, piece.box.size
            shapes.append(Rect(x, y, dx, dy, "wood" if "rail" not in piece.part else "none", "thin"))
    for entry in legs:
        leg = entry.leg
        (dx, dy), stays = leg.size, entry.word != "may go"
        shapes.append(Rect(leg.x - dx / 2, leg.y - dy / 2, dx, dy, "ink" if stays else "paper", "outline"))
        high = leg.y * 2 > build.outside[0]
        shift = (0.0, -13.0 if high else 7.0)
        at = (leg.x, leg.y - dy / 2 if high else leg.y + dy / 2)
        anchor = _anchor(float(leg.x), float(build.outside[1]))
        shapes.append(Text(at, f"{leg.label}  {round(entry.load)} lb", "strong", anchor, shift=shift, halo=True))
        shapes.append(Text(at, entry.word, "small", anchor, shift=(0.0, -23.0 if high else 17.0), halo=True,
                           colour="ink"))
    shapes.append(Text((0, build.outside[0] / 2), "HEAD", "small", rotate=90, shift=(-9, 0)))
    if left_out:
        shapes.append(Text((build.outside[1] / 2, build.outside[0] / 2), f"left out: {', '.join(left_out)}", "text",
                           halo=True, colour="wrong"))
    told = "; ".join(f"{e.leg.label} {round(e.load)} lb, {e.word}" for e in legs)
    alt = f"Legs from above, head on the left, each with its greatest load and whether it may go: {told}."
    return fitted(shapes, width, alt, height=200)


def _anchor(x: float, long: float) -> Anchor:
    return "start" if x < long * 0.15 else "end" if x > long * 0.85 else "middle"


def bars(rows: Sequence[tuple[str, float]], width: float = WIDTH) -> Scene:
    """Utilisations as bars against the line at 1: (what, ratio) from the top down."""
    shapes: list[Shape] = []
    pitch, unit = 3.0, 22.0
    for i, (_, ratio) in enumerate(rows):
        y, over = -i * pitch, ratio > 1
        shapes.append(Rect(0, y, max(0.05, min(ratio, SHOWN_TO) * unit), 1.7, "wrong" if over else "wood",
                           "wrong" if over else "outline"))
    low = -(len(rows) - 1) * pitch - 0.8
    shapes.append(Line(((unit, low), (unit, 2.6)), "outline"))
    shapes.append(Text((unit, 2.6), "1: all that is allowed", "small", "middle", shift=(0, 3)))
    for i, (what, ratio) in enumerate(rows):
        y = -i * pitch + 0.85
        shapes.append(Text((0, y), what, "text", "end", shift=(-6, -3)))
        shown = f"{ratio:.2f}" if ratio < 99 else "no value"
        end = max(min(ratio, SHOWN_TO) * unit, 0.05)
        beside = (unit if end < unit < end + 5 else end, y)
        shapes.append(Text(beside, shown + (" over" if ratio > 1 else ""), "strong", "start", shift=(5, -3), halo=True))
    alt = "Greatest use of what is allowed: " + "; ".join(f"{what} {in_words(ratio)}" for what, ratio in rows) + "."
    return fitted(shapes, width, alt, height=26.0 * len(rows) + 40)


def bent_shape(title: str, bent: Bent, largest: float, width: float = WIDTH) -> Scene:
    """A beam as it bends, drawn many times too large, over its supports.

    Args:
        title: what bends and when, for the alt text.
        bent: the beam under its load.
        largest: sag that is drawn an eighth of the length deep [in].
    """
    start, end = bent.beam.start, bent.beam.end
    size = (end - start) / 8 / max(largest, 1e-6)
    xs = [start + (end - start) * i / 60 for i in range(61)]
    curve = tuple((x, -bent.sag(x) * size) for x in xs)
    at, sag = bent.greatest_sag
    role: LineRole = "new"
    shapes: list[Shape] = [Line(((start, 0.0), (end, 0.0)), "hidden"), Line(curve, role)]
    foot = (end - start) / 60
    held = [x for x, r in bent.reactions if r > 0 or x not in bent.lifted]
    for x in held:
        shapes.append(Line(((x - foot, -2 * foot), (x, 0.0), (x + foot, -2 * foot), (x - foot, -2 * foot)), "outline"))
    shapes += [Mark((x, -foot), "no") for x in bent.lifted]
    if sag > 0.0005:
        shapes.append(Text((at, -sag * size), f"{sag:.3f} in" if sag < 0.01 else f"{sag:.2f} in", "strong", "middle",
                           shift=(0, -12), halo=True))
    alt = f"{title}: goes down {sag:.3f} in at {at:.0f} in from its start; drawn {round(size)} times too large."
    return fitted(shapes, width, alt, height=120)
