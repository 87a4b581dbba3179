"""The SVG text: well-formed, the same each time, told in words."""

from __future__ import annotations

from xml.etree import ElementTree

from tutorial_lib.drawing.scene import Circle, Dimension, Line, Rect, Scene, Text
from tutorial_lib.drawing.svg import svg

SCENE = Scene(
    (
        Rect(0, 0, 10, 4, "wood"),
        Line(((0, 2), (10, 2)), "centre"),
        Circle((5, 2), 0.5, "metal"),
        Text((5, 2), 'a "1/2" & <b>', halo=True),
        Dimension((0, 0), (10, 0), -20, "10 in", changed=True),
    ),
    20,
    'a "board" & more',
)


def test_it_is_well_formed_and_says_its_alt_text() -> None:
    root = ElementTree.fromstring(svg(SCENE))
    assert root.get("aria-label") == 'a "board" & more'
    assert root.get("role") == "img"


def test_words_are_kept_as_text() -> None:
    root = ElementTree.fromstring(svg(SCENE))
    texts = [e.text for e in root.iter("{http://www.w3.org/2000/svg}text")]
    assert texts.count('a "1/2" & <b>') == 2  # with its halo
    assert "10 in" in texts


def test_the_same_scene_is_the_same_text() -> None:
    assert svg(SCENE) == svg(SCENE)


def test_full_size_is_given_in_points() -> None:
    root = ElementTree.fromstring(svg(Scene((Rect(0, 0, 1, 1),), 72, "an inch"), full_size=True))
    assert root.get("width") == "80pt"  # an inch and the margins


def test_y_points_up() -> None:
    root = ElementTree.fromstring(svg(Scene((Text((0, 0), "low"), Text((0, 5), "high")), 10, "x")))
    low, high = (float(e.get("y", "0")) for e in root.iter("{http://www.w3.org/2000/svg}text"))
    assert high < low
