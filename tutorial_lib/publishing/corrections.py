"""From the slips: a block to pin under the video, corrected captions, and a note to lay over each slip."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from tutorial_lib.narration.captions.cues import Cue
from tutorial_lib.narration.numbers.lexicon import LENGTHS
from tutorial_lib.narration.verdicts.items import Item, Report
from tutorial_lib.narration.verdicts.writing import written_whole
from tutorial_lib.publishing.same_words import in_the_same_words
from tutorial_lib.records import dataclass


@dataclass(frozen=True, kw_only=True)
class Correction:
    """One slip put right."""

    time: str | None
    place: int
    what: str  # what it is about
    said: str
    right: str
    affected: str  # who has to do something
    safe: str  # whether a bed built as said is safe


@dataclass(frozen=True)
class Overlay:
    """Words to show over the picture while a slip is said."""

    start: float  # [s]
    end: float
    text: str


def right_value(item: Item, units: str) -> str:
    """The plan's value as a tape shows it."""
    return written_whole(item.plan_value, item.unit, units)


def corrections(report: Report) -> list[Correction]:
    """All slips, in spoken order; a thing said wrongly twice is listed at each time."""
    return [_correction(item, report.units) for item in report.conflicts if item.plan_value and item.value]


def _correction(item: Item, units: str) -> Correction:
    affected, safe = consequence(item)
    return Correction(
        time=item.time,
        place=item.place,
        what=item.what or str(item.subject),
        said=_said(item, units),
        right=right_value(item, units),
        affected=affected,
        safe=safe,
    )


def _said(item: Item, units: str) -> str:
    """What was said; a length in words also as a tape shows it."""
    in_figures = any(sign.isdigit() for sign in item.quote)
    if item.unit not in LENGTHS or in_figures:
        return item.quote
    return f"{item.quote} ({written_whole(item.value, item.unit, units)})"


def consequence(item: Item) -> tuple[str, str]:
    """Who is affected by a slip, and whether it is safe, by kind of fact and direction (trade judgement, no source)."""
    if item.kind == "length" and (item.subject or "").split(".")[0] in NOT_CUT:
        return FOLLOWS
    short = item.value < item.plan_value if item.unit != "nominal" else max(item.value) < max(item.plan_value)
    of_fasteners = item.kind in FASTENER_COUNTS
    kind = "fastener_count" if of_fasteners else "recoat" if item.subject == "finish.recoat" else item.kind
    found = CONSEQUENCES.get(kind)
    return found[0 if short else 1] if found else OTHERWISE


OTHERWISE = ("whoever has built by it: measure again", "check before it carries anyone")
NOT_CUT = ("frame", "knock_down", "storage", "flange")  # whose lengths follow from the pieces, or are no wood
FOLLOWS = ("whoever measures by it: measure again, no piece of the bed is cut to it", "safe")
FASTENER_COUNTS = ("screw_count", "bolt_count", "dowel_count", "joint_count")
Told = tuple[str, str]  # who is affected, whether it is safe
CONSEQUENCES: dict[str, tuple[Told, Told]] = {  # said too little, said too much
    "length": (
        ("whoever has cut it: too short can't be put right, cut it anew", "safe once the right piece is in"),
        ("whoever has cut it: trim it to length", "safe"),
    ),
    "screw_length": (
        ("whoever has driven them: change them for the right length", "not safe: too little hold"),
        ("whoever has driven them: look for points that come out", "not safe: a point may come through"),
    ),
    "bolt_length": (
        ("whoever has bought them: change them", "not safe: no thread left for the nut"),
        ("whoever has bought them: change them, or cover the ends", "mind the ends that stick out"),
    ),
    "part_count": (
        ("whoever has stopped there: add what is missing", "not safe until all are in"),
        ("whoever has bought or cut too many", "safe"),
    ),
    "stock_count": (
        ("whoever shops by this: buy what is missing", "safe"),
        ("whoever shops by this: something is left over", "safe"),
    ),
    "stock_length": (
        ("whoever shops by this: the pieces don't come out of the shorter board", "safe"),
        ("whoever shops by this: more is left over", "safe"),
    ),
    "gap": (
        ("whoever has set it: the last one won't come out even", "safe"),
        ("whoever has set it: close it up", "not safe until the gap is closed: a mattress may sag through"),
    ),
    "gap_limit": (("nobody", "safe"), ("whoever has gone by it: close the gaps", "check your gaps")),
    "lumber": (
        ("whoever has bought it: change it for the plan's", "not safe: the load figures are of the plan's board"),
        ("whoever has bought it: what stands on it moves, measure again", "check the lengths that follow from it"),
    ),
    "gauge": (
        ("whoever has driven them: change them for the plan's", "not safe: too little hold"),
        ("whoever has driven them: look for split ends", "check for splits"),
    ),
    "time": (
        ("whoever goes by it: wait as long as the plan says", "safe"),
        ("whoever goes by it: don't leave it so long", "look at it now"),
    ),
    "recoat": (
        ("whoever goes by it: wait as long as the plan says", "look whether it dries hard: on a soft coat it may not"),
        ("whoever goes by it: sand lightly before the next coat", "safe"),
    ),
    "cost": (("whoever shops by this: it costs more", "safe"), ("whoever shops by this: it costs less", "safe")),
    "price": (("whoever shops by this: it costs more", "safe"), ("whoever shops by this: it costs less", "safe")),
    "wait": (
        ("whoever goes by it: wait longer", "mind the smell, and what is still soft"),
        ("nobody: longer does no harm", "safe"),
    ),
    "fastener_count": (
        ("whoever has stopped there: add the missing ones", "not safe until all are in"),
        ("whoever has counted them out: some are left over", "safe"),
    ),
}


