"""Three beds worked by hand and by another grillage: every figure, with the tolerance beside it.

The bolts stand where the worked beds have them. Three figures are told apart: see ``APART``.
"""

from __future__ import annotations

import json
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest

from tutorial_lib.design.build_file import read_build
from tutorial_lib.design.platform_bed import design
from tutorial_lib.drilling import drill
from tutorial_lib.strength.joint_checks import ACROSS_GRAIN, JointChecks, across_grain
from tutorial_lib.strength.joints import capacity, slanted
from tutorial_lib.strength.names import leg_of
from tutorial_lib.strength.outcome import work_out
from tutorial_lib.strength.rating import kneeling_cap, least, rounded_down
from tutorial_lib.strength.result import results

FOLDER = Path(__file__).parents[1] / "data" / "worked"
BEDS = json.loads((FOLDER / "share.json").read_text(encoding="utf-8"))["beds"]
HALF, THREE = Fraction(3, 4), Fraction(3, 2)
STAGGERED = ((-HALF, HALF), (HALF, THREE))  # bolts of the first bed as it stands: (along from the leg's middle, down)
ROW = ((-HALF, THREE), (HALF, THREE))  # one row 1 1/2 below the leg's top
BOLTS = {"bed1.toml": STAGGERED, "bed3.toml": ROW}

# Where ours differ on purpose, with the reason.
APART = {
    ("bed1.toml", "may-go-L2"): "without L2 the ratings are the whole bed's: by the rule decided since it may go",
    ("bed3.toml", "tipping-along"): "the centre line's end leg stands nearer the bed's end than the side legs' edge",
    ("bed3.toml", "reaction-L3-rail"): "the row of cleat screws gets one more at the foot, beside that leg",
}


@cache
def _bed(name, bolts=None):
    """(build, fastenings, outcome) of one worked bed with its bolts where they were worked."""
    build = design(read_build((FOLDER / name).read_text(encoding="utf-8"), name))
    placed = bolts or BOLTS.get(name)
    found = tuple(_moved(build, f, placed) if placed and f.joint.fastener == "bolt" else f
                  for f in drill(build).fastenings)  # fmt: skip
    return build, found, work_out(build, found)


def _moved(build, fastening, places):
    """The bolts of one leg put at (along, down) from the middle of its top."""
    leg = next(leg for leg in build.legs if fastening.joint.far in leg.pieces)
    top = build.pieces[fastening.joint.far].box.hi[2]
    one = fastening.driven[0]
    driven = tuple(
        replace(one, head=(leg.x + along, one.head[1], top - down), tip=(leg.x + along, one.tip[1], top - down))
        for along, down in places
    )
    return replace(fastening, driven=driven)


