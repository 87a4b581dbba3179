"""Checks, ratings, the leg map and what the rules find: the strength step's second half."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import cached_property
from itertools import combinations

from tutorial_lib.design.fasteners import Fastening
from tutorial_lib.design.model import Build
from tutorial_lib.errors import TutorialError
from tutorial_lib.findings import Finding
from tutorial_lib.strength.fixings import Fixings
from tutorial_lib.strength.leg_map import LegEntry, LegsLoad, leg_loads, leg_map
from tutorial_lib.strength.outcome import Outcome
from tutorial_lib.strength.rating import Position, Rating, least, rate
from tutorial_lib.strength.rules import findings_of
from tutorial_lib.strength.sections import ungraded
from tutorial_lib.strength.spans import SpanLimit, span_limits
from tutorial_lib.strength.use import Use, worst_of

SUBSETS_UP_TO = 4  # legs left out of the plan whose every part is worked out too; of more, only all but one each


class Strength:
    """Everything the strength step says of one build."""

    def __init__(
        self, build: Build, fastenings: Sequence[Fastening], whole: Callable[[], Strength] | None = None
    ) -> None:
        """The build with its fasteners, and where something was taken out of it, the same bed with all of it."""
        self.build, self.fastenings, self._whole = build, tuple(fastenings), whole

    @cached_property
    def unknown_woods(self) -> tuple[str, ...]:
        """Woods of the build that are known by their weight alone: then there are no figures."""
        return ungraded(self.build)

    @cached_property
    def outcome(self) -> Outcome | None:
        """The bed worked out; None where its wood has no design values."""
        return None if self.unknown_woods else Outcome(self.build, Fixings(self.fastenings))

    @property
    def uses(self) -> tuple[Use, ...]:
        """Every check."""
        return () if self.outcome is None else self.outcome.uses

    @cached_property
    def lying(self) -> Rating:
        """The greatest person, all lying."""
        return self._rating("lying")

    @cached_property
    def sitting(self) -> Rating:
        """The greatest person, all sitting on one edge."""
        return self._rating("sitting")

    def _rating(self, kind: Position) -> Rating:
        """Own rating, never above that of the bed with all that was taken out of it: an elastic answer can be."""
        if self.outcome is None:
            options = self.build.options
            return rate(kind, options.load.people, (), options.build.units, "no value")
        found = self.outcome.rating(kind)
        for more in self._with_more:
            found = least(found, more.rating(kind))
        return found

    @cached_property
    def _with_more(self) -> tuple[Outcome, ...]:
        """The whole bed, and where legs are left out, the bed with all sets of fewer left out than are."""
        gone = self.build.options.legs.omit
        if self._whole is None:
            return ()
        try:
            whole = self._whole().outcome
        except TutorialError:  # a third leg finds no place
            return ()
        if whole is None or (not gone and whole.barriers):  # it has no figure to hold this one to
            return ()
        return tuple(_between(whole, gone))

    @property
    def stops(self) -> tuple[Finding, ...]:
        """What stands against building it."""
        return tuple(finding for finding in self.findings if finding.severity == "stop")

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """What the rules find."""
        return tuple(findings_of(self))

    @cached_property
    def leg_loads(self) -> tuple[LegsLoad, ...]:
        """Each leg's greatest load; quick, the legs stay where they are."""
        return () if self.outcome is None or self.outcome.fell else tuple(leg_loads(self.outcome))

    @cached_property
    def legs(self) -> tuple[LegEntry, ...]:
        """Each leg's load, and the bed worked out without it."""
        if self.outcome is None or self.outcome.fell:
            return ()
        return tuple(leg_map(self.outcome, self.lying, self.sitting))

    @cached_property
    def spans(self) -> tuple[SpanLimit, ...]:
        """Longest slat span by slat stock, for this wood and these people."""
        return () if self.unknown_woods else span_limits(self.build)

    def worst(self, *kinds: str) -> Use | None:
        """The highest use over kinds of case."""
        return worst_of([use for use in self.uses if use.kind in kinds and use.rates])

    @property
    def governing(self) -> Use | None:
        """The highest use when lying or sitting."""
        return self.worst("lying", "sitting")


def _between(whole: Outcome, gone: Sequence[str]) -> Iterator[Outcome]:
    yield whole
    sizes = range(1, len(gone)) if len(gone) <= SUBSETS_UP_TO else (1, len(gone) - 1)
    for size in sizes:
        for labels in combinations(gone, size):
            yield whole.without(*labels)


def results(build: Build, fastenings: Sequence[Fastening], whole: Callable[[], Strength] | None = None) -> Strength:
    """The strength of a build with its fasteners; worked out when asked for.

    A layout that can't stand is a stop among the findings and has no rating (0 lb), never a silent number.

    Args:
        build: the bed.
        fastenings: its fasteners as placed.
        whole: where a leg, a line or a screw was taken out, the strength of the same bed with it.
    """
    return Strength(build, fastenings, whole)