def corrections_block(report: Report) -> str:
    """The text to pin under the video: time, said, right, who is affected, safe or not."""
    lines = correction_lines(report)
    if not lines:
        return "No corrections: every number checked agrees with the plan.\n"
    return "\n".join(["Corrections", "", *lines]) + "\n"


def correction_lines(report: Report) -> list[str]:
    """Two lines for each correction, without a heading; none where there is nothing to correct."""
    lines = []
    for c in corrections(report):
        lines.append(f"{c.time or f'line {c.place}'}  {c.what}: I said {c.said}; right is {c.right}.")
        lines.append(f"      Affected: {c.affected}. {c.safe[0].upper()}{c.safe[1:]}.")
    return lines


def overlays(report: Report, least: float = 4.0) -> list[Overlay]:
    """A note for each slip while it is said, shown for at least ``least`` seconds; none in a script."""
    out = []
    for item in report.conflicts:
        if item.t is None or not item.plan_value:
            continue
        cue = report.talk.cue_at(item.start)
        end = max(cue.end or 0.0, item.t + least)
        said = written_whole(item.value, item.unit, report.units)
        out.append(Overlay(item.t, end, f"{right_value(item, report.units)}, not {said}"))
    return out


def overlay_track(report: Report) -> str:
    """The overlay notes as a WebVTT track."""
    body = [f"{stamp(o.start)} --> {stamp(o.end)}\n{o.text}\n" for o in overlays(report)]
    return "WEBVTT\n\n" + "\n".join(body)


def corrected_cues(report: Report) -> list[tuple[Cue, str]]:
    """Every cue with its text, the slips replaced by the right values in the same words."""
    talk = report.talk
    swaps = [(i.start, i.end, in_the_same_words(i, report.units)) for i in report.conflicts if i.plan_value]
    out = []
    for cue, offset in zip(talk.cues, talk.offsets, strict=True):
        text, end = cue.text, offset + len(cue.text)
        for start, stop, new in reversed(swaps):
            if start < end and stop > offset:
                a, b = max(start, offset) - offset, min(stop, end) - offset
                text = text[:a] + (new if start >= offset else "") + text[b:]
        out.append((cue, re.sub(r"  +", " ", text).strip()))
    return out


def corrected_captions(report: Report) -> str:
    """The captions with the slips put right, as WebVTT; for a script, its text by lines.

    A correction in the captions says more than the sound does: publish it with the corrections block.
    """
    pairs = corrected_cues(report)
    if not report.talk.timed:
        return "\n".join(text for _, text in pairs if text) + "\n"
    return "WEBVTT\n\n" + "\n".join(track(pairs))


def track(pairs: list[tuple[Cue, str]]) -> Iterator[str]:
    """WebVTT blocks; a cue without an end lasts until the next one."""
    for (cue, text), end in zip(pairs, ends([cue for cue, _ in pairs]), strict=True):
        if text:
            settings = f" {cue.settings}" if cue.settings else ""
            shown = "\n".join(cue.lines) if text == cue.text == " ".join(cue.lines) else wrap(text)
            yield f"{stamp(cue.start or 0.0)} --> {stamp(end)}{settings}\n{shown}\n"


def ends(cues: Sequence[Cue]) -> list[float]:
    """When each cue ends: as it says, else where the next one starts, else after four seconds."""
    out: list[float] = []
    later: list[float] = []  # starts after the cue in hand, the nearest last
    for cue in reversed(cues):
        start = cue.start or 0.0
        while later and later[-1] <= start:
            later.pop()
        out.append(cue.end or (later[-1] if later else start + 4))
        later += [start] if cue.start is not None else []
    return out[::-1]


def wrap(text: str, width: int = 42) -> str:
    """Caption lines no longer than people read at a glance (42 characters, common practice)."""
    lines = [""]
    for word in text.replace("-->", "").split():
        if lines[-1] and len(lines[-1]) + 1 + len(word) > width:
            lines.append("")
        lines[-1] = f"{lines[-1]} {word}".strip()
    return "\n".join(lines)


def stamp(seconds: float) -> str:
    """A WebVTT time.

    >>> stamp(62.5)
    '00:01:02.500'
    """
    millis = round(seconds * 1000)
    hours, rest = divmod(millis, 3_600_000)
    minutes, rest = divmod(rest, 60_000)
    return f"{hours:02}:{minutes:02}:{rest // 1000:02}.{rest % 1000:03}"
