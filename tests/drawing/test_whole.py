"""The whole bed in space: every piece is drawn, the sizes are the plan's, and nothing is outside the paper."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.drawing.crowded import overlapping_words
from tutorial_lib.design.build_file import change, read_build
from tutorial_lib.drawing.layout import extent
from tutorial_lib.drawing.scene import Polygon, Text
from tutorial_lib.drawing.whole import whole_bed
from tutorial_lib.plan import plan

DEMO = Path(__file__).parents[2] / "assets" / "builds" / "spare-room-twin.toml"


@pytest.mark.parametrize("size", ["twin", "king"])
def test_sizes_and_pieces_of_the_bed(size: str) -> None:
    options = change(read_build(DEMO.read_text(encoding="utf-8")), {"mattress.size": size, "mattress.width": None})
    build = plan(options).build
    scene = whole_bed(build)
    words = {shape.text for shape in scene.shapes if isinstance(shape, Text)}
    assert "17 in" in words and "11 1/2 in" in words
    assert len([s for s in scene.shapes if isinstance(s, Polygon)]) >= 3 * len(build.pieces)
    assert not overlapping_words(scene)
    x0, _, x1, _ = extent(scene)
    assert x1 - x0 <= 460 + 1
