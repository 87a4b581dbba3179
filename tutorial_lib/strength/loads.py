"""Load cases by name: what each stands for, where its figure comes from and how long it lasts.

People are an input (``load.person``, ``load.people``). Figures marked "our choice" have no published source.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from tutorial_lib.design.model import Build
from tutorial_lib.strength.working import figure

Kind = Literal["dead", "lying", "sitting", "standing", "bare", "end rail", "moving"]
DURATION: dict[Kind, float] = {
    "dead": 1.0,
    "lying": 1.0,
    "sitting": 1.15,
    "standing": 1.25,
    "bare": 1.6,
    "end rail": 1.15,
    "moving": 1.6,
}
THROUGH_MATTRESS = 0.4  # share of a knee's or foot's load that reaches one slat through a mattress; our choice
SEAT = (36.0, 8.0)  # [in] two people side by side on the edge, along and across; our choice
STRIP = (60.0, 20.0)  # [in] a body lying, along and across; our choice


@dataclass(frozen=True)
class Patch:
    """A load spread evenly over a rectangle of the deck."""

    x: tuple[float, float]  # [in]
    y: tuple[float, float]  # [in]
    load: float  # [lb]


@dataclass(frozen=True)
class Case:
    """One load case: what people do, with its duration factor."""

    key: str
    name: str
    kind: Kind
    stands_for: str
    source: str
    duration: float
    people: tuple[Patch, ...]  # what they add to the bed's own weight, mattress and bedding
    one_slat: float = 0.0  # [lb] on the middle of one slat's longest span
    bare: bool = False  # no mattress on the bed
    end_rail: float = 0.0  # [lb] on the middle of an end rail


EMPTY = Case(
    "dead",
    "the bed with its mattress, nobody on it",
    "dead",
    "mattress, bedding and the wood's own weight",
    "weights are an input",
    1.0,
    (),
)


def cases(build: Build) -> tuple[Case, ...]:
    """All cases in which the bed stands on its legs, in the order of the job.

    ``load.careful`` sets every duration factor to 1.0.
    """
    found = (*_lying(build), *_sitting(build), *_standing(build))
    if build.options.load.careful:
        return tuple(replace(case, duration=1.0) for case in found)
    return found


def _deck(build: Build) -> tuple[float, float, float, float]:
    """The mattress's rectangle on the deck: x from, to, y from, to [in]."""
    start, opening = float(build.slats.start), [float(v) for v in build.opening]
    left = (float(build.outside[0]) - opening[0]) / 2
    width, length = (min(float(m), o) for m, o in zip(build.mattress, opening, strict=True))
    x, y = start + (opening[1] - length) / 2, left + (opening[0] - width) / 2
    return x, x + length, y, y + width


def dead_patch(build: Build) -> Patch:
    """Mattress and bedding over the whole mattress."""
    x0, x1, y0, y1 = _deck(build)
    return Patch((x0, x1), (y0, y1), float(build.options.load.mattress + build.options.load.bedding))


def _lying(build: Build) -> tuple[Case, ...]:
    x0, x1, y0, y1 = _deck(build)
    load = build.options.load
    total = float(load.people * load.person)
    who = f"{load.people} x {figure(float(load.person))} lb"
    mid, across = (x0 + x1) / 2, (y0 + y1) / 2
    body = (max(x0, mid - STRIP[0] / 2), min(x1, mid + STRIP[0] / 2))
    strip = (max(y0, across - STRIP[1] / 2), min(y1, across + STRIP[1] / 2))

    def case(key: str, name: str, means: str, source: str, patch: Patch) -> Case:
        return Case(key, name, "lying", means, source, DURATION["lying"], (patch,))

    return (
        case(
            "lying",
            "lying, spread out",
            f"{who} asleep, spread over the mattress",
            "people are an input; eight hours a night count as normal duration",
            Patch((x0, x1), (y0, y1), total),
        ),
        case(
            "middle",
            "lying, all in the middle",
            f"{who} together on a strip 20 x 60 in along the middle",
            "people are an input; the strip is our choice",
            Patch(body, strip, total),
        ),
        case(
            "left",
            "lying, all on the left",
            f"{who} on the left half",
            "people are an input; half the width, 60 in long, is our choice",
            Patch(body, (y0, across), total),
        ),
        case(
            "right",
            "lying, all on the right",
            f"{who} on the right half",
            "as the left",
            Patch(body, (across, y1), total),
        ),
    )


def _sitting(build: Build) -> tuple[Case, ...]:
    x0, x1, y0, y1 = _deck(build)
    load = build.options.load
    total = float(load.people * load.person)
    half = SEAT[0] / 2
    found = []
    for side, y in (("left", (y0, min(y1, y0 + SEAT[1]))), ("right", (max(y0, y1 - SEAT[1]), y1))):
        for place, share in (("head quarter", 0.25), ("middle", 0.5), ("foot quarter", 0.75)):
            at = x0 + (x1 - x0) * share
            seat = (max(x0, at - half), min(x1, at + half))
            found.append(
                Case(
                    f"sit-{side}-{place.split()[0]}",
                    f"sitting on the {side} edge, {place}",
                    "sitting",
                    f"{load.people} x {figure(float(load.person))} lb side by side on 36 x 8 in",
                    "people are an input; the seat's size is our choice, no spreading by the mattress counted",
                    DURATION["sitting"],
                    (Patch(seat, y, total),),
                )
            )
    return tuple(found)


def _standing(build: Build) -> tuple[Case, ...]:
    load = build.options.load
    weight = float(load.standing)
    return (
        Case(
            "knee",
            "kneeling or standing on a slat, through the mattress",
            "standing",
            f"{figure(weight)} lb, of which 0.4 reaches one slat",
            "315 lb is the 1400 N point of a European bed "
            "test (secondary source, no conformity claimed); 0.4 is our choice",
            DURATION["standing"],
            (),
            THROUGH_MATTRESS * weight,
        ),
        Case(
            "bare",
            "kneeling or standing on a bare slat, while building",
            "bare",
            f"{figure(weight)} lb on one slat without a mattress",
            "as through the mattress, all of it on one slat",
            DURATION["bare"],
            (),
            weight,
            bare=True,
        ),
        Case(
            "end",
            "sitting on an end rail",
            "end rail",
            f"one person of {figure(float(load.person))} lb on the middle of the head or foot rail",
            "people are an input",
            DURATION["end rail"],
            (),
            end_rail=float(load.person),
        ),
    )
