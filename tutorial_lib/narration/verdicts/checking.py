"""The numbers of a talk checked against a plan's facts: heard, linked, decided, told in one report."""

from __future__ import annotations

import gc
import re
from collections.abc import Callable, Collection, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from tutorial_lib.facts import Facts
from tutorial_lib.measures import Units
from tutorial_lib.narration.captions.cues import Talk
from tutorial_lib.narration.captions.sections import Section, sections
from tutorial_lib.narration.linking.claims import Claim
from tutorial_lib.narration.linking.hearing import Heard, hear
from tutorial_lib.narration.linking.linked import link
from tutorial_lib.narration.linking.local import Candidate, candidates
from tutorial_lib.narration.linking.sorting import doubts, lacking, leftover_reason, own_total
from tutorial_lib.narration.linking.subjects import Subject, nominal_names, ruled_of, subjects_of
from tutorial_lib.narration.linking.sums import before
from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.numbers.lexicon import LENGTHS, MASSES
from tutorial_lib.narration.numbers.transcript import Transcript
from tutorial_lib.narration.verdicts import across, answers, by_rule, loads, prices_said
from tutorial_lib.narration.verdicts.choosing import choice_of
from tutorial_lib.narration.verdicts.deciding import Decision, decided
from tutorial_lib.narration.verdicts.items import Choice, Item, Report
from tutorial_lib.narration.verdicts.ruled import told
from tutorial_lib.narration.verdicts.suspicion import Overview, Weighed, weighed


def check(
    talk: Talk,
    facts: Facts,
    planner: Callable[..., bool] | None = None,
    answered: Sequence[answers.Answer] = (),
) -> Report:
    """Checks every number said in a talk against a plan.

    Args:
        talk: what was said.
        facts: the plan's facts.
        planner: tells whether pieces come out of boards; called as planner(pieces, boards, kerf), lengths in inches.
        answered: what the person said of doubtful numbers before (``answers.read``).
    """
    subjects, ruled = subjects_of(facts), ruled_of(facts)
    rules = by_rule.rules_of([*subjects, *ruled], facts.units)
    with uncollected():
        items = tuple(item for section in sections(talk) for item in found_in(section, subjects, facts, rules))
    notes = [str(f) for f in talk.faults]
    if answered:
        items, stale = answers.apply(items, answered, {s.key: s for s in (*subjects, *ruled)}, facts.units)
        notes += stale
    cross = across.across(items, subjects, facts.units, planner)
    return Report(talk, facts.units, items, tuple(cross), tuple(notes))


@contextmanager
def uncollected() -> Iterator[None]:
    """Puts off the search for garbage in circles: all that is made for a talk is kept until it is told, in none."""
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()


def found_in(section: Section, subjects: Sequence[Subject], facts: Facts, rules: by_rule.Rules) -> Iterator[Item]:
    """Items of a section, each placed in the whole talk."""
    for item in find(section.talk, subjects, facts, rules):
        moved = section.offset
        yield replace(item, start=item.start + moved, end=item.end + moved) if moved else item


def find(talk: Talk, subjects: Sequence[Subject], facts: Facts, rules: by_rule.Rules) -> list[Item]:
    """Items of a talk, linked and judged."""
    heard = hear(talk, subjects, facts.units, nominal_names(facts))
    view = overview(heard, subjects, facts.units)
    decisions = dict(zip(heard.kept, decided(view), strict=True))
    found = heard.sorted_out.found
    said_loads, ruled = dict(loads_in(heard, subjects)), dict(by_rule.ruled(heard, rules))

    def item(i: int) -> Item:
        if i in said_loads:
            return loads.judged(placed(talk, heard.transcript, found[i]), *said_loads[i])
        if i in ruled:
            return told(placed(talk, heard.transcript, found[i]), ruled[i])
        known = not (prices_said.of_else(heard, i, rules.costs) or loads.of_people(heard.sorted_out.claims[i]))
        return judged(talk, heard, i, decisions.get(i) if known else None, facts.units, rules.kinds)

    misheard = {i for i, e in enumerate(found) if e.form == "misheard" and not holds(decisions.get(i))}
    return [item(i) for i in range(len(found)) if i not in misheard]


