"""Captions and scripts become a talk: which form it is, in which encoding, and whether it is English."""

from __future__ import annotations

import re
from pathlib import Path

from tutorial_lib.errors import Fault, InputError
from tutorial_lib.narration.captions.caption_files import read_timed
from tutorial_lib.narration.captions.cues import Form, Talk
from tutorial_lib.narration.captions.scripts import MARK, read_marks, read_script

LIMIT = 30_000_000  # [characters] some two hundred hours of talk; more is not a caption file


def read_captions(source: bytes | str | Path, name: str = "") -> Talk:
    """Reads captions (WebVTT, SubRip, roll-up or not), a transcript with [m:ss] marks or a Markdown script.

    Args:
        source: the file's bytes, its text, or its path.
        name: what to call it in messages; tells the form too (".vtt", ".srt", ".md"), the content decides.

    Raises:
        InputError: when nothing in it can be read, or it isn't in English.

    What could be read in part is read; ``Talk.faults`` lists the lines that could not, with the reason.

    >>> read_captions("[0:05] Cut the slats at 38 1/4.").cues[0].start
    5.0
    """
    if isinstance(source, Path):
        name = name or source.name
        source = source.read_bytes()
    label = name or "captions"
    text = decode(source, label) if isinstance(source, bytes) else source.removeprefix("\ufeff")
    if len(text) > LIMIT:
        raise InputError(Fault(label, f"{len(text)} characters are more than the {LIMIT} a talk can have."))
    lines = re.sub(r"\r\n?|\u2028|\u2029|\x0b|\x0c|\x85", "\n", text).split("\n")
    form = form_of(lines, name)
    readers = {"vtt": read_timed, "srt": read_timed, "marks": read_marks, "script": read_script}
    talk = readers[form](lines, label, form)
    if not any(c.text.strip() for c in talk.cues):
        reason = "nothing is said in it: no cue, mark or line with words was found."
        raise InputError([*talk.faults, Fault(label, reason)])
    check_language(talk)
    return talk


def form_of(lines: list[str], name: str) -> Form:
    """Which of the four forms the lines are in; what stands in them counts for more than the name."""
    head = next((line for line in lines if line.strip()), "")
    if head.startswith("WEBVTT"):
        return "vtt"
    if any("-->" in line for line in lines):
        return "vtt" if name.lower().endswith(".vtt") else "srt"
    if any(MARK.match(line.strip()) for line in lines):
        return "marks"
    return "script"


def decode(data: bytes, name: str = "") -> str:
    """Bytes to text: by byte-order mark, UTF-8, UTF-16 by its zero bytes, else the likeliest 8-bit encoding."""
    for mark, encoding in BOMS:
        if data.startswith(mark):
            return data[len(mark) :].decode(encoding, errors="replace")
    sample = data[:4000]
    if sample.count(0) > len(sample) // 4:
        return data.decode("utf-16-le" if sample[1::2].count(0) > sample[::2].count(0) else "utf-16-be", "replace")
    if b"\0" in sample:
        raise InputError(Fault(name, "is no text file; give the captions as .vtt, .srt, .txt or .md."))
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError:
        return decode_8bit(data)


BOMS = (
    (b"\xef\xbb\xbf", "utf-8"),
    (b"\xff\xfe\0\0", "utf-32-le"),
    (b"\0\0\xfe\xff", "utf-32-be"),
    (b"\xff\xfe", "utf-16-le"),
    (b"\xfe\xff", "utf-16-be"),
)


def decode_8bit(data: bytes) -> str:
    """An 8-bit encoding: Windows-1252 unless it can't be, then what charset-normalizer finds."""
    try:
        return data.decode("cp1252")
    except UnicodeDecodeError:
        pass
    try:
        from charset_normalizer import from_bytes
    except ImportError:
        return data.decode("latin-1")
    best = from_bytes(data[:50_000]).best()
    return data.decode(best.encoding if best else "latin-1", errors="replace")


ENGLISH = frozenset(
    "the and a an of to in is it i you that for on with this so at are be we my not have from they but your or if "
    "just then it's what's there's we're i'm one out up can will all by get cut go".split()
)
OTHERS = frozenset(
    "und der die das ist nicht ein eine mit wir auf den le la les des est et une pas vous nous pour que los las el "
    "es una por con para del che non una sono di il gli della het een van niet och att det som på jag ik".split()
)


def check_language(talk: Talk) -> None:
    """Refuses a talk that isn't in English, by its commonest small words (common practice, no source)."""
    declared = re.search(r"^Language:\s*([A-Za-z]+)", talk.header, re.M)
    words = re.findall(r"[^\W\d_]+(?:['’][^\W\d_]+)?", talk.text.lower())
    if declared and not declared[1].lower().startswith("en"):
        raise InputError(Fault(talk.name, f"its header says Language: {declared[1]}. {ONLY_ENGLISH}"))
    if len(words) < 25:
        return
    english = sum(w in ENGLISH for w in words) / len(words)
    other = sum(w in OTHERS for w in words) / len(words)
    if english < 0.12 or other > english:
        raise InputError(Fault(talk.name, f"it doesn't read as English. {ONLY_ENGLISH}"))


ONLY_ENGLISH = "Spoken numbers are read in English only so far; give an English track or an English translation."
