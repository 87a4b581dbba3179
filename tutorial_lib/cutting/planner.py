"""The cut plan: pieces and boards in, the cheapest shopping list and every board's layout out."""

from __future__ import annotations

import time
from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace
from enum import Enum
from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING

from tutorial_lib.cutting.boards import Board, CutPlan, Piece, PieceDemand, SectionPlan, Stock, TieBreak
from tutorial_lib.cutting.budget import LEAST, Budget
from tutorial_lib.cutting.certificate import Problem
from tutorial_lib.cutting.coarse import Coarse, Filled, by_length, coarser, dealt
from tutorial_lib.cutting.demand import refuse
from tutorial_lib.cutting.problem import Block, Supply, Task, task
from tutorial_lib.errors import Fault, InputError
from tutorial_lib.measures import Units, Writer, writer

if TYPE_CHECKING:
    from tutorial_lib.cutting.lp import Pattern
    from tutorial_lib.cutting.search import Found, Search

KEPT = 32  # sections kept at hand: a change to a bed leaves most of its boards as they are
SECONDS = 6.0  # for a whole plan: with what no search can be stopped in, it is told within ten
MANY, FEW_TRIES = 60, 10  # pieces from which on, and tries in which boards of one kind are filled at once
STEPS = 10  # in which the time left for the next section is told


class NoPlan(Enum):
    """Why a section has no plan."""

    IMPOSSIBLE = "shown"
    NONE_FOUND = "not shown"


PREFER: tuple[TieBreak, ...] = ("layouts", "offcut")


def plan_cuts(
    pieces: Sequence[PieceDemand],
    stocks: Sequence[Stock],
    kerf: Fraction,
    trim: Fraction,
    prefer: Sequence[TieBreak] = PREFER,
    seconds: float = SECONDS,
    units: Units = "in",
) -> CutPlan:
    """The least cost, then the least waste, then what the user prefers among equals.

    Args:
        pieces: what is wanted.
        stocks: what can be had, per section.
        kerf: width of the saw cut [in].
        trim: length lost at each board's ends, squaring cut included [in].
        prefer: tie-breaks in order; empty for none, which is quicker.
        seconds: soft limit for all steps together, where the search is hard.
        units: of the plan, for what can't be done.

    Raises:
        InputError: nothing to cut, a piece longer than any board, too few boards, a number that can't be.

    >>> from tutorial_lib.measures import inch
    >>> slats, boards = PieceDemand("slat", inch("38 1/4"), 14), Stock("10 ft", inch(120), 500)
    >>> plan = plan_cuts([slats], [boards], inch("1/8"), inch(0))
    >>> len(plan.boards), plan.proven
    (5, True)
    """
    refuse(pieces, stocks, kerf, trim, units)
    sections = _sections(pieces, stocks, kerf, trim, prefer, seconds, writer(units))
    return CutPlan(tuple(sections), kerf, trim, tuple(prefer))


def _sections(
    pieces: Sequence[PieceDemand],
    stocks: Sequence[Stock],
    kerf: Fraction,
    trim: Fraction,
    prefer: Sequence[TieBreak],
    seconds: float,
    w: Writer,
) -> Iterator[SectionPlan]:
    """One plan per section, in the order the pieces name them."""
    left, least = seconds, max(seconds / STEPS, LEAST)
    for section in dict.fromkeys(p.section for p in pieces):
        wanted = tuple(p for p in pieces if p.section == section)
        have = tuple(s for s in stocks if s.section == section)
        began = time.process_time()
        made = _section(section, wanted, have, kerf, trim, tuple(prefer), left)
        if isinstance(made, NoPlan):
            raise InputError(_too_few(section, task(wanted, have, kerf, trim), w, made))
        steps = (time.process_time() - began) // least  # whole ones: what is kept at hand is kept by the time it had
        left = max(left - steps * least, least)
        yield made


