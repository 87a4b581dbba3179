"""Every fact of two plans side by side: the video says, yours, why; what is new, what is gone, what to ignore."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from copy import copy
from dataclasses import replace
from fractions import Fraction
from functools import cached_property
from typing import TYPE_CHECKING, Any, Literal

from tutorial_lib.adapting.adapt import Adaptation
from tutorial_lib.adapting.novelties import Item, alike, gone, new
from tutorial_lib.adapting.reasons import reason
from tutorial_lib.facts import Fact, Facts, facts_of
from tutorial_lib.facts.figures import write_value
from tutorial_lib.measures import mm
from tutorial_lib.records import dataclass

if TYPE_CHECKING:
    from tutorial_lib.narration import Item as Heard
    from tutorial_lib.narration import Report

Status = Literal["stays", "changes", "new", "gone"]
COST = "lumber.cost"
LEGS = "leg.count"
NONE = "none, your bed has no such"
HALF_A_MARK = Fraction(1, 32)  # [in] what a tape by sixteenths doesn't tell apart
# legs all alike are "leg"; where some differ they go by their place
SAME_LEG = ("corner_leg", "mid_leg")


@dataclass(frozen=True, kw_only=True)
class Said:
    """Where the video says a fact."""

    time: str | None
    t: float | None  # [s]
    quote: str
    sentence: str
    value: tuple[Fraction, ...]  # as the fact holds it: lengths in inches
    end: int  # where the quote ends in the sentence
    wrong: bool  # surely not what the creator's own plan has


@dataclass(frozen=True, kw_only=True)
class Row:
    """One fact, before and after."""

    key: str
    what: str
    status: Status
    before: Fact | None
    after: Fact | None
    why: str
    said: tuple[Said, ...] = ()


@dataclass(frozen=True)
class Outdated:
    """A sentence of the video that no longer holds."""

    said: Said
    rows: tuple[Row, ...]
    ends: tuple[tuple[int, str], ...]  # where in the sentence each number ends that fails, and the number

    @property
    def marked(self) -> str:
        """The sentence with each number that fails in [brackets]."""
        text = self.said.sentence
        for end, quote in sorted(set(self.ends), reverse=True):
            start = end - len(quote)
            if text[start:end] == quote:  # captions that roll may cut a sentence between
                text = f"{text[:start]}[{quote}]{text[end:]}"
        return text


@dataclass(frozen=True)
class Slip:
    """A number the creator said that is not in their own plan."""

    said: Said
    row: Row


def _right_if(heard: Heard) -> str | None:
    """The one fact that a number the check asks about is right for: if it no longer holds, the viewer is to know."""
    right = [choice.subject for choice in heard.choices if choice.verdict == "agrees"]
    return right[0] if heard.verdict == "unsure" and len(right) == 1 else None


class Comparison:
    """The creator's bed and yours, fact by fact."""

    def __init__(self, adaptation: Adaptation, report: Report | None = None) -> None:
        self.adaptation = adaptation
        self.report = report
        self.both = False  # lengths are told in the other system too
        self.before: Facts = facts_of(adaptation.creator)
        self.after: Facts = self.before if adaptation.yours is adaptation.creator else facts_of(adaptation.yours)

    def in_both(self) -> Comparison:
        """The same, its lengths told in the other system too."""
        other = copy(self)
        other.both = True
        return other

    @cached_property
    def said(self) -> Mapping[str, tuple[Said, ...]]:
        """Where the video says each fact."""
        found: dict[str, list[Said]] = {}
        for item in self.report.items if self.report else ():
            subject = item.subject or _right_if(item)
            if subject:
                metric = item.unit == "mm"
                said = Said(
                    time=item.time,
                    t=item.t,
                    quote=item.quote,
                    sentence=tidy(item.sentence),
                    end=len(tidy(f"{item.before}{item.quote}")),
                    value=tuple(mm(value) if metric else value for value in item.value),
                    wrong=item.verdict == "conflicts",
                )
                found.setdefault(subject, []).append(said)
        return {key: tuple(all_said) for key, all_said in found.items()}

    @cached_property
    def rows(self) -> tuple[Row, ...]:
        """All facts, in the order of the job; those that are new after those the creator has."""
        return tuple(self._rows())

    def _rows(self) -> Iterator[Row]:
        paired = set[str]()
        for key, fact in self.before.items():
            names = _names(key, self.after)
            paired.update(names)
            yield self._row(key, fact, self._after(key, names))
        for key, fact in self.after.items():
            if key not in paired:
                yield self._row(key, None, fact)

    def _after(self, key: str, names: list[str]) -> Fact | None:
        """Your value of a fact; legs are counted at the sides, as in a bed that has no others."""
        if not names:
            return None
        fact = self.after[names[0]]
        if key != LEGS or self.adaptation.creator.options.centre.lines:
            return fact
        sides = sum(leg.line in ("left", "right") and not leg.post for leg in self.adaptation.yours.build.legs)
        return fact if sides == fact.value else replace(fact, value=sides, what="legs at the sides")

    def _row(self, key: str, before: Fact | None, after: Fact | None) -> Row:
        status: Status = "new" if before is None else "gone" if after is None else "changes"
        if before is not None and after is not None and before.value == after.value:
            status = "stays"
        fact = after or before
        assert fact is not None
        why = "" if status == "stays" else reason(key, after, self.adaptation)
        said = self.said.get(key, ())
        return Row(key=key, what=fact.what, status=status, before=before, after=after, why=why, said=said)

    def of(self, status: Status) -> tuple[Row, ...]:
        """The rows of one status."""
        return tuple(row for row in self.rows if row.status == status)

    @cached_property
    def new(self) -> tuple[Item, ...]:
        """Parts, boards and steps only your bed has."""
        return new(self.adaptation)

    @cached_property
    def gone(self) -> tuple[Item, ...]:
        """Parts, boards and steps only the creator's bed has."""
        return gone(self.adaptation)

    @cached_property
    def slips(self) -> tuple[Slip, ...]:
        """What the creator surely said wrong, in spoken order; nothing that is right of your bed, as it happens."""
        own = self.adaptation.same
        found = [Slip(said, row) for row in self.rows for said in row.said
                 if said.wrong and (own or not _right_of(said, row.after))]  # fmt: skip
        return tuple(sorted(found, key=lambda slip: slip.said.t or 0.0))

    @cached_property
    def outdated(self) -> tuple[Outdated, ...]:
        """Sentences that no longer hold, in spoken order: judged by your exact value."""
        other = (row for row in self.rows if row.status in ("changes", "gone"))
        touched = [(said, row) for row in other for said in row.said if _no_longer(said, row)]
        found: list[tuple[Said, list[Row], list[tuple[int, str]]]] = []
        for said, row in sorted(touched, key=lambda pair: pair[0].t or 0.0):
            end = (said.end, said.quote)
            if found and _same_sentence(found[-1][0], said):
                first, rows, ends = found[-1]
                longer = max(first.sentence, said.sentence, key=len)
                found[-1] = (replace(first, sentence=longer), [*rows, row], [*ends, end])
            else:
                found.append((said, [row], [end]))
        return tuple(Outdated(said, tuple(dict.fromkeys(rows)), tuple(ends)) for said, rows, ends in found)

    @cached_property
    def sums(self) -> tuple[tuple[str, str, str], ...]:
        """Cost, weight and ratings: what, before, after."""
        pairs: list[tuple[str, str, str]] = [("lumber", _cost(self.adaptation.creator), _cost(self.adaptation.yours))]
        for key in ("weight.bed", "rating.lying", "rating.sitting"):
            if key in self.before or key in self.after:
                fact = self.after.get(key) or self.before[key]
                pairs.append((fact.what, self.write(self.before.get(key)), self.write(self.after.get(key), True)))
        return tuple(pairs)

    def write(self, fact: Fact | None, yours: bool = False) -> str:
        """A fact's value in its own plan's units; a dash where there is none."""
        units = (self.after if yours else self.before).units
        return "–" if fact is None else write_value(fact, units, self.both)

    def shows(self, row: Row) -> bool:
        """True if a change can be seen as it is written; "2 1/16 in" to "2 1/16 in" can't."""
        return row.status != "changes" or self.write(row.before) != self.write(row.after, True)

    def yours(self, row: Row) -> str:
        """Your value of a row; the lumber's known cost where some has no price."""
        return self.sums[0][2] if row.key == COST and row.after is None else self.write(row.after, True)

    def as_json(self) -> dict[str, Any]:
        """The form of ``tutorial adapt --json``."""
        return {
            "changes": [*self._chosen(), *self._changed()],
            "new": [item.as_json() for item in self.new],
            "gone": [item.as_json() for item in self.gone],
            "findings": [finding.as_json() for finding in self.adaptation.findings],
            "facts": self.after.as_json(),
            "no_longer_holds": [
                {"time": o.said.time, "t": o.said.t, "sentence": o.said.sentence, "yours": self.instead(o)}
                for o in self.outdated
            ],
            "video_says": [
                {
                    "time": s.said.time,
                    "t": s.said.t,
                    "said": s.said.quote,
                    "sentence": s.said.sentence,
                    "what": s.row.what,
                    "plan": self.write(s.row.before),
                    "yours": self.use(s),
                }
                for s in self.slips
            ],
            "notes": list(self.adaptation.notes),
        }

    def _chosen(self) -> Iterator[dict[str, Any]]:
        taken = {row.key for row in self.of("changes")}
        for step in self.adaptation.changes:
            if step.key not in taken:
                yield {"what": step.key, "before": step.before, "after": step.after, "why": step.full}

    def _changed(self) -> Iterator[dict[str, Any]]:
        old, fresh = self.before.as_json()["quantities"], self.after.as_json()["quantities"]
        for row in self.of("changes"):
            assert row.before is not None and row.after is not None
            was, now = old[row.before.key], fresh[row.after.key]
            units = {"unit": now["unit"]} | ({"unit_before": was["unit"]} if was["unit"] != now["unit"] else {})
            yield {"what": row.key, "before": was["value"], "after": now["value"], "why": row.why} | units

    def use(self, slip: Slip) -> str:
        """What to use where the video has it wrong."""
        return self._use(slip.row)

    def instead(self, outdated: Outdated) -> str:
        """What to read in place of a sentence: "1x4 slat: 53 1/4 in"."""
        return "; ".join(dict.fromkeys(f"{row.what}: {self._use(row)}" for row in outdated.rows))

    def lacks(self, row: Row) -> bool:
        """Whether your bed has nothing in its place."""
        return self._use(row) == NONE

    def _use(self, row: Row) -> str:
        """Your value of a row; boards you don't buy are told by those you do."""
        if row.after or row.key == COST:
            return self.yours(row)
        board = row.before.board if row.before else None
        return (self._bought_for(board.section) if board else "") or NONE

    def _bought_for(self, section: str) -> str:
        """What your bed takes for the parts that the creator makes of a section: "2 of 45x145, 3600 mm"."""
        parts = {alike(part) for part in self.adaptation.creator.build.parts if part.section.name == section}
        yours = self.adaptation.yours
        sections = {part.section.name for part in yours.build.parts if alike(part) in parts}
        bought = [f"{p.count} of {p.section}, {p.stock}" for p in yours.cutting.shopping if p.section in sections]
        own = [f"{b.count} of {b.section}, {b.stock}" for b in yours.cutting.own_boards if b.section in sections]
        return " and ".join(bought + own)


