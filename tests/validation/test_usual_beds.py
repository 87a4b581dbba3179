"""Usual beds once more: forces by a general FE library, what is allowed by hand, and the rating that comes of it.

King with two lines, queen on runners under the rail, steel legs with flanges, a full for a box spring, the file that
`new` writes. Hand formulas are written out here, in pounds and inches, for SPF No.2 (G .42, Fb 875).
"""

from __future__ import annotations

from functools import cache
from math import floor, sqrt
from pathlib import Path

import pytest

import tutorial_lib.cli
from tests.validation.frame import Frame
from tutorial_lib.design.build_file import read_build
from tutorial_lib.plan import Plan
from tutorial_lib.strength.response import REFERENCE, summed

FOLDER = Path(__file__).parents[2] / "assets" / "builds" / "gallery"
FILES = {
    "king": FOLDER / "king-two-lines.toml", "runners": FOLDER / "queen-runners-under-the-rail.toml",
    "tubes": FOLDER / "queen-tubes.toml", "box spring": FOLDER / "full-box-spring.toml",
    "new": Path(tutorial_lib.cli.__file__).with_name("new_build.toml"),
}  # fmt: skip
HARD, SHORT = 1.5, 1.6  # sitting down hard, and its duration factor

# ------------------------------------------------------------------ what is allowed, by hand


def screw_across(d: float, root: float, fyb: float, deep: float, side: float) -> float:
    """Z of a screw between equal woods: the six yield modes with Re 1, KD 2.2; half of a tip of 2 D carries nothing."""
    fe, lm = 3350.0, deep - d  # 16 600 x .42^1.84, to 50 psi
    rt = lm / side
    k1 = (sqrt(1 + 2 * (1 + rt + rt**2) + rt**2) - (1 + rt)) / 2
    k2, k3 = (sqrt(4 + 2 * fyb * root**2 / (fe * length**2)) - 1 for length in (lm, side))
    modes = (root * lm * fe, root * side * fe, k1 * root * side * fe, k2 * root * lm * fe / 3,
             k3 * root * side * fe / 3, root**2 * sqrt(fe * fyb / 3))  # fmt: skip
    return min(modes) / 2.2


def cleat_screw() -> float:
    """A #9 screw 1 1/4 deep through a 2x2: pulled .583 / .75 of what it carries across (Eq. 12.4-1)."""
    across, pull = screw_across(0.177, 0.142, 90000, 1.25, 1.5), 2850 * 0.42**2 * 0.177 * 1.25
    slope = (0.125 + 1.375 / 3) / 0.75
    cos2, sin2 = 1 / (1 + slope**2), slope**2 / (1 + slope**2)
    return pull * across / (pull * cos2 + across * sin2) * sqrt(cos2)


def two_bolts() -> float:
    """Two 3/8 in bolts, rail 1 1/2 across the grain on a post along it, mode IIIs, Rd 3.2 x 1.25."""
    em, es, d, ls = 4700.0, 2850.0, 0.375, 1.5  # 11 200 x .42; 6100 x .42^1.45 / sqrt(D)
    re = em / es
    k3 = sqrt(2 * (1 + re) / re + 2 * 45000 * (2 + re) * d**2 / (3 * em * ls**2)) - 1
    return 2 * k3 * d * ls * em / ((2 + re) * 4.0)


TIE = 2850 * 0.42**2 * 0.19 * 1.25  # a #10 screw pulled, 1 1/4 deep
FLAT_2X6 = 875 * 1.3 * 1.15 * 5.5 * 1.5**2 / 6  # [lb in]

# ------------------------------------------------------------------ forces, by finite elements


@cache
def _plan(name: str) -> Plan:
    return Plan(read_build(FILES[name].read_text(encoding="utf-8"), name))


