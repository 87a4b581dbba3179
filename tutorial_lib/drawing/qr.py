"""A QR code (ISO/IEC 18004) as a scene. The one segno module."""

from __future__ import annotations

from fractions import Fraction

import segno

from tutorial_lib.drawing.scene import Rect, Scene, Shape

MODULE = 2.5  # [pt] on paper, nearly 1 mm: read from arm's length; common practice, no source


def qr_code(address: str) -> Scene:
    """The code of an address, with the four modules of quiet zone the standard asks for.

    Args:
        address: what a telephone opens.
    """
    code = segno.make(address, error="m", micro=False)
    matrix = [bytes(row) for row in code.matrix_iter(border=4)]
    high = len(matrix)
    shapes: list[Shape] = [Rect(0, 0, high, high, fill="paper", line="none")]
    for y, row in enumerate(matrix):
        x = 0
        while x < len(row):
            run = next((n for n in range(x, len(row)) if not row[n]), len(row)) - x
            if run:
                shapes.append(Rect(x, high - 1 - y, Fraction(run), Fraction(1), fill="ink", line="none"))
            x += max(run, 1)
    return Scene(tuple(shapes), MODULE, f"QR code of {address}", margin=0.0)
