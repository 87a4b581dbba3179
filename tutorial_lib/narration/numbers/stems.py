"""Words without their endings, as the trade's common word for the thing."""

from __future__ import annotations

import re
from functools import lru_cache

Phrase = tuple[str, ...]
SAME = {  # words the trade uses for one thing
    "ledge": "cleat",
    "ledger": "cleat",
    "runner": "cleat",
    "bearer": "cleat",
    "lath": "slat",
    "post": "leg",
    "center": "centre",
    "middle": "centre",
    "mid": "centre",
    "spacer": "gap",
    "space": "gap",
    "overall": "outside",
    "inside": "opening",
    "carriage": "coach",
    "coach": "coach",
    "hole": "hole",
    "drill": "bit",
    "blade": "kerf",
    "saw": "kerf",
    "metre": "meter",
    "widthway": "width",
    "head": "end",
    "foot": "end",
    "halfway": "centre",
    "half": "centre",
    "floor": "floor",
    "deck": "floor",
    "ground": "floor",
    "concrete": "floor",
    "sand": "sanding",
    "sanded": "sanding",
    "sander": "sanding",
    "board": "board",
    "stick": "length",
    "underneath": "underside",
    "daylight": "underside",
    "clear": "underside",
    "tall": "height",
    "high": "height",
    "wide": "width",
    "across": "width",
    "deep": "depth",
    "thick": "thickness",
    "long": "length",
    "apart": "spacing",
}
NOISE = frozenset(
    "a an the of in on at to by and or for from with one each all both its it is are be that this first last per into "
    "out up down between along no not so as than then them they those these two three four five six only own".split()
)
PLURAL_S = re.compile(r"(?<=[a-z]{2})(?<!s)(?<!u)(?<!i)s$")


@lru_cache(maxsize=16384)
def stem(word: str) -> str:
    """A word without its plural, as the trade's common word for the thing.

    >>> stem("bearers"), stem("stubbies"), stem("centre")
    ('cleat', 'stubby', 'centre')
    """
    low = word.lower().removesuffix("'s")
    if low.endswith("ies") and len(low) > 4:
        low = low[:-3] + "y"
    elif low.endswith(("ches", "xes", "shes")):
        low = low[:-2]
    else:
        low = PLURAL_S.sub("", low)
    return SAME.get(low, low)


def stems(text: str) -> Phrase:
    """The stems of a text, without the small words."""
    return tuple(stem(w) for w in re.findall(r"[a-zA-Z']+|\d+x\d+", text) if w.lower() not in NOISE)
