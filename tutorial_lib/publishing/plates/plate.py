"""A screen plate as data, the two pictures it is made for, and the contrast that lets it be read over any footage."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from tutorial_lib.drawing.scene import Scene

Form = Literal["wide", "tall"]
FORMS: tuple[Form, ...] = ("wide", "tall")


@dataclass(frozen=True, kw_only=True)
class Screen:
    """One form of picture and what of it no player covers [px]."""

    width: int
    height: int
    left: int
    top: int
    right: int
    bottom: int

    @property
    def safe(self) -> tuple[int, int]:
        """Width and height of what is safe."""
        return self.width - self.left - self.right, self.height - self.top - self.bottom


# Wide: a twentieth at each edge, the usual title-safe area (EBU R 95 has 5 % for graphics, from memory). Tall: clear of
# the players' buttons, names and captions; our choice, no source.
SCREENS: dict[Form, Screen] = {
    "wide": Screen(width=1920, height=1080, left=96, top=54, right=96, bottom=54),
    "tall": Screen(width=1080, height=1920, left=64, top=270, right=130, bottom=384),
}
INK, GROUND, CHANGED, WRONG = "#000000", "#FFFFFF", "#0072B2", "#D55E00"  # words are ink; the others underline or cross
TEXT_CONTRAST, LINE_CONTRAST = 4.5, 3.0  # WCAG 2.2, 1.4.3 and 1.4.11 (from memory)


@dataclass(frozen=True, kw_only=True)
class Plate:
    """One message: a number and what it is, a drawing, a step, or a correction."""

    key: str  # "part-side-rail"; the file's name
    kind: Literal["part", "count", "fact", "slats", "legs", "section", "step", "correction"]
    head: str  # what it is about
    letter: str = ""  # the part's, in a ring
    big: str = ""  # the number
    small: tuple[str, ...] = ()  # lines under it
    wrong: str = ""  # what was said instead
    wide: Scene | None = None  # the drawing of the wide form
    tall: Scene | None = None
    time: float | None = None  # [s] when the talk comes to it

    @property
    def alt(self) -> str:
        """All its words, for who can't see it."""
        said = f"I said {self.wrong}. It is {self.big}" if self.wrong else self.big
        return ". ".join(filter(None, (self.head, said, *self.small))).replace("..", ".")

    def picture(self, form: Form) -> Scene | None:
        """Its drawing in one form."""
        return self.wide if form == "wide" else self.tall


def contrast(a: str, b: str) -> float:
    """Contrast of two colours by WCAG 2.2: (L1 + 0.05) / (L2 + 0.05) of their relative luminances.

    >>> round(contrast("#000000", "#FFFFFF"), 1), round(contrast("#0072B2", "#FFFFFF"), 1)
    (21.0, 5.2)
    """
    dark, light = sorted((luminance(a), luminance(b)))
    return (light + 0.05) / (dark + 0.05)


def luminance(colour: str) -> float:
    """Relative luminance of an sRGB colour "#RRGGBB", 0 to 1."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
