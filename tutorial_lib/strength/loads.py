"""Load cases by name: what each stands for, where its figure comes from and how long it lasts.

All are per pound of one person; people are an input (``load.person``, ``load.people``). Figures marked "our choice"
have no published source.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Literal

from tutorial_lib.design.model import Build
from tutorial_lib.design.on_top import mattress_place
from tutorial_lib.measures import writer
from tutorial_lib.records import dataclass

Kind = Literal["lying", "sitting", "standing", "bare", "end rail", "moving"]
DURATION: dict[Kind, float] = {
    "lying": 1.0,
    "sitting": 1.15,
    "standing": 1.25,
    "bare": 1.6,
    "end rail": 1.15,
    "moving": 1.6,
}
HARD, HARD_DURATION = 1.5, 1.6  # sitting down hard: times sitting, and its duration factor; our choice
KNEE = 0.4  # share of a person that reaches one slat through a mattress; our choice
BARE = 315.0  # [lb] on a bare slat: the 1400 N point of a European bed test, secondary source
SEAT = (36.0, 8.0)  # [in] people side by side on the edge, along and across; our choice
SLEEPER = (60.0, 20.0)  # [in] what one sleeper covers, along and across; our choice
PUSH: dict[str, float] = {"lying": 0.05, "sitting": 0.10}  # sideways, of the people's weight; our choice
MOVING_SHARE, MOVING_LEAST = 0.4, 100.0  # push on the empty bed: of its weight with mattress, at least [lb]; our choice
SAFETY = 1.5  # against racking and tipping; our choice


@dataclass(frozen=True)
class Patch:
    """A load spread evenly over a rectangle of the deck."""

    x: tuple[float, float]  # [in]
    y: tuple[float, float]  # [in]
    load: float  # [lb], or pounds per pound of a person

    @property
    def middle(self) -> tuple[float, float]:
        """Where its sum acts [in]."""
        return (self.x[0] + self.x[1]) / 2, (self.y[0] + self.y[1]) / 2


@dataclass(frozen=True, kw_only=True)
class Case:
    """One thing people do on the bed."""

    key: str
    name: str
    kind: Kind
    stands_for: str
    source: str
    duration: float
    people: tuple[Patch, ...] = ()  # pounds per pound of a person
    times: float = 1.0  # 1.5 for sitting down hard

    @property
    def hard(self) -> bool:
        """True for sitting down hard."""
        return self.times > 1


def cases(build: Build) -> tuple[Case, ...]:
    """Lying and sitting, each with its duration factor; ``load.careful`` sets all of them to 1.0."""
    found = (*_lying(build), *_sitting(build))
    return tuple(replace(case, duration=1.0) for case in found) if build.options.load.careful else found


def hard(case: Case, *, careful: bool) -> Case:
    """The same people, sitting down hard."""
    return replace(
        case,
        key=f"{case.key}-hard",
        name=case.name.replace("sitting", "sitting down hard", 1),
        duration=1.0 if careful else HARD_DURATION,
        times=HARD,
    )


def deck(build: Build) -> Patch:
    """The mattress, with what it and the bedding weigh."""
    (x0, x1), (y0, y1) = mattress_place(build)
    weight = float(build.options.load.mattress + build.options.load.bedding)
    return Patch((float(x0), float(x1)), (float(y0), float(y1)), weight)


def _lying(build: Build) -> tuple[Case, ...]:
    """People asleep, as long as a sleeper wherever they lie: in one half too, where it tells more than its full length.

    Spread over the bed's whole length they would press less on what carries the middle.
    """
    bed, people = deck(build), float(build.options.load.people)
    (mid, across), (y0, y1) = bed.middle, bed.y
    body = (max(bed.x[0], mid - SLEEPER[0] / 2), min(bed.x[1], mid + SLEEPER[0] / 2))
    wide = min(SLEEPER[1], (y1 - y0) / 2) / 2
    long = writer(build.options.build.units).length(Fraction(SLEEPER[0]))
    size = _size(build, SLEEPER[1], SLEEPER[0])

    def strip(y: float, load: float, half: float = wide) -> Patch:
        return Patch(body, (max(y0, y - half), min(y1, y + half)), load)

    quarter = (y1 - y0) / 4
    apart = (strip(y0 + quarter, people / 2), strip(y1 - quarter, people / 2))
    middle = (strip(across, people, SLEEPER[1] / 2),)

    def case(key: str, name: str, means: str, *patches: Patch) -> Case:
        return Case(
            key=key, name=name, kind="lying", stands_for=means, duration=DURATION["lying"], people=patches,
            source=f"eight hours a night count as normal duration; the strip of {size} is our choice",
        )  # fmt: skip

    all_ = "lying, all" if people > 1 else "lying"
    together = (
        case("middle", f"{all_} in the middle", f"everyone together on a strip {size} along the middle", *middle),
        case("left", f"{all_} in the left half", f"everyone in the left half, {long} long",
             Patch(body, (y0, across), people)),
        case("right", f"{all_} in the right half", "everyone in the right half", Patch(body, (across, y1), people)),
    )  # fmt: skip
    if people == 1:
        return together
    halves = "everyone asleep, half of them in each half of the bed"
    return (case("apart", "lying, each in one half", halves, *apart), *together)


def _size(build: Build, a: float, b: float) -> str:
    """Two sizes [in] in the plan's units: "20 x 60 in"."""
    w = writer(build.options.build.units)
    return f"{w.mark(Fraction(a))} x {w.length(Fraction(b))}"


# key, place, share of the bed's length
SEATS = (("head", "near the head", 0.25), ("middle", "at the middle", 0.5), ("foot", "near the foot", 0.75))


def _sitting(build: Build) -> tuple[Case, ...]:
    bed, people = deck(build), float(build.options.load.people)
    (x0, x1), (y0, y1) = bed.x, bed.y
    found = []
    for side, y in (("left", (y0, min(y1, y0 + SEAT[1]))), ("right", (max(y0, y1 - SEAT[1]), y1))):
        for key, place, share in SEATS:
            at = x0 + (x1 - x0) * share
            seat = (max(x0, at - SEAT[0] / 2), min(x1, at + SEAT[0] / 2))
            found.append(
                Case(
                    key=f"sit-{side}-{key}",
                    name=f"sitting on the {side} edge {place}",
                    kind="sitting",
                    stands_for=f"everyone side by side on {_size(build, *SEAT)} of the edge",
                    source="the seat's size is our choice; weeks in all, so 1.15",
                    duration=DURATION["sitting"],
                    people=(Patch(seat, y, people),),
                )
            )
    return tuple(found)


def foot_seats(build: Build) -> tuple[Patch, ...]:
    """Everyone on the middle of the head or foot edge of the mattress, per pound of a person: for tipping alone."""
    bed, people = deck(build), float(build.options.load.people)
    (x0, x1), (_, across) = bed.x, bed.middle
    y = (max(bed.y[0], across - SEAT[0] / 2), min(bed.y[1], across + SEAT[0] / 2))
    return Patch((x0, x0 + SEAT[1]), y, people), Patch((x1 - SEAT[1], x1), y, people)
