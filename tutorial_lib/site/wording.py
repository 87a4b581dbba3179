"""The page's own words, all in one file, so that others can translate them."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path


@cache
def every() -> dict[str, str]:
    """Every text of the page by its name."""
    with Path(__file__).with_name("data").joinpath("words.toml").open("rb") as file:
        return tomllib.load(file)


def say(name: str, **values: str) -> str:
    """A text of the page with its values put in.

    >>> say("was", value="14 in")
    'was 14 in'
    """
    return every()[name].format_map(values)
