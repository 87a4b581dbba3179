"""What each load case does to the whole bed: the share of the bed itself, and that of each pound of a person."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cached_property

from tutorial_lib.records import dataclass
from tutorial_lib.strength.bed import Bed
from tutorial_lib.strength.grillage import Grillage, Load, Moved, Tips
from tutorial_lib.strength.loads import Case, Patch, cases, deck, hard
from tutorial_lib.strength.slat import Spread

REFERENCE = 200.0  # [lb] a person for whom contacts are found open or closed; our choice


@dataclass(frozen=True)
class Response:
    """The bed under one case."""

    case: Case
    cases: tuple[Case, ...]  # the case, and where people sit, sitting down hard: the same times 1.5
    dead: Moved  # the bed with its mattress, nobody on it
    live: Moved  # per pound of a person
    people: Load  # per pound of a person


@dataclass(frozen=True)
class Fallen:
    """A case in which the bed has no balance, and what gives way."""

    case: Case
    tips: Tips


class Responder:
    """Answers cases for one bed, or for the bed with its runners alone."""

    def __init__(self, bed: Bed, grillage: Grillage) -> None:
        self.bed, self.grillage = bed, grillage

    @cached_property
    def dead_load(self) -> Load:
        """Mattress, bedding, slats and lines."""
        slat = self.bed.slat
        whole = Spread(slat.start, slat.end)
        own = ((slat.weight * (slat.end - slat.start), whole),)
        return Load(tuple(row + own for row in on_slats(self.bed, (deck(self.bed.build),))), own=True)

    @cached_property
    def _dead(self) -> Moved | Tips:
        try:
            return self.grillage.settle(self.dead_load)[1]
        except Tips as tips:
            return tips

    @property
    def dead(self) -> Moved:
        """The bed with its mattress, nobody on it.

        Raises:
            Tips: it falls by itself.
        """
        if isinstance(self._dead, Tips):
            raise self._dead
        return self._dead

    @cached_property
    def found(self) -> tuple[tuple[Response, ...], tuple[Fallen, ...]]:
        """Every case that has a balance, and those that have none."""
        held: list[Response] = []
        fallen: list[Fallen] = []
        careful = self.bed.build.options.load.careful
        for case in cases(self.bed.build):
            people = Load(on_slats(self.bed, case.people))
            try:
                live = self.per_pound(people)
            except Tips as tips:
                fallen.append(Fallen(case, tips))
                continue
            both = (case, hard(case, careful=careful)) if case.kind == "sitting" else (case,)
            held.append(Response(case, both, self.dead, live, people))
        return tuple(held), tuple(fallen)

    def added(self, people: Load) -> Moved:
        """What a small load adds while every contact stays closed."""
        return self.grillage.under(people, self.grillage.closed)

    def per_pound(self, people: Load) -> Moved:
        """What one pound of a person adds: the bed with people of the reference weight less the bed by itself.

        Raises:
            Tips: no balance with people of the reference weight.
        """
        together = summed(self.dead_load, people, REFERENCE)
        return _per_pound(self.dead, self.grillage.settle(together)[1])


def on_slats(bed: Bed, patches: Iterable[Patch]) -> tuple[tuple[tuple[float, Spread], ...], ...]:
    """Pounds of each patch on each slat, by the strip of bed that the slat carries."""
    rows: list[tuple[tuple[float, Spread], ...]] = [()] * len(bed.strips)
    for patch in patches:
        (x0, x1), spread = patch.x, Spread(*patch.y)
        for i, (a, b) in enumerate(bed.strips):
            part = (min(x1, b) - max(x0, a)) / (x1 - x0) * patch.load
            if part > 0:
                rows[i] = (*rows[i], (part, spread))
    return tuple(rows)


def summed(dead: Load, people: Load, person: float) -> Load:
    """The bed with people of one weight on it."""
    rows = [
        (*own, *((pounds * person, spread) for pounds, spread in extra))
        for own, extra in zip(dead.on_slats, people.on_slats, strict=True)
    ]
    return Load(tuple(rows), own=dead.own)


def _per_pound(dead: Moved, together: Moved) -> Moved:
    def less(a: Sequence[Sequence[float]], b: Sequence[Sequence[float]]) -> tuple[tuple[float, ...], ...]:
        return tuple(tuple((x - y) / REFERENCE for x, y in zip(p, q, strict=True)) for p, q in zip(a, b, strict=True))

    return Moved(less(together.pushes, dead.pushes), less(together.carried, dead.carried),
                 less(together.sags, dead.sags))  # fmt: skip
