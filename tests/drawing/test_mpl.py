"""The same scene in matplotlib: every shape and word is there, at the same size."""

from __future__ import annotations

import pytest

from tutorial_lib.drawing.layout import extent, lay
from tutorial_lib.drawing.scene import Circle, Dimension, Rect, Scene, Text


def test_every_ink_is_drawn() -> None:
    pytest.importorskip("matplotlib")
    from tutorial_lib.drawing.mpl import figure

    scene = Scene(
        (
            Rect(0, 0, 10, 4, "end grain"),
            Circle((5, 2), 1),
            Text((5, 2), "slat", rotate=90, halo=True),
            Dimension((0, 0), (10, 0), -20, "10 in"),
        ),
        20,
        "x",
    )
    made = figure(scene)
    axes = made.axes[0]
    assert len(axes.patches) + len(axes.texts) == len(lay(scene)[0])
    assert [t.get_text() for t in axes.texts] == ["slat", "10 in"]
    x0, _, x1, _ = extent(scene)
    assert made.get_figwidth() == pytest.approx((x1 - x0 + 2 * scene.margin) / 72)
