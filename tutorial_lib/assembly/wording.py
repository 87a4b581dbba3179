"""Which words tell of a piece of work, and its pieces counted."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Iterator
from dataclasses import replace

from tutorial_lib.assembly.leg_words import of_legs, sides_of_plies
from tutorial_lib.assembly.order import Operation, Way
from tutorial_lib.assembly.ranks import rank
from tutorial_lib.assembly.words import WORDS, Wording
from tutorial_lib.design.model import Build, Leg
from tutorial_lib.design.parts import NAMES
from tutorial_lib.measures import Writer

GLUED = (
    "Glue a block into the inner corner of each leg, short of both its ends, and clamp it both ways until the glue is "
    "dry: it keeps the boards square, and no figure here counts on it."
)


def wording(build: Build, operation: Operation, way: Way, w: Writer) -> Wording:
    """Which words tell of an operation.

    Args:
        build: the bed.
        operation: the work.
        way: how the frame lies.
        w: what writes its lengths.
    """
    stem, kinds = operation.group, {joint.kind for joint in operation.joints}
    if stem in ("end", "corner") and kinds & {"block", "post"}:
        return WORDS[f"{stem} by {_held_by(operation)}"]
    if operation.prepares and stem != "ply":
        return WORDS[f"bench {_made_up(build, operation)}"]
    if stem == "line":
        return _of_lines(build, way)
    if stem == "ply":
        glued = (GLUED,) if build.has("glue_block") else ()
        return replace(WORDS[stem], do=(*sides_of_plies(build), *WORDS[stem].do, *glued))
    if stem == "plinth" and build.options.plinth.carries:
        return WORDS["base frame"]
    if stem == "leg":
        return of_legs(build, operation, w)
    return _of_slats(build) if stem == "slat" else WORDS[stem]


def _held_by(operation: Operation) -> str:
    """What holds the rails of a bed on posts."""
    if any(joint.kind == "bed_bolt" for joint in operation.joints):
        return "bolts"
    return "blocks" if operation.fastenings else "hooks"


def _made_up(build: Build, operation: Operation) -> str:
    """What is made up on the bench: a headboard on uprights and a post's battens have words of their own."""
    if operation.group == "panel":
        return _of_panel(build, operation)
    if operation.group == "post" and not any(joint.kind == "post" for joint in operation.joints):
        return "batten"
    return operation.group


def _of_lines(build: Build, way: Way) -> Wording:
    words = WORDS["line upside down" if way == "upside down" else "line"]
    several = sum(line.central for line in build.lines) != 1
    return replace(words, title="Fit the centre lines") if several else words


def _of_panel(build: Build, operation: Operation) -> str:
    """Which words tell how a headboard's panel is fixed: to uprights or battens, of boards or of slats."""
    slats = build.has("headboard_slat")
    if any(build.pieces[joint.near].use == "upright" for joint in operation.joints):
        return "upright slats" if slats else "upright"
    return "panel rails" if slats else "panel"


def _of_slats(build: Build) -> Wording:
    hold, lines = build.options.slats.hold, build.options.centre.lines
    if hold != "screws":
        return WORDS[f"slat {hold}"]
    words = WORDS["slat"]
    if not lines or build.options.slats.middle == "screwed":
        return words
    line = "line" if lines == 1 else "lines"
    return replace(words, do=(*words.do, f"On the centre {line} they only lie: no screw goes in there."))


