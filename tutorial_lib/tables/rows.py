"""Reads the tables shipped with the library, and names the nearest word for one that is not in them."""

from __future__ import annotations

import csv
import difflib
from collections.abc import Iterable
from functools import lru_cache
from importlib.resources import files

from tutorial_lib.errors import Fault, InputError

LONGEST_LIST = 24  # names; a longer list is cut to the nearest
SHOWN = 8


@lru_cache(maxsize=64)  # there are fewer tables
def rows(name: str) -> tuple[dict[str, str], ...]:
    """The rows of one shipped table, as text."""
    text = files("tutorial_lib.tables").joinpath("data", name).read_text(encoding="utf-8")
    return tuple(csv.DictReader(text.splitlines()))


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word that looks most like this one, or None when none does.

    >>> nearest("quen", ["twin", "queen", "king"])
    'queen'
    """
    by_plain = {plain(name): name for name in _distinct(known)}
    match = difflib.get_close_matches(plain(word), list(by_plain), n=1, cutoff=0.5)
    return by_plain[match[0]] if match else None


def unknown(what: str, word: str, known: Iterable[str], where: str = "", guess: str | None = None) -> InputError:
    """The error for a word that no table knows: the nearest one, and all of them if they are few.

    Args:
        what: kind of thing that was asked for.
        word: what was asked for.
        known: all there is, by name.
        where: place in the input.
        guess: what is probably meant, where another nearness than that of letters counts.
    """
    names = _distinct(known)
    guess = guess or nearest(word, names)
    hint = f' Did you mean "{guess}"?' if guess else ""
    shown = names if len(names) <= LONGEST_LIST else _closest(word, names)
    label = "Known" if len(names) <= LONGEST_LIST else f"The nearest of {len(names)} known"
    return InputError(Fault(where, f'"{word}" is not a known {what}.{hint} {label}: {_listed(shown)}.'))


def _distinct(known: Iterable[str]) -> list[str]:
    """Names in order; of several spellings of one name the first stands."""
    first: dict[str, str] = {}
    for name in known:
        first.setdefault(plain(name), name)
    return list(first.values())


def _listed(names: list[str]) -> str:
    return ("; " if any("," in name for name in names) else ", ").join(names)


def _closest(word: str, names: list[str]) -> list[str]:
    found = difflib.get_close_matches(plain(word), [plain(name) for name in names], n=SHOWN, cutoff=0.3)
    return [name for name in names if plain(name) in found] or names[:SHOWN]


@lru_cache(maxsize=1024)
def plain(text: str) -> str:
    """A name without case, spaces, dots and dashes, so that "SPF South" meets "spf-south"."""
    return "".join(sign for sign in text.lower() if sign.isalnum() or sign in "/#")
