"""What may be changed to carry another size, least first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import product
from typing import Any, Literal

from tutorial_lib.adapting.boards import like, thicker
from tutorial_lib.design.options import Options
from tutorial_lib.measures import exact_length, mm, round_to, to_mm
from tutorial_lib.records import dataclass

Axis = Literal["lines", "line legs", "side legs", "set-back", "slats", "screws"]
Picks = frozenset[tuple[Axis, int]]

MOST_LINES = 3
SCREWED = ("cleat", "runner", "slat", "leg", "line")  # joints whose stated screws may be chosen anew
LENGTHS = ("length",)
ALL: tuple[Axis, ...] = ("lines", "line legs", "side legs", "set-back", "slats", "screws")
NAMED = {"centre.lines": "centre lines", "centre.legs": "legs under each line", "legs.per_side": "legs a side",
         "legs.omit": "legs left out", "legs.setback": "set-back of the end legs", "slats.lumber": "slats"}  # fmt: skip
# Which choices can ease a rule's stop, or what is over its limit on a part; anything else may depend on all of them.
EASED_BY: dict[str, tuple[Axis, ...]] = {
    "fasteners meet": ("slats", "screws"),
    "screw tip": ("slats", "screws"),
    "screw penetration": ("slats", "screws"),
    "racking": ("lines", "line legs", "side legs", "screws"),
    "slat": ("lines", "slats"),
    "side_rail": ("lines", "side legs", "set-back", "screws"),
    "cleat": ("lines", "side legs", "set-back", "screws"),
    "runner": ("lines", "side legs", "set-back", "screws"),
    "centre_beam": ("lines", "line legs"),
    "centre_runner": ("lines", "line legs"),
    "leg": ("lines", "line legs", "side legs", "set-back", "screws"),
}


def eased_by(rule: str, part: str) -> tuple[Axis, ...]:
    """The choices that can ease a trouble: by its rule or check, else by the part it is about."""
    return EASED_BY.get(rule) or EASED_BY.get(part, ALL)


@dataclass(frozen=True)
class Choice:
    """One way to settle one axis: how much it changes, the keys it sets, and why."""

    axis: Axis
    number: int  # 0 leaves it as it is
    weight: Fraction = Fraction(0)
    changes: tuple[tuple[str, Any], ...] = ()
    why: str = ""


@dataclass(frozen=True)
class Move:
    """One choice on every axis, tried together."""

    choices: tuple[Choice, ...]

    @property
    def weight(self) -> Fraction:
        """How much it changes."""
        return sum((choice.weight for choice in self.choices), Fraction(0))

    @property
    def picks(self) -> Picks:
        """Axis and number of each choice."""
        return frozenset((choice.axis, choice.number) for choice in self.choices)

    @property
    def changes(self) -> dict[str, Any]:
        """Keys of the build file and what they are set to."""
        return {key: value for choice in self.choices for key, value in choice.changes}

    def choice(self, key: str) -> Choice | None:
        """The choice that sets a key."""
        return next((choice for choice in self.choices if key in dict(choice.changes)), None)


def moves(options: Options) -> Iterator[Move]:
    """All combinations in order of how much they change, nothing first."""
    axes = (
        _lines(options),
        _line_legs(options),
        _side_legs(options),
        _slats(options),
        _setback(options),
        _screws(options),
    )
    combined = (Move(choice) for choice in product(*axes))
    yield from sorted((move for move in combined if _sensible(move, options)), key=lambda move: move.weight)


def _sensible(move: Move, options: Options) -> bool:
    """Legs under a line mean something only where there is a line."""
    lines = move.changes.get("centre.lines", options.centre.lines)
    return bool(lines) or ("line legs", 0) in move.picks


def _lines(options: Options) -> list[Choice]:
    """More centre lines first; fewer only if nothing else will do."""
    now, found = options.centre.lines, [Choice("lines", 0)]
    for lines in range(MOST_LINES + 1):
        if lines == now:
            continue
        weight = Fraction(2 * (lines - now) if lines > now else 5 * (now - lines))
        changes: list[tuple[str, Any]] = [("centre.lines", lines)]
        if not now:
            changes += _new_line(options)
        plural = "line" if lines == 1 else "lines"
        why = f"the slats span less with {lines} centre {plural}" if lines > now else f"{lines} centre {plural} will do"
        why += f" ({beam_lumber(options)} on {max(2, options.legs.per_side)} legs)" if not now else ""
        found.append(Choice("lines", len(found), weight, tuple(changes), why))
    return found


def _new_line(options: Options) -> list[tuple[str, Any]]:
    """What the first centre line is made of, and as many legs under it as under a side."""
    kind = "flat" if options.support.kind == "runners" else "beam"
    return [
        ("centre.kind", kind),
        ("centre.lumber", beam_lumber(options)),
        ("centre.legs", max(2, options.legs.per_side)),
    ]


def beam_lumber(options: Options) -> str:
    """What centre lines are made of: stated, the runner's lumber, or a 2x4 in the plan's system."""
    if options.centre.lines:
        return options.centre.lumber
    if options.support.kind == "runners":
        return options.support.lumber
    return like(options, "2x4")


def _line_legs(options: Options) -> list[Choice]:
    """One or two legs more under each line."""
    now = options.centre.legs if options.centre.lines else max(2, options.legs.per_side)
    found = [Choice("line legs", 0)]
    for legs in (now + 1, now + 2):
        found.append(
            Choice(
                "line legs",
                len(found),
                Fraction(legs - now),
                (("centre.legs", legs),),
                f"{legs} legs shorten the line's spans",
            )
        )
    return found


def _side_legs(options: Options) -> list[Choice]:
    """Legs that were left out put back, then more of them."""
    legs, found = options.legs, [Choice("side legs", 0)]
    if legs.omit:
        found.append(Choice("side legs", 1, Fraction(1), (("legs.omit", None),), "the legs left out are needed"))
    for more in (1, 2, 3):
        changes: tuple[tuple[str, Any], ...] = (("legs.per_side", legs.per_side + more),)
        changes += (("legs.omit", None),) if legs.omit else ()
        found.append(
            Choice(
                "side legs",
                len(found),
                Fraction(3 * more, 2),
                changes,
                f"{legs.per_side + more} legs a side shorten the rails' spans",
            )
        )
    return found


def _slats(options: Options) -> list[Choice]:
    thick = thicker(options, options.slats.lumber)
    found = [Choice("slats", 0)]
    if thick is not None:
        # Screws stated for the creator's slats don't reach through thicker ones: their length is chosen anew.
        changes = [("slats.lumber", thick), *_stated(options, ("slat",), LENGTHS)]
        found.append(Choice("slats", 1, Fraction(3), tuple(changes), f"{thick} slats carry the longer span"))
    return found


def _setback(options: Options) -> list[Choice]:
    now, units = options.legs.setback or Fraction(0), options.build.units
    found = [Choice("set-back", 0)]
    if now >= 3:
        half = exact_length(mm(round_to(to_mm(now / 2), 1)) if units == "mm" else round_to(now / 2, 16), units)
        found.append(
            Choice(
                "set-back",
                1,
                Fraction(5, 2),
                (("legs.setback", half),),
                "legs nearer the ends shorten what runs past them",
            )
        )
    return found


def _screws(options: Options) -> list[Choice]:
    """Let the chooser find what was stated for the creator's build: lengths first, then all of it."""
    found = [Choice("screws", 0)]
    longer = _stated(options, SCREWED, LENGTHS)
    if longer:
        why = "the stated screws don't fit here; their length is chosen anew"
        found.append(Choice("screws", 1, Fraction(1, 2), longer, why))
    every = _stated(options, SCREWED, ("gauge", "length", "spacing", "count"))
    if every != longer:
        why = "the stated screws or their spacing no longer hold; chosen anew"
        found.append(Choice("screws", len(found), Fraction(4), every, why))
    return found


def _stated(options: Options, joints: Iterable[str], keys: Iterable[str]) -> tuple[tuple[str, Any], ...]:
    """What the build file states of some joints' screws, to be left open."""
    return tuple(
        (f"screws.{name}.{key}", None)
        for name in joints
        for key in keys
        if getattr(getattr(options.screws, name), key) is not None and not _own_data(options, name)
    )


def _own_data(options: Options, name: str) -> bool:
    """True for bolts, lags and screws stated with their own data: these are not chosen from a table."""
    return getattr(options.screws, name).diameter is not None