@lru_cache(maxsize=KEPT)
def _section(
    section: str,
    pieces: tuple[PieceDemand, ...],
    stocks: tuple[Stock, ...],
    kerf: Fraction,
    trim: Fraction,
    prefer: tuple[TieBreak, ...],
    seconds: float,
) -> SectionPlan | NoPlan:
    """The plan of one section, or that there is none."""
    from tutorial_lib.cutting.proof import Cuts
    from tutorial_lib.cutting.search import Search

    job = task(pieces, stocks, kerf, trim)
    coarse = coarser(job.problem)
    if coarse is not None:
        return _coarsely(section, job, coarse, kerf, trim, seconds)
    search = Search(job.problem, seconds)
    if search.too_few:
        return NoPlan.IMPOSSIBLE
    answer = _quickly(search, prefer)
    if answer is None:
        found = _at_once(search) or search.run()
        answer = None if found is None else (found, *_settled(search, found, prefer, min(seconds, 1.0)))
    if answer is None:
        return NoPlan.NONE_FOUND if search.unsure else NoPlan.IMPOSSIBLE
    found, chosen, settled = answer
    boards = _boards(job, chosen, kerf, trim, section)
    cost = sum(b.price for b in boards)
    return SectionPlan(
        section=section,
        boards=boards,
        bound=min(found.bound, cost),
        evidence=Cuts(job.problem, found.bound, tuple(found.cuts)),
        searched=found.searched,
        settled=settled,
        supplies=tuple(s.stock for s in job.supplies),
    )


def _quickly(search: Search, prefer: Sequence[TieBreak]) -> tuple[Found, Counter[Pattern], bool] | None:
    """The same answer where it takes no solver, as of most beds; None where it takes one."""
    from tutorial_lib.cutting.settle import Settling

    found = search.quick()
    if found is None:
        return None
    exact = without_surplus(found.boards, search.problem.demand)
    chosen = Settling(search, exact, 0.0).only(prefer) if prefer else exact
    return None if chosen is None else (found, chosen, bool(prefer))


