"""Facts of a bed that comes apart again: into how many parts, how large, by undoing what."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from tutorial_lib.facts.fact import Fact
from tutorial_lib.facts.teller import Teller

if TYPE_CHECKING:
    from tutorial_lib.assembly.knock_down import KnockDown


def facts(tell: Teller, apart: KnockDown) -> Iterator[Fact]:
    """All facts of the bed taken apart; slats are carried one by one."""
    told = ("part", "module", "piece")
    names = ", ".join(module.name for module in apart.modules)
    yield tell.count("knock_down.parts", len(apart.modules), "part_count", "parts it comes apart into, slats aside",
                     names, said=told)  # fmt: skip
    undone = sum(count for _, count in apart.opened) + apart.brackets
    if undone:
        yield tell.count("knock_down.undone", undone, "screw_count", "bolts, screws and brackets to undo",
                         ", ".join(f"{count} x {name}" for name, count in apart.opened), said=("undo",))  # fmt: skip
    if apart.hooks:
        yield tell.count("knock_down.hooks", apart.hooks, "joint_count", "side rails' ends to lift out of their hooks",
                         "two of each rail", said=("hook",))  # fmt: skip
    largest = apart.modules[0]
    yield tell.length("knock_down.longest", max(largest.size), "length", f"longest part, the {largest.name}",
                      "the box about it", said=told)  # fmt: skip
    heaviest = max(apart.modules, key=lambda module: module.weight)
    yield tell.measure("weight", "knock_down.heaviest", heaviest.weight, "weight",
                       f"heaviest part, the {heaviest.name}", "volume × density", said=())  # fmt: skip
