"""Names of joints and parts as a carpenter has them."""

from __future__ import annotations

from itertools import chain, product
from string import ascii_uppercase

from tutorial_lib.design.model import Build

JOINTS = {
    "corner": "corner", "block": "corner block to rail", "post": "corner block to post",
    "bed_bolt": "post to rail's end",
    "batten": "batten to post", "panel": "headboard board", "panel_slat": "headboard slat",
    "upright": "upright to head rail", "cleat": "cleat to rail",
    "runner": "runner to rail", "runner_end": "runner end to end rail", "slat": "slat end", "leg": "leg",
    "ply": "boards of a leg", "line": "centre line", "flange": "flange",
    "plinth": "plinth to leg",
}  # fmt: skip


def joint_name(table: str) -> str:
    """A joint by its table of the build file."""
    return JOINTS.get(table, table)


def letters(build: Build) -> dict[str, str]:
    """The letter of each part by its key, in the order of the parts list: A, B, ... Z, AA ...; what is made first."""
    there = [part for part in build.parts if part not in build.made]
    names = chain(ascii_uppercase, map("".join, product(ascii_uppercase, repeat=2)))
    return {part.key: name for part, name in zip((*build.made, *there), names, strict=False)}
