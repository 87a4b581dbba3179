"""Rules of a headboard that is leaned on: at its top, without a wall behind it, and in its middle."""

from __future__ import annotations

from collections.abc import Iterator

from tutorial_lib.findings import Finding, Remedy
from tutorial_lib.measures import writer
from tutorial_lib.strength.headboard import Leaning, leaning
from tutorial_lib.strength.outcome import Outcome
from tutorial_lib.strength.working import OURS, in_words, times

WIDER = {"1x4": ("1x6", "1x8"), "1x6": ("1x8", "1x10"), "22x95": ("22x145",), "18x94": ("18x144",)}  # tried in turn


def of_headboard(outcome: Outcome) -> Iterator[Finding]:
    """What leaning on it comes to; nothing of a bed without one."""
    found = leaning(outcome)
    if found is not None:
        yield from _at_the_top(outcome, found)
        yield from _in_the_middle(outcome, found)


def _at_the_top(outcome: Outcome, found: Leaning) -> Iterator[Finding]:
    """Someone who leans on the headboard, without a wall behind it."""
    w, push = writer(outcome.build.options.build.units), found.bent.push
    if found.used > 1 or found.held < push:
        held = (
            f"{found.name} holds a push of {w.weight(found.held)} at the headboard's top, and someone who leans on it "
            f"pushes {w.weight(push)}"
            if found.held
            else "nobody has published what the head posts' corners hold against someone who leans on the headboard"
        )
        yield Finding(
            rule="headboard",
            severity="caution",
            what=f"Stand the bed's head against a wall: {held}.",
            value=w.weight(found.held) if found.held else "no value",
            limit=f"{w.weight(push)}, half of one person",
            whose=OURS,
            remedy="Stand it against a wall, or screw the headboard to the wall.",
            parts=("headboard",),
        )


def _in_the_middle(outcome: Outcome, found: Leaning) -> Iterator[Finding]:
    """Someone who leans on the middle of the headboard, whatever holds its ends."""
    if found.panel <= 1:
        return
    own, build = outcome.build.options.headboard, outcome.build
    bending = "slats or rails bend" if build.has("headboard_slat") else "boards bend"
    yield Finding(
        rule="headboard panel",
        severity="caution",
        what=f"Nobody leans on the middle of the headboard: its {bending} with {times(found.panel)} what is allowed.",
        value=in_words(found.panel),
        limit="1",
        whose=OURS,
        remedy="Use thicker or wider boards in it.",
        parts=("headboard",),
        remedies=tuple(
            Remedy.setting(f"Make the headboard's {'rails' if own.kind == 'slats' else 'boards'} of {name}",
                           headboard__lumber=name)
            for name in WIDER.get(own.lumber, ())
        ),
    )  # fmt: skip
