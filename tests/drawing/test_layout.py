"""Words never lie on words: optional ones move or are left out, required ones are reported."""

from __future__ import annotations

from tests.drawing.crowded import overlapping_words
from tutorial_lib.drawing.ink import Stroke, Words
from tutorial_lib.drawing.layout import lay
from tutorial_lib.drawing.scene import Leader, Mark, Rect, Running, Scene, Text


def words(scene: Scene) -> list[str]:
    return [ink.text for ink in lay(scene)[0] if isinstance(ink, Words)]


def test_optional_words_are_left_out_where_others_lie() -> None:
    scene = Scene((Text((0, 0), "rail"), Text((0, 0), "post", optional=True)), 10, "x")
    assert words(scene) == ["rail"]


def test_optional_words_try_their_other_places_first() -> None:
    scene = Scene((Text((0, 0), "rail"), Text((0, 0), "post", optional=True, tries=((0, 20),))), 10, "x")
    assert words(scene) == ["rail", "post"]
    assert overlapping_words(scene) == []


def test_required_words_on_each_other_are_found() -> None:
    assert overlapping_words(Scene((Text((0, 0), "rail"), Text((0, 0), "post")), 10, "x")) == [("rail", "post")]


def test_running_marks_too_close_lose_texts_but_never_the_last() -> None:
    marks = tuple(range(40))
    scene = Scene((Running((0, 0), marks, tuple(map(str, marks)), -10),), 3, "x")
    told = words(scene)
    assert 2 < len(told) < 40
    assert told[-1] == "39"
    assert overlapping_words(scene) == []


def test_end_grain_is_hatched_inside_its_outline() -> None:
    inks, _ = lay(Scene((Rect(0, 0, 2, 2, "end grain"),), 30, "x"))
    hatch = [ink for ink in inks if isinstance(ink, Stroke) and not ink.closed]
    assert len(hatch) > 5
    assert all(-0.01 <= v <= 60.01 for ink in hatch for point in ink.points for v in point)


def test_a_leader_to_the_left_ends_its_words_there() -> None:
    (label,) = (i for i in lay(Scene((Leader((0, 0), (-20, 10), "cleat"),), 1, "x"))[0] if isinstance(i, Words))
    assert label.frame[2] < 0


def test_marks_keep_their_paper_size() -> None:
    small, large = (lay(Scene((Mark((1, 1), "cross", 6.0),), scale, "x"))[1] for scale in (1, 70))
    assert small[2] - small[0] == large[2] - large[0] == 6.0


def test_a_drawing_is_laid_once_and_an_equal_one_alike() -> None:
    scene, equal = (Scene((Rect(0, 0, 4, 2), Text((1, 1), "a")), 10, "x") for _ in range(2))
    first = lay(scene)
    others = [lay(Scene((Rect(0, 0, size, 2),), 10, "x"))[1] for size in range(1, 9)]
    assert lay(equal) == first and lay(scene) == first
    assert [frame[2] - frame[0] for frame in others] == sorted({frame[2] - frame[0] for frame in others})
