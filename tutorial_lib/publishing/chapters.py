"""Chapters of a video from the course of its own talk: what is spoken of when, as WebVTT and as the plain list.

Each caption speaks for the topics that its numbers and its words belong to. The course with the most spoken for is
taken, where changing the topic costs something, and less so where the talk pauses: the Viterbi path.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cached_property
from itertools import groupby, pairwise

from tutorial_lib.facts import Facts
from tutorial_lib.narration.captions.cues import PAUSE, Cue, clock, silence
from tutorial_lib.narration.numbers.stems import stems
from tutorial_lib.narration.verdicts.items import Item, Report
from tutorial_lib.publishing.corrections import stamp
from tutorial_lib.records import dataclass

LEAST = 10.0  # [s] video sites read no shorter chapter (common practice, no source)
FEWEST = 3  # nor a list of fewer chapters (common practice, no source)
SWITCH, AT_PAUSE = 6.0, 2.5  # what a change of topic costs, in words; our choice, by ear on our own talks
NUMBER = 2  # a number that speaks of a fact weighs as two words
BIDDING = 0.5  # what a caption without any of these speaks for the welcome or the goodbye
OPENING, CLOSING = "opening", "closing"
TOPICS = {  # topic: (heads of the facts' keys, words as stems)
    "shopping": ("stock lumber", "buy bought shopping store price cost dollar receipt cart aisle budget"),
    "size": ("mattress frame", "mattress bedding"),
    "rails": ("side_rail end_rail rail", "rail"),
    "corners": ("corner post corner_block block bed_bolt barrel_nut", "corner post"),
    "cleats": ("cleat pilot", ""),
    "runners": ("runner", ""),
    "centre": ("centre_beam centre_runner centre_line beam_block centre_leg", ""),
    "legs": ("leg corner_leg mid_leg bolt flange", "leg leveller"),
    "plinth": ("plinth plinth_side plinth_end", "plinth base"),
    "slats": ("slat spacer", "slat"),
    "headboard": ("headboard headboard_slat batten panel panel_slat upright", "headboard"),
    "finish": ("finish", "sanding sandpaper grit oil varnish wax stain paint coat finish polyurethane brush rag"),
    "squaring": ("", "square squared diagonal"),
}
TITLES = {
    OPENING: "Welcome", CLOSING: "The bed is done", "shopping": "What to buy", "size": "Mattress and frame size",
    "rails": "Rails", "corners": "Corners", "cleats": "Cleats", "runners": "Runners", "centre": "Centre line",
    "legs": "Legs", "plinth": "Plinth", "slats": "Slats", "headboard": "Headboard",
    "finish": "Sanding and finish", "squaring": "Squaring the frame",
}  # fmt: skip
SIZE_AGAIN = "Measures of the frame"
PARTS = ("rails", "cleats", "runners", "centre", "legs", "slats")  # cut first and fixed later
FIXING = ("screw_length", "screw_count", "bolt_length", "bolt_count", "spacing", "diameter", "joint_count", "gap")
CUTTING = ("length", "section", "part_count", "kerf", "pieces_per_board")
FIXED = frozenset("screw bolt drive pilot clamp attach fix glue nut washer driver".split())
CUT = frozenset("cut crosscut length stop saw kerf".split())

RELATING = frozenset("by of at in on under over with for from to between behind beside near that which".split())


@dataclass(frozen=True, kw_only=True)
class Chapter:
    """One chapter of the video."""

    start: float  # [s]
    end: float  # [s]
    topic: str  # a key of TOPICS, "opening" or "closing"
    title: str

    @property
    def time(self) -> str:
        """Its start as m:ss."""
        return clock(self.start)


def chapters(report: Report, facts: Facts) -> tuple[Chapter, ...]:
    """The chapters of a talk, the first from 0:00, none shorter than ten seconds; none of a script without times.

    Args:
        report: the check of the talk, which knows what each number speaks of.
        facts: the plan's facts, for the creator's own words.
    """
    if not report.talk.timed or not report.talk.text.strip():
        return ()
    course = _Course(report, facts)
    runs = _long_enough(_runs(course), report.talk.duration)
    titles = _titles([(run.topic, course.act(run)) for run in runs], course.names)
    ends = [run.start for run in runs[1:]] + [report.talk.duration]
    return tuple(
        Chapter(start=run.start, end=end, topic=run.topic, title=title)
        for run, end, title in zip(runs, ends, titles, strict=True)
    )


def webvtt(found: Sequence[Chapter]) -> str:
    """The chapters as a WebVTT chapters track."""
    cues = (f"{n}\n{stamp(c.start)} --> {stamp(c.end)}\n{_cue(c.title)}\n" for n, c in enumerate(found, 1))
    return "WEBVTT\n\n" + "\n".join(cues)


def plain_list(found: Sequence[Chapter]) -> str:
    """The list that video sites read from a description: a time and a title a line."""
    return "".join(f"{c.time} {c.title}\n" for c in found)


def _cue(title: str) -> str:
    return title.replace("&", "&amp;").replace("<", "&lt;").replace("-->", "→")


@dataclass(frozen=True)
class _Run:
    """Captions in a row on one topic."""

    topic: str
    start: float
    first: int  # number of its first caption
    last: int


class _Course:
    """What each caption speaks for."""

    def __init__(self, report: Report, facts: Facts) -> None:
        self.report, self.facts = report, facts
        self.cues = [cue for cue in report.talk.cues if cue.start is not None]
        self.heads = {head: topic for topic, (heads, _) in TOPICS.items() for head in heads.split()}
        self.topics = [topic for topic in TOPICS if topic not in (*PARTS, "plinth") or self._has(topic)]

    def _has(self, topic: str) -> bool:
        return any(self.heads.get(key.split(".")[0]) == topic for key in self.facts)

    @cached_property
    def names(self) -> dict[str, str]:
        """A part's topic to the creator's own word for it, as more than one: "Cleats", or "Ledges"."""
        found = {}
        for topic in set(PARTS) & set(self.topics) - {"rails", "centre"}:
            own = (f for f in self.facts.values() if self.heads.get(f.key.split(".")[0]) == topic and f.said_as)
            if first := next((f for f in own if f.kind != "lumber"), None):  # which is told of each length of a part
                found[topic] = several(first.said_as[0]).capitalize()
        return found

    @cached_property
    def words(self) -> dict[str, frozenset[str]]:
        """A topic's words as stems, the creator's own names of the part among them."""
        own: dict[str, set[str]] = {topic: set(words.split()) for topic, (_, words) in TOPICS.items()}
        for fact in self.facts.values():
            topic = self.heads.get(fact.key.split(".")[0], "")
            if topic in PARTS:
                own[topic] |= {stems(said)[-1] for said in fact.said_as if stems(said)}
        return {topic: frozenset(words) for topic, words in own.items()}

    @cached_property
    def items(self) -> dict[int, list[Item]]:
        """The numbers of each caption."""
        found: dict[int, list[Item]] = {}
        for item in self.report.items:
            found.setdefault(self.report.talk.cue_at(item.start).number, []).append(item)
        return found

    def topic_of(self, item: Item) -> str:
        """The topic of the fact a number speaks of; empty where that isn't plain."""
        return self.heads.get((item.subject or "").split(".")[0], "")

    def spoken(self, cue: Cue) -> Counter[str]:
        """How much a caption speaks for each topic."""
        votes: Counter[str] = Counter()
        said = stems(cue.text) if cue.role == "speech" else ()
        for topic in self.topics:
            votes[topic] += sum(word in self.words[topic] for word in said)
        for item in self.items.get(cue.number, ()):
            votes[self.topic_of(item)] += NUMBER
        return votes

    def act(self, run: _Run) -> str:
        """What is done to a part in a run: "cut", "fix", or nothing plain."""
        cues = [c for c in self.cues if run.first <= c.number <= run.last]
        kinds = [i.kind for c in cues for i in self.items.get(c.number, ()) if self.topic_of(i) == run.topic]
        said = [word for c in cues for word in re.findall(r"[a-z]+", c.text.lower())]
        fixed = sum(kind in FIXING for kind in kinds) + sum(word.rstrip("s") in FIXED for word in said)
        cut = sum(kind in CUTTING for kind in kinds) + sum(word in CUT for word in said)
        return "fix" if fixed > cut else "cut" if cut else ""


