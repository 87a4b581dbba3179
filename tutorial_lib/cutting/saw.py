"""At the saw: cuts in order with running marks from one end, stop-block batches, pieces too small to hold by hand."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from functools import cached_property

from tutorial_lib.cutting.boards import Board, CutPlan, Piece
from tutorial_lib.findings import Finding
from tutorial_lib.measures import Writer, round_to, writer
from tutorial_lib.records import dataclass

SMALL = Fraction(10)  # [in] shortest piece to hold by hand at the saw; common practice, no source
BOARD_NOTES = (
    "Sight along each board: bow goes to the slats, crook to the short pieces; mark the crown edge and keep it up.",
    "Cut round loose knots, splits and wane: shift a cut only where the offcut at the end leaves room.",
    "Grain runs along every piece; keep pieces that show side by side from one board, in the order they were sawn.",
)


@dataclass(frozen=True, kw_only=True)
class SawCut:
    """One cut: the piece it frees, and where its line is."""

    number: int
    piece: Piece
    start: Fraction  # [in] near end of the piece from the squared end
    mark: Fraction  # [in] running mark: the cutting line from the squared end, blade on the far side
    left: Fraction  # [in] board left beyond the blade
    needed: bool  # False where the board ends there and only its end is checked for square

    @property
    def spare(self) -> bool:
        """True if another piece of this length could still come from what is left."""
        return self.left >= self.piece.length


@dataclass(frozen=True)
class Batch:
    """All pieces of one length: the stop block is set once for them."""

    length: Fraction  # [in]
    count: int
    names: tuple[str, ...]
    section: str

    @property
    def small(self) -> bool:
        """True if the pieces are too short to hold by hand."""
        return self.length < SMALL


@dataclass(frozen=True)
class Untouched:
    """Boards there that nothing is cut from: at hand, bought as spares, or what the store's cut leaves."""

    section: str
    stock: str  # "own 92 1/2 in", "spare 8 ft"
    length: Fraction  # [in]
    count: int

    def __str__(self) -> str:
        """As a list says it: "8 x own 92 1/2 in"."""
        return f"{self.count} x {self.stock}"


@dataclass(frozen=True)
class SecondTry:
    """What is there if one piece goes wrong."""

    section: str
    name: str
    length: Fraction  # [in]
    leftovers: tuple[tuple[int, Fraction], ...]  # number of the layout and what it leaves [in]
    untouched: tuple[Untouched, ...] = ()  # boards nothing is cut from; neither: a new board


def saw_cuts(board: Board) -> tuple[SawCut, ...]:
    """Cuts of one board after its end is squared, longest piece first.

    Marks run from the squared end, so that no error adds up: each is the pieces so far and one kerf
    for every cut before it.

    >>> legs = (Piece("leg", Fraction(14)),) * 2
    >>> board = Board("8 ft", Fraction(96), 0, pieces=legs, kerf=Fraction(1, 8), trim=Fraction(1, 4))
    >>> [cut.mark for cut in saw_cuts(board)]
    [Fraction(14, 1), Fraction(225, 8)]
    """
    cuts: list[SawCut] = []
    start = Fraction(0)
    room = board.length - board.trim
    for number, piece in enumerate(board.pieces, 1):
        mark = start + piece.length
        left = room - mark
        beyond = max(left - board.kerf, Fraction(0))
        cuts.append(SawCut(number=number, piece=piece, start=start, mark=mark, left=beyond, needed=left > 0))
        start = mark + board.kerf
    return tuple(cuts)


def batches(plan: CutPlan) -> tuple[Batch, ...]:
    """Stop-block settings, lumber by lumber, longest first: one for each length, whatever the layouts."""
    found: dict[tuple[str, Fraction], list[str]] = {}
    for board in plan.boards:
        for piece in board.pieces:
            found.setdefault((board.section, piece.length), []).append(piece.name)
    lots = [
        Batch(length, len(names), tuple(dict.fromkeys(names)), section) for (section, length), names in found.items()
    ]
    sections = [s.section for s in plan.sections]
    return tuple(sorted(lots, key=lambda b: (sections.index(b.section), -b.length)))


