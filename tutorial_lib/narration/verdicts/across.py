"""Checks across claims: two that contradict each other, totals that aren't the product, boards that don't yield.

Only sure links count, and only where one of them is wrong by the plan: what is right can't contradict what is right.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from fractions import Fraction

from tutorial_lib.findings import Finding
from tutorial_lib.measures import Units
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.numbers.lexicon import LENGTHS
from tutorial_lib.narration.verdicts.items import Item
from tutorial_lib.records import dataclass

Planner = Callable[[Sequence[tuple[Fraction, int]], Sequence[tuple[Fraction, int]], Fraction], bool]
SURE = ("agrees", "rounded", "conflicts")
Said = Sequence[tuple[Item, Subject]]


def across(
    items: Sequence[Item], subjects: Sequence[Subject], units: Units, planner: Planner | None
) -> Iterator[Finding]:
    """All findings across the claims of a talk.

    Args:
        items: the judged items.
        subjects: the plan's facts.
        units: the plan's unit of length.
        planner: planner(pieces, boards, kerf) says whether pieces come out of boards; both are (length [in], count)
            pairs, kerf in inches. Without it only whole pieces a board are counted.
    """
    by_key = {s.key: s for s in subjects}
    said = [(i, by_key[i.subject]) for i in items if i.subject in by_key and i.verdict in SURE and i.value]
    yield from contradictions(said)
    yield from products(said)
    yield from yields(said, subjects, units, planner)


def where(item: Item) -> str:
    """ "at 2:05", or "in line 12" of a script."""
    return f"at {item.time}" if item.time else f"in {item.where}"


def contradictions(said: Said) -> Iterator[Finding]:
    """The same thing said twice with different values, one of them right."""
    right = {s.key: i for i, s in reversed(said) if i.verdict == "agrees"}
    for item, subject in said:
        other = right.get(subject.key)
        if item.verdict == "conflicts" and other is not None:
            first, last = sorted((item, other), key=lambda i: i.start)
            yield Finding(
                rule="said twice, differently",
                severity="caution",
                what=f"{subject.what}: “{first.quote}” {where(first)}, but “{last.quote}” {where(last)}.",
                value=item.quote,
                limit=other.quote,
                whose="the talk itself",
                remedy=f"“{other.quote}” is right.",
                parts=(subject.key,),
            )


def products(said: Said) -> Iterator[Finding]:
    """A total that isn't the number each times how many, by what was said."""
    for item, total in said:
        each = each_of(said, item, total)
        if each is None:
            continue
        one, fact = each
        times = total.value / fact.value
        if one.value[0] * times != item.value[0]:
            yield Finding(
                rule="total isn't the product",
                severity="caution",
                what=f"{total.what}: “{one.quote}” each {where(one)}, times {times}, is {one.value[0] * times}, "
                f"but “{item.quote}” {where(item)}.",
                value=str(item.value[0]),
                limit=str(one.value[0] * times),
                whose="arithmetic",
                remedy="Say the product.",
                parts=(total.key,),
            )


def each_of(said: Said, item: Item, total: Subject) -> tuple[Item, Subject] | None:
    """The number each that a total said later adds up, the last one said; None when there is none that divides it."""
    if not total.is_count or total.scope != "total":
        return None
    fits = [(i, s) for i, s in said if i.start < item.start and is_each_of(s, total)]
    last = fits[-1] if fits else None
    return last if last and last[1].value and total.value % last[1].value == 0 else None


def is_each_of(each: Subject, total: Subject) -> bool:
    """Whether one count is the number each that another adds up."""
    return (each.kind, each.group, each.scope) == (total.kind, total.group, "each")


def yields(said: Said, subjects: Sequence[Subject], units: Units, planner: Planner | None) -> Iterator[Finding]:
    """Boards said that don't give the pieces said, kerf and all; the plan's own boards do."""
    spoken = {s.key: (i, s) for i, s in said}
    wrong = {s.key: i for i, s in said if i.verdict == "conflicts"}
    for rate in of_kind(subjects, "pieces_per_board"):
        cut = cut_of(subjects, rate)
        at = said_wrong(wrong, cut) if cut else None
        if cut and at:
            bought, kerf = said_value(spoken, cut.boards), kerf_of(subjects)
            if not enough(spoken, (cut.count, cut.length, rate), (bought, cut.board), kerf, units, planner):
                yield too_few(at, int(bought), cut.boards, cut.count)


