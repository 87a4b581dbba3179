"""Zero points: what is measured from one never stands on its sign."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from tests.design.builds import demo
from tutorial_lib.design.platform_bed import design
from tutorial_lib.drawing.ink import Words
from tutorial_lib.drawing.layout import lay
from tutorial_lib.drawing.scene import PAPER
from tutorial_lib.drawing.zeros import zero_points, zeros


def test_a_mark_at_the_zero_itself_stands_clear_of_its_sign() -> None:
    build = design(demo())
    first, *others = zeros(build, Fraction(3, 4))
    scene = zero_points(build, [replace(first, first=Fraction(0)), *others], 300, 205, PAPER)
    told = next(w for w in lay(scene)[0] if isinstance(w, Words) and w.text.startswith("0, "))
    assert told.frame[0] >= 6  # [pt] the sign's radius, its middle at the bed's end
