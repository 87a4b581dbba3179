"""What to mind about the boards of a bed: cliffs, small pieces, the car, a long board for little, odd own boards."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib import tables
from tutorial_lib.cutting.boards import Board, Stock
from tutorial_lib.cutting.cliffs import Cliff
from tutorial_lib.cutting.planner import plan_cuts
from tutorial_lib.cutting.saw import small_piece_finding
from tutorial_lib.cutting.store import MOST_CUTS, best_cut, store_cuts
from tutorial_lib.cutting.yard import OwnSize
from tutorial_lib.design.options import MOST_STORE_CUTS
from tutorial_lib.errors import InputError
from tutorial_lib.findings import Finding, Remedy
from tutorial_lib.measures import mm, sold_length, writer

if TYPE_CHECKING:
    from tutorial_lib.cutting.bed import BedCutting

SHORT_FEET = (3, 4, 6)  # lengths short of 8 ft that many shops keep or cut; common practice, no source
SHORT_MM = (900, 1200, 1800)
FITS_THE_CAR = "what fits the car"
POST_FROM = Fraction(5, 2)  # [in] thinner wood is sold dry (common practice, no source)
BOARD_OF_POST = Fraction(3, 7)  # of a post's thickness, one of two boards in its place: 1 1/2 of 3 1/2 in
ODD = Fraction(1, 8)  # [in] own boards that differ by more are a caution; our choice


def findings_of(cutting: BedCutting) -> Iterator[Finding]:
    """All that is to be minded, in the order of the job."""
    units = cutting.build.options.build.units
    for cliff in cutting.cliffs:
        yield _cliff(cutting, cliff, units)
    yield from _own_sizes(cutting, units)
    power = cutting.build.options.saw.kind == "power"
    words = {part.key: part.name for part in cutting.build.parts}
    if power and cutting.plan.boards and (small := small_piece_finding(cutting.plan, units, words)):
        yield small
    yield from _long_boards(cutting, units)
    yield from _posts(cutting)
    carry = cutting.build.options.shop.carry
    if carry is not None:
        yield from _too_long_for_car(cutting, carry, units)


def _cliff(cutting: BedCutting, cliff: Cliff, units: str) -> Finding:
    """The yield cliff in a sentence, with what to change."""
    fewer = f"{cliff.boards_saved} {'board' if cliff.boards_saved == 1 else 'boards'} fewer"
    known = cutting.plan.sections and _section(cutting, cliff.piece) not in cutting.unpriced
    less = f"{cutting.money.write(cliff.cost_saved)} less" if known and cliff.cost_saved else ""
    saved = " and ".join(words for words in (fewer if cliff.boards_saved > 0 else "", less) if words)
    return Finding(
        rule="yield cliff",
        severity="caution",
        what=f"The {cliff.piece} is {writer(units).length(cliff.by, 32)} too long for {cliff.per_board} from one "
        f"{cliff.stock} board: {saved or 'a shorter list'} if it were shorter.",
        value=writer(units).length(cliff.length),
        limit=writer(units).length(cliff.shorter),
        whose="the boards' length, the kerf and the trim",
        remedy=f"Give the slats {writer(units).length(cliff.by / 2, 32)} more play at each end.",
        parts=(cliff.piece,),
    )


def _section(cutting: BedCutting, piece: str) -> str:
    return next(p.section for p in cutting.pieces if p.name == piece)


def _too_long_for_car(cutting: BedCutting, carry: Fraction, units: str) -> Iterator[Finding]:
    """Boards longer than the car: those no cut can shorten enough, and those that more store cuts would."""
    left = _uncut(cutting, carry)
    tolerance = cutting.build.options.shop.store_tolerance
    helped = [b for b in left if best_cut(b, 0, tolerance, carry, MOST_CUTS)]
    whole = [b for b in left if b not in helped]
    limit = writer(units).length(carry)
    if whole:
        yield Finding(
            rule="transport", severity="caution",
            what=f"{_boards(whole)} will not fit the car, and no rough cut makes them fit.",
            value=_longest(whole, units), limit=limit, whose="your car",
            remedy=f"{_list_that_fits(cutting)}arry them on the roof, or have them brought.",
            parts=tuple(dict.fromkeys(name for b in whole for name, _ in b.counts)),
        )  # fmt: skip
    if helped:
        cuts = sum(len(c.at) for c in store_cuts(cutting.plan.boards, MOST_STORE_CUTS, tolerance, carry))
        yield Finding(
            rule="transport", severity="caution", what=f"{_boards(helped)} will not fit the car as they are sold.",
            value=_longest(helped, units), limit=limit, whose="your car",
            remedy=f"They do after {cuts} rough {'cut' if cuts == 1 else 'cuts'} at the store.",
        )  # fmt: skip


def _longest(boards: Iterable[Board], units: str) -> str:
    """The length of the longest board, written."""
    return writer(units).length(max(b.length for b in boards))


def _uncut(cutting: BedCutting, carry: Fraction) -> list[Board]:
    """Boards to buy that are longer than the car, and that the store doesn't cut already."""
    cut = {c.index for c in cutting.store_cuts}
    return [b for i, b in enumerate(cutting.plan.boards) if not b.own and b.length > carry and i not in cut]


def _boards(boards: Iterable[Board]) -> str:
    """Boards as the shop names them: "2 x 2x6 8 ft, 1 x 2x4 8 ft"."""
    return ", ".join(f"{n} x {name}" for name, n in Counter(f"{b.section} {b.stock}" for b in boards).items())


def _list_that_fits(cutting: BedCutting) -> str:
    """The list of boards that fit the car, where there is one."""
    fits = next((other for other in cutting.alternatives if other.name == FITS_THE_CAR), None)
    return "Buy the list that fits the car, c" if fits is not None and fits.plan is not None else "C"