def comparison(adaptation: Adaptation, report: Report | None = None) -> Comparison:
    """Every fact of an adaptation, before and after.

    Args:
        adaptation: what :func:`~tutorial_lib.adapting.adapt` or ``compare`` gave.
        report: the creator's captions checked against the creator's facts (``narration.check``), where they are
            to be held against it.
    """
    return Comparison(adaptation, report)


def holds(said: Said, before: Fact | None, after: Fact | None) -> bool:
    """True if what was said is as near to your exact value as to the creator's, give or take half a tape mark."""
    if after is None or before is None:
        return False
    old, new = _values(before), _values(after)
    if not old or not new or not said.value:
        return before.value == after.value
    for value in said.value:
        place = min(range(len(old)), key=lambda n: abs(old[n] - value))
        room = abs(old[place] - value) + (HALF_A_MARK if after.unit == "in" else 0)
        if place >= len(new) or abs(new[place] - value) > room:
            return False
    return True


def _values(fact: Fact) -> list[Fraction]:
    if isinstance(fact.value, str):
        return []
    return [Fraction(v) for v in (fact.value if isinstance(fact.value, tuple) else (fact.value,))]


def _names(key: str, facts: Facts) -> list[str]:
    """The key a fact goes by in another plan."""
    if key in facts:
        return [key]
    part, _, rest = key.partition(".")
    if part == "leg":
        return [name for name in (f"{leg}.{rest}" for leg in SAME_LEG) if name in facts]
    return [f"leg.{rest}"] if part in SAME_LEG and f"leg.{rest}" in facts else []


