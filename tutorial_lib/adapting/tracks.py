"""A caption track for your size: the creator's captions with your numbers beside what is said (WebVTT).

A creator publishes one track per size; the viewer watches the same video with their own numbers.
"""

from __future__ import annotations

import html
from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from typing import TYPE_CHECKING

from tutorial_lib.adapting.comparison import Comparison, Row
from tutorial_lib.errors import Fault, InputError
from tutorial_lib.measures import factor, writer
from tutorial_lib.records import dataclass

if TYPE_CHECKING:
    from tutorial_lib.adapting.novelties import Item as News
    from tutorial_lib.narration import Cue, Report
    from tutorial_lib.narration.verdicts.items import Item

LEAST = 2.0  # [s] an added cue stays at least so long for every SHOWN words; common practice, no source
WORDS = 5
TOP = "line:0"  # added cues stand at the top, clear of what is said
# What a new part or step is spoken of beside: keys of facts, the first that the video mentions.
BESIDE = {
    "part": ("slat", "cleat", "runner", "leg", "side_rail"), "boards": ("stock", "lumber"),
    "fastener": ("slat.screw", "cleat.screw", "corner.screw"), "step": ("leg", "slat", "cleat"),
}  # fmt: skip


@dataclass(frozen=True)
class TrackCue:
    """One cue of the track."""

    start: float  # [s]
    end: float  # [s]
    text: str
    settings: str = ""
    added: bool = False


def track(found: Comparison) -> tuple[TrackCue, ...]:
    """The cues of the track for the adapted bed, in order of time.

    Raises:
        InputError: the comparison was made without captions, or with a script that has no times.
    """
    report = found.report
    if report is None:
        raise InputError("a caption track needs the creator's captions; give them with the comparison.")
    if not report.talk.timed:
        what = "has no times; a caption track is made from .vtt, .srt or [m:ss] marks."
        raise InputError(Fault(report.talk.name, what))
    spoken = list(_spoken(found, report))
    return tuple(sorted([*spoken, *_added(found, report, spoken)], key=lambda cue: (cue.start, not cue.added)))


def webvtt(found: Comparison) -> str:
    """The track as a WebVTT file."""
    title = found.after.title or found.after.name
    size = f"{_inside(found)}"
    head = [
        "WEBVTT",
        "",
        f"NOTE {_plain(title)}, captions for another size: {size}.",
        "Numbers in [brackets] are yours; cues at the top are what the video does not show.",
        "",
    ]
    return "\n".join(head + [line for cue in track(found) for line in _lines(cue)])


def _inside(found: Comparison) -> str:
    facts = found.after
    width, length = (facts.get(f"mattress.{side}") for side in ("width", "length"))
    return f"mattress {found.write(width, True)} x {found.write(length, True)}" if width and length else facts.name


def _lines(cue: TrackCue) -> Iterator[str]:
    yield f"{stamp(cue.start)} --> {stamp(cue.end)}" + (f" {cue.settings}" if cue.settings else "")
    yield from (html.escape(line, quote=False) for line in cue.text.split("\n") if line.strip())
    yield ""


def _plain(text: str) -> str:
    return " ".join(text.replace("-->", "→").split())


def stamp(seconds: float) -> str:
    """Seconds as WebVTT writes them.

    >>> stamp(3725.5)
    '01:02:05.500'
    """
    thousandths = round(seconds * 1000)
    hours, rest = divmod(thousandths, 3_600_000)
    minutes, rest = divmod(rest, 60_000)
    return f"{hours:02}:{minutes:02}:{rest // 1000:02}.{rest % 1000:03}"


def _spoken(found: Comparison, report: Report) -> Iterator[TrackCue]:
    """The creator's cues, with your value after each number that differs."""
    talk = report.talk
    inserts = _inserts(found, report)
    cues = [(number, cue) for number, cue in enumerate(talk.cues) if cue.text and cue.start is not None]
    for place, (number, cue) in enumerate(cues):
        assert cue.start is not None
        later = next((c.start for _, c in cues[place + 1 :] if c.start is not None and c.start > cue.start), None)
        end = cue.end if cue.end and cue.end > cue.start else (later or cue.start + LEAST * 2)
        yield TrackCue(cue.start, end, _with(cue, talk.offsets[number], inserts), cue.settings)


