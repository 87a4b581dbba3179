"""When the creator's style can't carry a size: which other style would, tried and not guessed."""

from __future__ import annotations

from typing import Any

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


def _on_runners(lumber: str) -> tuple[str, dict[str, Any]]:
    return (
        f"flat {lumber} runners under the frame, on 4x4 legs, with 2x4 slats",
        {
            "support.kind": "runners",
            "support.lumber": lumber,
            "support.recess": None,
            "support.end_play": None,
            "slats.lumber": "2x4",
            "legs.kind": "post",
            "legs.lumber": "4x4",
            "legs.place": None,
            "legs.omit": None,
            "centre.kind": "flat",
            "centre.ends": None,
        }
        | OPEN_SCREWS,
    )


STYLES: tuple[tuple[str, dict[str, Any]], ...] = (
    ("deeper rails, 2x8", {"frame.rail": "2x8"}),
    ("2x6 slats", {"slats.lumber": "2x6"}),
    ("4x4 legs under the sides", {"legs.kind": "post", "legs.lumber": "4x4", "legs.place": "under", "legs.omit": None}),
    _on_runners("2x4"),
    _on_runners("2x6"),
)
TRIES = 12  # for each style


def what_would(sound: Soundness, wanted: Options) -> str:
    """A sentence that names the first style that carries the bed, with all it takes; or that none tried does."""
    for name, changes in STYLES:
        try:
            found = search(sound, change(wanted, changes), frozenset(), TRIES)
        except InputError:
            continue
        if found.sound:
            more = [why for why in dict.fromkeys(choice.why for choice in found.move.choices) if why]
            return f"This would: {name}{'; ' if more else ''}{'; '.join(more)}."
    tried = "; ".join(name for name, _ in STYLES)
    return f"None of these would either: {tried}. Take fewer or lighter people, or ask a licensed engineer."
