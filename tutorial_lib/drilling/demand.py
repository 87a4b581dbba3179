"""What drilling asks of the loads and of a fastener's worth; both are handed in, neither is imported."""

from __future__ import annotations

from typing import Protocol

from tutorial_lib.design.fasteners import Fastener, Fastening
from tutorial_lib.design.model import Joint


class Demand(Protocol):
    """Loads on joints, as far as drilling asks."""

    def spacing(self, joint: Joint, lateral: float, pull: float) -> float:
        """Widest screw spacing [in] for a long joint, given one screw's values [lb]; infinite when unloaded."""


class Holding(Protocol):
    """The worth of one fastener at duration factor 1: (lateral, withdrawal) [lb]."""

    def __call__(self, fastener: Fastener, near: float, penetration: float, gravity: float, end_grain: bool
                 ) -> tuple[float, float]: ...


def widest(demand: Demand | None, holding: Holding | None, fastening: Fastening, gravity: float) -> float:
    """The widest spacing the load allows [in]; infinite when load or worth is not known.

    Args:
        demand: loads on joints, or None.
        holding: a fastener's worth, or None.
        fastening: a long joint with its fastener; where it is driven does not matter.
        gravity: specific gravity of the wood.
    """
    if demand is None or holding is None:
        return float("inf")
    lateral, pull = holding(fastening.fastener, float(fastening.near_thickness), float(fastening.penetration), gravity,
                            fastening.joint.end_grain)
    return demand.spacing(fastening.joint, lateral, pull) if lateral > 0 and pull > 0 else float("inf")
