"""Pieces, legs and joints as a person names them: "middle left leg", "screws through the left cleat"."""

from __future__ import annotations

from tutorial_lib.design.model import Build, Joint, Leg

ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh",
            "twelfth")  # fmt: skip
FROM_HEAD = "from the head"


def slat_name(number: int) -> str:
    """ "slat 3", counted from the head."""
    return f"slat {number + 1}"


def piece_name(build: Build, label: str) -> str:
    """A board of the frame as a person says it: "left side rail", "left cleat, stretch 2"."""
    return build.pieces[label].name if label in build.pieces else label


def line_name(build: Build, name: str) -> str:
    """A support line in a sentence: "the left side", "the centre line", or "centre line 2" of several."""
    if name in ("left", "right"):
        return f"the {name} side"
    several = sum(line.central for line in build.lines) > 1
    return f"centre {name}" if several else "the centre line"


def leg_name(build: Build, leg: Leg) -> str:
    """A leg by where it stands: "middle left leg", "head leg of the centre line"."""
    letter = leg.label[0]
    labels = [other.label for other in build.legs] + list(build.options.legs.omit)
    count = max(int(label[1:]) for label in labels if label[0] == letter)
    place = _place(int(leg.label[1:]), count)
    if leg.line in ("left", "right"):
        return f"{place} {leg.line} {'post' if leg.post else 'leg'}"
    return f"{place} leg of {line_name(build, leg.line)}"


def _place(number: int, count: int) -> str:
    if count == 1:
        return "only"
    if number == 1:
        return "head"
    if number == count:
        return "foot"
    if count == 3:
        return "middle"
    return ORDINALS[min(number, len(ORDINALS)) - 1]


def leg_of(build: Build, label: str) -> Leg:
    """The leg with this label."""
    return next(leg for leg in build.legs if leg.label == label)


def joint_name(build: Build, joint: Joint) -> str:
    """The fasteners of a joint: "screws through the left cleat", "bolts of the middle left leg"."""
    word = "bolts" if joint.fastener == "bolt" else "screws"
    if joint.kind in ("block", "post"):
        return f"{word} from the {piece_name(build, joint.near)} into the {piece_name(build, joint.far)}"
    for leg in build.legs:
        if joint.near in leg.pieces or joint.far in leg.pieces:
            return f"{word} of the {leg_name(build, leg)}"
    if joint.kind == "corner":
        return f"{word} of the {piece_name(build, joint.near)} at the {piece_name(build, joint.far)}"
    if joint.kind == "runner":
        return f"{word} from the {piece_name(build, joint.near)} into the {piece_name(build, joint.far)}"
    return f"{word} through the {piece_name(build, joint.near)}"
