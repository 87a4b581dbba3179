"""Makes the facts of a plan: each with the creator's words for its part, in the plan's own units."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib.facts.fact import Fact, Number, Value
from tutorial_lib.facts.words import said_as
from tutorial_lib.measures import Kind, writer

if TYPE_CHECKING:
    from tutorial_lib.design.options import Options


class Teller:
    """States the facts of one plan."""

    def __init__(self, options: Options) -> None:
        self.names = options.names
        self.w = writer(options.build.units)

    def words(self, key: str) -> tuple[str, ...]:
        """What the creator and the trade call the part a key begins with."""
        return said_as(self.names, key.split(".")[0])

    def fine(self, x: Fraction) -> str:
        """A length as the person's tape shows it, for the working."""
        return self.w.length(x, 32)

    def length(self, key: str, x: Number, kind: str, what: str, working: str = "", *, said: Words = None) -> Fact:
        """A length [in]; a float where it is no fraction, as a diagonal."""
        return self._fact(key, x, "in", kind, what, working, said)

    def marks(self, key: str, xs: Iterable[Fraction], what: str, working: str, *, said: Words = None) -> Fact:
        """Marks along one edge [in]."""
        return self._fact(key, tuple(xs), "in", "centre_mark", what, working, said)

    def count(self, key: str, n: int, kind: str, what: str, working: str = "", *, said: Words = None) -> Fact:
        """A whole number of things."""
        return self._fact(key, n, "count", kind, what, working, said)

    def measure(
        self, of: Kind, key: str, x: Number, kind: str, what: str, working: str = "", *, said: Words = None
    ) -> Fact:
        """Any other quantity, held as ``measures`` holds its kind; told in the plan's unit and rounded by its rule."""
        return self._fact(key, self.w.rounded(of, x), self.w.unit(of), kind, what, working, said)

    def bare(
        self, key: str, value: Number | str, unit: str, kind: str, what: str, working: str = "", *, said: Words = None
    ) -> Fact:
        """A number in a unit that every plan has (grit, hours, %, money), or a word."""
        return self._fact(key, value, unit, kind, what, working, said)

    def _fact(self, key: str, value: Value, unit: str, kind: str, what: str, working: str, said: Words) -> Fact:
        words = self.words(key) if said is None else tuple(said)
        return Fact(key=key, value=value, unit=unit, kind=kind, what=what, said_as=words, working=working)


Words = Iterable[str] | None
