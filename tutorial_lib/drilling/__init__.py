"""Fasteners chosen and placed, the holes for them, what meets what, and how many to buy."""

import importlib
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tutorial_lib.drilling.access import DriverRoom as DriverRoom
    from tutorial_lib.drilling.access import reach as reach
    from tutorial_lib.drilling.bed import Drilling as Drilling
    from tutorial_lib.drilling.bed import drill as drill

_PUBLIC = {
    "Drilling": "tutorial_lib.drilling.bed",
    "drill": "tutorial_lib.drilling.bed",
    "reach": "tutorial_lib.drilling.access",
    "DriverRoom": "tutorial_lib.drilling.access",
}

__all__ = sorted(_PUBLIC)


def __getattr__(name: str) -> object:
    """Import a public name the first time it is asked for."""
    if name not in _PUBLIC:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(importlib.import_module(_PUBLIC[name]), name)