@dataclass
class _Worked:
    """Our figure for every id of a worked bed."""

    name: str

    def __post_init__(self):
        self.build, self.fastenings, self.outcome = _bed(self.name)
        self.strong = results(self.build, self.fastenings)

    def figure(self, key):
        """Ours for one id."""
        for start, find in (
            ("geo-", self._geometry), ("reaction-", self._reaction), ("without-", self._without),
            ("may-go-", self._may_go), ("rating-", self._rating), ("unrounded-", self._unrounded),
            ("governs-", self._governs), ("moved-bolts-", self._with_row), ("racking-", self._use),
            ("bolts-slip-", self._slip), ("cleat-screws-strip-", self._strip), ("tipping-", self._tipping),
        ):  # fmt: skip
            if key.startswith(start):
                return find(key.removeprefix(start)) if start != "racking-" else self._use(key)
        single = getattr(self, "_" + key.replace("-", "_"), None)
        return single() if single is not None else self._use(key)

    # Checks.

    def _use(self, key):
        return max(use.ratio for use in self.outcome.uses if self._key(use) == key)

    @staticmethod
    def _key(use):
        if use.key in ("kneeling", "bare-315") or use.what == "racking":
            return use.key
        kind = "hard" if use.case.hard else use.kind
        return f"{use.key}-{kind}"

    # Geometry and loads.

    def _geometry(self, key):
        build, places = self.build, self.outcome.bed.places
        if key.startswith("legs-"):
            xs = [float(leg.x) for leg in build.legs if leg.line == key.removeprefix("legs-")]
            return xs[1] - xs[0]
        seat = build.lines[0].seat
        ys = self.outcome.bed.slat_beam.lines
        return {
            "opening-width": float(build.opening[0]), "opening-length": float(build.opening[1]),
            "outside-width": float(build.outside[0]), "outside-length": float(build.outside[1]),
            "slats": build.slats.count, "pitch": places[1] - places[0],
            "bearing": float(seat[1] - seat[0] - build.options.slats.play), "span": ys[1] - ys[0],
            "slat-top": float(build.heights.slat_top),
        }[key]  # fmt: skip

    def _load_dead(self):
        return self.outcome.weight

    def _load_person(self):
        return self.outcome.person

    def _reaction(self, key):
        label, _, part = key.partition("-")
        person = self.outcome.person
        loads = [load for load in self.outcome.leg_loads() if load.leg.label == label]
        if not part:
            # our lying-in-one-half case presses the outer centre legs a little more than the worked middle case
            return max(load.whole.dead + person * load.whole.live for load in loads)
        worst = max(loads, key=lambda load: load.whole.at(person))
        if self.build.options.support.kind == "cleats":
            return worst.beside.dead + person * worst.beside.live
        number = next(i for i, line in enumerate(self.outcome.bed.lines) if line.name == worst.leg.line)
        line = self.outcome.lines.lines[number]
        link = next(i for i, k in enumerate(line.links) if k.kind == "touch" and k.name == label)
        response = next(r for r in self.outcome.responses if r.cases == worst.cases)
        return response.dead.carried[number][link] + person * response.live.carried[number][link]

    # Fasteners.

    def _known(self, kind):
        fastening = next(f for f in self.fastenings if f.joint.kind == kind)
        return fastening, capacity(self.build, fastening)

    def _bolt_Z(self):
        _, known = self._known("leg")
        return known.lateral / self._bolt_Cdelta()

    def _bolt_Cdelta(self):
        _, known = self._known("leg")
        return 1.0 if known.geometry is None else known.geometry.factor

    def _bolt_rows(self):
        fastening, _ = self._known("leg")
        xs = [float(d.head[0]) for d in fastening.driven]
        return max(xs) - min(xs)

    def _cleat_screw_penetration(self):
        return float(self._known("cleat")[0].penetration)

    def _cleat_screw_Z(self):
        return self._known("cleat")[1].lateral

    def _cleat_screw_W(self):
        return self._known("cleat")[1].pull

    def _cleat_screw_tan(self):
        return JointChecks(self.outcome.lines).slope(self._known("cleat")[0].joint)

    def _cleat_screw_factor(self):
        known, slope = self._known("cleat")[1], self._cleat_screw_tan()
        return known.lateral / slanted(known.pull, known.lateral, slope)

    def _tie_penetration(self):
        return float(self._known("runner")[0].penetration)

    def _tie_W(self):
        return self._known("runner")[1].pull

    def _cross_limit(self):
        return min(self.outcome.bed.slat.wood.Fv / 3, ACROSS_GRAIN / 3)

    def _cross_S(self):
        leg = leg_of(self.build, "L1")
        limit = across_grain(135.0, float(leg.size[0]) + 2 * self.outcome.bed.reach(leg), 1.5)
        return limit.value / 45

    def _slat_over_leg(self):
        leg = leg_of(self.build, "L1")
        return float(self.build.lines[0].y) - float(leg.y + leg.size[1] / 2)

    def _slip(self, key):
        """The rail's own share, with slip springs, against its bolts."""
        _, known = self._known("leg")
        found = []
        for load in self.outcome.leg_loads():
            for case in load.cases:
                if ("hard" if case.hard else case.kind) == key:
                    beside = load.beside.times(case.times)
                    found.append(beside.at(self.outcome.person) / (2 * known.lateral * case.duration))
        return max(found)

    def _strip(self, key):
        """A cleat's screw by the strip it stands in."""
        fastening, known = self._known("cleat")
        one = slanted(known.pull, known.lateral, self._cleat_screw_tan())
        places = sorted(float(d.head[0]) for d in fastening.driven)
        spacing, pitch = places[1] - places[0], self._geometry("pitch")
        found = []
        for response in self.outcome.responses:
            for case in response.cases:
                if ("hard" if case.hard else case.kind) == key:
                    pushes = zip(response.dead.pushes[0], response.live.pushes[0], strict=True)
                    push = max(d + case.times * e * self.outcome.person for d, e in pushes)
                    found.append(push * spacing / pitch / one / case.duration)
        return max(found)

    # The bed.

    def _sag(self):
        return self.outcome.sag.value

    def _kneeling_cap(self):
        return float(rounded_down(kneeling_cap(self.outcome.uses), "in"))

    def _tipping(self, key):
        if key == "on-rail":
            weight, half = self.outcome.weight, float(self.build.outside[0]) / 2
            edge = min(float(leg.y - leg.size[1] / 2) for leg in self.build.legs)
            return weight * (half - edge) / (2 * self.outcome.person * (edge - 0.75))
        seats = {"across": "edge", "along": "foot edge"}
        found = [t for t in self.outcome.tippings if (key == "across") == ("left edge" in t.name or "right" in t.name)]
        assert found and seats[key]
        return -max(t.outside for t in found)

    def _rating(self, kind):
        return float(getattr(self.strong, kind).pounds)

    def _unrounded(self, kind):
        return getattr(self.strong, kind).exact

    def _governs(self, kind):
        rating = getattr(self.strong, kind)
        return "cap" if rating.capped == "the highest we give" else rating.governing.key

    def _without(self, key):
        label, _, kind = key.partition("-")
        less, whole = self.outcome.without(label), self.strong
        return float(least(getattr(less, kind), getattr(whole, kind)).pounds)

    def _may_go(self, label):
        return next(e for e in self.strong.legs if e.leg.label == label).word == "may go"

    def _with_row(self, key):
        _, _, moved = _bed(self.name, ROW)
        return float(getattr(moved, key.removeprefix("rating-")).pounds)


@cache
def _worked(name):
    return _Worked(name)


@pytest.mark.parametrize(
    ("name", "known"),
    [(bed["build"], figure) for bed in BEDS for figure in bed["figures"]],
    ids=[f"{bed['build'][:4]}-{figure['id']}" for bed in BEDS for figure in bed["figures"]],
)
def test_every_worked_figure(name, known):
    ours = _worked(name).figure(known["id"])
    if (name, known["id"]) in APART:
        assert ours != pytest.approx(known["value"], rel=0.05)
    elif isinstance(known["value"], str | bool):
        assert ours == known["value"]
    else:
        tolerance = known["tolerance"] + 5e-4  # the tolerances of the steps are themselves rounded
        assert ours == pytest.approx(known["value"], rel=tolerance, abs=1e-9)


def test_all_figures_are_there():
    assert sum(len(bed["figures"]) for bed in BEDS) == 307
