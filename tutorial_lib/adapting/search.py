"""The least change that leaves no trouble; else the best found."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import replace

from tutorial_lib.adapting.changed import Reason
from tutorial_lib.adapting.moves import Axis, Move, eased_by, moves
from tutorial_lib.adapting.soundness import STAGES, Judged, Soundness, Trouble
from tutorial_lib.design.build_file import change
from tutorial_lib.design.options import Options
from tutorial_lib.errors import InputError
from tutorial_lib.plan import Plan, plan
from tutorial_lib.records import dataclass
from tutorial_lib.strength.rating import HIGHEST

MOST_TRIES = 40  # beds looked at before saying that the style can't carry a size; our choice
FEW_TRIES = 5  # where people are asked for who weigh more than any bed is rated for: no move mends that


_tried: ContextVar[Callable[[], object]] = ContextVar("_tried", default=lambda: None)


@contextmanager
def telling(tried: Callable[[], object]) -> Iterator[None]:
    """Calls this for each bed that a search inside looks at: a search may take seconds, and somebody waits."""
    before = _tried.set(tried)
    try:
        yield
    finally:
        _tried.reset(before)


Hull = dict[Axis, set[int]]  # choices by axis: all their mixtures bring one trouble


@dataclass(frozen=True)
class Found:
    """The plan a search ended on."""

    plan: Plan
    move: Move
    judged: Judged
    met: tuple[Trouble, ...] = ()  # what stood in the way of the beds looked at before

    @property
    def sound(self) -> bool:
        """True when nothing stands in its way."""
        return self.judged.stage == STAGES

    def reason(self, key: str, sound: Soundness) -> Reason:
        """Why the search set a key: what it does, and the check it brings back, before and after."""
        choice = self.move.choice(key)
        if choice is None:
            return Reason("needed by the other changes")
        eased = [t for t in self.met if choice.axis in eased_by(t.rule, t.part)]
        eased = [t for t in eased if t not in self.judged.troubles]
        return Reason(choice.why, sound.eased(eased[0], self.plan) if eased else "")


def search(sound: Soundness, wanted: Options, fixed: frozenset[str] = frozenset(), tries: int = MOST_TRIES) -> Found:
    """The first combination of moves, by how much they change, that is as sound as the creator's bed.

    Args:
        sound: what to measure by.
        wanted: the options asked for.
        fixed: keys the person asked for; no move touches them.
        tries: beds looked at, at most.

    Raises:
        InputError: no combination can exist; the first reason.
    """
    best: Found | None = None
    refused: InputError | None = None
    known: dict[object, Hull] = {}
    met: list[Trouble] = []
    hopeless = "load.person" in fixed and wanted.load.person > HIGHEST
    for move in _open_moves(wanted, fixed, known, min(tries, FEW_TRIES) if hopeless else tries):
        try:
            made = plan(change(wanted, move.changes))
            judged = sound.judge(made)
        except InputError as error:
            refused = refused or error
            continue
        if best is None or judged.rank < best.judged.rank:
            best = Found(made, move, judged)
        if best.sound:
            break
        _learn(known, move, judged)
        met += judged.troubles
    if best is None:
        assert refused is not None  # doing nothing is always tried
        raise refused
    return replace(best, met=tuple(met))


def _open_moves(wanted: Options, fixed: frozenset[str], known: Mapping[object, Hull], tries: int) -> Iterator[Move]:
    """Moves that are still worth a look."""
    left = tries
    for move in moves(wanted):
        if left and not fixed & set(move.changes) and not any(_within(move, hull) for hull in known.values()):
            left -= 1
            _tried.get()()
            yield move


def _within(move: Move, hull: Hull) -> bool:
    """Whether a move makes no choice but those that brought a trouble."""
    picks = dict(move.picks)
    return all(picks[axis] in numbers for axis, numbers in hull.items())


def _learn(known: dict[object, Hull], move: Move, judged: Judged) -> None:
    """Notes the choices that bring a trouble in any company: no use trying them again.

    Where two moves bring the very same figure, what they differ in is no matter to it: any mixture of theirs brings it.
    """
    for trouble in judged.troubles:
        mine = {axis: number for axis, number in move.picks if axis in eased_by(trouble.rule, trouble.part)}
        sized = trouble.measure is not None and trouble.ratio < float("inf")
        key = (trouble.measure, round(trouble.ratio, 6)) if sized else (trouble.text, *sorted(mine.items()))
        hull = known.setdefault(key, {axis: set() for axis in mine})
        for axis, number in mine.items():
            hull[axis].add(number)