def _cost(plan: Any) -> str:
    cutting = plan.cutting
    said = str(cutting.money.write(cutting.cost))
    if cutting.priced:
        return said
    if not cutting.cost:
        return "no price given"
    return f"{said} without {', '.join(sorted(cutting.unpriced))} (no price given)"


def _same_sentence(one: Said, other: Said) -> bool:
    """True if two numbers stand in the same sentence, as far as the captions show it."""
    return one.sentence.startswith(other.sentence) or other.sentence.startswith(one.sentence)


def tidy(sentence: str) -> str:
    """A spoken sentence with its commas where they belong.

    >>> tidy("it's a twin ,so mind")
    "it's a twin, so mind"
    """
    return re.sub(r"\s*([,;:])\s*", r"\1 ", sentence).strip()


def _right_of(said: Said, fact: Fact | None) -> bool:
    """Whether all that was said of a fact are values of it, half a tape's mark apart at most."""
    values = _values(fact) if fact is not None else []
    room = HALF_A_MARK if fact is not None and fact.unit == "in" else 0
    return bool(said.value) and all(any(abs(value - one) <= room for one in values) for value in said.value)


def _no_longer(said: Said, row: Row) -> bool:
    """Whether a sentence was right of the creator's bed and isn't of yours."""
    return not said.wrong and not holds(said, row.before, row.after)
