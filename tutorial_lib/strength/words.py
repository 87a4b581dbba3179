"""What may be said of the strength on camera, its twin for the sheet, and what neither covers."""

from __future__ import annotations

from tutorial_lib.measures import Writer, writer
from tutorial_lib.strength.rating import NUMBERS, REASONS, Rating
from tutorial_lib.strength.result import Strength

NOT_COVERED = (
    "children, or anyone jumping",
    "damaged, wet, split or knotty boards",
    "other wood, screws or sizes, or a leg left out",
    "a floor that leaves a leg hanging",
    "storage hung from the frame",
    "years of loosening: tighten the screws after a month, then once a year",
)
CAUTION = (
    "Calculated, not tested and not certified. The rules used were written for buildings; using them for a bed "
    "is our own choice. Where someone could be hurt, ask an engineer licensed where you live."
)


def units_of(strength: Strength) -> Writer:
    """The plan's units."""
    return writer(strength.build.options.build.units)


def wood_named(strength: Strength) -> str:
    """The woods and grades that carry people: "Spruce-Pine-Fir No.2"."""
    options = strength.build.options
    found = dict.fromkeys(
        (part.section.species or options.wood.species, part.section.grade or options.wood.grade)
        for part in strength.build.parts
        if not part.section.steel
    )
    return " and ".join(" ".join(dict.fromkeys(wood)) for wood in found)  # a class is its own grade


def _people(rating: Rating) -> str:
    return NUMBERS.get(rating.people, str(rating.people))


def held(strength: Strength) -> str:
    """ "two people of 220 lb each lying, or of 140 lb each sitting on one edge"."""
    lying, sitting, units = strength.lying, strength.sitting, units_of(strength)
    each = " each" if lying.people > 1 else ""
    if not sitting.pounds:
        return f"{_people(lying)} of {units.weight(lying.pounds)}{each} lying, nobody sitting on its edge"
    if not lying.pounds:
        return f"{_people(sitting)} of {units.weight(sitting.pounds)}{each} sitting on one edge, nobody lying"
    if lying.pounds == sitting.pounds:
        return f"{_people(lying)} of {units.weight(lying.pounds)}{each}, lying or sitting on one edge"
    return (
        f"{_people(lying)} of {units.weight(lying.pounds)}{each} lying, or of {units.weight(sitting.pounds)}{each} "
        "sitting on one edge"
    )


def why_none(strength: Strength) -> str:
    """Why there is no rating; "" where there is one."""
    if strength.build.bed_stands:
        return "the bed it is bolted to keeps its own"
    if strength.lying.pounds or strength.sitting.pounds:
        return ""
    if strength.unknown_woods:
        return f"no design values are known for {' and '.join(strength.unknown_woods)}"
    return REASONS.get(strength.lying.why, "a part of it would carry more than it may")


def may_say(strength: Strength) -> str:
    """The sentence to say on camera."""
    none = why_none(strength)
    if none:
        return f"I give no load figure for this bed: {none}."
    return (
        f"We calculated this bed in {wood_named(strength)}, built as drawn: it carries {held(strength)}. "
        "Nobody has tested it, and it is not for children or for jumping on."
    )


def may_print(strength: Strength) -> str:
    """Its twin for the viewer's sheet."""
    none = why_none(strength)
    if none:
        return f"There is no load figure for this bed: {none}."
    return (
        f"Calculated for {wood_named(strength)}, dry, built as drawn with every leg on the floor: this bed carries "
        f"{held(strength)}. It has not been tested, and it is not for children or for jumping on."
    )


def may_not_say(strength: Strength) -> str:
    """A sentence that may not be said, with the reason in it."""
    total = strength.lying.people * strength.lying.pounds
    weight = units_of(strength).weight(total) if total else "half a ton"
    return (
        f'Not: "This bed holds {weight}, we tested it." Nobody tested it, a total says nothing without how it lies, '
        "and what another bed has held is no evidence for this one."
    )


def conditions(strength: Strength) -> str:
    """Conditions of the ratings and what governs them, in one line."""
    text = "As drawn, dry, sound boards, all legs on the floor, no one jumping."
    found = [f"{rating.kind}: {_limit(rating)}" for rating in (strength.lying, strength.sitting) if rating.pounds]
    return f"{text} What sets the figure, {'; '.join(found)}." if found else text


def _limit(rating: Rating) -> str:
    if rating.capped:
        return rating.capped
    use = rating.governing
    return "nothing" if use is None else use.title