def _at_once(search: Search) -> Found | None:
    """The fewest boards that the pieces' length asks for, where a few tries fill them; None where they don't.

    For many pieces out of boards of one kind: a tenth of what shadow prices take, and the length alone is the proof.
    """
    from tutorial_lib.cutting.filling import filled
    from tutorial_lib.cutting.search import Found

    problem = search.problem
    if len(problem.prices) > 1 or not problem.prices[0] or sum(problem.demand) < MANY:
        return None
    boards, most = -(-search.by_length.worth // problem.capacities[0]), problem.available[0]
    made = filled(problem, (boards,), search.seconds, FEW_TRIES) if most is None or boards <= most else None
    if made is None:
        return None
    search.cuts = [search.by_length]
    return Found(made, boards * problem.prices[0], search.cuts)


def _coarsely(
    section: str, job: Task, coarse: Coarse, kerf: Fraction, trim: Fraction, seconds: float
) -> SectionPlan | NoPlan:
    """A list that can be cut, a bound from a coarser problem, and the gap between them as it is."""
    from tutorial_lib.cutting.proof import Cuts, Length
    from tutorial_lib.cutting.search import Search

    budget = Budget(seconds)
    chosen = _cuttable(job, coarse, budget.share(0.4))
    if chosen is None:
        return NoPlan.NONE_FOUND
    bound, below = by_length(job.problem), None
    if bound < _cost(job, chosen)[0]:
        found = Search(coarse.below, budget.share(0.6)).run()
        below = found if found is not None and found.bound > bound else None
    if below:
        bound = below.bound
    if bound < _cost(job, chosen)[0]:
        chosen = _filled_up(job.problem, bound, budget.share(0.6)) or chosen
    boards = _filled(job, chosen, kerf, trim, section)
    bound = min(bound, _cost(job, chosen)[0])
    return SectionPlan(
        section=section,
        boards=boards,
        bound=bound,
        evidence=Cuts(coarse.below, bound, tuple(below.cuts)) if below else Length(job.problem, bound),
        searched=below.searched if below else 0,
        settled=False,
        supplies=tuple(s.stock for s in job.supplies),
    )


def _cuttable(job: Task, coarse: Coarse, seconds: float) -> list[Filled] | None:
    """The cheapest list at hand that can be cut; None where the boards run out."""
    from tutorial_lib.cutting.packing import packed
    from tutorial_lib.cutting.search import Search

    lists = [packed(job.problem)]
    above = Search(coarse.above, seconds).run()
    if above is not None:
        patterns = [(p.stock, p.counts, count) for p, count in above.boards.items()]
        lists.append(dealt(patterns, coarse, job.problem.demand))
    return min((boards for boards in lists if boards), key=lambda boards: _cost(job, boards), default=None)


def _filled_up(problem: Problem, cost: int, seconds: float) -> list[Filled] | None:
    """A list for no more than a cost, where boards are of one length and each can be filled nearly to its end."""
    from tutorial_lib.cutting.filling import filled_any_way

    if len(problem.prices) > 1 or not problem.prices[0]:
        return None
    made = filled_any_way(problem, (cost // problem.prices[0],), seconds)
    if made is None:
        return None
    boards = [pattern for pattern, count in made.items() for _ in range(count)]
    return [(board.stock, [kind for kind, n in enumerate(board.counts) for _ in range(n)]) for board in boards]


def _cost(job: Task, boards: Sequence[Filled]) -> tuple[int, Fraction]:
    supplies = [job.supplies[stock] for stock, _ in boards]
    return sum(s.price for s in supplies), sum((s.length for s in supplies), Fraction(0))


def _filled(job: Task, chosen: Sequence[Filled], kerf: Fraction, trim: Fraction, section: str) -> tuple[Board, ...]:
    """Boards with their pieces dealt, longest first; boards cut alike side by side."""
    heaps: dict[int, list[Block]] = {kind: list(reversed(blocks)) for kind, blocks in enumerate(job.blocks)}
    boards = []
    for stock, kinds in chosen:
        blocks = sorted((heaps[kind].pop() for kind in kinds), key=lambda block: -block[0].length)
        pieces = tuple(piece for block in blocks for piece in block)
        boards.append(_board(job.supplies[stock], pieces, kerf, trim, section))
    return tuple(sorted(boards, key=lambda board: (-board.pieces[0].length, -board.length)))


def forget() -> None:
    """Drops the plans kept at hand, for who wants to time one."""
    _section.cache_clear()


def _too_few(section: str, job: Task, w: Writer, why: NoPlan) -> Fault:
    most = sum((s.length * s.available for s in job.supplies if s.available), Fraction(0))
    there, pieces = (
        f"the boards listed ({w.length(most)} together)",
        sum(len(block) for blocks in job.blocks for block in blocks),
    )
    told = {
        NoPlan.IMPOSSIBLE: f"{there} can't hold all pieces",
        NoPlan.NONE_FOUND: f"no way was found to get all {pieces} pieces out of {there}",
    }
    return Fault(
        section or "stock", f"{told[why]}; list more boards, or leave `available` empty where more can be bought"
    )


def _settled(search: Search, found: Found, prefer: Sequence[TieBreak], seconds: float) -> tuple[Counter[Pattern], bool]:
    """Boards after the tie-breaks, surplus pieces taken off first."""
    from tutorial_lib.cutting.settle import Settling

    exact = without_surplus(found.boards, search.problem.demand)
    if not prefer:
        return exact, False
    settling = Settling(search, exact, seconds)
    return settling.settle(exact, prefer), settling.proven


def without_surplus(boards: Counter[Pattern], demand: Sequence[int]) -> Counter[Pattern]:
    """The same boards without the pieces that nobody wants."""
    left = list(demand)
    kept: Counter[Pattern] = Counter()
    for pattern, count in boards.items():
        for _ in range(count):
            counts = tuple(min(n, have) for n, have in zip(pattern.counts, left, strict=True))
            left = [have - n for n, have in zip(counts, left, strict=True)]
            if any(counts):
                kept[replace(pattern, counts=counts)] += 1
    return kept


def _boards(job: Task, chosen: Counter[Pattern], kerf: Fraction, trim: Fraction, section: str) -> tuple[Board, ...]:
    """Patterns as real boards: longest boards first, names dealt in order."""
    heaps: dict[int, list[Block]] = {kind: list(reversed(blocks)) for kind, blocks in enumerate(job.blocks)}
    order = sorted(chosen.items(), key=lambda c: (-max(_lengths(job, c[0])), -job.supplies[c[0].stock].length, -c[1]))
    boards: list[Board] = []
    for pattern, count in order:
        supply = job.supplies[pattern.stock]
        for _ in range(count):
            pieces = _dealt(pattern, heaps)
            boards.append(_board(supply, pieces, kerf, trim, section))
    return tuple(boards)


def _board(supply: Supply, pieces: tuple[Piece, ...], kerf: Fraction, trim: Fraction, section: str) -> Board:
    return Board(
        supply.stock, supply.length, supply.price,
        pieces=pieces, kerf=kerf, trim=trim, section=section, own=supply.own,
    )  # fmt: skip


def _lengths(job: Task, pattern: Pattern) -> list[Fraction]:
    return [job.blocks[kind][0][0].length for kind, n in enumerate(pattern.counts) if n]


def _dealt(pattern: Pattern, heaps: dict[int, list[Block]]) -> tuple[Piece, ...]:
    """Pieces for one board, longest first; pieces that belong together stay side by side."""
    blocks: list[Block] = []
    for kind, count in enumerate(pattern.counts):
        blocks += [heaps[kind].pop() for _ in range(count)]
    blocks.sort(key=lambda block: -block[0].length)
    return tuple(piece for block in blocks for piece in block)


def faults(plan: CutPlan, pieces: Sequence[PieceDemand], stocks: Sequence[Stock]) -> list[str]:
    """What is wrong with a plan, by counting: nothing, if it is one of ours.

    Args:
        plan: any plan, from wherever.
        pieces: what was wanted.
        stocks: what could be had.
    """
    return [*_overfilled(plan), *_miscounted(plan, pieces), *_not_there(plan, stocks), *_torn_apart(plan)]


def _overfilled(plan: CutPlan) -> Iterator[str]:
    for board in plan.boards:
        if board.left < 0:
            yield f"{board.stock} is over-filled"
        if (board.kerf, board.trim) != (plan.kerf, plan.trim):
            yield f"{board.stock} is cut with another kerf or trim"


def _miscounted(plan: CutPlan, pieces: Sequence[PieceDemand]) -> Iterator[str]:
    wanted: Counter[tuple[str, str, Fraction]] = Counter()
    for p in pieces:
        wanted[p.section, p.name, p.length] += p.count
    made = Counter((b.section, p.name, p.length) for b in plan.boards for p in b.pieces)
    for key in wanted | made:
        if wanted[key] != made[key]:
            yield f"{key[1]}: {made[key]} cut, {wanted[key]} wanted"


def _not_there(plan: CutPlan, stocks: Sequence[Stock]) -> Iterator[str]:
    taken = Counter((b.section, b.stock, b.length, b.price) for b in plan.boards)
    have: dict[tuple[str, str, Fraction, int], float] = defaultdict(float)
    for s in stocks:
        have[s.section, s.name, s.length, s.price] += float("inf") if s.available is None else s.available
    for key, count in taken.items():
        if count > have[key]:
            yield f"{key[1]}: {count} taken, {have[key]:g} there"


def _torn_apart(plan: CutPlan) -> Iterator[str]:
    homes: dict[tuple[str, str], set[int]] = defaultdict(set)
    for i, board in enumerate(plan.boards):
        for piece in board.pieces:
            if piece.together:
                homes[board.section, piece.together].add(i)
    for (_, word), boards in homes.items():
        if len(boards) > 1:
            yield f"pieces marked {word} come from {len(boards)} boards"