def loads_in(heard: Heard, subjects: Sequence[Subject]) -> Iterator[tuple[int, tuple[Claim, list[loads.Allowed]]]]:
    """The numbers that say what the bed holds, each as a load with the ratings it may be about."""
    before: Claim | None = None  # the load said last
    for i, claim in zip(heard.kept, heard.claims, strict=True):
        said = loads.goes_on(claim, before) if before is not None else claim
        follows = said is not claim
        ratings = loads.load_said(said, heard.doubts(claim), subjects, follows) if said.item.unit in MASSES else []
        if ratings:
            before = said
            yield i, (said, ratings)


def overview(heard: Heard, subjects: Sequence[Subject], units: Units) -> Overview:
    """What each number of a talk may be about, with its chances."""
    claims = heard.claims
    raised = [heard.doubts(c) for c in claims]
    options = [
        candidates(heard.mentions, c, subjects, d, before(claims, at))
        for at, (c, d) in enumerate(zip(claims, raised, strict=True))
    ]
    chances = link(claims, options)
    rows = [
        [weighed(claim, candidate, p, units) for candidate, p in zip(found, row, strict=True)]
        for claim, found, row in zip(claims, options, chances, strict=True)
    ]
    return Overview(claims, rows, raised, units)


def holds(decision: Decision | None) -> bool:
    """A misheard word is read as a number only where the plan has just that number for it."""
    return decision is not None and decision.verdict in ("agrees", "rounded", "fits")


def judged(talk: Talk, heard: Heard, i: int, decision: Decision | None, units: Units, kinds: Collection[str]) -> Item:
    """One item of the report; ``kinds``: of the plan's facts."""
    item, claim = heard.sorted_out.found[i], heard.sorted_out.claims[i]
    at = placed(talk, heard.transcript, item)
    if decision is None or decision.verdict == "none":
        reason = heard.sorted_out.reasons[i]
        kind, result, why = unlinked(item, claim, reason, kinds)
        value, unit = normal(item, claim, units, named=bool(reason))
        sure = 1.0 if decision is None else decision.certainty
        return replace(at, value=value, unit=unit, kind=kind, verdict=result, why=why, certainty=sure)
    made = replace(at, verdict=decision.verdict, certainty=decision.certainty, hedge=claim.hedge)
    if decision.meant is not None:
        return linked(made, item, decision.meant, claim, units)
    choices = tuple(choice(w, claim, units) for w in decision.choices)
    first = decision.choices[0].candidate
    value, unit = said(item, first, units)
    return replace(made, value=value, unit=unit, kind=choices[0].kind, choices=choices, why=doubt(made, choices))


def linked(made: Item, item: Expression, meant: Weighed, claim: Claim, units: Units) -> Item:
    """An item whose subject is plain."""
    about = choice(meant, claim, units)
    value, unit = said(item, meant.candidate, units)
    return replace(
        made,
        value=value,
        unit=unit,
        kind=about.kind,
        subject=about.subject,
        plan_value=about.plan_value,
        what=about.what,
        why=f"said of {about.what or about.subject}: {about.why}",
    )


def said(item: Expression, candidate: Candidate, units: Units) -> tuple[tuple[Fraction, ...], str]:
    """The value said as the report states it, in the reading that fits the fact."""
    subject, reading = candidate.subject, candidate.reading
    assert subject is not None and reading is not None
    scale = LENGTHS[units] if subject.is_length else Fraction(1)
    value = item.values if len(item.values) > 1 else (reading[0] / scale,)
    return value, units if subject.is_length else subject.unit


def choice(w: Weighed, claim: Claim, units: Units) -> Choice:
    """One fact a number may be about."""
    subject, reading = w.candidate.subject, w.candidate.reading
    assert subject is not None and reading is not None
    return choice_of(subject, reading[0], claim.hedge, units, w.chance)


def doubt(item: Item, choices: Sequence[Choice]) -> str:
    """Why a number is a question, or merely fits."""
    wrong = [c for c in choices if c.verdict == "conflicts"]
    right = [c for c in choices if c.verdict != "conflicts"]
    if item.verdict == "fits":
        return "fits " + " or ".join(c.what for c in right) + "; which of them is meant isn't plain"
    first = wrong[0]
    told = f"wrong if it speaks of {first.what} ({first.why})"
    return f"{told}, right if of {right[0].what}" if right else told


