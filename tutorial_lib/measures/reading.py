"""Reads a length from what a person types; refuses, with the reason, what could mean two things.

Why not pint's parser: it reads ``47 5/8 inch`` as 47 times 5/8 and ``5'4"`` as 20, without a word.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Literal

from tutorial_lib.errors import Fault, LengthError
from tutorial_lib.records import dataclass

Unit = Literal["in", "mm"]

LONGEST_TEXT = 60  # characters; a length is a few words, more is a mistake

VULGAR = {
    "¼": "1/4", "½": "1/2", "¾": "3/4", "⅐": "1/7", "⅑": "1/9", "⅒": "1/10", "⅓": "1/3", "⅔": "2/3", "⅕": "1/5",
    "⅖": "2/5", "⅗": "3/5", "⅘": "4/5", "⅙": "1/6", "⅚": "5/6", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
}  # fmt: skip
SIGNS = str.maketrans({
    "⁄": "/", "∕": "/", "′": "'", "’": "'", "‘": "'", "´": "'", "ʹ": "'", "″": '"', "”": '"', "“": '"', "ʺ": '"',
    "‑": "-", "‐": "-", "–": "-", "—": "-", "−": "-", "\u00a0": " ", "\u2009": " ", "\u202f": " ", "\t": " ",
})  # fmt: skip
RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉", "01234567890123456789")

# Every unit a person may type, with its size in inches and the system it belongs to.
INCHES_IN: dict[str, tuple[Fraction, str, str]] = {}
for _names, _size, _system, _short in (
    ('in inch inches " ins', Fraction(1), "inch", "in"),
    ("ft foot feet '", Fraction(12), "inch", "ft"),
    ("mm millimetre millimetres millimeter millimeters", Fraction(10, 254), "metric", "mm"),
    ("cm centimetre centimetres centimeter centimeters", Fraction(100, 254), "metric", "cm"),
    ("m metre metres meter meters", Fraction(10000, 254), "metric", "m"),
):
    for _name in _names.split():
        INCHES_IN[_name] = (_size, _system, _short)

NUMBER = r"[0-9]+\s*/\s*[0-9]+|[0-9]*[.,][0-9]+|[0-9]+"
MIXED = re.compile(r"([0-9]+)\s*(?:-\s*|\s)\s*([0-9]+)\s*/\s*([0-9]+)")
TOKEN = re.compile(rf"\s*(?:(?P<mixed>{MIXED.pattern})|(?P<number>{NUMBER})|(?P<unit>[a-z]+\.?|''|\"|')|(?P<dash>-))")


@dataclass(frozen=True)
class _Step:
    """A number and the unit typed after it, if any."""

    value: Fraction
    whole: str  # the digits as typed when it was a plain whole number, else ""
    unit: str | None


def inch(text: str | int | Fraction) -> Fraction:
    """A length [in] from its text; inches unless the text says otherwise.

    >>> inch("75 3/4")
    Fraction(303, 4)
    """
    return Fraction(text) if isinstance(text, int | Fraction) else read_length(text, "in")


def read_length(text: str, default: Unit | None = None, where: str = "") -> Fraction:
    """A length [in], exact, from what a person typed.

    Args:
        text: ``47 5/8``, ``47-5/8"``, ``47.625 in``, ``3' 11 5/8"``, ``3 ft 11-5/8 in``, ``¾``, ``1 m 40`` ...
        default: the unit meant when none is typed; None when one must be.
        where: the place named in the error, as the person knows it.

    Raises:
        LengthError: the text is no length, is negative, has no unit where one is needed, or could mean two things.

    >>> read_length("3' 11 5/8\\"")
    Fraction(381, 8)
    >>> read_length("1 m 40") == read_length("140 cm") == read_length("1400 mm")
    True
    >>> read_length("5 4", "in")  # doctest: +ELLIPSIS
    Traceback (most recent call last):
    tutorial_lib.errors.LengthError: "5 4" could mean two things: no unit stands between 5 and 4. Write 5 ft 4 in...
    """
    try:
        return _read(text, default)
    except _RefusedError as reason:
        raise LengthError(Fault(where, str(reason))) from None


class _RefusedError(Exception):
    """Why a text is no length; turned into a LengthError at the door."""


def _read(text: str, default: Unit | None) -> Fraction:
    if not isinstance(text, str):
        raise _RefusedError(f'{text!r} is not text; write a length with its unit in quotes, such as "47 5/8 in".')
    clean = _plain(text)
    _refuse_at_sight(text, clean)
    steps = _steps(text, clean)
    if len(steps) == 1:
        return _single(text, steps[0], default)
    return _chain(text, steps)


def _plain(text: str) -> str:
    """The text with one kind of quote, dash and fraction."""
    if text.isascii():
        return text.translate(SIGNS).translate(RAISED).strip().lower()
    text = re.sub(r"(?<=[0-9])(?=[⁰¹²³⁴-⁹])", " ", text.translate(SIGNS))
    for sign, fraction in VULGAR.items():
        text = re.sub(rf"\s*-?\s*{sign}", f" {fraction}", text)
    return text.translate(RAISED).strip().lower()


def _refuse_at_sight(text: str, clean: str) -> None:
    if not clean:
        raise _RefusedError("the length is empty; write a number and its unit, such as 47 5/8 in.")
    if len(text) > LONGEST_TEXT:
        raise _RefusedError(
            f'"{text[:20]}..." is too long for a length; write one number and its unit, such as 47 5/8 in.'
        )
    if clean.startswith("-"):
        raise _RefusedError(f'"{text}" is negative; a length is 0 or more.')
    if re.search(r"[0-9]/[0-9]+/|/\s*0+(?![0-9])", clean):
        raise _RefusedError(f'"{text}" has a fraction that can\'t be read; write it as 5/8.')
    if re.search(r"[0-9],[0-9]{3}(?![0-9])", clean):
        raise _RefusedError(
            f'"{text}" could mean two things: the comma may mark thousands or decimals. Write a point, or none.'
        )


def _steps(text: str, clean: str) -> list[_Step]:
    """The text cut into numbers with their units."""
    steps: list[_Step] = []
    position, dash = 0, False
    while position < len(clean):
        match = TOKEN.match(clean, position)
        if not match or not match.group().strip():
            raise _unreadable(text)
        if match["unit"]:
            _name_unit(text, steps, match["unit"], dash)
        elif match["dash"]:
            if dash or not steps or steps[-1].unit is None:
                raise _unclear_dash(text)
        else:
            steps.append(_number(text, match))
        dash = bool(match["dash"])
        position = match.end()
    if dash:
        raise _unclear_dash(text)
    return steps


def _name_unit(text: str, steps: list[_Step], typed: str, after_dash: bool) -> None:
    unit = '"' if typed == "''" else typed.rstrip(".")
    if unit not in INCHES_IN and not steps:
        raise _RefusedError(f'"{text}" has no number; write it like 2 1/4 in or 57 mm.')
    if unit not in INCHES_IN:
        raise _RefusedError(f'"{text}" has "{typed}", which is no unit of length here; use in, ft, mm, cm or m.')
    if after_dash or not steps or steps[-1].unit is not None:
        raise _unreadable(text)
    steps[-1] = _Step(steps[-1].value, steps[-1].whole, unit)


def _number(text: str, match: re.Match[str]) -> _Step:
    if match["mixed"]:
        whole, top, bottom = (int(part) for part in MIXED.fullmatch(match["mixed"]).groups())  # type: ignore[union-attr]
        if top >= bottom:
            raise _RefusedError(
                f'"{text}" could mean two things: {top}/{bottom} is not less than one. Write it as a decimal.'
            )
        return _Step(whole + Fraction(top, bottom), "", None)
    number = "".join(match["number"].split())
    if "/" in number:
        _refuse_lost_space(text, number)
        return _Step(Fraction(number), "", None)
    return _Step(Fraction(number.replace(",", ".")), number if number.isdigit() else "", None)


def _refuse_lost_space(text: str, number: str) -> None:
    """475/8 may be 47 5/8 with the space lost; 9/8 can't be."""
    top, bottom = number.split("/")
    last = top[-len(bottom) :] if len(top) > len(bottom) else top[1:]
    if len(top) > 1 and int(top) >= int(bottom) and 0 < int(last) < int(bottom):
        guess = f"{top[: -len(last)]} {last}/{bottom}"
        raise _RefusedError(
            f'"{text}" could mean two things: {number} as it stands, or {guess}. Write a space or a decimal.'
        )


def _single(text: str, step: _Step, default: Unit | None) -> Fraction:
    unit = step.unit or default
    if unit is None:
        if step.value == 0:
            return Fraction(0)  # nothing is nothing in every unit
        raise _RefusedError(f'"{text}" has no unit; write {text.strip()} in, or {text.strip()} mm.')
    return step.value * INCHES_IN[unit][0]


def _chain(text: str, steps: list[_Step]) -> Fraction:
    """Feet and inches, or metres and centimetres."""
    steps = [*steps[:-1], _implied(text, steps[-2], steps[-1])]
    sizes = [INCHES_IN[step.unit] for step in steps if step.unit]
    if len(sizes) < len(steps):
        raise _no_unit_between(text, *(step.whole for step in steps[:2]))
    if len({system for _, system, _ in sizes}) > 1:
        raise _RefusedError(f'"{text}" mixes inches and metric; write one of them.')
    for (big, big_size), (small, small_size) in zip(
        zip(steps, sizes, strict=True), zip(steps[1:], sizes[1:], strict=True), strict=False
    ):
        _refuse_odd_pair(text, big, big_size, small, small_size)
    return sum((step.value * size for step, (size, _, _) in zip(steps, sizes, strict=True)), Fraction(0))


def _implied(text: str, before: _Step, last: _Step) -> _Step:
    """The unit left unsaid at the end: 3' 11 is inches, 1 m 40 is centimetres, 1 m 400 millimetres."""
    if last.unit is not None or before.unit is None:
        return last
    short = INCHES_IN[before.unit][2]
    if short == "ft":
        return _Step(last.value, last.whole, "in")
    if short == "m" and len(last.whole) in (2, 3):
        return _Step(last.value, last.whole, "cm" if len(last.whole) == 2 else "mm")
    raise _RefusedError(f'"{text}" could mean two things: the last number has no unit. Write one after it.')


def _refuse_odd_pair(
    text: str, big: _Step, big_size: tuple[Fraction, str, str], small: _Step, small_size: tuple[Fraction, str, str]
) -> None:
    if small_size[0] >= big_size[0]:
        raise _RefusedError(
            f'"{text}" names {small_size[2]} after {big_size[2]}; write the larger unit first, each once.'
        )
    if not big.whole:
        raise _RefusedError(
            f'"{text}" could mean two things: a part of a {big_size[2]} and {small_size[2]} as well. Write one.'
        )
    if small.value * small_size[0] >= big_size[0]:
        raise _RefusedError(
            f'"{text}" could mean two things: {small_size[2]} fill more than a {big_size[2]}. Write one unit.'
        )


def _no_unit_between(text: str, first: str, second: str) -> _RefusedError:
    if first and second:
        return _RefusedError(
            f'"{text}" could mean two things: no unit stands between {first} and {second}. '
            f"Write {first} ft {second} in, or {first}.{second} in."
        )
    return _RefusedError(
        f'"{text}" could mean two things: two numbers stand side by side. Write one, or a unit after each.'
    )


def _unreadable(text: str) -> _RefusedError:
    return _RefusedError(f'"{text}" can\'t be read as a length; write it as 47 5/8 in, 3 ft 11 5/8 in, or 1210 mm.')


def _unclear_dash(text: str) -> _RefusedError:
    return _RefusedError(
        f'"{text}" could mean two things: the dash may join, subtract or mean a range. Write one length.'
    )
