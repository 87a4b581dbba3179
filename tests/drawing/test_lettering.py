"""Widths of words against the font that comes with the sheet."""

from __future__ import annotations

import pytest

from tutorial_lib.drawing.lettering import BOX, absent, boxed, characters, text_width, typographic
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


@pytest.mark.parametrize("cut", ["Regular", "Semibold"])
@pytest.mark.parametrize("text", ["slat 14, head end", "41 in", "× ÷ ⁄"])
def test_width_on_paper_is_the_papers_fonts(text: str, cut: str) -> None:
    ttlib = pytest.importorskip("fontTools.ttLib")
    font = ttlib.TTFont(FONTS / f"SaltmarshSans-{cut}.ttf")
    widths, names = font["hmtx"], font.getBestCmap()
    real = sum(widths[names[ord(c)]][0] for c in typographic(text)) / font["head"].unitsPerEm * 10
    assert text_width(text, 10.0, cut == "Semibold", "paper") == pytest.approx(real, abs=0.05)


@pytest.mark.parametrize("cut", ["Regular", "Semibold", "Bold"])
def test_eleven_sixteenths_are_no_one_and_a_sixteenth(cut: str) -> None:
    """Two small ones stand nearer to each other than a whole number to its fraction."""
    font = pytest.importorskip("fontTools.ttLib").TTFont(FONTS / f"SaltmarshSans-{cut}.ttf")
    widths, shapes, small = font["hmtx"], font["glyf"], set()
    for feature in font["GSUB"].table.FeatureList.FeatureRecord:
        if feature.FeatureTag in ("numr", "dnom"):
            tables = [font["GSUB"].table.LookupList.Lookup[i].SubTable for i in feature.Feature.LookupListIndex]
            small |= {table.mapping["one"] for found in tables for table in found if "one" in table.mapping}
    space, after = widths[font.getBestCmap()[ord("\u202f")]][0], widths["one"][0] - shapes["one"].xMax
    for one in small:
        left, right = shapes[one].xMin, widths[one][0] - shapes[one].xMax
        assert right + left < 0.7 * (after + space + left)
    assert len(small) == 2


@pytest.mark.parametrize(("plain", "set_"), [
    ("5 1/2 in", "5\u202f1\u20442\xa0in"),
    ("1/2 in x 3", "1\u20442\xa0in × 3"),
    ("1 1/2 x 5 1/2", "1\u202f1\u20442\xa0×\xa05\u202f1\u20442"),
    ("2x6, 8 ft", "2×6, 8\xa0ft"),
    ("#9 x 2 1/2 in", "#9\xa0×\xa02\u202f1\u20442\xa0in"),
    ("M10 x 140 mm", "M10\xa0×\xa0140\xa0mm"),
    ("and/or 3/16/2026", "and/or 3/16/2026"),
    ("14 inches in a mix", "14 inches in a mix"),
    ("an ox x 3", "an ox x 3"),
])  # fmt: skip
def test_figures_are_set_so_that_they_hold_together(plain: str, set_: str) -> None:
    assert typographic(plain) == set_
    assert typographic(set_) == set_
