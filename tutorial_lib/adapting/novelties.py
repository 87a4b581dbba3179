"""What only one of two beds has: parts, boards to buy, fasteners, steps of the assembly."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Literal

from tutorial_lib.adapting.reasons import cause, fallback
from tutorial_lib.measures import writer
from tutorial_lib.records import dataclass

if TYPE_CHECKING:
    from tutorial_lib.adapting.adapt import Adaptation
    from tutorial_lib.design.model import Part
    from tutorial_lib.plan import Plan

Kind = Literal["part", "boards", "fastener", "step"]
ALIKE = {"corner_leg": "leg", "mid_leg": "leg"}  # the same legs under another name where the centre's differ
FASTENERS = {
    "batten": "screws of the headboard's battens", "panel": "screws of the headboard's boards",
    "panel_slat": "screws of the headboard's slats",
    "upright": "bolts of the headboard's uprights",
    "bed_bolt": "bolts with barrel nuts in the rails' ends",
    "corner": "corner screws", "block": "screws of the corner blocks in the rails",
    "post": "screws of the corner blocks in the posts", "cleat": "cleat screws", "runner": "runner screws",
    "slat": "slat screws",
    "slat_line": "screws from the slats into the centre line", "leg": "fasteners of the legs",
    "ply": "screws that join the boards of a leg", "line_end": "fasteners at the ends of the centre line",
    "line_leg": "fasteners of the centre line to its legs", "flange": "flange screws",
    "plinth": "screws of the plinth",
}  # fmt: skip
BRACKETS = {"post": "bed-rail hooks, a pair on each rail end",
            "line_end": "brackets, one at each end of a centre line",
            "line_leg": "brackets, one on each leg of a centre line"}  # fmt: skip
BESIDE = {"line": "centre_beam", "line_end": "centre_beam", "line_leg": "centre_leg", "slat_line": "centre_beam",
          "flange": "leg", "ply": "leg"}  # fmt: skip


@dataclass(frozen=True)
class Item:
    """One thing that only one of the two beds has."""

    kind: Kind
    key: str  # the part's key, the section, the joint's kind, or the step's key
    what: str
    why: str
    before: str = ""  # for a step: the key of the next step that both have

    def as_json(self) -> dict[str, str]:
        """The form of ``tutorial adapt --json``."""
        return {"what": self.what, "why": self.why}


def new(adaptation: Adaptation) -> tuple[Item, ...]:
    """Parts, boards, fasteners and steps only the adapted bed has."""
    return tuple(_only(adaptation.yours, adaptation.creator, adaptation))


def gone(adaptation: Adaptation) -> tuple[Item, ...]:
    """Parts, boards, fasteners and steps only the creator's bed has; none where that bed stands and keeps them."""
    if adaptation.yours.build.bed_stands:
        return ()
    return tuple(_only(adaptation.creator, adaptation.yours, adaptation))


def _only(one: Plan, other: Plan, adaptation: Adaptation) -> Iterator[Item]:
    if one is other:
        return
    yield from _parts(one, other, adaptation)
    yield from _boards(one, other)
    yield from _fasteners(one, other, adaptation)
    yield from _steps(one, other, adaptation)


def _parts(one: Plan, other: Plan, adaptation: Adaptation) -> Iterator[Item]:
    known = {alike(part) for part in other.build.parts} | {part.key for part in other.build.parts}
    for part in one.build.parts:
        if part.key not in known and alike(part) not in known:
            length = writer(one.options.build.units).length(part.length)
            name = part.name if part.count == 1 else part.several
            yield Item(
                "part", part.key, f"{part.count} {name}, {part.section.name}, {length} long", why(part.key, adaptation)
            )


def alike(part: Part) -> str:
    """A part's key by which two beds' parts are the same."""
    return ALIKE.get(part.key, part.key)


def _boards(one: Plan, other: Plan) -> Iterator[Item]:
    known = {part.section.name for part in other.build.parts}
    for purchase in one.cutting.shopping:
        if purchase.section not in known:
            users = ", ".join(dict.fromkeys(p.name for p in one.build.parts if p.section.name == purchase.section))
            yield Item(
                "boards",
                purchase.section,
                f"{purchase.count} of {purchase.section}, {purchase.stock}",
                f"for the {users}",
            )


def _fasteners(one: Plan, other: Plan, adaptation: Adaptation) -> Iterator[Item]:
    known = {joint.kind for joint in other.build.joints}
    driven = {fastening.joint: max(1, fastening.count) for fastening in one.drilling.fastenings}
    counts: dict[tuple[str, bool], int] = {}
    for joint in one.build.joints:
        if joint.kind not in known and joint.fastener != "bearing":
            key = (joint.kind, joint.fastener == "bracket")
            counts[key] = counts.get(key, 0) + driven.get(joint, 1)
    for (kind, bracket), count in counts.items():
        what = BRACKETS.get(kind, "brackets") if bracket else FASTENERS.get(kind, kind)
        yield Item("fastener", kind, f"{count} {what}", why(BESIDE.get(kind, kind), adaptation))


def _steps(one: Plan, other: Plan, adaptation: Adaptation) -> Iterator[Item]:
    known = {step.key for step in other.assembly.steps}
    steps = one.assembly.steps
    for place, step in enumerate(steps):
        if step.key not in known:
            follows = next((later.key for later in steps[place + 1 :] if later.key in known), "")
            what = f"step {step.number}: {step.title[:1].lower()}{step.title[1:]}"
            yield Item("step", step.key, what, why(BESIDE.get(step.key, step.key), adaptation), follows)


def why(key: str, adaptation: Adaptation) -> str:
    """The change that a part came or went with."""
    step = cause(key, adaptation.changes)
    return step.why if step else fallback(adaptation.changes)
