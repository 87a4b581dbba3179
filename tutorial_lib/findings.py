"""What a rule found: its severity, the number, the limit, whose limit it is, and what to change."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

from tutorial_lib.records import dataclass

Severity = Literal["stop", "caution", "note"]
ORDER: tuple[Severity, ...] = ("stop", "caution", "note")


@dataclass(frozen=True)
class Remedy:
    """A change of the build file that may cure a finding; told only once it was tried (``outcome`` says what came)."""

    text: str  # an imperative sentence without its end: "Set the cleat's screws 6 in apart"
    changes: tuple[tuple[str, object], ...]  # (key of the build file, value as it would be stated); None leaves it out
    outcome: str = ""  # "0.90 of what is allowed, two people of 200 lb lying"

    @classmethod
    def setting(cls, text: str, **keys: object) -> Remedy:
        """A remedy from keys of the build file, a double underscore for the dot; None leaves the key out.

        >>> Remedy.setting("Lay 15 slats", slats__count=15).changes
        (('slats.count', 15),)
        """
        return cls(text, tuple((key.replace("__", "."), value) for key, value in keys.items()))

    def __str__(self) -> str:
        return f"{self.text}: {self.outcome}." if self.outcome else f"{self.text}."


@dataclass(frozen=True, kw_only=True)
class Finding:
    """One rule, tripped.

    ``value`` and ``limit`` are written as a person reads them ("3 23/32 in"), with their units;
    either may be empty where a rule has no number.
    """

    rule: str  # the rule's short name, e.g. "slat gap"
    severity: Severity
    what: str  # one sentence: what was found
    value: str = ""
    limit: str = ""
    whose: str = ""  # whose limit: "mattress maker's terms", "our choice", "NDS 12.1.5.6"
    remedy: str = ""  # what to change, as an imperative sentence
    ratio: float = 0.0  # how many times what is allowed, where more load or less strength makes it worse
    parts: tuple[str, ...] = ()  # keys of the parts it speaks of
    remedies: tuple[Remedy, ...] = ()  # changes worth trying, the slightest first; untried until someone asks

    def as_json(self) -> dict[str, object]:
        """The finding in the form of the JSON reports."""
        return {
            "rule": self.rule,
            "severity": self.severity,
            "value": self.value,
            "limit": self.limit,
            "whose": self.whose,
            "what": self.what,
            "remedy": self.remedy,
        }

    @property
    def told(self) -> str:
        """What, limit, whose and remedy in one line."""
        limit = f" (limit {self.limit}{', ' + self.whose if self.whose else ''})" if self.limit else ""
        return f"{self.what}{limit} {self.remedy}".rstrip()

    def __str__(self) -> str:
        return f"{self.severity}: {self.told}"


def by_severity(findings: Iterable[Finding]) -> list[Finding]:
    """Stops first, then cautions, then notes; the order within each is kept."""
    return sorted(findings, key=lambda f: ORDER.index(f.severity))
