"""Widths of words against the font that comes with the sheet."""

from __future__ import annotations

import pytest

from tutorial_lib.drawing.lettering import BOX, absent, boxed, characters, text_width
from tutorial_lib.drawing.mpl import FONTS


@pytest.mark.parametrize("text", ["38 1/4 in", "side rail left", "72 1/4", "× ½ → °"])
@pytest.mark.parametrize("cut", ["Regular", "Bold"])
def test_width_is_the_fonts(text: str, cut: str) -> None:
    ttlib = pytest.importorskip("fontTools.ttLib")
    font = ttlib.TTFont(FONTS / f"LiberationSans-{cut}.ttf")
    widths, names = font["hmtx"], font.getBestCmap()
    real = sum(widths[names[ord(c)]][0] for c in text) / font["head"].unitsPerEm * 10
    assert text_width(text, 10.0, cut == "Bold") == pytest.approx(real, rel=0.0 if cut == "Regular" else 0.09, abs=0.02)


@pytest.mark.parametrize("cut", ["Regular", "Bold"])
def test_the_characters_are_the_fonts(cut: str) -> None:
    ttlib = pytest.importorskip("fontTools.ttLib")
    font = ttlib.TTFont(FONTS / f"LiberationSans-{cut}.ttf")
    assert characters() == {chr(point) for point in font.getBestCmap()}
    assert BOX in characters()


def test_letters_that_are_not_there_become_boxes() -> None:
    assert absent("½ in → 5 × 7") == []
    assert absent("床 🛏️ 床\x1b\n") == ["床", "🛏", "\x1b"]
    assert boxed("床 🛏️!\n") == "□ □!\n"