class Forces:
    """One case of one bed, solved twice by the FE library: by itself, and with people of the reference weight."""

    def __init__(self, name: str, case: str) -> None:
        outcome = _plan(name).strength.outcome
        assert outcome is not None
        self.bed, self.grillage = outcome.bed, outcome.responder.grillage
        dead = outcome.responder.dead_load
        people = next(r.people for r in outcome.responses if r.case.key == case)
        loads = (dead, summed(dead, people, REFERENCE))
        self.frames = [Frame(self.grillage, load, self.grillage.settle(load)[0]) for load in loads]

    def _both(self, force) -> tuple[float, float]:
        """(of the bed, of each pound of a person)."""
        rest, all_ = map(force, self.frames)
        return rest, (all_ - rest) / REFERENCE

    def screw(self, kind: str) -> tuple[float, float]:
        """The worst link of one kind anywhere; ties pull."""
        sign = -1 if kind == "tie" else 1
        found = [
            self._both(lambda frame, n=n, i=i: sign * frame.carried(n, i))
            for n, line in enumerate(self.grillage.lines) for i, link in enumerate(line.links) if link.kind == kind
        ]  # fmt: skip
        return max(found, key=lambda force: force[0] + 200 * force[1])

    def leg(self, label: str) -> tuple[float, float]:
        """All that one leg carries."""
        links = [(n, i) for n, line in enumerate(self.grillage.lines) for i, link in enumerate(line.links)
                 if link.name == label and link.below is None]  # fmt: skip
        return self._both(lambda frame: sum(frame.carried(n, i) for n, i in links))

    def bending(self) -> tuple[float, float]:
        """The first centre line over its middle leg, by statics from its slats and its head leg [lb in]."""
        (number, line) = next((n, line) for n, line in enumerate(self.grillage.lines) if line.name == "line 1")
        head, middle = sorted((link.x, i) for i, link in enumerate(line.links))[:2]
        (bar,) = line.bars

        def moment(frame: Frame) -> float:
            own = bar.weight * (middle[0] - bar.start) ** 2 / 2 if frame.load.own else 0.0
            slats = sum(abs(frame.push(number, seat.slat)) * max(0.0, middle[0] - seat.x) for seat in line.seats)
            return slats + own - frame.carried(number, head[1]) * (middle[0] - head[0])

        return self._both(moment)


@cache
def _forces(name: str, case: str) -> Forces:
    return Forces(name, case)


def _cleat_screws(name: str, case: str) -> float:
    rest, each = _forces(name, case).screw("screw")
    return (SHORT * cleat_screw() - rest) / (HARD * each)


def _ties(name: str, case: str) -> float:
    rest, each = _forces(name, case).screw("tie")
    return (SHORT * TIE - rest) / (HARD * each)


def _bolts(name: str, case: str) -> float:
    rest, each = _forces(name, case).leg("L2")
    return (SHORT * two_bolts() - rest) / (HARD * each)


def _line(name: str, case: str) -> float:
    rest, each = _forces(name, case).bending()
    return (FLAT_2X6 - rest) / each


def _rocking(name: str, case: str) -> float:
    """Runners 3 in wide on their legs: 1.5 x (.1 x 2 P) x 13 5/8 = 1.5 x (239 + 2 P) lb in, across."""
    height, weight, half = 13.625, 239.0, 1.5
    return weight * half / (1.5 * 0.1 * 2 * height - 2 * half)


# bed: lying by, in case; sitting by, in case; the ratings
ROWS = {
    "king": ((_line, "left", "line-bending"), (_cleat_screws, "sit-right-foot", "cleat-screws"), 300, 240),
    "runners": ((_line, "middle", "line-bending"), (_rocking, "", "racking-sitting-across"), 300, 300),
    "tubes": ((_line, "middle", "line-bending"), (_ties, "sit-left-middle", "tie-screws"), 300, 300),
    "box spring": ((_line, "middle", "line-bending"), (_cleat_screws, "sit-left-foot", "cleat-screws"), 300, 210),
    "new": ((_line, "middle", "line-bending"), (_cleat_screws, "sit-left-foot", "cleat-screws"), 300, 300),
}


@pytest.mark.parametrize("name", ROWS)
def test_ratings(name: str) -> None:
    strong = _plan(name).strength
    *rows, lying, sitting = ROWS[name]
    ratings = zip(rows, (strong.lying, strong.sitting), (lying, sitting), strict=True)
    for (by_hand, case, key), rating, printed in ratings:
        person = by_hand(name, case)
        ours = min(use.holds for use in strong.uses if use.key == key and use.kind == rating.kind)
        assert ours == pytest.approx(person, rel=0.01)
        assert rating.pounds == printed == min(300, floor(person / 10) * 10)


@pytest.mark.parametrize("name", ["king", "box spring"])
def test_bolts(name: str) -> None:
    strong = _plan(name).strength
    ours = min(use.holds for use in strong.uses if use.key == "bolts" and use.kind == "sitting")
    assert ours == pytest.approx(_bolts(name, "sit-left-middle"), rel=0.01)
