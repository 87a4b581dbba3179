"""A screen plate as data, the two pictures it is made for, and what of them is safe.

A plate brings its own white ground and black edge: against any footage one of the two has a contrast of 4.5:1 or more.
"""

from __future__ import annotations

from typing import Literal

from tutorial_lib.drawing.scene import Scene
from tutorial_lib.records import dataclass

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
