"""A number that can be opened: the formula, the values put in, the result and where the formula comes from."""

from __future__ import annotations

from dataclasses import dataclass

NDS = "NDS 2018, written for structural timber; used here for a bed by our own choice"


@dataclass(frozen=True)
class Working:
    """How one number came about."""

    what: str
    formula: str
    values: str
    result: float
    unit: str
    source: str

    def __str__(self) -> str:
        unit = f" {self.unit}" if self.unit else ""
        return f"{self.what}: {self.formula} = {self.values} = {figure(self.result)}{unit} ({self.source})"


def in_words(ratio: float) -> str:
    """A utilisation to two places, or that nothing is allowed at all.

    >>> in_words(0.5), in_words(float("inf"))
    ('0.50', 'beyond any limit')
    """
    return f"{ratio:.2f}" if ratio < float("inf") else "beyond any limit"


def figure(value: float) -> str:
    """A number with three or four figures that count, as a person writes it.

    >>> figure(1443.75), figure(26.0), figure(0.0603)
    ('1444', '26', '0.06')
    """
    if value == float("inf"):
        return "beyond any limit"
    size = abs(value)
    places = 0 if size >= 100 else 1 if size >= 10 else 2 if size >= 0.05 else 3
    text = f"{value:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
