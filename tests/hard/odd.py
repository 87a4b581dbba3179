"""Hostile inputs that know the shape of what they spoil: for every door a generator, seeded, so that a case can be had
again from its seed, door and number."""

from __future__ import annotations

import json
import random
from collections.abc import Callable, Sequence
from functools import cache
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "assets" / "builds" / "spare-room-twin.toml"
CAPTIONS = ROOT / "assets" / "captions" / "spare-room-twin.vtt"
Case = dict[str, Any]  # JSON; bytes stand as text of as many letters (latin-1)

NUMBERS = ("0", "1", "-1", "1/2", "1/0", "0/0", "1/0.", "3/4", "47 5/8", "47-5/8", "475/8", "1e3", "1e400",
           "1e99999999", "nan", "inf",
           "-inf", "1_000", "1,5", "1.5.2", "0x10", "½", "⅐", "2²", "³", "٣", "１２", "9" * 30, "9" * 5000,
           "0." + "1" * 400,
           "38.12371", "1000000000000", "007", "+4", "1/64", "1/3", "12 345", "1'", "5' 4 1/2\"", "1 m 40", ".5",
           "5.")  # fmt: skip
UNITS = ("", " in", '"', " ft", "'", " mm", " cm", " m", " lb", " kg", " h", " min", " inches", " in in", " furlong",
         "in.", "''", " h²")
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
KEYS = ("mattress.size", "mattress.width", "slats.gap", "slats.count", "slats.lumber", "slats.edge", "slats.play",
        "legs.per_side", "legs.setback",
        "legs.omit", "legs.kind", "legs.lumber", "legs.place", "heights.underside", "heights.leg", "centre.lines",
        "centre.kind", "centre.ends",
        "centre.legs", "support.kind", "support.recess", "support.end_play", "frame.rail", "frame.corners",
        "saw.kerf", "saw.trim", "shop.carry",
        "shop.currency", "load.person", "load.people", "finish.kind", "finish.coats", "finish.grits", "finish.recoat",
        "wood.species", "wood.grade",
        "wood.moisture_bought", "build.units", "build.title", "build.name", "screws.corner.gauge",
        "screws.corner.count", "screws.slat.length",
        "screws.leg.diameter", "room.door_width", "lumber.2x6.stock", "lumber.2x6.width", "names.slat",
        "driver.length", "a", "", ".", "a.b.c.d",
        "build", "saw.kerf.x", "lumber")  # fmt: skip
TOML = ("{}", '"{}"', "'{}'", "[{}]", '["{}"]', "{{a = {}}}", "[[{}]]")


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
def cues() -> tuple[str, ...]:
    """The demo's captions, cue by cue."""
    return tuple(CAPTIONS.read_text(encoding="utf-8").split("\n\n"))


FACTS: Case = {
    "name": "bed", "title": "Bed", "units": "in",
    "quantities": {
        "slat.length": {"value": 38.25, "unit": "in", "kind": "length", "what": "1x4 slat", "said_as": ["slat"]},
        "slat.count": {"value": 14, "unit": "count", "kind": "part_count", "what": "slats", "said_as": ["slats"]},
        "slat.marks": {"value": [0, 5.5, 11], "unit": "in", "kind": "marks", "what": "slat marks", "working": "x"},
    },
}  # fmt: skip


# --- one generator a door ---


def length(chance: random.Random) -> Case:
    """A typed length."""
    text = number(chance) if chance.random() < 0.5 else " ".join(word(chance) for _ in range(chance.randint(1, 3)))
    return {"text": text, "default": chance.choice((None, "in", "mm"))}


def mattress(chance: random.Random) -> Case:
    """A mattress's name, with a region, or its size."""
    return {"name": chance.choice((
        word(chance), f"{word(chance)}x{word(chance)}",
        f"{chance.choice(('US', 'UK', 'EU', 'AU', 'xx', ''))} {word(chance)}",
        f"{number(chance)} x {number(chance)}", spoilt("California king", chance)))}  # fmt: skip


def build(chance: random.Random) -> Case:
    """A build file."""
    text = demo()
    if chance.random() < 0.5:
        text = spoilt(text, chance, value)
    else:
        lines = text.split("\n")
        for _ in range(chance.randint(1, 3)):
            lines.insert(chance.randrange(len(lines)), chance.choice(BUILD_LINES).format(value(chance)))
        text = "\n".join(lines)
    return {"text": text, "deep": chance.random() < 0.2}


def change(chance: random.Random) -> Case:
    """Some --set."""
    given = [chance.choice(("{}={}", "{} = {}", "{}", "={}", "{}=")).format(chance.choice(KEYS), value_or_word(chance))
             for _ in range(chance.randint(1, 3))]  # fmt: skip
    return {"changes": given, "deep": chance.random() < 0.2}


def value_or_word(chance: random.Random) -> str:
    """What may stand behind --set's equals sign."""
    return value(chance) if chance.random() < 0.4 else word(chance)


