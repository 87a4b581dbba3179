"""Will it hold, and which legs may go: loads, beams, members, joints and ratings."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from tutorial_lib.strength.demand import Demand, JointDemand, demand
    from tutorial_lib.strength.results import Strength, results

_HOME = {"Demand": "demand", "JointDemand": "demand", "demand": "demand", "Strength": "results", "results": "results"}
__all__ = ["Demand", "JointDemand", "Strength", "demand", "results"]


def __getattr__(name: str) -> Any:
    if name not in _HOME:
        raise AttributeError(name)
    from importlib import import_module

    return getattr(import_module(f"tutorial_lib.strength.{_HOME[name]}"), name)
