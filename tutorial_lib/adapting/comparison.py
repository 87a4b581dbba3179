"""Every fact of two plans side by side: the video says, yours, why; what is new, what is gone, what to ignore."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING, Any, Literal

from tutorial_lib.adapting.adapt import Adaptation
from tutorial_lib.adapting.novelties import Item, gone, new
from tutorial_lib.adapting.reasons import reason
from tutorial_lib.facts import Fact, Facts, facts_of
from tutorial_lib.facts.figures import write_value

if TYPE_CHECKING:
    from tutorial_lib.narration import Report

Status = Literal["stays", "changes", "new", "gone"]
COST = "lumber.cost"
# legs all alike are "leg"; where some differ they go by their place
SAME_LEG = ("corner_leg", "mid_leg")


@dataclass(frozen=True)
class Said:
    """Where the video says a fact."""

    time: str | None
    t: float | None  # [s]
    quote: str
    sentence: str


@dataclass(frozen=True)
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


class Comparison:
    """The creator's bed and yours, fact by fact."""

    def __init__(self, adaptation: Adaptation, report: Report | None = None) -> None:
        self.adaptation = adaptation
        self.report = report
        self.before: Facts = facts_of(adaptation.creator)
        self.after: Facts = self.before if adaptation.yours is adaptation.creator else facts_of(adaptation.yours)

    @cached_property
    def said(self) -> Mapping[str, tuple[Said, ...]]:
        """Where the video says each fact."""
        found: dict[str, list[Said]] = {}
        for item in self.report.items if self.report else ():
            if item.subject:
                found.setdefault(item.subject, []).append(Said(item.time, item.t, item.quote, tidy(item.sentence)))
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
            yield self._row(key, fact, self.after[names[0]] if names else None)
        for key, fact in self.after.items():
            if key not in paired:
                yield self._row(key, None, fact)

    def _row(self, key: str, before: Fact | None, after: Fact | None) -> Row:
        status: Status = "new" if before is None else "gone" if after is None else "changes"
        if before is not None and after is not None and before.value == after.value:
            status = "stays"
        fact = after or before
        assert fact is not None
        why = "" if status == "stays" else reason(key, after, self.adaptation)
        return Row(key, fact.what, status, before, after, why, self.said.get(key, ()))

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
    def outdated(self) -> tuple[Outdated, ...]:
        """Sentences that no longer hold, in spoken order."""
        touched = [(said, row) for row in self.rows if row.status in ("changes", "gone") for said in row.said]
        found: list[tuple[Said, list[Row]]] = []
        for said, row in sorted(touched, key=lambda pair: pair[0].t or 0.0):
            if found and _same_sentence(found[-1][0], said):
                longer = max(found[-1][0].sentence, said.sentence, key=len)
                found[-1] = (replace(found[-1][0], sentence=longer), [*found[-1][1], row])
            else:
                found.append((said, [row]))
        return tuple(Outdated(said, tuple(dict.fromkeys(rows))) for said, rows in found)

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
        return "–" if fact is None else write_value(fact, (self.after if yours else self.before).units)

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
            "notes": list(self.adaptation.notes),
        }

    def _chosen(self) -> Iterator[dict[str, Any]]:
        taken = {row.key for row in self.of("changes")}
        for step in self.adaptation.steps:
            if step.key not in taken:
                yield {"what": step.key, "before": step.before, "after": step.after, "why": step.why}

    def _changed(self) -> Iterator[dict[str, Any]]:
        old, fresh = self.before.as_json()["quantities"], self.after.as_json()["quantities"]
        for row in self.of("changes"):
            assert row.before is not None and row.after is not None
            was, now = old[row.before.key], fresh[row.after.key]
            units = {"unit": now["unit"]} | ({"unit_before": was["unit"]} if was["unit"] != now["unit"] else {})
            yield {"what": row.key, "before": was["value"], "after": now["value"], "why": row.why} | units

    def instead(self, outdated: Outdated) -> str:
        """What to read in place of a sentence: "1x4 slat: 53 1/4 in"."""
        return "; ".join(
            f"{row.what}: {self.yours(row) if row.after or row.key == COST else row.why}" for row in outdated.rows
        )

    def as_text(self) -> str:
        """Short and readable: choices, what is new, what changes, what no longer holds, sums, findings."""
        from tutorial_lib.adapting.telling import text

        return text(self)


def comparison(adaptation: Adaptation, report: Report | None = None) -> Comparison:
    """Every fact of an adaptation, before and after.

    Args:
        adaptation: what :func:`~tutorial_lib.adapting.adapt` or ``compare`` gave.
        report: the creator's captions checked against the creator's facts (``narration.check``), where they are
            to be held against it.
    """
    return Comparison(adaptation, report)


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
    used = {part.section.name for part in plan.build.parts}
    open_ones = sorted(name for name in cutting.unpriced if name in used)
    return said if not open_ones else f"{said} without {', '.join(open_ones)} (no price given)"


def _same_sentence(one: Said, other: Said) -> bool:
    """True if two numbers stand in the same sentence, as far as the captions show it."""
    return one.sentence.startswith(other.sentence) or other.sentence.startswith(one.sentence)


def tidy(sentence: str) -> str:
    """A spoken sentence with its commas where they belong.

    >>> tidy("it's a twin ,so mind")
    "it's a twin, so mind"
    """
    return re.sub(r"\s*([,;:])\s*", r"\1 ", sentence).strip()
