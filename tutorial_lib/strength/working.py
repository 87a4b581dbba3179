"""A number that can be opened: the formula, the values put in, the result and where the formula comes from."""

from __future__ import annotations

from tutorial_lib.measures import Kind, Writer, figure
from tutorial_lib.records import dataclass

OURS = "our choice"


@dataclass(frozen=True)
class Term:
    """One value of a formula: its sign, the value as held, what kind of quantity it is (None: a plain number)."""

    sign: str
    value: float
    kind: Kind | None = None

    def shown(self, units: Writer) -> str:
        """The value in the plan's units.

        >>> from tutorial_lib.measures import writer
        >>> Term("S", 3.0625, "section modulus").shown(writer("in"))
        'S 3.06 in³'
        """
        return f"{self.sign} {self.result(units)}".strip()

    def result(self, units: Writer) -> str:
        """The value without its sign."""
        if self.value == float("inf"):
            return "beyond any limit"
        return figure(self.value) if self.kind is None else units.write(self.kind, self.value)


@dataclass(frozen=True, kw_only=True)
class Working:
    """How one number came about."""

    what: str
    formula: str
    terms: tuple[Term, ...]
    result: Term
    source: str  # equation number and book
    words: str = ""  # what the terms can't say

    def values(self, units: Writer) -> str:
        """What was put in, in the plan's units."""
        shown = "; ".join(term.shown(units) for term in self.terms)
        return f"{shown}; {self.words}" if shown and self.words else shown or self.words

    def told(self, units: Writer) -> str:
        """The whole step in one line."""
        return f"{self.what}: {self.formula} = {self.result.result(units)} (with {self.values(units)}; {self.source})"


def step(what: str, formula: str, terms: tuple[Term, ...], result: Term, source: str, words: str = "") -> Working:
    """One step of a working."""
    return Working(what=what, formula=formula, terms=terms, result=result, source=source, words=words)


def in_words(ratio: float) -> str:
    """A utilisation to two places, or that nothing is allowed at all.

    >>> in_words(0.5), in_words(float("inf"))
    ('0.50', 'beyond any limit')
    """
    return f"{ratio:.2f}" if ratio < float("inf") else "beyond any limit"


def times(ratio: float) -> str:
    """A utilisation as part of a sentence, before "what is allowed".

    >>> times(1.384), times(1.003), times(1.0001), times(float("inf"))
    ('1.38 times', '1.003 times', 'a hair over 1 times', 'beyond')
    """
    if ratio == float("inf"):
        return "beyond"
    if 1 < ratio < 1.0005:
        return "a hair over 1 times"
    return f"{ratio:.2f} times" if not 1 < ratio < 1.005 else f"{ratio:.3f} times"
