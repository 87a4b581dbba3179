"""Hostile inputs that know the shape of what they spoil: for every door a generator, seeded, so that a case can be had
again from its seed, door and number."""

from __future__ import annotations

import json
import random
from collections.abc import Callable, Sequence

from tests.hard import extreme, odd_viewer
from tests.hard.spoil import (
    BUILD_LINES,
    FACTS,
    Case,
    cues,
    encoded,
    gallery,
    key_and_value,
    number,
    spoil_json,
    spoilt,
    value,
    word,
)

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
    """A build file: one that comes with the project, spoilt, with lines put in, or with other values."""
    text = chance.choice(gallery())
    kind = chance.random()
    if kind < 0.4:
        text = spoilt(text, chance, value)
    elif kind < 0.7:
        lines = text.split("\n")
        for _ in range(chance.randint(1, 3)):
            lines.insert(chance.randrange(len(lines)), chance.choice(BUILD_LINES).format(value(chance)))
        text = "\n".join(lines)
    else:
        for _ in range(chance.randint(1, 3)):
            text = _with(text, *key_and_value(chance))
    return {"text": text, "deep": chance.random() < 0.1}


def _with(text: str, key: str, given: str) -> str:
    """A build file with one key more in its table."""
    table, _, name = key.rpartition(".")
    bare = given.startswith("[") or given.replace(".", "").isdecimal()
    told = given if bare else f'"{given}"'
    head = f"[{table}]\n"
    return text.replace(head, f"{head}{name} = {told}\n", 1) if head in text else f"{text}\n{head}{name} = {told}\n"


def change(chance: random.Random) -> Case:
    """Some --set."""
    forms = ("{}={}",) * 8 + ("{} = {}", "{}", "={}", "{}=")
    given = [chance.choice(forms).format(*key_and_value(chance)) for _ in range(chance.randint(1, 3))]
    return {"changes": given, "deep": chance.random() < 0.1}


def lists(chance: random.Random) -> Case:
    """Two parts lists."""
    mark = chance.choice((",", ";", "\t"))
    pieces = [["name", "length", "count", "section", "together"]]
    pieces += [
        [f"p{i}", f"{chance.randint(1, 90)} in", str(chance.randint(1, 9)), "", ""] for i in range(chance.randint(0, 5))
    ]
    stock = [["name", "length", "price", "available", "section"]]
    stock += [
        [f"s{i}", f"{chance.choice((8, 10, 12))} ft", f"{chance.randint(1, 20)}.50", "", ""]
        for i in range(chance.randint(0, 3))
    ]
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
    return {
        "name": "talk" + chance.choice((".vtt", ".srt", ".txt", ".md", ".sbv", "", ".TXT", ".json")),
        "data": encoded(text, chance),
    }


def facts(chance: random.Random) -> Case:
    """A facts file."""
    data = json.loads(json.dumps(FACTS))
    for _ in range(chance.randint(1, 3)):
        spoil_json(data, chance)
    text = json.dumps(data)
    return {"text": spoilt(text, chance) if chance.random() < 0.3 else text}


def answers(chance: random.Random) -> Case:
    """What the person decided before, in the file beside the captions."""
    entry = {
        "quote": "38 1/4 inches",
        "sentence": "",
        "place": 0,
        "subject": "slat.length",
        "kind": "part",
        "t": 1.0,
        "dismiss": False,
        "note": "",
    }
    kept = {"answers": [dict(entry) for _ in range(chance.randint(0, 3))]}
    for _ in range(chance.randint(1, 3)):
        spoil_json(kept, chance)
    text = json.dumps(kept)
    return {"text": spoilt(text, chance) if chance.random() < 0.3 else text}


COMMANDS: Sequence[Sequence[str]] = (
    ("facts", "bed.toml"), ("facts", "bed.toml", "--json", "-"), ("cut", "pieces.csv", "stock.csv"), ("check",
    "facts.json", "talk.vtt"),
    ("adapt", "bed.toml", "--mattress", "queen"), ("new", "-o", "new.toml"), ("check", "bed.toml", "talk.vtt", "--all"),
    ("facts", "bed.toml", "--mattress", "queen"), ("cut", "pieces.csv", "stock.csv", "--kerf", "1/8 in", "--json",
    "out.json"),
    ("adapt", "bed.toml", "--set", "saw.kerf=3 mm"), ("new", "--from", "queen-tubes", "-o", "new.toml"),
    ("lists", "bed.toml", "-o", "lists"), ("sheet", "bed.toml", "--paper", "a4", "-o", "out.pdf"),
    ("templates", "bed.toml", "-o", "out.pdf"), ("plates", "bed.toml", "--facts", "slat.length", "-o", "plates"),
    ("plates", "bed.toml", "talk.vtt", "--chapter", "slats"), ("kit", "bed.toml", "-o", "kit", "--label", "70 x 37 mm"),
    ("kit", "bed.toml", "talk.vtt", "--sizes", "king"), ("site", "bed.toml", "-o", "site"),
    ("site", "bed.toml", "--plain", "--sizes", "queen"), ("facts", "bed.toml", "--have", "2 of 2x4, 92 1/2 in"),
)  # fmt: skip
ARGUMENTS = ("--json", "-", "--force", "--mattress", "--set", "saw.kerf=3 mm", "-o", "out.pdf", "--paper", "a4",
             "--kerf", "--trim", "bed.toml", "none.toml",
             "folder", "folder/x", "pieces.csv", "talk.vtt", "facts.json", "--to", "--captions", "--all", "--help",
             "--version", "--nope", "--", "x" * 300,
             "x" * 5000, "bad.toml", "/dev/null", "bed.toml/x", "\udcff.toml", "slats.gap=\udcff", "a\x00b.toml",
             "empty.toml", "taken.json", "--label", "1/8 x 0 in", "--label-gap", "--label-grid", "3 x 10", "--sizes",
             "all", "--plain", "--chapter", "--facts", "slat.length,leg.count", "--large", "--both", "--workings",
             "--have", "2 of 2x4, 92 in", "--from", "king-two-lines", "--strict", "--write")  # fmt: skip


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
    return {"panel": chance.randrange(17), "control": chance.randrange(50), "text": word(chance),
            "number": chance.randint(-5, 300), "empty": chance.random() < 0.1}  # fmt: skip


DOORS: dict[str, tuple[Callable[[random.Random], Case], float]] = {  # and how many of a hundred cases
    "length": (length, 30),
    "mattress": (mattress, 14),
    "build": (build, 8),
    "bed": (extreme.bed, 0.04),
    "change": (change, 8),
    "lists": (lists, 6),
    "captions": (captions, 4),
    "facts": (facts, 4),
    "answers": (answers, 2),
    "command": (command, 1.5),
    "panel": (panel, 0.5),
    "have": (odd_viewer.have, 7),
    "labels": (odd_viewer.labels, 5),
    "sizes": (odd_viewer.sizes, 5),
    "plates": (odd_viewer.plates, 2),
    "page": (odd_viewer.page, 3),
}


def case(seed: int, door: str, index: int) -> Case:
    """The case of a number at a door."""
    return DOORS[door][0](random.Random(f"{seed} {door} {index}"))
