"""Checks across claims: two that contradict each other, totals, boards that don't yield, a screw that comes through."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib.findings import Finding
from tutorial_lib.narration.linking.scoring import stock_name
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.numbers.lexicon import LENGTHS

if TYPE_CHECKING:
    from tutorial_lib.narration.verdicts.checking import Item

Planner = Callable[[Sequence[tuple[Fraction, int]], Sequence[tuple[Fraction, int]], Fraction], bool]
CLAIMS = ("agrees", "rounded", "conflicts")


def across(
    items: Sequence[Item], subjects: Sequence[Subject], units: str, planner: Planner | None
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
    said = [(i, by_key[i.subject]) for i in items if i.subject in by_key and i.verdict in CLAIMS and i.value]
    yield from contradictions(said)
    yield from products(said)
    yield from yields(said, subjects, units, planner)
    yield from through(said, subjects, units)


Said = Sequence[tuple["Item", Subject]]


def where(item: Item) -> str:
    """ "at 2:05", or "in line 12" of a script."""
    return f"at {item.time}" if item.time else f"in line {item.place}"


def contradictions(said: Said) -> Iterator[Finding]:
    """The same thing said twice with different values."""
    first: dict[str, Item] = {}
    for item, subject in said:
        if item.verdict == "rounded":
            continue
        before = first.setdefault(subject.key, item)
        if (
            len(subject.values) == 1
            and before.value != item.value
            and "agrees" in (before.verdict, item.verdict)
            and (before.verdict != item.verdict)
        ):
            yield Finding(
                "said twice, differently",
                "caution",
                f'{subject.what}: "{before.quote}" {where(before)}, but "{item.quote}" {where(item)}.',
                item.quote,
                before.quote,
                "the talk itself",
                "Say one of the two; the plan tells which.",
                (subject.key,),
            )


def products(said: Said) -> Iterator[Finding]:
    """A total that isn't the number each times how many, by what was said."""
    counts = [(i, s) for i, s in said if s.is_count]
    for item, total in counts:
        if total.scope != "total":
            continue
        each = next(
            (
                (i, s)
                for i, s in reversed(counts)
                if i.start < item.start and s.kind == total.kind and s.group == total.group and s.scope == "each"
            ),
            None,
        )
        if each is None or each[1].value == 0 or total.value % each[1].value:
            continue
        times = total.value / each[1].value
        if each[0].value[0] * times != item.value[0]:
            yield Finding(
                "total isn't the product",
                "caution",
                f"{total.what}: {each[0].quote} each {where(each[0])}, times {times}, is "
                f'{each[0].value[0] * times}, but "{item.quote}" {where(item)}.',
                str(item.value[0]),
                str(each[0].value[0] * times),
                "arithmetic",
                "Say the product.",
                (total.key,),
            )


def yields(said: Said, subjects: Sequence[Subject], units: str, planner: Planner | None) -> Iterator[Finding]:
    """Boards said that don't give the pieces said, kerf and all."""
    spoken = {s.key: (i, s) for i, s in said}
    kerf = next((s.value for s in subjects if s.kind == "kerf"), Fraction(1, 8))
    scale = LENGTHS[units]
    for rate in (s for s in subjects if s.kind == "pieces_per_board"):
        count = fact_of(subjects, rate, "part_count")
        length = fact_of(subjects, rate, "length")
        stock = stock_of(subjects, rate)
        if count is None or length is None or stock is None:
            continue
        boards, board = stock
        bought = said_value(spoken, boards)
        long = said_value(spoken, board) * (scale if board.key in spoken else 1) if board else Fraction(0)
        needed, piece = count.value, length.value
        if boards.key not in spoken and (board is None or board.key not in spoken):
            continue
        if comes_out(piece, int(needed), long, int(bought), kerf, int(rate.value), planner):
            continue
        at = spoken.get(boards.key) or spoken[board.key if board else boards.key]
        yield Finding(
            "the boards don't yield the pieces",
            "caution",
            f"{int(bought)} boards as said {where(at[0])} don't give {int(needed)} {count.what}, kerf and all.",
            f"{int(bought)} boards",
            f"{int(boards.value)} boards",
            "the cut plan",
            f"Say {int(boards.value)} boards of the plan's length.",
            (boards.key, count.key),
        )