def _runs(course: _Course) -> list[_Run]:
    """The course as runs of captions on one topic."""
    path = _best_path(course)
    runs = []
    for topic, members in groupby(zip(path, course.cues, strict=True), key=lambda pair: pair[0]):
        cues = [cue for _, cue in members]
        runs.append(_Run(topic, cues[0].start or 0.0, cues[0].number, cues[-1].number))
    return [replace(runs[0], start=0.0), *runs[1:]]


def _best_path(course: _Course) -> list[str]:
    """The topic of each caption: the course with the most spoken for, less what the changes cost."""
    states = [OPENING, *course.topics, CLOSING]
    best = {state: 0.0 if state == OPENING else -AT_PAUSE for state in states}
    back: list[dict[str, str]] = []
    for before, cue in pairwise([None, *course.cues]):
        assert cue is not None
        cost = 0.0 if before is None else AT_PAUSE if _pauses(before, cue) else SWITCH
        came = {to: _from(to, best, cost) for to in states}
        votes = course.spoken(cue)
        best = {s: best[came[s]] - _cost(came[s], s, cost) + _bid(s, votes) for s in states}
        back.append(came)
    state = max(states, key=lambda s: best[s])
    path = [state]
    for came in reversed(back[1:]):
        state = came[state]
        path.append(state)
    return path[::-1]


