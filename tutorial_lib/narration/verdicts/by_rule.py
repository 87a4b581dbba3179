"""The numbers of a talk that are judged by rule: timber's names, gauges, prices, waits."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tutorial_lib.narration.linking.hearing import Heard
from tutorial_lib.narration.linking.sorting import FORMS, SURE_UNITS, is_named
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.numbers.lexicon import MONEY
from tutorial_lib.narration.verdicts.gauges_said import gauge_said
from tutorial_lib.narration.verdicts.prices_said import price_said
from tutorial_lib.narration.verdicts.ruled import Ruled
from tutorial_lib.narration.verdicts.timber_said import timber_said
from tutorial_lib.narration.verdicts.waits_said import HOURS, wait_said
from tutorial_lib.records import dataclass

BY_NAME = frozenset((FORMS["nominal"], FORMS["gauge"], SURE_UNITS["gauge"], SURE_UNITS["days"], ""))


@dataclass(frozen=True, kw_only=True)
class Rules:
    """The facts of a plan that rules judge by."""

    lumber: tuple[Subject, ...]
    gauges: tuple[Subject, ...]
    prices: tuple[Subject, ...]
    costs: tuple[Subject, ...]
    waits: tuple[Subject, ...]
    stock: tuple[Subject, ...]
    screws: tuple[Subject, ...]
    kinds: frozenset[str]  # of all facts


def rules_of(subjects: Sequence[Subject]) -> Rules:
    """The facts that rules judge by, out of all."""

    def of(*kinds: str) -> tuple[Subject, ...]:
        return tuple(s for s in subjects if s.kind in kinds)

    return Rules(
        lumber=tuple(s for s in of("lumber") if len(s.values) == 2),
        gauges=of("gauge"),
        prices=of("price"),
        costs=of("cost"),
        waits=of("wait", "time"),
        stock=of("stock_length", "stock_count"),
        screws=of("screw_length"),
        kinds=frozenset(s.kind for s in subjects),
    )


def ruled(heard: Heard, rules: Rules) -> Iterator[tuple[int, Ruled]]:
    """The numbers that a rule judges, by their place among those heard."""
    for i, item in enumerate(heard.sorted_out.found):
        if heard.sorted_out.reasons[i] in BY_NAME and may_be_ruled(item) and not named_otherwise(heard, i):
            made = judged(heard, i, rules)
            if made is not None:
                yield i, made


def may_be_ruled(item: Expression) -> bool:
    """Whether a number is of a sort that rules judge."""
    return item.form in ("nominal", "gauge") or item.unit == "gauge" or item.unit in MONEY or item.unit in HOURS


def named_otherwise(heard: Heard, i: int) -> bool:
    """Whether a number is of another bed, denied, a date or the like."""
    claim = heard.sorted_out.claims[i]
    return bool(is_named(heard.transcript.words, claim.item, claim.around))


def judged(heard: Heard, i: int, rules: Rules) -> Ruled | None:
    """What the rule for a number's sort says of it."""
    item = heard.sorted_out.found[i]
    if item.form == "nominal":
        return timber_said(heard, i, rules.lumber, rules.stock) if rules.lumber and len(item.values) > 1 else None
    if item.form == "gauge" or item.unit == "gauge":
        return gauge_said(heard, i, rules.gauges, rules.screws)
    if item.unit in MONEY:
        return price_said(heard, i, rules.prices, rules.lumber, rules.costs)
    return wait_said(heard, i, rules.waits)
