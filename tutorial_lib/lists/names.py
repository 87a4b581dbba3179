"""Names of joints and parts as a carpenter has them."""

from __future__ import annotations

from itertools import chain, product
from string import ascii_uppercase

from tutorial_lib.design.model import Build, Joint
from tutorial_lib.design.parts import LEG_KEYS, names_of

JOINTS = {
    "corner": "corner", "block": "corner block to rail", "post": "corner block to post",
    "bed_bolt": "post to rail's end",
    "batten": "batten to post", "panel": "headboard board", "panel_slat": "headboard slat",
    "upright": "upright to head rail", "cleat": "cleat to rail",
    "runner": "runner to rail", "runner_end": "runner end to end rail", "slat": "slat", "leg": "leg",
    "ply": "boards of a leg", "line": "centre line", "flange": "flange",
    "plinth": "plinth to leg",
}  # fmt: skip


def joint_name(table: str) -> str:
    """A joint by its table of the build file."""
    return JOINTS.get(table, table)


def name_of(build: Build, joint: Joint, table: str) -> str:
    """A joint by what it joins where its table holds several kinds: a slat ends on a cleat, a runner or a leg.

    Args:
        build: the bed.
        joint: the joint.
        table: its table of the build file.
    """
    if joint.kind == "slat_line":
        return "slat to centre line"
    near, far = (_called(build, label) for label in (joint.near, joint.far))
    if joint.kind in ("slat", "plinth"):
        return f"{'slat' if joint.kind == 'slat' else near} to {far}"
    on_line = joint.kind == "ply" and build.pieces[joint.near].use == "centre_leg"
    return "boards of a centre leg" if on_line else joint_name(table)


def _called(build: Build, label: str) -> str:
    """What a piece is, whatever its length and wherever a leg stands."""
    use = build.pieces[label].use
    return "leg" if use in LEG_KEYS else names_of(build.options)[use]


def letters(build: Build) -> dict[str, str]:
    """The letter of each part by its key, in the order of the parts list: A, B, ... Z, AA ...; what is made first."""
    there = [part for part in build.parts if part not in build.made]
    names = chain(ascii_uppercase, map("".join, product(ascii_uppercase, repeat=2)))
    return {part.key: name for part, name in zip((*build.made, *there), names, strict=False)}