@dataclass(frozen=True, kw_only=True)
class Cut:
    """What a part is cut from, and how many of it, as facts."""

    count: Subject
    length: Subject
    boards: Subject
    board: Subject | None


def cut_of(subjects: Sequence[Subject], rate: Subject) -> Cut | None:
    """The facts of a part and its stock; None where the plan lacks one."""
    count, length = fact_of(subjects, rate, "part_count"), fact_of(subjects, rate, "length")
    stock = stock_of(subjects, rate)
    if count is None or length is None or stock is None:
        return None
    return Cut(count=count, length=length, boards=stock[0], board=stock[1])


def said_wrong(wrong: Mapping[str, Item], cut: Cut) -> Item | None:
    """The number of boards, or their length, where it was said wrongly."""
    return wrong.get(cut.boards.key) or wrong.get(cut.board.key if cut.board else "")


def too_few(at: Item, bought: int, boards: Subject, count: Subject) -> Finding:
    """Boards said that don't give the pieces."""
    return Finding(
        rule="the boards don't yield the pieces",
        severity="caution",
        what=f"{bought} boards as said {where(at)} don't give {int(count.value)} {count.what}, kerf and all.",
        value=f"{bought} boards",
        limit=f"{int(boards.value)} boards",
        whose="the cut plan",
        remedy=f"Say {int(boards.value)} boards of the plan's length.",
        parts=(boards.key, count.key),
    )


def kerf_of(subjects: Sequence[Subject]) -> Fraction:
    """The plan's kerf [in]; an eighth where it has none (common practice, no source)."""
    return next((s.value for s in of_kind(subjects, "kerf")), Fraction(1, 8))


def of_kind(subjects: Sequence[Subject], kind: str) -> list[Subject]:
    """The facts of a kind."""
    return [s for s in subjects if s.kind == kind]


def enough(
    spoken: dict[str, tuple[Item, Subject]],
    wanted: tuple[Subject, Subject, Subject],
    stock: tuple[Fraction, Subject | None],
    kerf: Fraction,
    units: Units,
    planner: Planner | None,
) -> bool:
    """Whether the boards said give the pieces; ``wanted`` is their count, their length, and how many a board gives."""
    (count, length, rate), (bought, board) = wanted, stock
    long = Fraction(0)
    if board is not None:
        long = said_value(spoken, board) * (LENGTHS[units] if board.key in spoken else 1)
    if planner is not None and long > 0:
        return planner(((length.value, int(count.value)),), ((long, int(bought)),), kerf)
    a_board = min(int(rate.value), int((long + kerf) // (length.value + kerf))) if long > 0 else int(rate.value)
    return a_board * int(bought) >= count.value


def said_value(spoken: dict[str, tuple[Item, Subject]], subject: Subject) -> Fraction:
    """What was said of a fact last, else what the plan has."""
    return spoken[subject.key][0].value[0] if subject.key in spoken else subject.value


def fact_of(subjects: Sequence[Subject], like: Subject, kind: str) -> Subject | None:
    """The fact of a kind about the same part."""
    fits = [s for s in subjects if s.kind == kind and s.group == like.group]
    if not fits:
        fits = [s for s in subjects if s.kind == kind and s.head and s.head[-1] in like.head]
    return max(fits, key=lambda s: s.value, default=None)


def stock_of(subjects: Sequence[Subject], rate: Subject) -> tuple[Subject, Subject | None] | None:
    """Count and length of the stock a part comes out of, by the stock its fact names ("slats out of one 10-ft 1x4")."""
    counts = [s for s in subjects if s.kind == "stock_count" and fits_stock(s, rate)]
    if len(counts) != 1:
        return None
    return counts[0], next((s for s in subjects if s.kind == "stock_length" and same_board(s, counts[0])), None)


def same_board(one: Subject, other: Subject) -> bool:
    """Whether two facts speak of the same board; by their words where the plan names none."""
    boards = [(s.timber, s.board_length) for s in (one, other)]
    return boards[0] == boards[1] and (boards[0] != ((), None) or (one.head, one.rest) == (other.head, other.rest))


def fits_stock(stock: Subject, rate: Subject) -> bool:
    """Whether a stock fact is the one a rate speaks of."""
    long, its_long = rate.board_length, stock.board_length
    if rate.timber:
        return stock.timber == rate.timber and (long is None or its_long is None or abs(long - its_long) < 2)
    if long is not None and its_long is not None and abs(long - its_long) < 2:
        return True
    return bool(rate.head) and rate.head[0] in (*stock.head, *stock.rest)