def lists(chance: random.Random) -> Case:
    """Two parts lists."""
    mark = chance.choice((",", ";", "\t"))
    pieces = [["name", "length", "count", "section", "together"]]
    pieces += [[f"p{i}", f"{chance.randint(1, 90)} in", str(chance.randint(1, 9)), "",
    ""] for i in range(chance.randint(0, 5))]
    stock = [["name", "length", "price", "available", "section"]]
    stock += [[f"s{i}", f"{chance.choice((8, 10, 12))} ft", f"{chance.randint(1, 20)}.50", "",
    ""] for i in range(chance.randint(0, 3))]
    for rows in (pieces, stock):
        for _ in range(chance.randint(0, 2)):
            row = chance.choice(rows)
            row[chance.randrange(len(row))] = word(chance)
        if chance.random() < 0.1:
            rows.append(rows[-1])
    texts = ["\n".join(mark.join(row) for row in rows) for rows in (pieces, stock)]
    if chance.random() < 0.3:
        texts = [spoilt(text, chance) for text in texts]
    odd = chance.random() < 0.2
    return {"pieces": texts[0], "stock": texts[1],
            "kerf": number(chance) if odd else "1/8 in", "trim": number(chance) if odd else "0"}  # fmt: skip


def captions(chance: random.Random) -> Case:
    """A talk in any of its forms."""
    some = list(cues()[: chance.randint(1, 12)])
    if chance.random() < 0.4:
        i = chance.randrange(len(some))
        some[i] += " " + " ".join(word(chance) for _ in range(chance.randint(1, 6)))
    text = chance.choice(("\n\n", "\n", "\n\n\n", "\r\n\r\n")).join(some)
    text = spoilt(text, chance) if chance.random() < 0.6 else text
    return {"name": "talk" + chance.choice((".vtt", ".srt", ".txt", ".md", ".sbv", "", ".TXT", ".json")),
    "data": encoded(text, chance)}


def facts(chance: random.Random) -> Case:
    """A facts file."""
    data = json.loads(json.dumps(FACTS))
    for _ in range(chance.randint(1, 3)):
        _spoil_json(data, chance)
    text = json.dumps(data)
    return {"text": spoilt(text, chance) if chance.random() < 0.3 else text}


def _spoil_json(data: Any, chance: random.Random) -> None:
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


def answers(chance: random.Random) -> Case:
    """What the person decided before, in the file beside the captions."""
    entry = {"quote": "38 1/4 inches", "sentence": "", "place": 0, "subject": "slat.length", "kind": "part", "t": 1.0,
    "dismiss": False, "note": ""}
    kept = {"answers": [dict(entry) for _ in range(chance.randint(0, 3))]}
    for _ in range(chance.randint(1, 3)):
        _spoil_json(kept, chance)
    text = json.dumps(kept)
    return {"text": spoilt(text, chance) if chance.random() < 0.3 else text}


COMMANDS: Sequence[Sequence[str]] = (
    ("facts", "bed.toml"), ("facts", "bed.toml", "--json", "-"), ("cut", "pieces.csv", "stock.csv"), ("check",
    "facts.json", "talk.vtt"),
    ("adapt", "bed.toml", "--mattress", "queen"), ("new", "-o", "new.toml"), ("check", "bed.toml", "talk.vtt", "--all"),
    ("facts", "bed.toml", "--mattress", "queen"), ("cut", "pieces.csv", "stock.csv", "--kerf", "1/8 in", "--json",
    "out.json"),
    ("adapt", "bed.toml", "--set", "saw.kerf=3 mm"),
)  # fmt: skip
ARGUMENTS = ("--json", "-", "--force", "--mattress", "--set", "saw.kerf=3 mm", "-o", "out.pdf", "--paper", "a4",
             "--kerf", "--trim", "bed.toml", "none.toml",
             "folder", "folder/x", "pieces.csv", "talk.vtt", "facts.json", "--to", "--captions", "--all", "--help",
             "--version", "--nope", "--", "x" * 300,
             "x" * 5000, "bad.toml", "/dev/null", "bed.toml/x", "\udcff.toml", "slats.gap=\udcff", "a\x00b.toml",
             "empty.toml", "taken.json")  # fmt: skip


def command(chance: random.Random) -> Case:
    """A whole command line."""
    words = list(chance.choice(COMMANDS))
    for _ in range(chance.randint(1, 3)):
        at = chance.randint(1, len(words))
        put = chance.choice(ARGUMENTS) if chance.random() < 0.7 else word(chance)
        words[at : at + chance.randint(0, 1)] = [put]
    return {"arguments": words}


def panel(chance: random.Random) -> Case:
    """A control of a panel, and what a person may do to it by its kind."""
    return {"panel": chance.randrange(9), "control": chance.randrange(50), "text": word(chance),
            "number": chance.randint(-5, 300), "empty": chance.random() < 0.1}  # fmt: skip


DOORS: dict[str, tuple[Callable[[random.Random], Case], int]] = {  # and how many of a hundred cases
    "length": (length, 38),
    "mattress": (mattress, 20),
    "build": (build, 10),
    "change": (change, 10),
    "lists": (lists, 6),
    "captions": (captions, 5),
    "facts": (facts, 5),
    "answers": (answers, 3),
    "command": (command, 2),
    "panel": (panel, 1),
}


def case(seed: int, door: str, index: int) -> Case:
    """The case of a number at a door."""
    return DOORS[door][0](random.Random(f"{seed} {door} {index}"))
