"""Cut lists of every size and shape, as sums: the boards, their proofs, the second tries of each list in numbers.

    python -m tests.snapshots.cuts                 # writes them anew; the diff shows which lists moved, and in what
    python -m tests.snapshots.cuts "grid 3"        # all that is said of this list, to lay beside another checkout's

Each plan is also counted over again from its boards alone before it is written or compared.
"""

from __future__ import annotations

import json
import random
import sys
from collections.abc import Callable, Iterator
from fractions import Fraction
from pathlib import Path

from tests.snapshots.sums import Sum, renew, sums
from tutorial_lib.cutting import PieceDemand, Stock, check, faults, plan_cuts
from tutorial_lib.cutting.boards import CutPlan, SectionPlan, TieBreak
from tutorial_lib.cutting.money import Money
from tutorial_lib.cutting.planner import forget
from tutorial_lib.cutting.report import plan_json, plan_text
from tutorial_lib.cutting.saw import batches, saw_cuts, second_tries
from tutorial_lib.errors import InputError

STORED = Path(__file__).parents[1] / "data" / "plans" / "cuts.txt"
SIXTEENTH = Fraction(1, 16)
KERFS, TRIMS = (Fraction(1, 8), Fraction(3, 32), Fraction(0)), (Fraction(0), Fraction(1, 2))
UNSETTLED = ("grid", "many")  # the tie-break of so many may be stopped by the clock
WISHES: tuple[tuple[TieBreak, ...], ...] = (("layouts", "offcut"), ("offcut", "layouts"), ("offcut",), ())
SECONDS = 60.0  # none of these comes near it: what stops a search here is its end
COUNTS = {"bed": 15, "shelf": 12, "grid": 8, "many": 8, "grain": 10, "tight": 16, "hard": 7}
LISTS = tuple(f"{kind} {n}" for kind, count in COUNTS.items() for n in range(count))
Made = tuple[list[PieceDemand], list[Stock]]


def _lengths(chance: random.Random, kinds: int, low: int, high: int, grid: Fraction) -> list[Fraction]:
    return [Fraction(n) * grid for n in chance.sample(range(int(low / grid), int(high / grid)), kinds)]


def _stocks(chance: random.Random, lengths: tuple[int, ...], section: str = "") -> list[Stock]:
    return [Stock(f"{n} in", Fraction(n), round(n * chance.uniform(4, 8)), section=section) for n in lengths]


def bed(chance: random.Random) -> Made:
    """Few kinds of pieces in three sections."""
    pieces, stocks = [], []
    for section in ("2x4", "2x6", "1x4"):
        for i, length in enumerate(_lengths(chance, chance.randint(1, 4), 10, 80, SIXTEENTH)):
            pieces.append(PieceDemand(f"p{i}", length, chance.randint(1, 9), section))
        stocks += _stocks(chance, (96, 120, 144), section)
    return pieces, stocks


def shelf(chance: random.Random) -> Made:
    """Boards at hand, and few of those that are sold."""
    pieces = [PieceDemand(f"p{i}", n, chance.randint(1, 6))
              for i, n in enumerate(_lengths(chance, 5, 8, 60, Fraction(1, 8)))]  # fmt: skip
    own = [Stock(f"own {i}", Fraction(chance.randint(30, 110)), 0, chance.randint(1, 3), own=True) for i in range(3)]
    bought = [Stock(s.name, s.length, s.price, chance.randint(5, 9)) for s in _stocks(chance, (72, 96, 121))]
    return pieces, [*own, *bought, *_stocks(chance, (144,))]


def grid(chance: random.Random) -> Made:
    """Many kinds on a fine grid: planned on a coarser one."""
    lengths = _lengths(chance, 14 + 6 * chance.randint(0, 2), 5, 70, Fraction(1, 64))
    pieces = [PieceDemand(f"p{i}", n, chance.randint(1, 4)) for i, n in enumerate(lengths)]
    return pieces, _stocks(chance, chance.choice(((96,), (96, 120))))