def bring(build: Build, operation: Operation, made: Collection[str]) -> Iterator[str]:
    """What to fetch, by label; what was made up on the bench is named with what is on it.

    Args:
        build: the bed.
        operation: the work.
        made: labels of the pieces made up on the bench before.
    """
    if not operation.enters:
        return
    on = carried(build, operation, made)
    if operation.group == "corner" and build.options.frame.posts:
        rails, cleats = (_used_as(build, operation, use) for use in ("side_rail", "cleat"))
        yield f"Take the head end, the foot end and {counted(build, rails)}, with {counted(build, cleats)} on."
    elif on:
        rest = [label for label in operation.enters if label not in on]
        listed = f": {', '.join(rest)}" if len(rest) <= FEW else ""
        yield f"Take {counted(build, rest)}, with {counted(build, on)} on{listed}."
    elif operation.group in ("post", "panel slats"):
        yield f"Take {counted(build, operation.enters)}."
    elif operation.group == "ply":
        pieces, legs = counted(build, operation.enters, boards=True), counted(build, operation.enters)
        yield f"Take {pieces}, for {legs} of two boards each, ply a and ply b: {_listed(build, operation)}."
    else:
        listed = _listed(build, operation)
        yield f"Take {counted(build, operation.enters)}{': ' if listed else ''}{listed}."


FEW = 6  # labels that are listed one by one


def _used_as(build: Build, operation: Operation, use: str) -> list[str]:
    return [label for label in operation.enters if build.pieces[label].use == use]


def _listed(build: Build, operation: Operation) -> str:
    """The labels of what enters, or of many of one kind the first and the last; boards of one leg under the leg's."""
    legs = {label: leg.label for leg in build.legs if not leg.post for label in leg.boards}
    labels = list(dict.fromkeys(f"leg {legs[x]}" if x in legs else x for x in operation.enters))
    kinds = {"leg" if x in legs else build.pieces[x].part for x in operation.enters}
    if len(labels) > FEW and len(kinds) > 1:
        return ""  # no row of one kind
    return ", ".join(labels) if len(labels) <= FEW else f"{labels[0]} to {labels[-1]}"


def carried(build: Build, operation: Operation, made: Collection[str]) -> list[str]:
    """Of the pieces that enter, those that were put on another of them on the bench: legs, and cleats on rails."""
    both = {label: rank(build.pieces[label].use) for label in operation.enters if label in made}
    low = min(both.values(), default=0)
    riders = (rank("leg"),) if low else (rank("leg"), rank("cleat"))
    return [label for label, each in both.items() if each > low and each in riders]


def laid_out(build: Build, operation: Operation) -> str:
    """The rails for the dry fit, with what is on them already."""
    rails = [label for label in operation.enters if rank(build.pieces[label].use) == 0]
    more = [label for label in operation.enters if label not in rails]
    on = f", with {counted(build, more)} on" if more else ""
    return f"{counted(build, rails)}{on}"


def counted(build: Build, labels: Iterable[str], boards: bool = False) -> str:
    """Pieces counted by part: "2 side rails and 2 end rails"; legs of two boards count as legs."""
    legs = _made_of_boards(build)
    names: Counter[tuple[str, str]] = Counter()  # of one, of many
    seen: set[str] = set()
    for label in labels:
        leg = legs.get(label)
        if leg is None or boards:
            part = build.part_of(label)
            names[part.name, part.several] += 1
        elif leg.label not in seen:
            seen.add(leg.label)
            names[_leg_name(build, leg)] += 1
    words = [f"{n} {many if n > 1 else one}" for (one, many), n in names.items()]
    return " and ".join(filter(None, [", ".join(words[:-1]), *words[-1:]])) or "nothing"


def _made_of_boards(build: Build) -> dict[str, Leg]:
    """The legs of several boards, by each of their boards."""
    return {label: leg for leg in build.legs for label in leg.boards if len(leg.boards) > 1}


def _leg_name(build: Build, leg: Leg) -> tuple[str, str]:
    if any(build.pieces[piece].shape == "plate" for piece in leg.pieces):
        return FLANGED
    name = NAMES[build.pieces[leg.pieces[0]].use]
    return name, f"{name}s"


FLANGED = ("leg with its flange", "legs with their flanges")


def numbered(people: int) -> str:
    """ "one person", "two people"."""
    words = ["nobody", "one person", "two people", "three people", "four people"]
    return words[people] if people < len(words) else f"{people} people"
