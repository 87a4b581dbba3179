"""What stands on every page, so that none is taken for another bed's: the mattress and a short mark of the build."""

from __future__ import annotations

import hashlib

from tutorial_lib.design.build_file import to_toml
from tutorial_lib.design.options import Options, SaidOptions, YoursOptions
from tutorial_lib.measures import writer
from tutorial_lib.plan import Plan


def size(plan: Plan) -> str:
    """The mattress the bed is for: "mattress 38 x 75 in"."""
    w = writer(plan.options.build.units)
    return f"mattress {' x '.join(w.mark(x) for x in plan.build.mattress)} {w.units}"


def version(options: Options) -> str:
    """A short mark that changes whenever the bed does: the first eight figures of its SHA-256."""
    bed = options.bed.model_copy(update={"yours": YoursOptions(), "said": SaidOptions()})
    return hashlib.sha256(to_toml(bed).encode()).hexdigest()[:8]


def outside(plan: Plan) -> str:
    """The bed's own size: "outside 41 1/2 x 78 3/4 in"."""
    w = writer(plan.options.build.units)
    return f"outside {' x '.join(w.mark(x) for x in plan.build.overall)} {w.units}"
