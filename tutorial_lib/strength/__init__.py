"""Will it hold, and which legs may go: one frame of all members and joints, and ratings."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from tutorial_lib.strength.demands import Demand, demand
    from tutorial_lib.strength.result import Strength, results

_HOME = {"Demand": "demands", "demand": "demands", "Strength": "result", "results": "result"}
__all__ = ["Demand", "Strength", "demand", "results"]


def __getattr__(name: str) -> Any:
    if name not in _HOME:
        raise AttributeError(name)
    from importlib import import_module

    return getattr(import_module(f"tutorial_lib.strength.{_HOME[name]}"), name)
