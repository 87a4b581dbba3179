"""What a person may choose in a panel, as data."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from typing import Any, Literal

from tutorial_lib.measures import Units, writer
from tutorial_lib.records import dataclass

Kind = Literal[
    "choice", "length", "count", "text", "check", "button", "upload", "boards",
    "weight", "hours", "money", "number", "words", "lengths",
]  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Control:
    """One control, bound to a key of the build file ("slats.gap") or, without a dot, to the panel itself.

    >>> Control(key="slats.gap", label="Gap at most", kind="length", low=Fraction(1), high=Fraction(4)).bound
    True
    """

    key: str
    label: str
    kind: Kind
    choices: tuple[tuple[str, Any], ...] = ()  # shown, value
    low: Fraction = Fraction(0)  # [in] or count
    high: Fraction = Fraction(24)
    step: Fraction = Fraction(1, 8)
    value: Any = None  # first value of a control of the panel's own
    empty: str = ""  # what an empty box means, as shown in it
    fact: str = ""  # key of the fact that says what an empty box comes to; its slider stands there
    group: str = ""  # heading it stands under
    letter: str = ""  # key that presses a button of a panel that has the focus
    more: bool = False  # folded away under its heading until asked for
    when: Callable[[Any], bool] | None = None  # options in which it means something; always when left out

    @property
    def bound(self) -> bool:
        """True when it changes an option."""
        return "." in self.key


def look_up(options: Any, key: str) -> Any:
    """The value of a dotted key in options (or plain tables)."""
    for name in key.split("."):
        if options is None:
            return None
        options = options.get(name) if isinstance(options, dict) else getattr(options, name)
    return options


def weighed(control: Control, units: Units) -> Control:
    """A slider of a weight [lb] in the plan's unit, which its label names: a slider's own figure has none.

    >>> weighed(Control(key="person", label="Weighs", kind="count", low=Fraction(80), high=Fraction(400)), "mm").high
    Fraction(180, 1)
    """
    w = writer(units)
    low, high = (Fraction(5 * round(w.convert("weight", x) / 5)) for x in (control.low, control.high))
    return replace(control, label=f"{control.label} ({w.unit('weight')})", low=low, high=high)
