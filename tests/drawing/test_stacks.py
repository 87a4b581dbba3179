"""Stacks of labels: clear of the drawing, and no line through words where any order of the labels allows it."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from tests.drawing.crowded import overlapping_words, struck_through
from tutorial_lib.drawing.ink import crosses
from tutorial_lib.drawing.scene import PAPER, Line, Scene
from tutorial_lib.drawing.stacks import Around, Column, Label, Led, Stack, Stood, fewest_struck, struck

ROOF = [(0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0)]  # [in] what is drawn


def stacked(labels: list[Label], upper: bool, scale: float = 2.0) -> Scene:
    stack = Stack(Around(ROOF, scale, PAPER), 100.0 if upper else 0.0, upper=upper)
    return drawn(stack.led(labels), scale)


def drawn(led: Sequence[Led], scale: float = 2.0) -> Scene:
    return Scene(tuple(shape for one in led for shape in one.shapes()), scale, "labels", style=PAPER)


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


@pytest.mark.parametrize("upper", [False, True])
def test_a_line_goes_round_words_that_all_places_lie_under(upper: bool) -> None:
    """Both labels are longer than the drawing is wide: no order frees the one that stands further off."""
    labels = [Label(f"{n} words about something on it", ((20.0, 30.0), (60.0, 20.0))) for n in (10, 16)]
    scene = stacked(labels, upper, scale=1.0)
    lines = [shape for shape in scene.shapes if isinstance(shape, Line)]
    assert sorted(len(line.points) for line in lines) == [2, 3]
    assert not struck_through(scene) and not overlapping_words(scene)


@pytest.mark.parametrize("right", [False, True])
def test_beside_the_drawing_labels_stand_at_the_level_of_what_they_name(right: bool) -> None:
    at = 70.0 if right else 30.0
    labels = [Label(name, ((at, y),)) for name, y in (("low", 2.0), ("lower", 1.0), ("high", 50.0))]
    led = Column(Around(ROOF, 2.0, PAPER), right).led(labels)
    assert [one.stood.label.text for one in led] == ["lower", "low", "high"]
    assert led[2].stood.at == (104.5 if right else -4.5, 50.0)
    assert min(one.stood.frame[1] for one in led) >= 0  # lifted above the drawing's foot
    assert not struck(led) and not struck_through(drawn(led)) and not overlapping_words(drawn(led))


def test_with_no_way_out_the_fewest_lines_run_through_words() -> None:
    def led(y: float, to: float) -> Led:
        stood = Stood(label=Label(str(y), ()), at=(0.0, y), anchor="start", frame=(0.0, y - 1, 10.0, y + 1))
        return Led(stood=stood, line=((12.0, y), (5.0, to)))

    bad, worse = [led(0, -9), led(5, -9)], [led(0, 9), led(5, -9), led(7, -9)]
    assert fewest_struck([worse, bad, worse]) == bad
    assert fewest_struck([]) == ()


def test_a_line_that_only_touches_words_doesnt_run_through_them() -> None:
    frame = (2.0, 1.0, 4.0, 5.0)
    assert crosses(((3.0, 0.0), (3.0, 9.0)), frame) and crosses(((2.5, 2.0), (3.5, 2.0)), frame)
    assert not crosses(((2.0, 0.0), (2.0, 9.0)), frame) and not crosses(((3.0, 5.0), (3.0, 9.0)), frame)
    assert not crosses(((0.0, 0.0), (1.9, 3.0)), frame)
