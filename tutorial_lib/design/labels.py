"""Labels of several pieces told together: what they share once, many in a row by the first and the last."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from itertools import groupby, takewhile

RUN = 4  # labels in a row up to this many are told one by one


def in_runs(every: Sequence[str], some: Collection[str]) -> str:
    """Some labels of a row; those that stand together in it by the first and the last.

    >>> in_runs([f"slat {n} left" for n in range(1, 9)], [f"slat {n} left" for n in (1, 2, 3, 4, 5, 7)])
    'slat 1 to 5, 7 left'
    """
    mine = [label for label in every if label in some]
    end = shared_end(mine)
    bare = {label: label.removesuffix(end) for label in every}
    bare = {
        label: name for label, name in bare.items() if name != label or not end
    }  # others of the row lie between none
    short = dict(zip(mine, apart(mine), strict=True))
    runs = [[short[label] for label in run] for on, run in groupby(bare, lambda label: label in short) if on]
    told = ", ".join(f"{run[0]} to {run[-1]}" if len(run) > RUN else ", ".join(run) for run in runs)
    return f"{bare[mine[0]].removesuffix(short[mine[0]])}{told}{end}"


def apart(labels: Sequence[str]) -> tuple[str, ...]:
    """What tells labels apart: "L1" and "R1" of "leg L1 ply a" and "leg R1 ply a"."""
    end = shared_end(labels)
    bare = [label.removesuffix(end) for label in labels]
    shared = _shared(bare)
    return tuple(label[shared.rfind(" ") + 1 :] for label in bare)


def shared_end(labels: Sequence[str]) -> str:
    """The last words of several labels where they are the same: " left" of "slat 1 left" and "slat 2 left".

    Not a number: "cleat left 2" and "cleat right 2" keep theirs.
    """
    shared = _shared([label[::-1] for label in labels])[::-1] if len(labels) > 1 else ""
    end = shared[shared.find(" ") :] if " " in shared else ""
    return "" if end.strip().isdigit() else end


def _shared(labels: Sequence[str]) -> str:
    """What all labels begin with."""
    return "".join(letters[0] for letters in takewhile(lambda some: len(set(some)) == 1, zip(*labels, strict=False)))
