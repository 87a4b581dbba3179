"""What hostile inputs are made of: odd numbers, words and values, and texts with faults put in."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from typing import Any, Literal, get_args, get_origin

ROOT = Path(__file__).parents[2]
BUILDS = ROOT / "assets" / "builds"
DEMO = BUILDS / "spare-room-twin.toml"
CAPTIONS = ROOT / "assets" / "captions" / "spare-room-twin.vtt"
Case = dict[str, Any]  # JSON; bytes stand as text of as many letters (latin-1)

NUMBERS = ("0", "1", "-1", "1/2", "1/0", "0/0", "1/0.", "3/4", "47 5/8", "47-5/8", "475/8", "1e3", "1e400",
           "1e99999999", "nan", "inf",
           "-inf", "1_000", "1,5", "1.5.2", "0x10", "½", "⅐", "2²", "³", "٣", "１２", "9" * 30, "9" * 5000,
           "0." + "1" * 400,
           "38.12371", "1000000000000", "007", "+4", "1/64", "1/3", "12 345", "1'", "5' 4 1/2\"", "1 m 40", ".5",
           "5.")  # fmt: skip
UNITS = (
    "",
    " in",
    '"',
    " ft",
    "'",
    " mm",
    " cm",
    " m",
    " lb",
    " kg",
    " h",
    " min",
    " inches",
    " in in",
    " furlong",
    "in.",
    "''",
    " h²",
)
WORDS = ("", " ", "twin", "US queen", "UK double", "king", "2x4", "4x4", "oil", "tube", "flush", "beam", "null",
         "None", "true", "false",
         "\x00", "\x1b[31mred\x1b[0m", "\u202eredrum", "\u2066", "😀", "👨‍👩‍👧", "床", "שלום", "é", "e\u0301" * 40,
         "\ufeff", "\ud800", "☆", "a" * 10_000,
         "'" * 60, '"' * 60, "[" * 2000, "{" * 2000, "<" * 3000, "(" * 3000, "\\" * 99, "\n", "\r", "\t", "%s%n",
         "{0}", "../../x", "=1+1", "#" * 40)  # fmt: skip
BUILD_LINES = ("size = {}", "length = {}", "[lumber.2x6]", "[[lumber.2x6.stock]]", "[[screws]]", "[screws.corner]",
               "count = {}", "lines = {}",
               "grits = {}", "omit = {}", "names = {}", "measured = {}", "[x.y]", "[build]", "title = {}",
               "kind = {}", "prefer = {}", "x")  # fmt: skip
ODD_KEYS = ("", ".", "a", "a.b.c.d", "build", "lumber", "saw.kerf.x", "lumber.2x6.stock", "lumber.2x6.width",
            "names.slat", "mattress")  # fmt: skip
GOOD = ("1 1/2 in", "2 in", "3/4 in", "6 in", "14 in", "300 mm", "20 mm", "180 lb", "90 kg", "4 h", "0 in", "1/8 in",
        "72 in", "2x4", "2x6", "1x4", "4x4", "45x95", "queen", "king", "oil", "false", "true", "0", "1", "2", "3", "4",
        "12", "14.5", '["L2"]', "[80, 120, 180]", "Hem-Fir", "No.1", "#8", "#10", "2 1/2 in", "3 1/2 in")  # fmt: skip
TOML = ("{}", '"{}"', "'{}'", "[{}]", '["{}"]', "{{a = {}}}", "[[{}]]")


FACTS: Case = {
    "name": "bed", "title": "Bed", "units": "in",
    "quantities": {
        "slat.length": {"value": 38.25, "unit": "in", "kind": "length", "what": "1x4 slat", "said_as": ["slat"]},
        "slat.count": {"value": 14, "unit": "count", "kind": "part_count", "what": "slats", "said_as": ["slats"]},
        "slat.marks": {"value": [0, 5.5, 11], "unit": "in", "kind": "marks", "what": "slat marks", "working": "x"},
    },
}  # fmt: skip


def number(chance: random.Random) -> str:
    """A number and a unit, mostly odd."""
    return chance.choice(NUMBERS) + chance.choice(UNITS)


def word(chance: random.Random) -> str:
    """A word, a number, or two things run together."""
    kind = chance.random()
    if kind < 0.5:
        return number(chance)
    if kind < 0.85:
        return chance.choice(WORDS)
    return word(chance) + chance.choice((" ", "", "-", ", ", "/")) + word(chance)


def value(chance: random.Random) -> str:
    """A TOML value, or what is nearly one."""
    return chance.choice(TOML).format(word(chance))


def spoilt(text: str, chance: random.Random, put: Callable[[random.Random], str] = word) -> str:
    """A text with one to three faults: spans taken out, doubled or replaced, lines moved, its end lost."""
    for _ in range(chance.randint(1, 3)):
        a = chance.randrange(len(text) + 1)
        b = min(len(text), a + chance.choice((0, 1, 3, 20, 200)))
        kind = chance.randrange(6)
        if kind == 0:
            text = text[:a] + text[b:]
        elif kind == 1:
            text = text[:b] + text[a:b] * chance.choice((1, 2, 30)) + text[b:]
        elif kind == 2:
            text = text[:a] + put(chance) + text[b:]
        elif kind == 3:
            text = _moved(text, chance)
        elif kind == 4:
            text = text[:a] if chance.random() < 0.2 else text[:a] + put(chance) + text[a:]
        else:
            text = _replaced(text, chance, put)
    return text[:200_000]


def _moved(text: str, chance: random.Random) -> str:
    lines = text.split("\n")
    i, j = chance.randrange(len(lines)), chance.randrange(len(lines))
    lines[i], lines[j] = lines[j], lines[i]
    return "\n".join(lines)


def _replaced(text: str, chance: random.Random, put: Callable[[random.Random], str]) -> str:
    """One line's value gives way to another."""
    lines = text.split("\n")
    i = chance.randrange(len(lines))
    for sign in (" = ", ": ", ","):
        if sign in lines[i]:
            lines[i] = lines[i].split(sign)[0] + sign + put(chance)
            break
    return "\n".join(lines)


