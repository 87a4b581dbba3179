"""Names of joints and fasteners as a shop or a carpenter has them."""

from __future__ import annotations

from fractions import Fraction
from itertools import chain, product
from string import ascii_uppercase

from tutorial_lib.design.fasteners import Fastener
from tutorial_lib.design.model import Build
from tutorial_lib.measures import Writer

JOINTS = {
    "corner": "corner", "cleat": "cleat to rail", "runner": "runner to rail", "slat": "slat end", "leg": "leg",
    "ply": "boards of a leg", "line": "centre line", "flange": "flange",
}  # fmt: skip


def joint_name(table: str) -> str:
    """A joint by its table of the build file."""
    return JOINTS.get(table, table)


def fastener_name(w: Writer, fastener: Fastener) -> str:
    """A screw or bolt as asked for in a shop: "#9 x 2 1/2 in wood screw"."""
    if fastener.gauge:
        return f"{w.screw(fastener.gauge, fastener.length)} {fastener.kind}"
    diameter = Fraction(fastener.diameter).limit_denominator(1000)
    if fastener.own_data:  # stated by its own data: its shank is no size of a series
        return f"{w.stated(diameter)} x {w.length(fastener.length)} {fastener.kind}"
    return f"{w.bolt(diameter, fastener.length)} {fastener.kind}"


def letters(build: Build) -> dict[str, str]:
    """The letter of each part by its key, in the order of the parts list: A, B, ... Z, AA ..."""
    names = chain(ascii_uppercase, map("".join, product(ascii_uppercase, repeat=2)))
    return {part.key: name for part, name in zip(build.parts, names, strict=False)}
