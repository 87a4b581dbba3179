"""What may be said of the strength, and what may not."""

from __future__ import annotations

from tutorial_lib.strength.result import Strength

NOT_COVERED = (
    "children or anyone jumping",
    "damaged, wet, split or knotty boards",
    "other screws, wood, sizes or legs left out",
    "a floor that leaves a leg hanging",
    "storage hung from the frame",
    "years of loosening: check the screws yearly",
)
CAUTION = (
    "Calculated, not tested and not certified. The rules used were written for buildings; using them for a bed "
    "is our own choice. Where someone could be hurt, ask an engineer licensed where you live."
)


def may_say(strength: Strength) -> str:
    """A sentence that may be said on camera."""
    if not strength.lying.pounds or strength.unstable:
        return "We calculated this layout and it does not hold: I don't build it like this."
    build = strength.demand.model.build
    wood = build.options.wood
    edge = f", and {strength.sitting.words}" if strength.sitting.pounds else ""
    return (
        f"By calculation, for {wood.species} {wood.grade} as drawn, dry and with all legs on the floor, this bed "
        f"carries {strength.lying.words}{edge}. We calculated that, we did not test it."
    )


def may_not_say(strength: Strength) -> str:
    """A sentence that may not be said, with the reason in it."""
    total = strength.lying.people * strength.lying.pounds
    return (
        f'Not: "This bed holds {total or 1000} pounds, we tested it." Nobody tested it, a total without '
        "how it lies means nothing, and what another bed has held is no evidence for this one."
    )


def conditions(strength: Strength) -> str:
    """Conditions of the ratings in one line."""
    use = strength.governing
    governs = f" Governing: {use}." if use else ""
    return f"As drawn, dry, sound boards, all legs on the floor, no one jumping.{governs}"
