"""What the video says and what to use instead; for another bed also which of its sentences no longer hold."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tutorial_lib.adapting import Comparison
from tutorial_lib.adapting.comparison import Outdated, Said, Slip
from tutorial_lib.narration.verdicts.items import Item
from tutorial_lib.narration.verdicts.writing import written_whole
from tutorial_lib.publishing.booklet.leaf import Book, Data, Leaf
from tutorial_lib.publishing.corrections import consequence

FEW = 3  # sentences that no longer hold and need no page of their own
MOST_ROUGH = 8  # numbers said roughly that are worth a line


def leaves(book: Book) -> Iterator[Leaf]:
    """The page, where there is something to put right."""
    found = book.found
    if found is None or not (found.slips or found.outdated or found.adaptation.notes):
        return
    skipped = _skipped(found)
    yield Leaf("video", {
        "lead": _lead(found),
        "notes": list(found.adaptation.notes),
        "slips": [_slip(found, slip) for slip in found.slips if not found.lacks(slip.row)],
        "outdated": [
            {"at": o.said.time or "", **_quoted(o.said), "instead": found.instead(o)}
            for o in found.outdated if o not in skipped
        ],
        "skip": _skip(found, skipped),
        "rough": list(_rough(found)),
    }, joined=brief(book))  # fmt: skip


def brief(book: Book) -> bool:
    """Whether there is too little to tell for a page of its own: it stands at the end then."""
    found = book.found
    if found is None or found.adaptation.same:
        return False
    return all(found.lacks(slip.row) for slip in found.slips) and len(found.outdated) - len(_skipped(found)) <= FEW


def _skipped(found: Comparison) -> list[Outdated]:
    """Sentences about what your bed has nothing of."""
    return [o for o in found.outdated if all(map(found.lacks, o.rows))]


def _lead(found: Comparison) -> str:
    wrong, old = len(found.slips), len(found.outdated)
    told = [f"{wrong} {'number' if wrong == 1 else 'numbers'} in the video differ from the plan"] if wrong else []
    told += [f"{old} {'sentence does' if old == 1 else 'sentences do'} not hold for your bed"] if old else []
    return f"{' and '.join(told) or 'Nothing was found to put right'}. The check can miss one."


def _skip(found: Comparison, skipped: Sequence[Outdated]) -> str:
    """When the video speaks of what your bed has nothing of."""
    said = [*(s.said for s in found.slips if found.lacks(s.row)), *(o.said for o in skipped)]
    times = dict.fromkeys(one.time or f"“{one.quote}”" for one in sorted(said, key=lambda one: one.t or 0.0))
    return ", ".join(times)


def _slip(found: Comparison, slip: Slip) -> Data:
    item = _item(found, slip.said)
    own = found.adaptation.same
    return {
        "at": slip.said.time or "", "about": slip.row.what, **_quoted(slip.said), "said": _said(found, item),
        "use": found.use(slip), "plan": "" if own else found.write(slip.row.before),
        "act": _act(item) if item and own else "",
    }  # fmt: skip


def _item(found: Comparison, said: Said) -> Item | None:
    conflicts = found.report.conflicts if found.report else ()
    return next((i for i in conflicts if (i.time, i.quote) == (said.time, said.quote)), None)


def _said(found: Comparison, item: Item | None) -> str:
    if item is None or not item.value or found.report is None:
        return ""
    return written_whole(item.value, item.unit, found.report.units)


def _act(item: Item) -> str:
    affected, safe = consequence(item)
    return f"For {affected}. {safe[0].upper()}{safe[1:]}."


def _quoted(said: Said) -> Data:
    """The sentence up to the number, the number, and the rest of it."""
    before, quote, after = said.sentence.partition(said.quote)
    return {"before": before, "quote": quote, "after": after}


def _rough(found: Comparison) -> Iterator[Data]:
    report = found.report
    if report is None or not found.adaptation.same:
        return
    for item in report.with_verdict("rounded")[:MOST_ROUGH]:
        plan = found.write(found.before[item.subject]) if item.subject and item.subject in found.before else ""
        yield {"at": item.where, "quote": item.quote, "plan": plan, "what": item.what}
