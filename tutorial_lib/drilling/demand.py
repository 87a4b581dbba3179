"""What drilling asks of the loads and of a fastener's worth; both are handed in, neither is imported."""

from __future__ import annotations

from typing import Protocol

from tutorial_lib.design.fasteners import Fastener, Fastening
from tutorial_lib.design.model import Joint


class Demand(Protocol):
    """Loads on joints, as far as drilling asks."""

    def spacing(self, joint: Joint, lateral: float, pull: float) -> float:
        """Widest screw spacing [in] for a long joint, given one screw's values [lb]; infinite when unloaded."""

    def count(self, joint: Joint, lateral: float, pull: float) -> int:
        """Least even count of fasteners for a small joint, given one fastener's values [lb]; 2 when unloaded."""

    def upright(self, fastening: Fastening) -> bool:
        """True when legs fastened like this hold the bed upright against a sideways push."""


class Holding(Protocol):
    """The worth of one fastener at duration factor 1: (lateral, withdrawal) [lb]."""

    def __call__(
        self, fastener: Fastener, near: float, penetration: float, gravity: float, end_grain: bool
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
    lateral, pull = _worth(holding, fastening, gravity)
    return demand.spacing(fastening.joint, lateral, pull) if lateral > 0 and pull > 0 else float("inf")


def least_count(demand: Demand | None, holding: Holding | None, fastening: Fastening, gravity: float) -> int:
    """How many fasteners the load asks for on a small joint; 2 when load or worth is not known."""
    if demand is None or holding is None:
        return 2
    lateral, pull = _worth(holding, fastening, gravity)
    return demand.count(fastening.joint, lateral, pull) if lateral > 0 else 2


def _worth(holding: Holding, fastening: Fastening, gravity: float) -> tuple[float, float]:
    screw, near = fastening.fastener, float(fastening.near_thickness)
    return holding(screw, near, float(fastening.penetration), gravity, fastening.joint.end_grain)
