"""What can't be planned, said before any planning: all faults at once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from tutorial_lib.cutting.boards import PieceDemand, Stock
from tutorial_lib.cutting.problem import Block, blocks_of
from tutorial_lib.errors import Fault, InputError
from tutorial_lib.measures import Units, Writer, writer
from tutorial_lib.records import dataclass


@dataclass(frozen=True)
class TooLong:
    """A piece, or pieces that must stay together, that no board holds."""

    pieces: tuple[str, ...]
    what: str

    @property
    def fault(self) -> Fault:
        """As the planner refuses it."""
        return Fault(", ".join(self.pieces), self.what)


def refuse(
    pieces: Sequence[PieceDemand], stocks: Sequence[Stock], kerf: Fraction, trim: Fraction, units: Units
) -> None:
    """Raises InputError with every fault of the demand, the stock and the saw."""
    w = writer(units)
    found = [*_saw(kerf, trim, w), *_pieces(pieces), *_stocks(stocks)]
    if not found:
        found = [long.fault for long in too_long(pieces, stocks, trim, kerf, w)]
    if found:
        raise InputError(found)


def _saw(kerf: Fraction, trim: Fraction, w: Writer) -> Iterator[Fault]:
    for name, value in (("kerf", kerf), ("trim", trim)):
        if value < 0:
            yield Fault(name, f"{name} is {w.length(value)}; it can't be less than 0")


def _pieces(pieces: Sequence[PieceDemand]) -> Iterator[Fault]:
    if not pieces:
        yield Fault("pieces", "there are no pieces to cut; list at least one")
    for p in pieces:
        if p.length <= 0:
            yield Fault(p.name, "its length must be more than 0")
        if p.count < 1:
            yield Fault(p.name, f"its count is {p.count}; it must be 1 or more")


def _stocks(stocks: Sequence[Stock]) -> Iterator[Fault]:
    if not stocks:
        yield Fault("stock", "there are no boards to cut from; list at least one")
    for s in stocks:
        if s.length <= 0:
            yield Fault(s.name, "its length must be more than 0")
        if s.price < 0:
            yield Fault(s.name, "its price is below 0; write 0 for an offcut on the shelf")
        if s.available is not None and s.available < 0:
            yield Fault(s.name, f"{s.available} boards available; it can't be less than 0")


def too_long(
    pieces: Sequence[PieceDemand], stocks: Sequence[Stock], trim: Fraction, kerf: Fraction, w: Writer
) -> Iterator[TooLong]:
    """Pieces (or pieces that must stay together) that no board of their section can hold."""
    for section in dict.fromkeys(p.section for p in pieces):
        longest = _longest(stocks, section)
        for block in dict.fromkeys(blocks_of([p for p in pieces if p.section == section])):
            need = sum((p.length for p in block), Fraction(0)) + (len(block) - 1) * kerf
            if longest is None:
                yield TooLong((block[0].name,), f"there is no {_board(section)} to be had in the stock; add one")
            elif need + trim > longest:
                lengths = w.length(need), w.length(longest), w.length(trim) if trim else ""
                yield TooLong(_names(block), _length_sentence(lengths, len(block), section))


def _longest(stocks: Sequence[Stock], section: str) -> Fraction | None:
    """The longest board of a section that can be had."""
    return max((s.length for s in stocks if s.section == section and s.available != 0), default=None)


def _board(section: str) -> str:
    return f"{section} board" if section else "board"


def _names(block: Block) -> tuple[str, ...]:
    return tuple(dict.fromkeys(p.name for p in block))


def _length_sentence(lengths: tuple[str, str, str], pieces: int, section: str) -> str:
    need, longest, trim = lengths
    what = f"{need} long" if pieces == 1 else f"{need} long together, cuts included"
    ends = f" and {trim} go at the ends" if trim else ""
    return f"{what}{ends}, but the longest {_board(section)} is {longest}; add a longer board or shorten the piece"
