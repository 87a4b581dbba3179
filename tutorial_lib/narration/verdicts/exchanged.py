"""Two values that change places over a whole talk: each said for the other's fact, and neither ever rightly."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from tutorial_lib.narration.verdicts import evidence
from tutorial_lib.narration.verdicts.suspicion import HOLDS, Overview, Weighed

LIKELY, LED = 0.5, 1.0  # by the words: chance of the other place, and its lead on the value's own [log-odds]
Exchange = tuple[str, str]  # the fact that the words speak for, the fact that the value is right for


def exchanged_apart(overview: Overview) -> dict[int, tuple[Weighed, Weighed]]:
    """The numbers that may have changed places, by their place: the fact spoken of, and the one the value is right for.

    The words at each speak for the other's fact, and neither value is said rightly anywhere in the talk.
    """
    right = {key for at in range(len(overview.rows)) for key in said_rightly(overview, at)}
    found: dict[Exchange, list[tuple[int, Weighed, Weighed]]] = defaultdict(list)
    for at in range(len(overview.rows)):
        for w, o in misplaced(overview, at):
            if not right & {w.key, o.key}:
                found[w.key, o.key].append((at, w, o))
    return {at: (w, o) for (a, b), places in found.items() if (b, a) in found for at, w, o in places}


def said_rightly(overview: Overview, at: int) -> Iterator[str]:
    """The facts a number is right for, and that the words speak for most."""
    most = overview.most_worded[at] - 1e-9
    yield from (w.key for w in overview.rows[at] if w.verdict in HOLDS and overview.worded(at, w) >= most)


def misplaced(overview: Overview, at: int) -> Iterator[tuple[Weighed, Weighed]]:
    """The facts that the words speak for and the value contradicts, each with one that the value is right for."""
    if not evidence.may_have_moved(overview, at):
        return
    least = max(LIKELY, overview.most_worded[at] - 1e-9)
    for w in overview.rows[at]:
        if w.verdict == "conflicts" and overview.worded(at, w) >= least:
            yield from ((w, o) for o in overview.equal_here[at] if in_its_place(overview, at, w, o))


def in_its_place(overview: Overview, at: int, w: Weighed, o: Weighed) -> bool:
    """Whether the words speak for one fact much more than for the one the value is right for."""
    return evidence.may_change_places(w, o) and evidence.preference(overview, at, w, o.key) >= LED
