"""When the creator's style can't carry a size: which other style would, tried and not guessed."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from tutorial_lib.adapting.boards import like
from tutorial_lib.adapting.search import search
from tutorial_lib.adapting.soundness import Soundness
from tutorial_lib.design.build_file import change
from tutorial_lib.design.options import Options
from tutorial_lib.errors import InputError

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


TRIES = 12  # for each style


def what_would(sound: Soundness, wanted: Options) -> str:
    """A sentence that names the first style that carries the bed, with all it takes; or that none tried does."""
    for name, changes in styles(wanted):
        try:
            found = search(sound, change(wanted, changes), frozenset(), TRIES)
        except InputError:
            continue
        if found.sound:
            more = [why for why in dict.fromkeys(choice.why for choice in found.move.choices) if why]
            return f"This would: {name}{'; ' if more else ''}{'; '.join(more)}."
    tried = "; ".join(name for name, _ in styles(wanted))
    return f"None of these would either: {tried}. Take fewer or lighter people, or ask a licensed engineer."
