"""Options for another mattress, other boards, another saw: the creator's choices kept as far as they hold."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import field, replace
from functools import lru_cache
from typing import Any

from tutorial_lib.adapting.asked import Wanted, wanted
from tutorial_lib.adapting.changed import Change, differences, merged
from tutorial_lib.adapting.own_boards import OwnBoards, all_alike, use_of, with_own_boards
from tutorial_lib.adapting.search import search
from tutorial_lib.adapting.soundness import Soundness
from tutorial_lib.adapting.stock import with_short_boards, with_stock
from tutorial_lib.adapting.styles import what_would
from tutorial_lib.design.build_file import change
from tutorial_lib.design.options import Options
from tutorial_lib.findings import Finding
from tutorial_lib.measures import exact_length
from tutorial_lib.plan import Plan, plan
from tutorial_lib.records import dataclass

OWN = "own boards"


@dataclass(frozen=True, kw_only=True)
class Adaptation:
    """The creator's plan, yours, and the way from one to the other."""

    creator: Plan
    yours: Plan
    changes: tuple[Change, ...] = ()
    troubles: tuple[str, ...] = ()  # why it can't be carried; empty when it can
    notes: tuple[str, ...] = ()  # said once: which size a name was taken for, what else it could be
    would: str = ""  # what would carry it, checked, when this style can't
    judged: bool = True  # held against the creator's own strength; not when two builds are only compared

    @property
    def same(self) -> bool:
        """True when it is the creator's own bed."""
        return self.yours is self.creator

    @property
    def findings(self) -> list[Finding]:
        """What the rules find in the adapted plan, after a stop of its own when the style can't carry it."""
        found = list(self.yours.findings)
        if self.troubles:
            what = "This style of bed can't carry it: " + "; ".join(self.troubles[:3]) + "."
            found.insert(
                0,
                Finding(
                    rule="adapting",
                    severity="stop",
                    what=what,
                    whose="the rules and the strength check",
                    remedy=self.would,
                ),
            )
        return found

    @property
    def stops(self) -> list[Finding]:
        """Findings nobody should build past."""
        return [finding for finding in self.findings if finding.severity == "stop"]


def adapt(
    creator: Options,
    mattress: str | None = None,
    changes: Mapping[str, Any] | None = None,
    have: Sequence[OwnBoards] = (),
) -> Adaptation:
    """The build for another mattress or other choices, changing what must change, least first.

    Args:
        creator: the creator's own options; adapting always starts from these.
        mattress: a name, a region and a name, or a size ("king", "UK double", "54x75 in"); None keeps it.
        changes: dotted keys of the build file to values, as the build file would state them.
        have: boards at hand, used first and not bought.

    Raises:
        InputError: an unknown mattress or key, or a value that can't be used.
        DesignError: what was asked for can't exist and no allowed change cures it.
    """
    creator = creator.bed
    own = _planned(stated(creator))
    asked = wanted(creator, mattress, changes or {})
    if have:
        with_own = with_own_boards(asked.options, have)
        said = "; ".join(boards.words(with_own.build.units) for boards in have)
        asked = asked.then(with_own, [Change(key=OWN, before="none", after=said, why="at hand")])
    if asked.options == creator:
        return Adaptation(creator=own, yours=own, notes=asked.notes)
    return _searched(own, asked.then(_titled(asked.options, asked.size), ()), frozenset(changes or ()), have)


def compare(creator: Options, other: Options) -> Adaptation:
    """Two builds of the same bed side by side: what changed since it was filmed."""
    changes = tuple(differences(creator.bed, other.bed, "stated in the other build"))
    return Adaptation(creator=plan(creator.bed), yours=plan(other.bed), changes=changes, judged=False)


@dataclass(frozen=True)
class Stated:
    """Options told apart by what they state: what was worked out from them is known again."""

    text: str
    options: Options = field(compare=False)


def stated(options: Options) -> Stated:
    """Options as a key of what is kept."""
    return Stated(repr(options.raw()), options)


@lru_cache(maxsize=4)
def _planned(creator: Stated) -> Plan:
    """The creator's plan; worked out once for all sizes that start from it."""
    return plan(creator.options)


def _searched(own: Plan, asked: Wanted, fixed: frozenset[str], have: Sequence[OwnBoards]) -> Adaptation:
    sound = Soundness(own)
    found = search(sound, asked.options, fixed)
    told = differences(asked.options, found.plan.options, lambda key: found.reason(key, sound))
    yours, more = _bought(found.plan, own, have)
    troubles = tuple(dict.fromkeys(trouble.text for trouble in sound.troubles(yours)))
    return Adaptation(
        creator=own,
        yours=yours,
        changes=tuple(_with_use(change, yours, have) for change in merged((*asked.changes, *told, *more))),
        troubles=troubles,
        notes=asked.notes,
        would=what_would(sound, asked.options, fixed) if troubles else "",
    )


def _with_use(change: Change, made: Plan, have: Sequence[OwnBoards]) -> Change:
    """How many of the boards at hand the bed takes, beside what they are."""
    return change if change.key != OWN else replace(change, why=use_of(made.cutting.own_boards, have))


def _bought(made: Plan, own: Plan, have: Sequence[OwnBoards]) -> tuple[Plan, list[Change]]:
    """The plan with boards long enough, short ones where a long one would be wasted, and own boards by their size."""
    options, more = with_stock(made)
    made = made if options == made.options else plan(options)
    options, short = with_short_boards(made, own)
    made = made if options == made.options else plan(options)
    options, sized = _own_size(made, have)
    return (made if options == made.options else plan(options)), [*more, *short, *sized]


def _own_size(made: Plan, have: Sequence[OwnBoards]) -> tuple[Options, list[Change]]:
    """Where all pieces of a section come from own boards of one size, that size is the plan's."""
    options, changes = made.options, list[Change]()
    for section, boards in all_alike(options, have, [p.section for p in made.cutting.shopping]):
        if section in {part.section.name for part in made.build.parts}:
            units = options.build.units
            assert boards.thickness is not None and boards.width is not None
            sizes = {"thickness": boards.thickness, "width": boards.width}
            sized = change(options, {f"lumber.{section}.{k}": exact_length(x, units) for k, x in sizes.items()})
            changes += differences(options, sized, "all of them come from your own boards")
            options = sized
    return options, changes


def with_article(name: str) -> str:
    """A size by its name with "a" or "an" before it; regions are read letter by letter.

    >>> with_article("US queen"), with_article("AU king")
    ('a US queen', 'an AU king')
    """
    return f"{'an' if name[:2] in ('AU', 'EU') else 'a'} {name}"


def _titled(options: Options, size: str) -> Options:
    """The options under a title and a name of their own size."""
    if not size:
        return options
    build = options.build
    title = f"{build.title}, {'as ' + with_article(size) if size[0].isalpha() else 'for ' + size}"
    name = re.sub(r"[^a-z0-9]+", "-", f"{build.name}-{size}".lower()).strip("-")
    return change(options, {"build.title": title, "build.name": name})
