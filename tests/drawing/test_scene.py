"""A scene fits the width it is asked for, whatever lies around the part."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tutorial_lib.drawing.ink import Stroke, Words, crosses
from tutorial_lib.drawing.layout import extent, fitted, lay
from tutorial_lib.drawing.scene import Dimension, Rect, Running, Text


@given(st.integers(5, 200), st.integers(1, 100), st.sampled_from([200.0, 350.0, 520.0]))
def test_a_fitted_scene_is_no_wider_than_asked(wide: int, high: int, width: float) -> None:
    shapes = [
        Rect(0, 0, wide, high),
        Dimension((0, 0), (wide, 0), -24, f"{wide} in"),
        Dimension((wide, 0), (wide, high), 24, f"{high} in"),
    ]
    scene = fitted(shapes, width, "a board", height=300.0)
    x0, y0, x1, y1 = extent(scene)
    assert x1 - x0 + 2 * scene.margin <= width * 1.01
    assert y1 - y0 + 2 * scene.margin <= 300 * 1.02


def test_full_size_is_the_largest_scale() -> None:
    assert fitted([Rect(0, 0, 1, 1)], 1000, "an inch").scale == 72


def test_texts_lists_every_word() -> None:
    scene = fitted([Text((0, 0), "slat"), Running((0, 0), (0, 5), ("0", "5"), -10)], 100, "x")
    assert scene.texts() == ["slat", "0", "5"]


@pytest.mark.parametrize("along", ["x", "y"])
def test_a_dimension_with_no_room_puts_its_text_beside(along: str) -> None:
    q = (0.1, 0) if along == "x" else (0, 0.1)
    scene = fitted([Dimension((0, 0), q, 20, "a long text", along)], 300, "x", largest=10)  # type: ignore[arg-type]
    assert scene.texts() == ["a long text"]
    x0, _, x1, _ = extent(scene)
    assert x1 - x0 > 40  # level in both, beyond the line


def test_a_figure_keeps_off_the_lines_of_a_farther_dimension() -> None:
    """Beside a line without room for it a figure goes where no other's extension line runs through it."""
    far, near = Dimension((2, 0), (3, 0), -46, "1 in left"), Dimension((0, 0), (2, 0), -16, "1 1/2 in")
    at = {}
    for shapes in ((near,), (far, near)):
        inks, _ = lay(fitted(shapes, 300, "x", largest=10))
        found = next(ink for ink in inks if isinstance(ink, Words) and ink.text == near.text)
        at[len(shapes)] = found.frame
        lines = [ink.points for ink in inks if isinstance(ink, Stroke) and len(ink.points) == 2]
        assert not any(crosses((line[0], line[1]), found.frame) for line in lines)
    assert at[1][0] > 20 > 0 > at[2][2]  # right of the line; left of it where the other's lines stand at its right