def encoded(text: str, chance: random.Random) -> str:
    """A file's bytes: mostly UTF-8, at times another encoding or none."""
    how = chance.choice(("utf-8",) * 6 + ("utf-8-sig", "utf-16", "latin-1", "cp1252", "broken"))
    if how == "broken":
        data = bytearray(text.encode("utf-8", "replace"))
        for _ in range(3):
            data.insert(chance.randrange(len(data) + 1), chance.randrange(256))
        return bytes(data).decode("latin-1")
    return text.encode(how, "replace").decode("latin-1")


@cache
def demo() -> str:
    """The demo's build file."""
    return DEMO.read_text(encoding="utf-8")


@cache
def gallery() -> tuple[str, ...]:
    """Every build file there is, and the one with all choices in remarks."""
    from tutorial_lib.cli.starting import template

    return (*(path.read_text(encoding="utf-8") for path in sorted(BUILDS.rglob("*.toml"))), template())


@cache
def keys() -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Every key of the build file with the words it may have, whatever it will be given in time."""
    from tutorial_lib.design.options import Options

    return tuple(_keys(Options, ""))


def _keys(model: Any, before: str) -> Iterator[tuple[str, tuple[str, ...]]]:
    for name, field in model.model_fields.items():
        if name == "origin":  # a whole build file again
            continue
        within = [kind for kind in (field.annotation, *get_args(field.annotation)) if hasattr(kind, "model_fields")]
        if within:
            yield from _keys(within[0], f"{before}{name}.")
        else:
            yield f"{before}{name}", tuple(map(str, _words(field.annotation)))


def _words(kind: Any) -> Iterator[Any]:
    """The words of every Literal in a type."""
    if get_origin(kind) is Literal:
        yield from get_args(kind)
    else:
        for each in get_args(kind):
            yield from _words(each)


def key_and_value(chance: random.Random) -> tuple[str, str]:
    """A key of the build file, mostly a real one, and a value, at times one that it may have."""
    if chance.random() < 0.1:
        return chance.choice(ODD_KEYS), value_or_word(chance)
    key, words = chance.choice(keys())
    kind = chance.random()
    if words and kind < 0.6:
        return key, chance.choice(words)
    return key, chance.choice(GOOD) if kind < 0.5 else value_or_word(chance)


@cache
def cues() -> tuple[str, ...]:
    """The demo's captions, cue by cue."""
    return tuple(CAPTIONS.read_text(encoding="utf-8").split("\n\n"))


def value_or_word(chance: random.Random) -> str:
    """What may stand behind --set's equals sign."""
    return value(chance) if chance.random() < 0.4 else word(chance)


def spoil_json(data: Any, chance: random.Random) -> None:
    """One value somewhere within gives way, or a key is lost."""
    while isinstance(data, dict | list) and data:
        key = chance.choice(list(data)) if isinstance(data, dict) else chance.randrange(len(data))
        if not isinstance(data[key], dict | list) or chance.random() < 0.2:
            if chance.random() < 0.2:
                del data[key]
            else:
                data[key] = odd_json(chance)
            return
        data = data[key]


def odd_json(chance: random.Random) -> Any:
    """Any JSON value."""
    return chance.choice((None, True, -1, 0, 10**18, 10**400, 1.5, 1e308, float("nan"), float("inf"), [], {}, [[]],
    [None], ["1/0"],
                          [1, "x"], {"a": 1}, word(chance), number(chance), [number(chance)], "in", "mm",
                          "count"))  # fmt: skip