def off_its_length(plan: CutPlan, w: Writer) -> Fraction:
    """How far a piece cut at its marks, as a tape shows them, comes out off its length as told [in].

    Each mark is the exact sum rounded once, so that nothing adds up along a board; what lies between two marks can
    still be off by both roundings. A piece that has to be like no other doesn't count.
    """
    alike = {batch.length for batch in batches(plan) if batch.count > 1}
    found = [Fraction(0)]
    for board in plan.boards:
        start = Fraction(0)
        for cut in saw_cuts(board):
            mark = _on_tape(cut.mark, w)
            if cut.piece.length in alike:
                found.append(abs(mark - start - _on_tape(cut.piece.length, w)))
            start = mark + board.kerf
    return max(found)


def _on_tape(x: Fraction, w: Writer) -> Fraction:
    return round_to(x / w.grid, 1) * w.grid


def marks_note(plan: CutPlan, w: Writer) -> str:
    """What is said where marks and lengths on the tape don't agree to a mark of it; nothing where they do."""
    off = off_its_length(plan, w)
    if off < w.grid:
        return ""
    return (
        f"Marks are to the nearest {w.length(w.grid)}, and pieces cut at them up to {w.bit(off)} off: cut alike "
        "ones to the stop, or mark them from the first."
    )


def second_tries(plan: CutPlan, untouched: Sequence[Untouched] = ()) -> tuple[SecondTry, ...]:
    """For every piece the leftovers and the boards it could be cut from again, whichever board they come from."""
    found: dict[tuple[str, str, Fraction], list[tuple[int, Fraction]]] = {}
    for section in plan.sections:
        wanted = {(p.name, p.length) for board in section.boards for p in board.pieces}
        for name, length in sorted(wanted, key=lambda w: (-w[1], w[0])):
            found[section.section, name, length] = [
                (number, layout.board.offcut)
                for number, layout in enumerate(plan.layouts, 1)
                if layout.board.section == section.section and layout.board.offcut >= length
            ]
    return tuple(
        SecondTry(section, name, length, tuple(leftovers), tuple(
            board for board in untouched if board.section == section and board.length - plan.trim >= length
        ))
        for (section, name, length), leftovers in found.items()
    )  # fmt: skip


def small_piece_finding(plan: CutPlan, units: str, words: Mapping[str, str]) -> Finding | None:
    """The caution for pieces too short to hold by hand at a power saw, or None.

    Args:
        plan: the cut plan.
        units: of what is told.
        words: the name of each part as people say it, by its key.
    """
    small = [b for b in batches(plan) if b.small]
    if not small:
        return None
    names = tuple(dict.fromkeys(name for b in small for name in b.names))
    shortest = min(b.length for b in small)
    told = ", ".join(dict.fromkeys(words[name] for name in names))
    return Finding(
        rule="small piece at the saw",
        severity="caution",
        what=f"{told[:1].upper()}{told[1:]}: {writer(units).length(shortest)} is too short to hold by hand.",
        value=writer(units).length(shortest),
        limit=writer(units).length(SMALL),
        whose="common practice",
        remedy="Clamp the board on both sides of the blade or cut with a stop and a hold-down; keep both hands clear.",
        parts=names,
    )


@dataclass(frozen=True)
class SawList:
    """Everything a person needs at the saw for one plan."""

    plan: CutPlan

    @cached_property
    def batches(self) -> tuple[Batch, ...]:
        """Stop-block settings, lumber by lumber, longest first."""
        return batches(self.plan)

    @cached_property
    def cuts(self) -> int:
        """Saw cuts in all, squaring cuts included where there is a trim."""
        square = len(self.plan.boards) if self.plan.trim else 0
        return square + sum(cut.needed for board in self.plan.boards for cut in saw_cuts(board))

    @property
    def notes(self) -> Sequence[str]:
        """Grain, crown and defects."""
        return BOARD_NOTES
