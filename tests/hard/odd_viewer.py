"""Hostile inputs at the doors of those who build along, and of what goes out with a video: boards at hand, the page's
link, file and form, label sheets, lists of sizes, plates."""

from __future__ import annotations

import base64
import random
import zlib
from functools import cache

from tests.hard.spoil import (
    GOOD,
    NUMBERS,
    Case,
    demo,
    gallery,
    key_and_value,
    number,
    odd_json,
    spoilt,
    value,
    word,
)

BOARDS = ("10 of 2x4, 92 1/2in, actual 1 1/2 x 3 7/16", "2x6 96 in", "3 x 45x95, 2400 mm",
          "1 of 2x4, 8 ft; 2 of 2x2, 6 ft")  # fmt: skip
SIZES = ("king", "UK double", "54x75 in", "140x200 cm", "all", "queen", "AU single", "53 3/8 x 74 1/2 in", "")
LABELS = ("2 5/8 x 1 in", "70 x 37 mm", "99.1 x 38.1 mm", "4 × 2 in", "1x1")
PLATES = ("slat.length", "leg.count", "slat.marks", "saw.kerf", "slats", "legs", "mattress.width")
PLAIN_ANSWERS = {
    "mattress": "king", "measured": "53 3/8 x 74 1/2 in", "saw.kerf": "3/32 in", "have": "2 of 2x6, 92 1/2 in",
    "price 2x6 0": "9.50", "slats.gap": "2 in", "build.units": "mm", "legs.per_side": "4", "shop.store_cuts": "3",
}  # fmt: skip


def have(chance: random.Random) -> Case:
    """Boards at hand."""
    said = [_boards(chance) for _ in range(chance.randint(1, 3))]
    return {"texts": said, "units": chance.choice(("in", "mm"))}


def _boards(chance: random.Random) -> str:
    kind = chance.random()
    if kind < 0.3:
        return f"{chance.choice(NUMBERS)} of {chance.choice(('2x4', '45x95', '1x4'))}, {chance.choice(GOOD)}"
    if kind < 0.8:
        return spoilt(chance.choice(BOARDS), chance)
    return f"{number(chance)} of {word(chance)}, {number(chance)}"


def labels(chance: random.Random) -> Case:
    """A size, a gap and a grid of labels."""

    def told(like: tuple[str, ...]) -> str | None:
        kind = chance.random()
        if kind < 0.2:
            return None
        if kind < 0.5:
            return f"{number(chance)} x {number(chance)}"
        return chance.choice(like) if kind < 0.7 else spoilt(chance.choice(like), chance)

    return {"size": told(LABELS), "gap": told(("1/8 x 0 in", "0 x 0 mm")), "grid": told(("3 x 10", "2x7")),
            "deep": chance.random() < 0.05}  # fmt: skip


def sizes(chance: random.Random) -> Case:
    """A list of mattresses between commas."""
    some = [chance.choice(SIZES) if chance.random() < 0.5 else word(chance) for _ in range(chance.randint(1, 5))]
    text = chance.choice((",", ", ", ";", " ")).join(some)
    return {"text": spoilt(text, chance) if chance.random() < 0.4 else text}


def plates(chance: random.Random) -> Case:
    """Facts by their keys, and a chapter by its title."""
    keys = [chance.choice(PLATES) if chance.random() < 0.6 else word(chance) for _ in range(chance.randint(1, 4))]
    return {"keys": keys, "chapter": spoilt("Slats", chance) if chance.random() < 0.5 else word(chance)}


def page(chance: random.Random) -> Case:
    """What reaches the viewers' page: a link behind its #, a build file handed in, the answers of its form."""
    kind = chance.choice(("link", "packed", "file", "answers", "answers"))
    deep = chance.random() < 0.02
    if kind == "link":
        whole = chance.random() < 0.7
        text = spoilt(_packed(viewers_file()), chance) if whole else word(chance) * chance.choice((1, 1, 99))
        return {"kind": "link", "text": text, "deep": deep}
    if kind == "packed":
        return {"kind": "link", "text": _odd_packed(spoilt(viewers_file(), chance, value), chance), "deep": deep}
    if kind == "file":
        text = chance.choice((viewers_file(), viewers_file(), chance.choice(gallery())))
        return {"kind": "file", "text": spoilt(text, chance, value), "deep": deep}
    return {"kind": "answers", "choices": _answers(chance), "deep": deep}


def _answers(chance: random.Random) -> Case:
    """Answers by the names that the form has."""
    some = {key: told for key, told in PLAIN_ANSWERS.items() if chance.random() < 0.3}
    for _ in range(chance.randint(1, 3)):
        key, told = key_and_value(chance)
        if chance.random() < 0.4:
            key = chance.choice(tuple(PLAIN_ANSWERS))
        some[key if key in _form() else chance.choice(_form())] = told if chance.random() < 0.9 else odd_json(chance)
    return some


@cache
def _form() -> tuple[str, ...]:
    from tutorial_lib.site.form import CONTROLS

    return tuple(dict.fromkeys((*PLAIN_ANSWERS, *(control.key for control in CONTROLS), "price 2x6 1")))


@cache
def viewers_file() -> str:
    """A viewer's build file, with what they asked for and the creator's build in it."""
    from tutorial_lib.site.live import Live

    live = Live(demo(), "")
    live.ask('{"measured": "53 3/8 x 74 1/2 in", "saw.kerf": "3/32 in", "have": "2 of 2x6, 92 1/2 in"}')
    packed = live.link()
    return zlib.decompress(base64.urlsafe_b64decode(packed + "=" * (-len(packed) % 4))).decode()


def _packed(text: str) -> str:
    return base64.urlsafe_b64encode(zlib.compress(text.encode("utf-8", "replace"), 9)).decode().rstrip("=")


def _odd_packed(text: str, chance: random.Random) -> str:
    """Packed as the page does it, or nearly so; at times what unpacks to a great deal more."""
    kind = chance.random()
    data = text.encode("utf-8", "surrogatepass")
    if kind < 0.7:
        return _packed(text)
    if kind < 0.8:
        data = chance.choice((b"a", b"[", b"x = 1\n")) * chance.choice((10**5, 3 * 10**6))
    elif kind < 0.9:
        return base64.b64encode(zlib.compress(data)[: chance.randrange(1, 900)]).decode()
    return base64.urlsafe_b64encode(zlib.compress(data, 9) + chance.choice((b"", b"more"))).decode().rstrip("=")
