"""One choice of the build file that was changed, and why."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

from tutorial_lib.design.options import Options
from tutorial_lib.measures import exact_length
from tutorial_lib.records import dataclass

OPEN = "left open"
NO_CHOICE = ("said", "yours", "from", "build.name", "build.title")  # where a build comes from and is called


@dataclass(frozen=True)
class Reason:
    """Why something was changed, and the check it brings back."""

    why: str
    check: str = ""


@dataclass(frozen=True, kw_only=True)
class Change:
    """One choice of the build file that was changed, and why."""

    key: str  # dotted key of the build file
    before: str
    after: str
    why: str
    check: str = ""  # the check it brings back, before and after
    rounded: bool = False  # only moved to a whole millimetre

    @property
    def full(self) -> str:
        """Why, with the check it brings back."""
        return f"{self.why}; {self.check}" if self.check else self.why

    def __str__(self) -> str:
        return f"{self.key}: {self.before} → {self.after}: {self.full}"


def differences(before: Options, after: Options, why: str | Callable[[str], Reason]) -> list[Change]:
    """Every choice two builds disagree on, in the order of the build file."""
    old, new = flat(before.raw()), flat(after.raw())
    found = []
    for key in dict.fromkeys((*old, *new)):
        if old.get(key) != new.get(key) and not _no_choice(key):
            reason = Reason(why) if isinstance(why, str) else why(key)
            was, now = _words(old.get(key), before, key), _words(new.get(key), after, key)
            found.append(Change(key=key, before=was, after=now, why=reason.why, check=reason.check))
    return [change for change in found if change.before != change.after]


def merged(changes: Iterable[Change]) -> tuple[Change, ...]:
    """One change for each key: from the first value to the last, for the last reason; none where it came back."""
    found: dict[str, Change] = {}
    for change in changes:
        first = found.get(change.key, change)
        found[change.key] = replace(change, before=first.before)
    return tuple(change for change in found.values() if change.before != change.after)


def _no_choice(key: str) -> bool:
    return key in NO_CHOICE or key.split(".")[0] in NO_CHOICE


def flat(table: Mapping[str, Any], path: str = "") -> dict[str, Any]:
    """Nested tables as dotted keys.

    >>> flat({"slats": {"gap": "2 in"}})
    {'slats.gap': '2 in'}
    """
    out: dict[str, Any] = {}
    for key, value in table.items():
        if isinstance(value, Mapping):
            out |= flat(value, f"{path}{key}.")
        else:
            out[path + key] = value
    return out


def _words(value: Any, options: Options, key: str) -> str:
    if value is None:
        value = _default(options, key)
    if value is None or value == ():
        return OPEN if value is None else "none"
    if isinstance(value, list | tuple):
        return ", ".join(_row(item) for item in value) or "none"
    return exact_length(value, options.build.units) if isinstance(value, Fraction) else str(value)


def _default(options: Options, key: str) -> Any:
    """What stands in the options where the build file leaves a key out."""
    found: Any = options
    for name in key.split("."):
        found = found.get(name) if isinstance(found, Mapping) else getattr(found, name, None)
    return found


def _row(value: Any) -> str:
    if not isinstance(value, Mapping):
        return str(value)
    own = f"{value['available']} of your own " if "available" in value and "price" not in value else ""
    price = f" at {value['price']}" if "price" in value else ""
    return f"{own}{value.get('length', value)}{price}"
