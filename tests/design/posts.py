"""The gallery's queen on corner posts, and the same with some keys changed."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from tutorial_lib.design.build_file import change, read_build
from tutorial_lib.design.options import Options

QUEEN = Path(__file__).parents[2] / "assets" / "builds" / "gallery" / "queen-corner-posts.toml"
HOOKS = {"posts.joint": "hooks", "posts.blocks": None}


@cache
def queen() -> Options:
    return read_build(QUEEN.read_text(encoding="utf-8"), QUEEN.name)


@cache
def box_spring() -> Options:
    """The gallery's full under a box spring: rails that meet, for a headboard that is bolted on."""
    path = QUEEN.with_name("full-box-spring.toml")
    return read_build(path.read_text(encoding="utf-8"), path.name)


def on_posts(**keys: Any) -> Options:
    """The queen with some keys changed; a double underscore stands for the dot."""
    return change(queen(), {key.replace("__", "."): value for key, value in keys.items()})


def hooked(**keys: Any) -> Options:
    """The same with bed-rail hooks in place of blocks."""
    return change(on_posts(**keys), HOOKS)


def bolted(**keys: Any) -> Options:
    """The same with bolts in barrel nuts."""
    return change(on_posts(**keys), {"posts.joint": "barrel nuts", "posts.blocks": None})