def _from(to: str, best: Mapping[str, float], cost: float) -> str:
    """The topic before that leads best to this one; of equals another one, so that it changes no sooner than spoken."""
    return max(best, key=lambda before: (best[before] - _cost(before, to, cost), before != to))


def _bid(state: str, votes: Counter[str]) -> float:
    if state in (OPENING, CLOSING):
        return 0.0 if any(votes[topic] for topic in TOPICS) else BIDDING
    return float(votes[state])


def _cost(before: str, after: str, cost: float) -> float:
    """What a change of topic costs; nothing leads back to the welcome, nor on from the goodbye."""
    if before == after:
        return 0.0
    return 1e9 if after == OPENING or before == CLOSING else cost


def _pauses(before: Cue, after: Cue) -> bool:
    return silence(before, after) > PAUSE or "sound" in (before.role, after.role)


def _long_enough(runs: Sequence[_Run], end: float) -> list[_Run]:
    """The runs, those too short for a chapter taken into the one before; the first into the one after."""
    kept: list[_Run] = []
    for run, until in zip(runs, [*(r.start for r in runs[1:]), end], strict=True):
        if kept and (until - run.start < LEAST or run.topic == kept[-1].topic):
            kept[-1] = replace(kept[-1], last=run.last)
        elif kept and run.start - kept[-1].start < LEAST:
            kept[-1] = replace(run, start=kept[-1].start, first=kept[-1].first)
        else:
            kept.append(run)
    return kept


def _titles(told: Sequence[tuple[str, str]], names: dict[str, str]) -> list[str]:
    """A title for each chapter; a part that comes twice is told by what is done to it, and no title stands twice."""
    topics = [topic for topic, _ in told]
    return list(
        _unlike(
            _title(topic, act, topics.count(topic) > 1, names, topic in topics[:n])
            for n, (topic, act) in enumerate(told)
        )
    )


def _title(topic: str, act: str, again: bool, names: dict[str, str], before: bool) -> str:
    name = names.get(topic, TITLES[topic])
    if topic == "size" and before:
        return SIZE_AGAIN
    if not again or topic not in PARTS or not act:
        return name
    return f"{'Cutting' if act == 'cut' else 'Fixing'} the {name[0].lower()}{name[1:]}"


def _unlike(titles: Iterable[str]) -> Iterator[str]:
    seen: Counter[str] = Counter()
    for title in titles:
        seen[title] += 1
        yield title if seen[title] == 1 else f"{title}, part {seen[title]}"


STEPS = {  # the stem of an assembly step's key to the topic it is filmed under
    "ply": "legs", "post": "corners", "end": "corners", "panel": "headboard", "headboard": "headboard", "dry": "rails",
    "corner": "corners", "square": "squaring",
    "cleat": "cleats", "runner": "runners",
    "block": "centre", "line": "centre", "leg": "legs", "plinth": "plinth", "slat": "slats",
}  # fmt: skip


def seconds_of_step(found: Sequence[Chapter], key: str) -> float | None:
    """When an assembly step is shown [s]; None where no chapter is on it.

    A part is cut first and fixed later, so the last of its chapters counts.

    Args:
        found: the chapters.
        key: the step's key, "corner", "leg 2" …
    """
    topic = STEPS.get(key.split(" ")[0], "")
    return next((c.start for c in reversed(found) if c.topic == topic), None)


def several(word: str) -> str:
    """More than one of what the creator calls a part; a phrase, or a word of another alphabet, stays as it is.

    >>> [several(word) for word in ("slat", "cross", "tray", "pony", "рейка", "rail by the window")]
    ['slats', 'crosses', 'trays', 'ponies', 'рейка', 'rail by the window']
    """
    if not word[-1:].isascii() or not word[-1:].isalpha() or RELATING.intersection(word.split()):
        return word
    if word.endswith("y") and word[-2:-1] not in tuple("aeiou"):
        return f"{word[:-1]}ies"
    return f"{word}es" if word.endswith(("s", "x", "ch", "sh")) else f"{word}s"