def unlinked(item: Expression, claim: Claim, reason: str, kinds: Collection[str]) -> tuple[str, str, str]:
    """Kind, verdict and reason of a number that speaks of nothing in a plan with facts of these kinds."""
    if reason:
        return item.form if item.form != "number" else "other", "not_a_claim", reason
    total = own_total(item, claim.around)
    if total:
        return ("price" if "price" in total else "load"), "not_in_plan", lacking(total, kinds)
    found = doubts(claim.around)
    if item.unit in LENGTHS and not found:
        return "measure", "not_in_plan", "a measure of something the plan doesn't hold"
    return "other", "not_a_claim", leftover_reason(item, found)


SIZED = frozenset("wide tall long deep thick height longways gap outside opening".split())


def normal(item: Expression, claim: Claim, units: str, named: bool) -> tuple[tuple[Fraction, ...], str]:
    """Values and unit as the report states them; a bare size is in the unit the speaker used last, a name isn't."""
    if item.form == "nominal" and item.unit not in LENGTHS:
        return item.values, "nominal"
    meant = item.unit if item.unit in LENGTHS else bare_unit(item, claim, named)
    if meant:
        return tuple(v * LENGTHS[meant] / LENGTHS[units] for v in item.values), units
    return item.values, item.unit or ("count" if item.value.denominator == 1 else units)


def bare_unit(item: Expression, claim: Claim, named: bool) -> str:
    """The unit of length a number without one is in; "" for a count, or where it isn't known."""
    if claim.meant.unit in LENGTHS and item.value.denominator > 1:
        return claim.meant.unit
    bare = not (item.unit or named or claim.noun)
    sized = bool(claim.cues & SIZED) or item.value >= 10
    return "cm" if claim.meant.running == "cm" and bare and sized else ""


LONG, CUT = 40, 16  # [words] either way: a sentence quoted whole; what is quoted where it doesn't end


def in_sentence(talk: Talk, transcript: Transcript, item: Expression) -> tuple[str, str, str]:
    """The sentence a number is said in, as captioned: before it, the number, after it; "…" where it is cut.

    Up to forty words either way, and sixteen where the captions have no sentences.
    """
    words = transcript.words
    first, last, cut = quoted(transcript, item)
    start, end = words[item.first].start, words[item.last - 1].end
    places = (words[first].start, start, end, words[max(last, item.last) - 1].end)
    before, quote, after = (re.sub(r"\s+", " ", talk.text[a:b]) for a, b in pairwise(places))
    return "… " * cut[0] + DIRECTION_ENDS.sub("", before), quote, after + " …" * cut[1]


DIRECTION_ENDS = re.compile(
    r"^[^\[]*\]\s*"
)  # "[shot of the saw] I cut": a direction, its bracket before the first word


def quoted(transcript: Transcript, item: Expression) -> tuple[int, int, tuple[bool, bool]]:
    """First and one-past-last word of what is quoted around a number, and whether it is cut at either end."""
    first, last = transcript.span(transcript.sentence, item.first, LONG)
    if item.first - first == LONG or last - item.first == LONG:
        first, last = max(first, item.first - CUT), min(last, item.first + CUT)
    whole = transcript.sentence
    before = first > 0 and whole[first - 1] == whole[item.first]
    after = last < len(whole) and last >= item.last and whole[last] == whole[item.first]
    return first, last, (before, after)


def placed(talk: Talk, transcript: Transcript, item: Expression) -> Item:
    """An item with where and how it was said, and nothing else yet."""
    words = transcript.words
    cue = words[item.first].cue
    before, quote, after = in_sentence(talk, transcript, item)
    return Item(
        place=cue.number if talk.timed else cue.line,
        t=cue.start if talk.timed else None,
        quote=quote,
        value=(),
        unit="",
        kind="other",
        verdict="not_a_claim",
        why="",
        before=before,
        after=after,
        start=words[item.first].start,
        end=words[item.last - 1].end,
    )