def shorter_board(cutting: BedCutting, section: str) -> tuple[Board, Board] | None:
    """A board bought that a much shorter one could replace, and the shorter one as it would be cut; tried, not guessed.

    None where no length short of half the board holds what is left over from the others.
    """
    boards = cutting.plan.section(section).boards
    bought = [board for board in boards if not board.own]
    if len(bought) < 2:
        return None
    long = max(bought, key=lambda board: board.length)
    room = sum((board.left for board in boards), Fraction(0)) + sum(board.kerf for board in boards)
    for length in _short_lengths(cutting.build.options.build.units):
        if length <= long.length / 2 and long.length - length <= room:
            short = _tried(cutting, section, long, length)
            if short is not None:
                return long, short
    return None


def _short_lengths(units: str) -> list[Fraction]:
    """Lengths of short boards as they are sold."""
    return [mm(x) for x in SHORT_MM] if units == "mm" else [Fraction(12 * feet) for feet in SHORT_FEET]


def _tried(cutting: BedCutting, section: str, long: Board, length: Fraction) -> Board | None:
    """The short board in a list that has it in place of one long one; None if the pieces don't come out of it."""
    there = Counter((b.stock, b.length) for b in cutting.plan.section(section).boards)
    there[long.stock, long.length] -= 1
    stocks = [Stock(name, n, 1, count, section=section) for (name, n), count in there.items() if count]
    stocks.append(Stock("", length, 0, 1, section=section))
    pieces = [piece for piece in cutting.pieces if piece.section == section]
    try:
        plan = plan_cuts(pieces, stocks, cutting.plan.kerf, cutting.plan.trim, prefer=())
    except InputError:
        return None
    return next((board for board in plan.boards if not board.stock), None)


def _long_boards(cutting: BedCutting, units: str) -> Iterator[Finding]:
    """A long board bought for a few short pieces, where a shorter one holds them."""
    names = {part.key: part.name for part in cutting.build.parts}
    for part in cutting.plan.sections:
        found = shorter_board(cutting, part.section)
        if found is None:
            continue
        long, short = found
        pieces = ", ".join(f"{count} x {names[key]}" for key, count in short.counts)
        enough = sold_length(short.length)
        yield Finding(
            rule="long board", severity="note",
            what=f"One {part.section} of {long.stock} is bought where {enough} would do, for {pieces}.",
            value=writer(units).length(long.length), limit=enough, whose="the cut plan, tried",
            remedy=f"Ask for a {part.section} of {enough}, and list it with its price.",
            parts=tuple(key for key, _ in short.counts), remedies=_of_two_boards(cutting, part.section),
        )  # fmt: skip


def _of_two_boards(cutting: BedCutting, section: str) -> tuple[Remedy, ...]:
    """Posts of one section made of two boards of another; what it costs and carries is tried before it is told."""
    legs = cutting.build.options.legs
    if legs.kind != "post" or legs.lumber != section or cutting.build.options.centre.leg_kind is not None:
        return ()
    post = next(part.section for part in cutting.build.parts if part.section.name == section)
    system = "metric" if cutting.build.options.build.units == "mm" else "imperial"
    board = tables.nearest_section(post.thickness * BOARD_OF_POST, post.width, system).name
    return (Remedy.setting(f"Make each leg of two {board}s", legs__kind="doubled", legs__lumber=board),)


def _posts(cutting: BedCutting) -> Iterator[Finding]:
    """Posts are mostly sold green or treated, whatever the other boards are."""
    thick = {part.section.name: min(part.section.thickness, part.section.width) for part in cutting.build.parts}
    for section in dict.fromkeys(purchase.section for purchase in cutting.shopping):
        if thick[section] >= POST_FROM:
            yield Finding(
                rule="green or treated post", severity="note",
                what=f"A {section} is often sold green or treated: green it twists and shrinks as it dries, and "
                "treated wood isn't for a bedroom.",
                whose="common practice, no source",
                remedy=f"Ask for a dry, untreated {section}, and look at its stamp.",
                parts=tuple(part.key for part in cutting.build.parts if part.section.name == section),
            )  # fmt: skip


def _own_sizes(cutting: BedCutting, units: str) -> Iterator[Finding]:
    """Boards at hand that are thinner or narrower than the plan's, and what is cut from them."""
    named: dict[OwnSize, set[str]] = {}
    for size in cutting.yard.sizes:
        named.setdefault(replace(size, stock=""), set()).add(size.stock)
    for size, stocks in named.items():
        boards = [b for b in cutting.plan.boards if b.section == size.section and b.stock in stocks]
        if boards:
            yield _odd(cutting, size, boards, units)


def _odd(cutting: BedCutting, size: OwnSize, boards: list[Board], units: str) -> Finding:
    plan = next(part.section for part in cutting.build.parts if part.section.name == size.section)
    names = {part.key: part.name for part in cutting.build.parts}
    cut = Counter(piece.name for board in boards for piece in board.pieces)
    pieces = ", ".join(f"{n} x {names[key]}" for key, n in cut.items())
    own, planned = (f"{writer(units).length(x.thickness)} x {writer(units).length(x.width)}" for x in (size, plan))
    off = max(abs(size.thickness - plan.thickness), abs(size.width - plan.width))
    return Finding(
        rule="own boards", severity="caution" if off > ODD else "note",
        what=f"Your own {size.section} measure {own}, the plan's {planned}: {pieces} come from them.",
        value=own, limit=planned, whose="as measured",
        remedy=f"Keep them together and lay them out from their marks: what lies beside them moves by up to "
        f"{writer(units).length(off)}.",
        parts=tuple(cut),
    )  # fmt: skip