def many(chance: random.Random) -> Made:
    """Hundreds of pieces out of boards of one kind, or of two."""
    lengths = _lengths(chance, chance.randint(3, 6), 10, 50, Fraction(1, 2))
    pieces = [PieceDemand(f"p{i}", n, chance.randint(12, 60)) for i, n in enumerate(lengths)]
    return pieces, _stocks(chance, chance.choice(((96,), (96, 144))))


def grain(chance: random.Random) -> Made:
    """Pieces that come from one board."""
    pieces = [PieceDemand(f"p{i}", n, chance.randint(1, 3), together=chance.choice(("", "a", "b")))
              for i, n in enumerate(_lengths(chance, 6, 6, 25, SIXTEENTH))]  # fmt: skip
    return pieces, _stocks(chance, (97, 120, 192))


def tight(chance: random.Random) -> Made:
    """Boards filled to the hair with the kerfs between, or short by a hair; some lists can't be cut at all."""
    kerf, trim, pieces = Fraction(1, 8), Fraction(1, 4), []
    for i, each in enumerate(chance.sample((2, 3, 4, 5, 6, 7), 3)):
        length = (96 - trim - (each - 1) * kerf) / each + chance.choice((0, 0, 0, SIXTEENTH))
        pieces.append(PieceDemand(f"p{i}", length, each * chance.randint(1, 2)))
    few = chance.choice((None, None, 1))
    return pieces, [Stock("8 ft", Fraction(96), 650, few), Stock("8 ft cut", Fraction(1535, 16), 600, 2)]


def hard(chance: random.Random) -> Made:
    """Pieces of about a third of a board: shadow prices alone seldom prove these."""
    lengths = _lengths(chance, 6, 24, 50, SIXTEENTH)
    pieces = [PieceDemand(f"p{i}", n, chance.randint(1, 3)) for i, n in enumerate(lengths)]
    return pieces, [Stock("8 ft", Fraction(96), 700, chance.choice((None, 5))), Stock("10 ft", Fraction(120), 880)]


KINDS = (bed, shelf, grid, many, grain, tight, hard)
MAKERS: dict[str, Callable[[random.Random], Made]] = {one.__name__: one for one in KINDS}


def said(name: str) -> Iterator[str]:
    """All that is said of a list."""
    kind, _ = name.split()
    chance = random.Random(name)
    pieces, stocks = MAKERS[kind](chance)
    kerf, trim = (Fraction(1, 8), Fraction(1, 4)) if kind == "tight" else (chance.choice(KERFS), chance.choice(TRIMS))
    prefer = () if kind in UNSETTLED else chance.choice(WISHES)
    forget()
    try:
        made = plan_cuts(pieces, stocks, kerf, trim, prefer, SECONDS)
    except InputError as fault:
        yield f"refused {fault}".replace("\n", " ")
        return
    yield from (f"fault {one}" for one in faults(made, pieces, stocks))
    yield from _plan(made)
    for part in made.sections:
        yield from _proof(part)


def _plan(made: CutPlan) -> Iterator[str]:
    yield from (
        f"json {line}" for line in json.dumps(plan_json(made, Money("$", True), Fraction(1)), indent=0).split("\n")
    )
    yield from (f"text {line}" for line in plan_text(made, Money("$", True), "in").splitlines())
    yield f"gap {made.gap} {made.yield_share}"
    for layout in made.layouts:
        yield from (f"cut {layout.count} {vars(cut)}" for cut in saw_cuts(layout.board))
    yield from (f"batch {vars(batch)}" for batch in batches(made))
    yield from (f"second {vars(found)}" for found in second_tries(made))


def _proof(part: SectionPlan) -> Iterator[str]:
    yield f"proof {part.cost} {part.bound} {part.searched} {part.settled} {part.proven}"
    verdict = check(part.certificate)
    yield f"certificate {part.certificate.values} {vars(verdict)}"


def of(name: str) -> dict[str, Sum]:
    """A list's sums by kind of line."""
    return sums(said(name))


def main(names: list[str]) -> None:
    """Writes them anew, or what one says."""
    renew(STORED, LISTS, said, names)


if __name__ == "__main__":
    main(sys.argv[1:])
