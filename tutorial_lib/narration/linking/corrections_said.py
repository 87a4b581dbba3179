"""Values the speaker takes back at once, and words that make a value rough or a limit."""

from __future__ import annotations

import re
from collections.abc import Sequence

from tutorial_lib.narration.numbers.expression import Expression
from tutorial_lib.narration.numbers.lexicon import DURATIONS, LENGTHS
from tutorial_lib.narration.numbers.transcript import Transcript
from tutorial_lib.narration.numbers.words import Gap

ENDS = r"(?= ,| $|$)"  # said on its own: a pause or the new number follows
GOES_ON = (
    r"(?= (?:wait|sorry|hang|hold|scratch|strike|make|it's|its|that's|that|i|i'm|let|not|no|actually|ma'am|sir|excuse|"
    r"pardon|beg|other|way|back|they're|it)\b)"
)
TAKEN_BACK = re.compile(
    rf"(?:^|[ ,])(?:no{ENDS}|no{GOES_ON}|nope|nah|sorry|scratch that|"
    r"(?<!you )(?<!i )(?<!to )(?<!we )(?<!then )(?<!and )wait(?! (?:a|an|for|till|until|at))|"
    r"hang on|hold on|hang about|i mean|i meant|make that|correction|strike that|excuse me|pardon me|beg your pardon|"
    r"i tell a lie|let me start again|(?<!'d )rather|that's wrong|that was wrong|that's not right|not right|give over|"
    r"my mistake|let me fix that|my bad|i misspoke|i said that wrong|let me say that again|let me read that again|"
    rf"make it{ENDS}|not that{ENDS}|oops|whoops|back up{ENDS}|check that{ENDS}|belay that|other way (?:a)?round|"
    r"what am i saying|(?:i )?read (?:it|that) wrong|i'm lying|forget that)(?:$|[ ,])"
)


def withdrawn(transcript: Transcript, items: Sequence[Expression]) -> set[int]:
    """Indices of expressions that the next number replaces ("77, no, scratch that, 78")."""
    out = set()
    for i, a in enumerate(items[:-1]):
        b = items[i + 1]
        if b.form == "ordinal" and i + 2 < len(items):
            b = items[i + 2]
        again = (a.value, a.unit) == (b.value, b.unit) and a.values == b.values  # said again, not taken back
        if again or not may_replace(a, b) or waits_for(transcript, a, b):
            continue
        if takes_back(transcript.text(a.last, b.first)) or aside(transcript, a, b):
            out.add(i)
    return out


def may_replace(a: Expression, b: Expression) -> bool:
    """Whether a number close behind another can stand in its place."""
    plain = a.form in ("number", "dozen") and b.form in ("number", "dozen")
    named = a.form == b.form == "nominal" or a.form == b.form == "gauge"
    return (plain or named) and b.first - a.last <= 16 and comparable(a, b)


def waits_for(transcript: Transcript, a: Expression, b: Expression) -> bool:
    """Whether the "wait" before a time is what is done for so long ("... ninety days. Wait three days ...")."""
    words, at = transcript.words, b.first - 1
    if b.unit not in DURATIONS or words[at].low not in ("wait", "waits", "waited") or words[b.first].gap >= Gap.COMMA:
        return False
    return a.unit not in DURATIONS or words[at].gap >= Gap.SENTENCE


def takes_back(between: str) -> bool:
    """Whether the words between two numbers take the first one back, and the second follows soon."""
    found = list(TAKEN_BACK.finditer(f" {between} "))
    return (
        bool(found)
        and len(f" {between} "[found[-1].end() :].split()) <= 9
        and not re.search(r"\bnot\b.*\bbut\b", between)
    )


LINKS = re.compile(
    r"\b(?:and|by|or|then|so|to|for|of|from|in|on|at|with|is|are|than|the|a|each|apiece|every|which|that|"
    r"it's|that's|long|wide|deep|thick|plus|times|down|up|through|there's)\b"
)