def said_value(spoken: dict[str, tuple[Item, Subject]], subject: Subject) -> Fraction:
    """What was said of a fact last, else what the plan has."""
    return spoken[subject.key][0].value[0] if subject.key in spoken else subject.value


def comes_out(
    piece: Fraction, needed: int, long: Fraction, bought: int, kerf: Fraction, rate: int, planner: Planner | None
) -> bool:
    """Whether the pieces come out of the boards."""
    if planner is not None and long > 0:
        return planner(((piece, needed),), ((long, bought),), kerf)
    a_board = min(rate, int((long + kerf) // (piece + kerf))) if long > 0 else rate
    return a_board * bought >= needed


def fact_of(subjects: Sequence[Subject], like: Subject, kind: str) -> Subject | None:
    """The fact of a kind about the same part."""
    fits = [s for s in subjects if s.kind == kind and s.group == like.group]
    if not fits:
        fits = [s for s in subjects if s.kind == kind and s.head and s.head[-1] in like.head]
    return max(fits, key=lambda s: s.value, default=None)


def stock_of(subjects: Sequence[Subject], rate: Subject) -> tuple[Subject, Subject | None] | None:
    """Count and length of the stock a part comes out of, by the stock its fact names ("slats out of one 10-ft 1x4")."""
    name, long = stock_name(rate)
    counts = [s for s in subjects if s.kind == "stock_count" and fits_stock(s, name, long, rate)]
    if len(counts) != 1:
        return None
    board = next(
        (
            s
            for s in subjects
            if s.kind == "stock_length" and s.what.split(" for ")[-1] == counts[0].what.split(" for ")[-1]
        ),
        None,
    )
    return counts[0], board


def fits_stock(stock: Subject, name: tuple[Fraction, ...], long: Fraction | None, rate: Subject) -> bool:
    """Whether a stock fact is the one a rate speaks of."""
    its_name, its_long = stock_name(stock)
    if name:
        return its_name == name and (long is None or its_long is None or abs(long - its_long) < 2)
    if long is not None and its_long is not None and abs(long - its_long) < 2:
        return True
    return bool(rate.head) and rate.head[0] in (*stock.head, *stock.rest)


def through(said: Said, subjects: Sequence[Subject], units: str) -> Iterator[Finding]:
    """A screw said as long as, or longer than, the two pieces it joins ("cleat to rail")."""
    for item, subject in said:
        parts = subject.what.split(" to ")
        if subject.kind != "screw_length" or len(parts) != 2:
            continue
        thick = [thickness(subjects, part) for part in parts]
        if None in thick:
            continue
        stack = sum((t for t in thick if t is not None), Fraction(0))
        length = item.value[0] * LENGTHS[units]
        if length >= stack and subject.value < stack:
            yield Finding(
                "a screw that comes through",
                "stop",
                f'"{item.quote}" {where(item)} for {subject.what}: the two pieces are only '
                f"{shown(stack, units)} thick together, so the point comes out.",
                item.quote,
                shown(stack, units),
                "the plan's sections",
                f"Use the plan's screw, {shown(subject.value, units)}.",
                (subject.key,),
            )


def thickness(subjects: Sequence[Subject], part: str) -> Fraction | None:
    """The thickness of a part, from the fact that states it."""
    from tutorial_lib.narration.numbers.stems import stems

    names = set(stems(part))
    fits = [
        s
        for s in subjects
        if s.kind == "section"
        and s.axis in ("thickness", "square", "")
        and names
        & (
            {w for p in s.said for w in p}
            | set(s.head)
            | set(s.group[0] if isinstance(s.group[0], tuple) else s.key.split(".")[0].split("_"))
        )
    ]
    return min((s.value for s in fits), default=None)


def shown(length: Fraction, units: str) -> str:
    """A length as the plan writes it."""
    from tutorial_lib.measures import write_length

    return write_length(length, units)
