"""One check of one part in one case: what the bed and each pound of a person use of what is allowed."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import field
from functools import cached_property

from tutorial_lib.measures import Kind as Quantity
from tutorial_lib.records import dataclass
from tutorial_lib.strength.loads import Case, Kind
from tutorial_lib.strength.working import OURS, Term, Working, in_words, step

FOREVER = float("inf")
FASTENERS = {"screws": "screws", "bolts": "bolts", "screws pulled": "screws"}  # by what is checked of them


@dataclass(frozen=True)
class Effect:
    """A moment, shear or force: of the bed itself, and per pound of a person."""

    dead: float
    live: float

    def times(self, factor: float) -> Effect:
        """The same with people that count more than their weight."""
        return Effect(self.dead, factor * self.live)

    def at(self, person: float) -> float:
        """The greatest size for anyone up to this weight."""
        return max(abs(self.dead), abs(self.dead + person * self.live))

    def parts(self, person: float) -> tuple[float, float]:
        """What the bed and people of this weight put to its size: less than 0 where they ease it.

        >>> Effect(-16.0, 0.04).parts(200.0), Effect(-16.0, 0.16).parts(200.0)
        ((16.0, -8.0), (-16.0, 32.0))
        """
        whole = self.dead + person * self.live
        way = 1.0 if (self.dead if self.eased(person) else whole) >= 0 else -1.0
        return way * self.dead, way * person * self.live

    def eased(self, person: float) -> bool:
        """Whether it is greatest with nobody on the bed."""
        return abs(self.dead + person * self.live) < abs(self.dead)


@dataclass(frozen=True)
class Limit:
    """What is allowed, and how that came about."""

    value: float
    how: Callable[[], tuple[Working, ...]] = field(repr=False, compare=False)


@dataclass(frozen=True, kw_only=True)
class Use:
    """One check. Over 1 it is more than the wood or the fastener is allowed.

    Anyone up to the weight asked for is meant: an effect that turns its sign never falls for a heavier person.
    """

    part: str  # part key
    piece: str  # label of the piece, leg or joint
    label: str  # as a person names it
    what: str  # "bending", "shear", "bearing", "bolts" ...
    case: Case
    person: float  # [lb] stated
    limit: Limit
    unit: Quantity  # of the effects
    effects: tuple[Effect, ...]
    rates: bool = True
    key: str = ""  # short name of the check: "slat-bending"
    pushed: Working | None = None  # how the effect came about where it isn't the frame's
    relief: float = 0.0  # what each pound of a person adds to what is allowed: weight that holds the legs upright

    @property
    def kind(self) -> Kind:
        """lying, sitting, standing, bare, end rail, moving."""
        return self.case.kind

    @property
    def duration(self) -> float:
        """CD used; 1 where none applies."""
        return self.case.duration

    @property
    def title(self) -> str:
        """What is checked, in words: "left side rail, bending", "screws through the left cleat"."""
        told = self.fasteners or self.what == "racking"
        return self.label if told else f"{self.label}, {self.what}"

    @property
    def fasteners(self) -> str:
        """ "screws" or "bolts" where they are what is checked, else ""."""
        return FASTENERS.get(self.what, "")

    @cached_property
    def worst(self) -> Effect:
        """The effect that is largest for the stated person."""
        return max(self.effects, key=lambda e: round(e.at(self.person), 9))

    def allowed(self, person: float) -> float:
        """What is allowed with people of this weight [lb]."""
        return self.limit.value + self.relief * person

    def at(self, person: float) -> float:
        """Utilisation for anyone up to this weight [lb]."""
        size, allowed = max(effect.at(person) for effect in self.effects), self.allowed(person)
        return size / allowed if allowed > 0 else (FOREVER if size > 0 else 0.0)

    @cached_property
    def ratio(self) -> float:
        """Utilisation for the stated person."""
        return self.at(self.person)

    @cached_property
    def dead(self) -> float:
        """Of it, what the bed with its mattress uses by itself."""
        return self.at(0.0)

    @cached_property
    def holds(self) -> float:
        """The greatest person [lb] for whom it stays within 1; infinite where people add nothing."""
        return min((_holds(effect, self.limit.value, self.relief) for effect in self.effects), default=FOREVER)

    @property
    def first(self) -> Effect:
        """The effect that is over 1 first as people get heavier."""
        return min(self.effects, key=lambda e: _holds(e, self.limit.value, self.relief))

    @property
    def workings(self) -> tuple[Working, ...]:
        """Steps to the figure."""
        effect = self.worst
        bed, people = effect.parts(self.person)
        load = self.pushed or step(
            f"load: {self.title}, {self.case.name}",
            "bed alone, as people ease it" if effect.eased(self.person) else "bed + people",
            (
                Term("bed", bed, self.unit),
                Term("people", people, self.unit),
                Term("each weighing", self.person, "weight"),
            ),
            Term("", effect.at(self.person), self.unit),
            "all slats, lines, screws and legs as one frame, by stiffness",
        )
        use = step(
            "used of what is allowed",
            "effect / allowed",
            (Term("", effect.at(self.person), self.unit), Term("allowed", self.allowed(self.person), self.unit)),
            Term("", self.ratio),
            "allowable-stress design",
        )
        return (load, *self.limit.how(), *self._relieved(), use)

    def _relieved(self) -> tuple[Working, ...]:
        """What the people's own weight adds to what is allowed."""
        if not self.relief:
            return ()
        terms = (
            Term("bed", self.limit.value, self.unit),
            Term("people", self.relief * self.person, self.unit),
            Term("each weighing", self.person, "weight"),
        )
        allowed = Term("", self.allowed(self.person), self.unit)
        return (step("with the people's weight on the legs as well", "bed + people", terms, allowed, OURS),)

    def __str__(self) -> str:
        return f"{self.title}, {self.case.name}: {in_words(self.ratio)}"


def _holds(effect: Effect, limit: float, relief: float) -> float:
    if abs(effect.dead) >= limit:
        return 0.0
    grows = abs(effect.live) - relief
    if grows < 1e-12:
        return FOREVER
    return (limit - effect.dead if effect.live > 0 else limit + effect.dead) / grows


def worst_of(uses: Sequence[Use]) -> Use | None:
    """The use that is highest for the stated person; the first of equals."""
    return max(uses, key=lambda use: round(use.ratio, 6), default=None)


def first_largest(sizes: Sequence[float]) -> int:
    """Where the largest stands; the first of equals, however a machine's last digits fall.

    >>> first_largest([1.0, 2.0, 2.0 + 1e-12])
    1
    """
    top = max(sizes)
    rounded, near = round(top, 6), top - 2e-6
    return next(i for i, size in enumerate(sizes) if size >= near and round(size, 6) == rounded)


PROBES = (0.0, 150.0)  # [lb] people for whom the largest effects are kept


def largest(dead: Sequence[float], live: Sequence[float], person: float) -> tuple[Effect, ...]:
    """The effects that are largest for nobody, a usual and the stated person; the others say nothing more."""
    best: dict[int, None] = {}
    for weight in (*PROBES, person):
        sizes = [abs(d + weight * e) for d, e in zip(dead, live, strict=True)]
        best[first_largest(sizes)] = None
    return tuple(Effect(dead[i], live[i]) for i in best)