def aside(transcript: Transcript, a: Expression, b: Expression) -> bool:
    """A short exclamation between commas, like numbers beside it ("fourteen oh two, give over, fourteen twenty")."""
    words = transcript.words
    between = transcript.text(a.last, b.first)
    if between and all(w.strip(",") in FILLERS for w in between.split()):
        return abs(a.value - b.value) <= max(a.value, b.value) / 3
    commas = a.last < len(words) and words[a.last].gap == words[b.first].gap == Gap.COMMA
    alike = min(a.value, b.value) >= 10 and max(a.value, b.value) < 2 * min(a.value, b.value)
    return commas and alike and 0 < b.first - a.last <= 3 and not LINKS.search(between)


FILLERS = frozenset("uh um er erm hmm well actually oh".split())


def comparable(a: Expression, b: Expression) -> bool:
    """Whether two numbers can be the same quantity by their units."""
    if a.unit in LENGTHS and b.unit in LENGTHS:
        return True
    return a.unit == b.unit or (not a.unit and b.unit in LENGTHS) or (not b.unit and a.unit in LENGTHS)


ROUGH = re.compile(
    r"\b(?:about|around|roughly|nearly|almost|(?<!i )(?<!we )(?<!they )(?<!you )call it|near enough|or so|say|"
    r"approximately|ish|maybe|"
    r"give or take|thereabouts|some|close to|or thereabouts|near as|pretty much|circa|more or less|basically)\b"
)
UNDER = re.compile(
    r"\b(?:shy|just under|a (?:shade|hair|touch|whisker|(?:little |wee )?bit|tad|little) (?:under|less|shy|short)|"
    r"a hair less|bit under|"
    r"not quite|just short of|light|scant|barely|bare)\b"
)
OVER = re.compile(
    r"\b(?:just over|a (?:hair|shade|touch|bit|whisker|tad|little)(?: bit)? (?:over|more|better|past)|strong|"
    r"better than|bit over|and a (?:bit|whisker|hair|touch|smidge|crumb|little|tick|wee bit|tad|small \S+)|and some|"
    r"and then some|and change|heavy|plus a bit|fat|full|or better|a little over|a good(?= #))(?:\b|(?= #))"
)


SLIGHTLY = r"(?:just|an? (?:hair|touch|shade|little|bit|whisker|tad))"
LATE = re.compile(
    rf"\bor {SLIGHTLY} (?:under|over|shy|less|more)\b.*|^(?:\S+ ){{0,4}}and an? (?:inch and a )?(?:bit|whisker|hair|"
    rf"touch|smidge|crumb|little|tick|wee bit|tad|small \S+)(?: more| over)?|"
    rf"^(?:about|call it)\b.*|^(?:\S+ ){{0,4}},?{SLIGHTLY} (?:under|over|shy|less|more|better)\b.*|"
    r"^(?:\S+ ){0,2},?near enough\b"
)


def hedge_of(transcript: Transcript, item: Expression) -> int:
    """How a value is hedged: -1 the truth is under it, +1 over it, 2 rough either way, 0 not at all."""
    before = transcript.text(max(0, item.first - 6), item.first)
    after = transcript.text(item.last, item.last + 6)
    before = re.split(r",(?=[^,]*$)", before)[-1] if not re.search(r"call it|or so|about", before) else before
    after = (
        transcript.text(item.last, item.last + 9) if LATE.search(transcript.text(item.last, item.last + 9)) else after
    )
    head = after.split(",")[0] if not after.startswith(",") else after[1:]
    late = LATE.search(after)
    if late:
        head = late.group()
    text = before + " # " + " ".join(head.split()[:5])
    if UNDER.search(text):
        return -1
    if OVER.search(text):
        return 1
    return (
        2
        if ROUGH.search(before)
        or re.search(
            r"^(?:\S+ ){0,2},?near enough|^,?(?:or so|ish|almost|nearly|about|call it|pert near|near as|"
            r"give or take|or thereabouts|near enough|roughly|just about|circa|more or less|"
            r"and change)",
            after,
        )
        else 0
    )
