"""Stacks of labels: clear of the drawing, and no line through words where any order of the labels allows it."""

from __future__ import annotations

import pytest

from tests.drawing.crowded import overlapping_words, struck_through
from tutorial_lib.drawing.ink import crosses
from tutorial_lib.drawing.scene import PAPER, Line, Scene
from tutorial_lib.drawing.stacks import Label, Led, Stack, Stood, fewest_crossed

ROOF = [(0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0)]  # [in] what is drawn


def stacked(labels: list[Label], upper: bool, scale: float = 2.0) -> Scene:
    stack = Stack(ROOF, scale, 100.0 if upper else 0.0, upper=upper, style=PAPER)
    return Scene(tuple(stack.of(labels)), scale, "labels", style=PAPER)


def test_a_line_goes_to_the_nearest_place() -> None:
    scene = stacked([Label("two rails", ((90.0, 30.0), (40.0, 10.0), (95.0, 50.0)))], upper=False)
    (line,) = (shape for shape in scene.shapes if isinstance(shape, Line))
    assert line.points[1] == (40.0, 10.0)


@pytest.mark.parametrize("upper", [False, True])
def test_labels_change_places_where_a_line_would_run_through_words(upper: bool) -> None:
    """By their places alone the long one stands nearest the drawing, in the way of the short one's line."""
    near, far = (40.0, 5.0), (36.0, 4.0)
    if upper:
        near, far = (100 - near[0], 60 - near[1]), (100 - far[0], 60 - far[1])
    long, short = Label("24 long words about nothing", (near,)), Label("2", (far,))
    assert list(stacked([long, short], upper).texts()) == ["2", "24 long words about nothing"]
    for labels in ([long, short], [short, long]):
        assert not struck_through(stacked(labels, upper)) and not overlapping_words(stacked(labels, upper))


def test_with_no_way_out_the_fewest_lines_run_through_words() -> None:
    def led(y: float, to: float) -> Led:
        return Led(stood=Stood(Label(str(y), ()), (0.0, y), (0.0, y - 1, 10.0, y + 1)), line=((12.0, y), (5.0, to)))

    bad, worse = [led(0, -9), led(5, -9)], [led(0, 9), led(5, -9), led(7, -9)]
    assert fewest_crossed([worse, bad, worse]) == bad
    assert fewest_crossed([]) == ()


def test_a_line_that_only_touches_words_doesnt_run_through_them() -> None:
    frame = (2.0, 1.0, 4.0, 5.0)
    assert crosses(((3.0, 0.0), (3.0, 9.0)), frame) and crosses(((2.5, 2.0), (3.5, 2.0)), frame)
    assert not crosses(((2.0, 0.0), (2.0, 9.0)), frame) and not crosses(((3.0, 5.0), (3.0, 9.0)), frame)
    assert not crosses(((0.0, 0.0), (1.9, 3.0)), frame)
