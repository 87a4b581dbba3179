"""A viewer's own bed in its one form: their build file, with what they asked for and the creator's build in it."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from typing import Any

from tutorial_lib.adapting.adapt import Adaptation, Stated, adapt, compare, stated
from tutorial_lib.adapting.own_boards import read_own_boards
from tutorial_lib.design.options import Options, YoursOptions
from tutorial_lib.design.toml_faults import number
from tutorial_lib.errors import Fault, InputError
from tutorial_lib.plan import plan
from tutorial_lib.records import dataclass


@dataclass(frozen=True)
class Asked:
    """What a viewer asks for, as they write it."""

    mattress: str | None = None
    changes: tuple[str, ...] = ()  # "saw.kerf=3 mm"
    have: tuple[str, ...] = ()  # "10 of 2x4, 92 1/2 in"

    def __bool__(self) -> bool:
        return bool(self.mattress or self.changes or self.have)

    def after(self, earlier: YoursOptions) -> Asked:
        """Together with what was asked for before; of one key the later value stands."""
        keys = {_stated(text) for text in self.changes}
        kept = tuple(text for text in earlier.changes if _stated(text) not in keys)
        have = (*earlier.have, *(text for text in self.have if text not in earlier.have))
        return Asked(self.mattress or earlier.mattress, (*kept, *self.changes), have)

    def as_options(self) -> YoursOptions:
        """In the form of the build file."""
        return YoursOptions(mattress=self.mattress, changes=self.changes, have=self.have)


def _stated(change: str) -> str:
    """What a change states: its key; one height is as good as another, since only one is given."""
    key = change.partition("=")[0].strip()
    return "heights" if key.startswith("heights.") else key


def viewers_bed(options: Options, asked: Asked | None = None) -> Adaptation:
    """The bed of a viewer, from the creator's build or from their own with the creator's in it.

    Args:
        options: the creator's build, or a viewer's (with ``from``).
        asked: what is asked for now; added to what the viewer's build says was asked for before.

    Raises:
        InputError: an unknown mattress or key, boards that can't be read, a value that can't be used.
    """
    creator = options.origin or options
    if not asked:
        return _as_it_stands(options, creator)
    every = asked.after(options.yours)
    adapted = _adapted(creator, every)
    if options.origin is None or _same_bed(options, _adapted(creator, Asked().after(options.yours))):
        return adapted
    note = "The build file was changed by hand since it was written: those changes are not in this."
    return _with_note(adapted, note)


def _as_it_stands(options: Options, creator: Options) -> Adaptation:
    """A build as its file has it; against the creator's where that is in it, with the reasons where they still hold."""
    if options.origin is None:
        own = plan(options)
        return Adaptation(creator=own, yours=own)
    try:
        again = _adapted(creator, Asked().after(options.yours))
        if _same_bed(options, again):
            return replace(again, notes=())  # what a name was taken for was said when it was asked for
    except InputError:
        pass  # what was asked for can't be done any more: the file stands for itself
    return compare(creator, options)


def _adapted(creator: Options, asked: Asked) -> Adaptation:
    return _adapted_once(stated(creator), asked)


@lru_cache(maxsize=4)
def _adapted_once(known: Stated, asked: Asked) -> Adaptation:
    """What was asked for before is mostly asked again: a command, its file and a notebook come by the same bed."""
    creator = known.options
    units = "mm" if changes_of(asked.changes).get("build.units") == "mm" else creator.build.units
    return adapt(creator, asked.mattress, changes_of(asked.changes), read_own_boards(asked.have, units))


def changes_of(texts: tuple[str, ...]) -> dict[str, Any]:
    """Keys of the build file to values, from KEY=VALUE as typed; numbers, true, false and lists as TOML writes them.

    Raises:
        InputError: one has no key or no value; all of them.

    >>> changes_of(("slats.gap=2 in", "legs.per_side=4"))
    {'slats.gap': '2 in', 'legs.per_side': 4}
    """
    pairs = [text.partition("=") for text in texts]
    faults = [
        Fault("--set", f'"{"".join(pair)}" is not KEY=VALUE, such as "saw.kerf=3 mm".')
        for pair in pairs
        if not (pair[0].strip() and pair[2].strip())
    ]
    faults += [
        Fault("--set", f'"{"".join(pair)}": a key is a table and a name, such as saw.kerf{_meant(pair)}.')
        for pair in pairs
        if pair[0].strip() and pair[2].strip() and "." not in pair[0]
    ]
    if faults:
        raise InputError(faults)
    return {key.strip(): _value(value.strip()) for key, _, value in pairs}


def _meant(pair: tuple[str, str, str]) -> str:
    return f'; the mattress has an option of its own, --mattress "{pair[2]}"' if pair[0].strip() == "mattress" else ""


def _value(text: str) -> object:
    """A value as TOML reads it; text that TOML can't read stays text, so that lengths need no quotes."""
    try:
        read = tomllib.loads(f"value = {text}", parse_float=number)
    except (tomllib.TOMLDecodeError, RecursionError, ValueError):
        return text
    return read["value"] if set(read) == {"value"} else text


def _same_bed(options: Options, again: Adaptation) -> bool:
    ours: Mapping[str, Any] = again.yours.options.raw()
    there = {key: value for key, value in options.bed.raw().items() if key not in ("yours", "said")}
    return there == {key: value for key, value in ours.items() if key not in ("yours", "said")}


def _with_note(adapted: Adaptation, note: str) -> Adaptation:
    return replace(adapted, notes=(*adapted.notes, note))


def as_build(adapted: Adaptation, creator: Options, asked: YoursOptions) -> Options:
    """The viewer's build file: their bed, what they asked for, and the creator's build."""
    return adapted.yours.options.model_copy(update={"origin": creator.bed, "yours": asked})
