"""What stands on every page, so that none is taken for another bed's: the mattress and a short mark of the build."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from fractions import Fraction

from tutorial_lib.design.build_file import to_toml
from tutorial_lib.design.options import Options, SaidOptions, YoursOptions
from tutorial_lib.measures import writer
from tutorial_lib.plan import Plan


def size(plan: Plan, both: bool = False) -> str:
    """The mattress the bed is for: "mattress 38 x 75 in"; below it in the other system where both are asked for."""
    return f"mattress {_size(plan, plan.build.mattress, both)}"


def version(options: Options) -> str:
    """A short mark that changes whenever the bed does: the first eight figures of its SHA-256."""
    bed = options.bed.model_copy(update={"yours": YoursOptions(), "said": SaidOptions()})
    return hashlib.sha256(to_toml(bed).encode()).hexdigest()[:8]


def outside(plan: Plan, both: bool = False) -> str:
    """The bed's own size: "outside 41 1/2 x 78 3/4 in"; below it in the other system where both are asked for."""
    return f"outside {_size(plan, plan.build.overall, both)}"


def _size(plan: Plan, size: Iterable[Fraction], both: bool) -> str:
    w = writer(plan.options.build.units)
    return "\n".join(each.size(*size) for each in ((w, w.other) if both else (w,)))
