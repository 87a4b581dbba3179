"""How much one person should lift, and how many people a turn takes.

The revised lifting equation was made for repeated two-handed lifts by one person; here it tells what share of a bed
frame is light enough. That use is our own choice.
"""

from __future__ import annotations

from math import ceil
from typing import Literal

from tutorial_lib.records import dataclass

LOAD = 51  # [lb] load constant
LONG = 72  # [in] longer things are carried by two; common practice, no source
REACH = 15.0  # [in] hands before the ankles when lifting a frame's edge; our choice
WAIST = 30.0  # [in] where the edge is handed over or pushed on
COUPLING = {"good": 1.0, "fair": 0.95, "poor": 0.90}
LIFTERS = 2  # of a frame, at least: nobody lifts it alone (common practice, no source)


@dataclass(frozen=True)
class Lift:
    """One lift of a person."""

    horizontal: float  # [in] hands to the middle of the ankles
    vertical: float  # [in] hands above the floor at the start
    distance: float  # [in] hands travel up or down
    asymmetry: float = 0  # [degrees] turn of the body
    coupling: Literal["good", "fair", "poor"] = "fair"


@dataclass(frozen=True)
class Turn:
    """Tilting a frame over one of its long edges: the floor carries half, the hands the other half."""

    weight: float  # [lb] of all that turns
    share: float  # [lb] in the hands
    limit: float  # [lb] for one person
    people: int

    @property
    def index(self) -> float:
        """Lifting index of each person; over 1 the risk is raised."""
        return self.share / self.people / self.limit


def recommended(lift: Lift) -> float:
    """Recommended weight limit [lb].

    RWL = LC HM VM DM AM FM CM with one lift in five minutes at most (FM 1.0). DHHS (NIOSH) 94-110, revised 2021;
    AM, CM and the limits 25 in, 70 in, 135 degrees from memory.

    >>> round(recommended(Lift(23, 15, 48)), 1)
    16.0
    """
    return (
        LOAD
        * horizontal(lift.horizontal)
        * vertical(lift.vertical)
        * distance(lift.distance)
        * asymmetry(lift.asymmetry)
        * coupling(lift.coupling, lift.vertical)
    )


def horizontal(inches: float) -> float:
    """HM = 10/H, 1 up to 10 in, 0 beyond 25 in.

    >>> horizontal(8), horizontal(20), horizontal(26)
    (1.0, 0.5, 0.0)
    """
    return 0.0 if inches > 25 else min(1.0, 10 / max(inches, 10))


def vertical(inches: float) -> float:
    """VM = 1 - 0.0075 |V - 30|, 0 above 70 in.

    >>> vertical(30), vertical(10), vertical(71)
    (1.0, 0.85, 0.0)
    """
    return 0.0 if inches > 70 else 1 - 0.0075 * abs(inches - 30)


def distance(inches: float) -> float:
    """DM = 0.82 + 1.8/D, 1 up to 10 in, 0 beyond 70 in.

    >>> distance(10), round(distance(30), 2), distance(71)
    (1.0, 0.88, 0.0)
    """
    return 0.0 if inches > 70 else min(1.0, 0.82 + 1.8 / max(inches, 10))


def asymmetry(degrees: float) -> float:
    """AM = 1 - 0.0032 A, 0 beyond 135 degrees.

    >>> asymmetry(0), asymmetry(45), asymmetry(136)
    (1.0, 0.856, 0.0)
    """
    return 0.0 if degrees > 135 else 1 - 0.0032 * degrees


def coupling(hold: Literal["good", "fair", "poor"], height: float) -> float:
    """CM: fair hold counts as good from 30 in up."""
    return 1.0 if hold == "fair" and height >= 30 else COUPLING[hold]


def turn(weight: float, longest: float, edge: float) -> Turn:
    """People needed to turn a frame over.

    Args:
        weight: all that turns [lb].
        longest: length of the frame [in].
        edge: height of the lifted edge above the floor at the start [in].
    """
    limit = recommended(Lift(REACH, edge, max(0.0, WAIST - edge)))
    share = weight / 2
    return Turn(weight, share, limit, max(ceil(share / limit), 2 if longest > LONG else 1))
