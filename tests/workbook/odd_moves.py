"""What a person may do to each kind of control: to its ends, to odd values, pressed, handed a file."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from fractions import Fraction
from typing import Any

from tests.design.builds import DEMO
from tutorial_lib.measures import Units, exact_length
from tutorial_lib.workbook.board_list import AtHand
from tutorial_lib.workbook.controls import Control
from tutorial_lib.workbook.panel import Panel
from tutorial_lib.workbook.rows import OPEN

PRESS = "pressed"
STAMP = datetime(2026, 5, 2, tzinfo=UTC)  # of a file handed in
ODD = {
    "length": ("", "1000 in", "-1", "wide", "0", "1/3 in", "7 1/2\"", "2000 mm"),
    "number": ("", "0", "-3", "2.5", "many", "999", "12"),
    "weight": ("", "0", "95 kg", "heavy", "-4 lb"),
    "money": ("", "0", "-1", "$4.20", "dear", "1e9"),
    "hours": ("", "0", "90 min", "soon"),
    "lengths": ("", "95 7/8; 96 1/4", "-2; 3", "long"),
    "words": ("", "one, two", "“quoted”"),
    "text": ("", "a word", "eur", "2026-05-02", "54 x 74 1/2 in", "https://example.org/bed", "<b>bold</b>", "é ☆"),
}  # fmt: skip
BOARDS = (
    (), (AtHand(10, "2x4", "92 1/2 in", "1 1/2 x 3 7/16"),), (AtHand(1, "2x99", "8 ft"),), (AtHand(3, "2x6", "long"),),
    (AtHand(2, "1x4", "1000 in"),), (AtHand(2, "2x4", "8 ft", "wide"),), (AtHand(2, "2x4", "-1"),),
)  # fmt: skip
FILES = (
    ("nothing.toml", b""), ("no text.vtt", b"\xff\xfe\x00"), ("talk.vtt", b"WEBVTT\n"), ("my bed.toml", b"[bed"),
    ("garden bed.toml", DEMO.read_bytes()),
)  # fmt: skip


@dataclass(frozen=True)
class Move:
    """A control and the value a person gives it in its widget."""

    key: str
    value: Any


def moves(panel: Panel) -> Iterator[Move]:
    """Every control that is shown, to its ends and to odd values."""
    for control in panel.controls:
        if panel.enabled(control):
            yield from (Move(control.key, value) for value in values(control, panel.units))


def values(control: Control, units: Units) -> Iterator[Any]:
    """What one control is moved to."""
    if control.kind == "choice":
        found = [value for _, value in control.choices]
        yield from (found[0], found[-1], found[len(found) // 2])
    elif control.kind == "count":
        yield from (int(control.low), int(control.high))
    elif control.kind in FIXED:
        yield from FIXED[control.kind]
    else:
        if control.kind == "length":
            yield from (exact_length(Fraction(end), units) for end in (control.low, control.high))
        yield from ODD[control.kind]


FIXED: dict[str, tuple[Any, ...]] = {
    "check": (True, False), "button": (PRESS,), "boards": BOARDS, "upload": FILES,
}  # fmt: skip


def give(panel: Panel, one: Move) -> bool:
    """Makes a move as a person does, through the widget; False where it stands there already."""
    widget = panel.control(one.key)
    kind = next(control.kind for control in panel.controls if control.key == one.key)
    value = OPEN if kind == "choice" and one.value is None else one.value
    if kind == "button":
        widget.click()
    elif kind == "upload":
        name, data = one.value
        widget.value = ({"name": name, "content": memoryview(data), "size": len(data), "type": "",
                         "last_modified": STAMP},)  # fmt: skip
    elif kind == "boards":
        widget.value = one.value
        widget.act(widget.value)
    elif widget.value == value:
        return False
    else:
        widget.value = value
    return True
