"""Our frame as members and springs of a general structural FE library (PyNite, MIT)."""

from __future__ import annotations

from itertools import pairwise

import pytest

from tutorial_lib.strength.halves import HalvedSlat
from tutorial_lib.strength.lines import SAME

Pynite = pytest.importorskip("Pynite")
CONTACT = 1e8  # [lb/in] slat to line; ours is rigid


class Frame:
    """The bed in the FE library under one load, in our state of open contacts."""

    def __init__(self, grillage, load, state):
        self.fe, self.grillage, self.load = Pynite.FEModel3D(), grillage, load
        self.fe.add_material("wood", 1e6, 1e6 / 16, 0.3, 0.0)
        self.springs = {}
        for number, line in enumerate(grillage.lines):
            self._bars(number, line)
            self._links(number, line, state.lines[number])
        for slat in range(grillage.count):
            self._slat(slat, state)
        self.fe.analyze_linear(check_stability=False)

    def _member(self, name, a, b, stiffness, weight):
        self.fe.add_section(name, 1.0, 1.0, stiffness / 1e6, 1e-5)
        self.fe.add_member(name, a, b, "wood", name)
        if weight:
            self.fe.add_member_dist_load(name, "FY", -weight, -weight)

    def _bars(self, number, line):
        own = 1.0 if self.load.own else 0.0
        for bar, board in enumerate(line.bars):
            wanted = {board.start, board.end}
            wanted |= {link.x for link in line.links if bar in (link.bar, link.below)}
            wanted |= {seat.x for seat in line.seats if seat.bar == bar} | {w.x for w in line.weights if w.bar == bar}
            xs = [x for x, before in zip(sorted(wanted), [-9, *sorted(wanted)], strict=False) if x - before > SAME]
            for x in xs:
                name = f"{number}.{bar}@{x}"
                self.fe.add_node(name, x, -10.0 * bar, line.y)
                self.fe.def_support(name, True, False, True, True, True, False)
            for a, b in pairwise(xs):
                self._member(f"{number}.{bar} {a}", f"{number}.{bar}@{a}", f"{number}.{bar}@{b}", board.stiffness,
                             own * board.weight)  # fmt: skip
            for hung in line.weights:
                if hung.bar == bar:
                    self.fe.add_node_load(self._node(number, bar, hung.x), "FY", -own * hung.load)

    def _node(self, number, bar, x):
        prefix = f"{number}.{bar}@"
        return min((n for n in self.fe.nodes if n.startswith(prefix)), key=lambda n: abs(float(n.split("@")[1]) - x))

    def _links(self, number, line, opened):
        for i, link in enumerate(line.links):
            if i in opened:
                continue
            upper = self._node(number, link.bar, link.x)
            if link.below is None:
                lower = f"ground {number}.{i}"
                self.fe.add_node(lower, link.x, -100.0 - i, line.y)
                self.fe.def_support(lower, True, True, True, True, True, True)
            else:
                lower = self._node(number, link.below, link.x)
            self.fe.add_spring(f"link {number}.{i}", upper, lower, link.stiffness)

    def _slat(self, slat, state):
        known = self.grillage.slat
        ys = [(known.start, f"s{slat} a"), *((y, f"s{slat}@{k}") for k, y in enumerate(known.lines)),
              (known.end, f"s{slat} b")]  # fmt: skip
        for y, name in ys:
            self.fe.add_node(name, 0.0, 50.0, y)  # moved over its seat below: x is no matter for a slat
            self.fe.def_support(name, True, False, True, False, True, True)
        for (y0, a), (y1, b) in pairwise(ys):
            name = f"s{slat} {y0:.3f}"
            self._member(name, a, b, known.stiffness, 0.0)
            if isinstance(known, HalvedSlat) and y0 == known.lines[1]:  # the second half turns freely over the line
                self.fe.def_releases(name, Rzi=True)
            for pounds, spread in self.load.on_slats[slat]:
                lo, hi = max(y0, spread.a), min(y1, spread.b)
                if hi > lo:
                    w = -pounds / (spread.b - spread.a)
                    self.fe.add_member_dist_load(name, "FY", w, w, lo - y0, hi - y0)
        for number, line in enumerate(self.grillage.lines):
            if (slat, number) in state.lifted:
                continue
            for k, seat in enumerate(s for s in line.seats if s.slat == slat):
                self._seat(slat, number, line, seat, k)

    def _seat(self, slat, number, line, seat, k):
        """A slat on one seat of one line, straight above it."""
        name = f"push {number}.{slat}.{k}"
        below = f"top {number}.{slat}.{k}" if seat.bar is None else self._node(number, seat.bar, seat.x)
        if seat.bar is None:  # the leg itself carries it: as good as the ground
            self.fe.add_node(below, seat.x, -200.0, line.y)
            self.fe.def_support(below, True, True, True, True, True, True)
        for node in (f"s{slat} a", f"s{slat} b", *(f"s{slat}@{i}" for i in range(len(self.grillage.lines)))):
            self.fe.nodes[node].X = self.fe.nodes[below].X
        self.fe.add_spring(name, f"s{slat}@{number}", below, CONTACT * seat.share)

    def push(self, number, slat):
        """What a slat presses on a line [lb]."""
        names = (f"push {number}.{slat}.{k}" for k in range(2))  # a slat across two boards has two seats
        return sum(abs_force(self.fe, name) for name in names if name in self.fe.springs)

    def carried(self, number, link):
        """What a link carries [lb]."""
        name = f"link {number}.{link}"
        return abs_force(self.fe, name) if name in self.fe.springs else 0.0


def abs_force(fe, name):
    """Push in an upright spring [lb], pull negative."""
    spring = fe.springs[name]
    upper, lower = spring.i_node.DY["Combo 1"], spring.j_node.DY["Combo 1"]
    return spring.ks * (lower - upper)
