"""Cutting: the cheapest boards, proven; how each is cut; what a person does at the saw."""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tutorial_lib.cutting.bed import BedCutting, cut_bed
    from tutorial_lib.cutting.boards import Board, CutPlan, PieceDemand, Stock
    from tutorial_lib.cutting.certificate import Certificate, check
    from tutorial_lib.cutting.enough import comes_out
    from tutorial_lib.cutting.parts_list import cut_lists
    from tutorial_lib.cutting.planner import faults, plan_cuts

# Public name -> its module; resolved on first use, so that the pure parts load without a solver.
_PUBLIC = {
    "BedCutting": "bed",
    "Board": "boards",
    "Certificate": "certificate",
    "CutPlan": "boards",
    "PieceDemand": "boards",
    "Stock": "boards",
    "check": "certificate",
    "comes_out": "enough",
    "cut_bed": "bed",
    "cut_lists": "parts_list",
    "faults": "planner",
    "plan_cuts": "planner",
}

__all__ = [
    "BedCutting",
    "Board",
    "Certificate",
    "CutPlan",
    "PieceDemand",
    "Stock",
    "check",
    "comes_out",
    "cut_bed",
    "cut_lists",
    "faults",
    "plan_cuts",
]


def __getattr__(name: str) -> object:
    """Imports a public name the first time it is asked for."""
    if name not in _PUBLIC:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(importlib.import_module(f"{__name__}.{_PUBLIC[name]}"), name)
