"""Mattresses by name, by region and name, or as measured; one name has several sizes and all of them are shown."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache

from tutorial_lib.errors import Fault, InputError
from tutorial_lib.measures import Units, mm, read_length, writer
from tutorial_lib.records import dataclass
from tutorial_lib.tables.rows import nearest, plain, rows, unknown

REGIONS = ("US", "UK", "EU", "AU")
SAME_NAME = {"cal king": "California king", "western king": "California king", "double": "full", "txl": "twin XL"}


@dataclass(frozen=True, kw_only=True)
class Mattress:
    """One size of one name."""

    region: str  # "US", "UK", "EU", "AU" or "measured"
    name: str
    width: Fraction  # [in]
    length: Fraction  # [in]
    family: str  # "US A" ... "US E", "UK", "EU", "AU", or "" when measured
    family_name: str  # the disagreeing families, as sizes: "39/54 retail"
    metric: bool
    source: str
    status: str
    note: str = ""

    @property
    def units(self) -> Units:
        """The unit its sizes are whole in: "in" or "mm"."""
        return "mm" if self.metric else "in"

    def __str__(self) -> str:
        size = f"{_figures(self.width, self.metric)} x {_figures(self.length, self.metric)} {self.units}"
        return size if self.region == "measured" else f"{self.region} {self.name}, {size}"


@dataclass(frozen=True)
class MattressChoice:
    """What a name was taken for, and what else it could have been."""

    chosen: Mattress
    others: tuple[Mattress, ...]  # other sizes under the same name
    why: str


@cache
def mattresses() -> tuple[Mattress, ...]:
    """Every size of every name, in the table's order."""
    return tuple(_mattress(row) for row in rows("mattresses.csv"))


def _mattress(row: dict[str, str]) -> Mattress:
    region, metric = row["region"], row["unit"] == "cm"
    width, length = (mm(Fraction(row[k]) * 10) if metric else Fraction(row[k]) for k in ("width", "length"))
    letter, _, words = row["variant"].partition(":")
    family = region if metric else f"US {letter.strip()}"
    return Mattress(
        region=region,
        name=row["name"],
        width=width,
        length=length,
        family=family,
        family_name=words.strip() or row["variant"],
        metric=metric,
        source=row["source"],
        status=row["status"],
        note=row["note"],
    )


def mattress(name: str, family: str | None = None, where: str = "") -> MattressChoice:
    """The mattress meant by a name, a region and a name, or a size.

    Args:
        name: "queen", "UK double", "EU 160x200 cm", "54x75 in".
        family: the build's own family (:func:`family_of`); its size of the name comes first.
        where: the place named in the error.

    Raises:
        InputError: no such name, with the nearest; a size that can't be read.

    >>> str(mattress("full", "US B").chosen)
    'US full, 53 x 75 in'
    >>> str(mattress("UK double").chosen)
    'UK double, 1350 x 1900 mm'
    """
    region, word = _region(" ".join(name.split()))
    if re.match(r"[0-9¼-¾⅐-⅞]", word):
        return MattressChoice(_measured(word, where), (), "a measured size; it wins over every table")
    found = _named(region, word)
    if not found:
        known = (f"{m.region} {m.name}" for m in mattresses() if region in (None, m.region))
        raise unknown("mattress", name, known, where)
    return _choose(found, family)


def _choose(found: list[Mattress], family: str | None) -> MattressChoice:
    """The build's family first, then its region, then the table's order."""
    own = [m for m in found if m.family == family] if family else []
    ranked = sorted(found, key=lambda m: _nearness(m, family)) if family else found
    chosen = ranked[0]
    others = tuple(m for m in ranked[1:] if (m.width, m.length) != (chosen.width, chosen.length))
    if not others:
        return MattressChoice(chosen, (), "the only size under this name")
    reason = "the build's own family of sizes" if own else "the table's first"
    return MattressChoice(chosen, others, f"{reason}; also sold: {'; '.join(dict.fromkeys(map(str, others)))}")


def _nearness(row: Mattress, family: str) -> int:
    """0 for a family's own, 1 for its region's, 2 for the others."""
    return 0 if row.family == family else 1 if row.region == family_region(family) else 2


def _region(text: str) -> tuple[str | None, str]:
    first, _, rest = text.partition(" ")
    if first.upper() in REGIONS and rest:
        return first.upper(), rest
    return None, text


def _named(region: str | None, word: str) -> list[Mattress]:
    """Rows under a name; "EU double" finds "double 140" as well."""
    pool = [m for m in mattresses() if region in (None, m.region)]
    exact = [m for m in pool if plain(m.name) == plain(word)]
    exact += [m for m in pool if m.region == "US" and m.name == SAME_NAME.get(word.lower())]
    return exact or [m for m in pool if _goes_on(m.name, word)]


def _goes_on(name: str, word: str) -> bool:
    """Whether a row's name is a word with a size or a note after it ("double 140", "king (AU)")."""
    longer = plain(name).startswith(plain(word)) and name[len(word) :][:1] == " "
    return longer and (name.split()[-1].isdigit() or "(" in name)


def _measured(text: str, where: str) -> Mattress:
    """A size as typed: width first; one unit may serve both."""
    sides = re.split(r"\s*(?:[x×]|\bby\b)\s*", text.lower(), maxsplit=1)
    if len(sides) != 2 or not sides[1]:
        raise InputError(Fault(where, f'"{text}" is no mattress size; write width x length, such as 54x75 in.'))
    unit = re.search(r"[a-z\"']+$", sides[1].strip())
    if unit and not re.search(r"[a-z\"']", sides[0]):
        sides[0] += f" {unit.group()}"
    if not unit:
        raise InputError(Fault(where, f'"{text}" has no unit; write {text} in, or {text} cm.'))
    length, width = (read_length(side, where=where) for side in reversed(sides))  # the unit's own side first
    if not 0 < width <= length:
        raise InputError(Fault(where, f'"{text}" is wider than long; write the width first, such as 54x75 in.'))
    metric = bool(re.search(r"\d\s*(mm|cm|m)\b", text.lower()))
    return Mattress(
        region="measured",
        name=text,
        width=width,
        length=length,
        family="",
        family_name="",
        metric=metric,
        source="measured",
        status="measured by its owner",
    )


def family_region(family: str) -> str:
    """Where the sizes of a family are sold.

    >>> family_region("US A")
    'US'
    """
    return next(m.region for m in mattresses() if m.family == family)


def family_of(width: Fraction, length: Fraction, name: str | None = None) -> str | None:
    """The family a build's own mattress belongs to: the first that has this size, under this name if given.

    >>> family_of(Fraction(38), Fraction(75))
    'US B'
    """
    word = _region(name)[1] if name else None
    same = [m for m in mattresses() if (m.width, m.length) == (width, length)]
    by_name = [m for m in same if word and plain(m.name) == plain(word)]
    return next((m.family for m in by_name or same), None)


def nearest_mattress(name: str) -> str | None:
    """The known name most like this one.

    >>> nearest_mattress("king size bed"), nearest_mattress("quen")
    ('king', 'queen')
    """
    bare = re.sub(r"(?i)[ -]*\b(?:sized?|bed|mattress)\b", "", name).strip()
    return nearest(bare or name, (m.name for m in mattresses()))


def _figures(x: Fraction, metric: bool) -> str:
    return writer("mm" if metric else "in").mark(x)
