"""What is printed: signs that would steer the terminal are shown, never obeyed; no stream is missing or lost unsaid."""

from __future__ import annotations

import io
import os
import sys
from typing import TextIO

_PICTURES = {i: 0x2400 + i for i in range(32) if chr(i) not in "\t\n"}  # ␛ for escape, and so on
_NAMED = (*range(0x80, 0xA0), 0x61C, 0x200E, 0x200F, *range(0x202A, 0x202F), *range(0x2066, 0x206A), 0x2028, 0x2029)
SIGNS: dict[int, int | str] = {**_PICTURES, 0x7F: 0x2421, **{i: f"‹U+{i:04X}›" for i in _NAMED}}


def visible(text: str) -> str:
    """The text with a symbol for each sign that moves the cursor, colours, or turns the direction of writing.

    >>> visible("a\\x1b[31mb\\u202ec")
    'a␛[31mb‹U+202E›c'
    """
    return text.translate(SIGNS)


class Visible(io.TextIOBase):
    """A stream that shows what would steer the terminal."""

    def __init__(self, stream: TextIO) -> None:
        self.stream = stream

    def write(self, text: str) -> int:
        """Write the text, made visible."""
        self.stream.write(visible(text))
        return len(text)

    def flush(self) -> None:
        """Pass on what is held back."""
        self.stream.flush()

    def isatty(self) -> bool:
        """True where a person is looking."""
        return self.stream.isatty()

    def fileno(self) -> int:
        """The stream's number, for programs started from here."""
        return self.stream.fileno()


def open_streams() -> None:
    """Give every closed standard stream a place to write to, lest the next file opened takes its number."""
    for number in (0, 1, 2):
        try:
            os.fstat(number)
        except OSError:
            os.open(os.devnull, os.O_RDWR)  # the lowest number that is free: this one
    for name in ("stdout", "stderr"):
        stream = getattr(sys, name)
        if stream is None:
            setattr(sys, name, open(os.devnull, "w", encoding="utf-8"))  # noqa: PTH123, SIM115 - stays open to the end
        elif hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")  # a console that has no fraction signs still gets the line


def forget(stream: TextIO) -> None:
    """Let what is still held back for a stream that takes no more go nowhere, so that leaving is quiet."""
    try:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, stream.fileno())
        os.close(nowhere)
    except (OSError, ValueError):
        pass
