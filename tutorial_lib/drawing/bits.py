"""Bits in full size, to lay one's own on the paper: flutes, and the cone of a countersink above them."""

from __future__ import annotations

from fractions import Fraction

from tutorial_lib.drawing.scene import PAPER, Line, Polygon, Scene, Shape

LONG, TIP, SINK = 0.36, 0.3, 0.09  # [in] of flutes drawn; of its width the tip is long; height of the sink's rim


def bit(diameter: Fraction, sink: Fraction | None, told: str) -> Scene:
    """A bit point down, full size.

    Args:
        diameter: [in].
        sink: width of the countersink above it [in].
        told: the bit as one asks for it.
    """
    half, tip = float(diameter) / 2, float(diameter) * TIP
    outline = ((-half, 0.0), (half, 0.0), (half, tip - LONG), (0.0, -LONG), (-half, tip - LONG))
    shapes: list[Shape] = [Polygon(outline, "paper", "outline")]
    step = max(0.1, float(diameter) * 0.9)
    y = -0.03
    while y - step * 0.8 > tip - LONG:
        shapes.append(Line(((-half, y - step * 0.75), (half, y))))
        y -= step
    if sink is not None:
        rim = float(sink) / 2
        cone = ((-rim, 0.03), (rim, 0.03), (rim, -SINK), (half, -SINK - (rim - half)), (-half, -SINK - (rim - half)),
                (-rim, -SINK))  # fmt: skip
        shapes += [Polygon(cone, "paper", "outline"), Line(((-rim, -SINK), (rim, -SINK)))]
    return Scene(tuple(shapes), 72.0, f"bit {told}, full size", margin=1.0, style=PAPER)