def _inserts(found: Comparison, report: Report) -> dict[int, str]:
    """Place in the talk's text to what is put there."""
    rows = {row.key: row for row in found.rows if row.status in ("changes", "gone")}
    made: dict[int, str] = {}
    for item in report.items:
        if item.subject in rows:
            yours = beside(found, rows[item.subject], item)
            if yours:
                made[item.end] = f" [yours: {yours}]"
    return made


def beside(found: Comparison, row: Row, item: Item) -> str:
    """The viewer's value for one number said; nothing where it reads the same."""
    if row.before is None:
        return ""
    if row.after is None:
        return "not in your bed" if row.key != "lumber.cost" else "depends on your prices"
    if isinstance(row.after.value, tuple):
        return _one_of(found, row, item)
    yours = found.write(row.after, True)
    return "" if yours == found.write(row.before) else yours


def _one_of(found: Comparison, row: Row, item: Item) -> str:
    """One of a list: the mark in the same place, or the sheet when there is none."""
    old, fresh = row.before and row.before.value, row.after and row.after.value
    if not isinstance(old, tuple) or not isinstance(fresh, tuple) or len(item.value) != 1:
        return "see your sheet"
    said = item.value[0] if found.before.units == "in" else item.value[0] * factor("mm", "in")
    off = [abs(Fraction(value) - said) for value in old]
    place = off.index(min(off)) if off else len(fresh)
    if place >= len(fresh) or off[place] > 1:
        return "see your sheet"
    return "" if old[place] == fresh[place] else writer(found.after.units).length(Fraction(fresh[place]))


def _with(cue: Cue, offset: int, inserts: Mapping[int, str]) -> str:
    """A cue's text with its insertions, in its own lines."""
    text, breaks = cue.text, _breaks(cue)
    pieces, at = [], 0
    for place in sorted({end - offset for end in inserts} | breaks):
        if at <= place <= len(text):
            pieces += [text[at:place], inserts.get(offset + place, ""), "\n" if place in breaks else ""]
            at = place
    return "\n".join(line.strip() for line in "".join([*pieces, text[at:]]).split("\n"))


def _breaks(cue: Cue) -> set[int]:
    """Where the cue's lines end in its text; none where it rolls up."""
    if " ".join(cue.lines) != cue.text:
        return set()
    places, at = set(), -1
    for line in cue.lines[:-1]:
        at += len(line) + 1
        places.add(at)
    return places


def _added(found: Comparison, report: Report, spoken: list[TrackCue]) -> Iterator[TrackCue]:
    """Cues for what the video does not show, each beside what it goes with."""
    groups: dict[float, list[str]] = {}
    for item in found.new:
        groups.setdefault(_anchor(item, report, spoken), []).append(item.what)
    for start, whats in groups.items():
        for number, text in enumerate(_packed(whats)):
            length = max(LEAST, LEAST * len(text.split()) / WORDS)
            begin = start + sum(max(LEAST, LEAST * len(t.split()) / WORDS) for t in list(_packed(whats))[:number])
            yield TrackCue(begin, begin + length, text, TOP, True)


def _packed(whats: Iterable[str]) -> Iterator[str]:
    """Two new things to a cue, so that it can be read."""
    listed = list(whats)
    for at in range(0, len(listed), 2):
        yield "In yours also: " + "; ".join(listed[at : at + 2])


def _anchor(item: News, report: Report, spoken: list[TrackCue]) -> float:
    """When the video comes to what a new thing goes with; its end when it never does."""
    wanted = ((item.before,) if item.before else ()) + BESIDE[item.kind]
    for head in wanted:
        times = [i.t for i in report.items if i.t is not None and i.subject and i.subject.startswith(head)]
        if times:
            return times[0] if item.kind != "step" else times[-1]
    return spoken[-1].end if spoken else 0.0
