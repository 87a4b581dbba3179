"""What was said, and when: cues, and the talk they make up."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import field
from typing import Literal

from tutorial_lib.errors import Fault
from tutorial_lib.records import dataclass

Form = Literal["vtt", "srt", "marks", "script"]
Role = Literal["speech", "sound", "heading", "direction", "cell"]


@dataclass(frozen=True, kw_only=True)
class Cell:
    """Where a cue stands in a table of a script."""

    table: int
    row: int
    column: int
    header: str  # heading of the column
    label: str  # first cell of the row
    others: str = ""  # the row's other cells


@dataclass(frozen=True, kw_only=True, slots=True)
class Cue:
    """One caption, one [m:ss] mark, or one line (or table cell) of a script."""

    number: int  # counted from 1, sound cues included
    text: str  # tags and repeated lines removed
    start: float | None = None  # [s]
    end: float | None = None  # [s]
    line: int = 0  # line of the file where its text starts, from 1
    role: Role = "speech"
    cell: Cell | None = None
    lines: tuple[str, ...] = ()  # as shown, for writing the captions again
    settings: str = ""  # cue settings after the times


@dataclass(frozen=True, kw_only=True)
class Talk:
    """A whole talk: its cues in order, and what could not be read.

    ``text`` is the flat transcript: cues joined by a space, by a line end where the talk pauses, and by
    an empty line between blocks of a script.
    """

    name: str
    form: Form
    cues: tuple[Cue, ...]
    faults: tuple[Fault, ...] = ()
    header: str = ""
    text: str = field(init=False, default="")
    offsets: tuple[int, ...] = field(init=False, default=())

    def __post_init__(self) -> None:
        parts: list[str] = []
        offsets: list[int] = []
        at = 0
        previous: Cue | None = None
        for cue in self.cues:
            glue = "" if previous is None else joint(previous, cue, self.form)
            at += len(glue)
            offsets.append(at)
            parts += [glue, cue.text]
            at += len(cue.text)
            previous = cue if cue.text else previous
        object.__setattr__(self, "text", "".join(parts))
        object.__setattr__(self, "offsets", tuple(offsets))

    @property
    def timed(self) -> bool:
        """Whether the talk has times (captions or marks), not only lines."""
        return self.form != "script"

    @property
    def duration(self) -> float:
        """Seconds from the start to the end of the last cue, 0 for a script."""
        return max((c.end or c.start or 0.0 for c in self.cues), default=0.0)

    def cue_at(self, offset: int) -> Cue:
        """The cue that holds a place in ``text``."""
        return self.cues[max(0, bisect_right(self.offsets, offset) - 1)]


def joint(before: Cue, after: Cue, form: Form) -> str:
    """What stands between two cues in the flat text: a space, or a pause."""
    if form == "script":
        same_block = before.role == after.role == "speech" and after.line == before.line + 1
        return " " if same_block else "\n\n"
    if "sound" in (before.role, after.role) or "heading" in (before.role, after.role):
        return "\n\n"
    return "\n\n" if silence(before, after) > PAUSE else " "


PAUSE = 0.9  # [s] a silence this long ends a paragraph
SLOWEST = 1.2  # [s] a word, by a speaker who draws them out (common practice, no source)
HELD = 5.0  # [s] a caption that stays so much longer than its words take was held over a pause


def silence(before: Cue, after: Cue) -> float:
    """Seconds without speech between two cues, as far as their times show it."""
    if before.start is None or after.start is None:
        return 0.0
    spoken = before.start + SLOWEST * len(before.text.split())
    end = before.end if before.end is not None else after.start
    held = min(end, after.start) - spoken
    return after.start - spoken if held > HELD else after.start - end


def clock(seconds: float) -> str:
    """Seconds as m:ss, h:mm:ss from one hour on.

    >>> clock(125.9), clock(3725)
    ('2:05', '1:02:05')
    """
    whole = int(seconds)
    hours, rest = divmod(whole, 3600)
    minutes, secs = divmod(rest, 60)
    return f"{hours}:{minutes:02}:{secs:02}" if hours else f"{minutes}:{secs:02}"
