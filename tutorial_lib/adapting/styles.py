"""When the creator's style can't carry a size: which other style would, tried and not guessed."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from tutorial_lib.adapting.boards import like
from tutorial_lib.adapting.changed import differences, flat
from tutorial_lib.adapting.moves import NAMED, moves
from tutorial_lib.adapting.search import Found, search
from tutorial_lib.adapting.soundness import Soundness
from tutorial_lib.design.build_file import change
from tutorial_lib.design.options import Options
from tutorial_lib.errors import InputError
from tutorial_lib.records import dataclass

OPEN_SCREWS: dict[str, Any] = {
    "screws.cleat": None,
    "screws.runner": None,
    "screws.slat": None,
    "screws.leg": None,
    "screws.line": None,
    "screws.corner": None,
    "screws.ply": None,
    "screws.flange": None,
}


def _on_runners(runner: str, slat: str, post: str) -> tuple[str, dict[str, Any]]:
    return (
        f"flat {runner} runners under the frame, on {post} legs, with {slat} slats",
        {
            "support.kind": "runners",
            "support.lumber": runner,
            "support.recess": None,
            "support.end_play": None,
            "slats.lumber": slat,
            "legs.kind": "post",
            "legs.lumber": post,
            "legs.place": None,
            "legs.omit": None,
            "centre.kind": "flat",
        }
        | OPEN_SCREWS,
    )


def styles(options: Options) -> Iterator[tuple[str, dict[str, Any]]]:
    """Other ways to build it, in the sections the build's region sells; a name and the keys to set."""
    two_by_four, two_by_six, two_by_eight, post = (like(options, name) for name in ("2x4", "2x6", "2x8", "4x4"))
    legs = {"legs.kind": "post", "legs.lumber": post, "legs.place": None, "legs.omit": None}
    yield f"deeper rails, {two_by_eight}", {"frame.rail": two_by_eight}
    yield f"{two_by_six} slats", {"slats.lumber": two_by_six, "screws.slat.length": None}
    yield f"{post} legs under the sides", legs
    if options.frame.posts:
        return  # runners lie under rails that meet
    yield _on_runners(two_by_four, two_by_four, post)
    yield _on_runners(two_by_six, two_by_four, post)


TRIES = 12  # for each way


def what_would(sound: Soundness, wanted: Options, fixed: frozenset[str] = frozenset()) -> str:
    """A sentence that names the first way to carry the bed, with all it takes; or that none tried does.

    Args:
        sound: what to measure by.
        wanted: the options asked for.
        fixed: keys the person asked for: to give up one of them is less than another style.
    """
    names = []
    for way in _ways(sound, wanted, fixed):
        names.append(way.name)
        kept = fixed - way.given_up if way.given_up else frozenset[str]()
        try:
            found = search(sound, change(wanted, way.changes), kept, TRIES)
        except InputError:
            continue
        if found.sound:
            others = (c.why for c in found.move.choices if c.why and not way.given_up & dict(c.changes).keys())
            return f"This would: {'; '.join(dict.fromkeys([*_instead(way, wanted, found), *others]))}."
    return f"None of these would either: {'; '.join(names)}. Take fewer or lighter people, or ask a licensed engineer."


@dataclass(frozen=True)
class _Way:
    """A way to build it: its name, the keys it sets, and those of the person's own that it gives up."""

    name: str
    changes: dict[str, Any]
    given_up: frozenset[str] = frozenset()


def _ways(sound: Soundness, wanted: Options, fixed: frozenset[str]) -> Iterator[_Way]:
    """The slightest first: one of the person's own choices as in the creator's bed, all of them, another style."""
    usual = flat(sound.creator.options.raw())
    movable = sorted(fixed & {key for move in moves(wanted) for key in move.changes})
    for keys in [*([key] for key in movable), *([movable] if len(movable) > 1 else ())]:
        name = f"the creator's {' and '.join(NAMED.get(key, key) for key in keys)}"
        yield _Way(name, {key: usual.get(key) for key in keys}, frozenset(keys))
    yield from (_Way(name, changes) for name, changes in styles(wanted))


def _instead(way: _Way, wanted: Options, found: Found) -> list[str]:
    """What is built in place of what was asked for; the style's name where it is another."""
    others = differences(wanted, found.plan.options, "")
    return [
        f"{NAMED.get(c.key, c.key)}: {c.after} in place of {c.before}" for c in others if c.key in way.given_up
    ] or [way.name]
