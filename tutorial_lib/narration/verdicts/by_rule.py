"""The numbers of a talk that are judged by rule: timber's names, gauges, prices, waits."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from tutorial_lib.measures import Units
from tutorial_lib.narration.linking.hearing import Heard
from tutorial_lib.narration.linking.sorting import FORMS, SURE_UNITS, is_named
from tutorial_lib.narration.linking.subjects import Subject
from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.numbers.lexicon import LENGTHS, MONEY
from tutorial_lib.narration.verdicts.gauges_said import gauge_said
from tutorial_lib.narration.verdicts.prices_bare import bare_price, coins
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
    bolts: tuple[Subject, ...]  # how thick
    units: Units
    longest: Fraction  # of the plan's lengths, in its unit
    kinds: frozenset[str]  # of all facts


def rules_of(subjects: Sequence[Subject], units: Units) -> Rules:
    """The facts that rules judge by, out of all; ``units``: the plan's unit of length."""

    def of(*kinds: str) -> tuple[Subject, ...]:
        return tuple(s for s in subjects if s.kind in kinds)

    bolts = {s.what for s in of("bolt_length")}
    return Rules(
        lumber=tuple(s for s in of("lumber") if len(s.values) == 2),
        gauges=of("gauge"),
        prices=of("price"),
        costs=of("cost"),
        waits=of("wait", "time"),
        stock=of("stock_length", "stock_count"),
        screws=of("screw_length"),
        bolts=tuple(s for s in of("diameter") if s.what in bolts),
        units=units,
        longest=max((v for s in subjects if s.is_length for v in s.values), default=Fraction(0)) / LENGTHS[units],
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
    named = item.form in ("nominal", "gauge", "pair") or item.unit in ("gauge", "mm") or item.pair > 0
    return named or item.unit in MONEY or item.unit in HOURS or coins(item) is not None


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
    if item.unit == "mm" or item.pair or item.form == "pair":
        return metric_named(heard, i, rules) if rules.units == "mm" else None
    if not item.unit:
        return bare_price(heard, i, rules.prices, rules.lumber, rules.longest)
    return wait_said(heard, i, rules.waits)


def metric_named(heard: Heard, i: int, rules: Rules) -> Ruled | None:
    """What the rules for the names of metric screws and bolts say of a number."""
    from tutorial_lib.narration.verdicts import screws_named  # only a metric plan has them

    if screws_named.is_thread(heard, i):
        return screws_named.thread_named(heard, i, rules.bolts, rules.units)
    return screws_named.screw_named(heard, i, rules.gauges, rules.screws, rules.units)
