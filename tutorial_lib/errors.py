"""The one family of errors: what is wrong, where, and the way out.

Everything a person can do wrong ends in an :class:`InputError`; the command
line turns it into one message and exit status 2.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from tutorial_lib.records import dataclass

STATED = "= "  # begins what is said of a value as the file states it
LONGEST_QUOTE = 200  # characters
MOST_TOLD = 40  # faults of one message; past them a person mends the first
LONGEST_WORD = 300  # characters; a path may be one


@dataclass(frozen=True)
class Fault:
    """One thing that is wrong with what was given.

    ``where`` names the place as the person knows it (``spare-room-twin.toml:31 slats.gap``,
    ``pieces.csv row 4``); ``what`` is a whole sentence with the value, the limit and the way out. It may begin with
    the value as the file states it, after the key: ``slats.gap = 4 in leaves ...``.
    """

    where: str
    what: str

    def __str__(self) -> str:
        joint = " " if self.what.startswith(STATED) else ": "
        return shortened(f"{self.where}{joint}{self.what}" if self.where else self.beside)

    @property
    def beside(self) -> str:
        """What is wrong as it is said beside its control, where the key need not be named."""
        return self.what.removeprefix(STATED)


def shortened(message: str) -> str:
    """The message with what was given repeated in part only, where it is very long.

    >>> len(shortened(f'"{"x" * 10_000}" is no size.')) < 150
    True
    """
    message = re.sub(rf'"([^"]{{{LONGEST_QUOTE},}})"', lambda found: f'"{found[1][: LONGEST_QUOTE // 2]}…"', message)
    return re.sub(rf"\S{{{LONGEST_WORD},}}", lambda found: f"{found[0][: LONGEST_WORD // 3]}…", message)


class TutorialError(Exception):
    """Base of all errors this library raises on purpose."""


class InputError(TutorialError, ValueError):
    """The input can't be used; carries all faults found, not only the first, and what is to be said after them."""

    def __init__(self, faults: str | Fault | Iterable[Fault], closing: str = "") -> None:
        if isinstance(faults, str):
            faults = [Fault("", faults)]
        elif isinstance(faults, Fault):
            faults = [faults]
        self.faults: tuple[Fault, ...] = tuple(dict.fromkeys(faults))  # what several parts ran into is said once
        self.closing = closing
        super().__init__(self.faults)

    def __str__(self) -> str:
        return "\n".join([*self._told(), *([self.closing] if self.closing else [])])

    def _told(self) -> list[str]:
        if len(self.faults) == 1:
            return [str(self.faults[0])]
        lines = [f"{len(self.faults)} things to put right:"]
        lines += [f"  - {fault}" for fault in self.faults[:MOST_TOLD]]
        return lines + ([f"  and {len(self.faults) - MOST_TOLD} more"] if len(self.faults) > MOST_TOLD else [])


class LengthError(InputError):
    """A length that can't be read, or could mean two things."""


class DesignError(InputError):
    """A build that can't exist: pieces overlap, a size is negative, nothing is left to lie on."""
