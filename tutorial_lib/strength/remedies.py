"""What would help, with the figure after: the build is designed and checked again with one thing changed."""

from __future__ import annotations

from dataclasses import dataclass

from tutorial_lib.design.build_file import change
from tutorial_lib.design.platform_bed import design
from tutorial_lib.errors import TutorialError
from tutorial_lib.strength.checks import Use, line_uses, slat_uses
from tutorial_lib.strength.demands import Demand, demand
from tutorial_lib.strength.result import Strength
from tutorial_lib.strength.working import in_words


@dataclass(frozen=True)
class Remedy:
    """One change, with the utilisation it is meant to cure before and after."""

    what: str
    changes: dict[str, object]
    about: str  # what the figures are of
    before: float
    after: float

    @property
    def words(self) -> str:
        """The remedy in a sentence."""
        return f"{self.what}: {self.about} goes from {in_words(self.before)} to {in_words(self.after)}."


def remedies(strength: Strength) -> tuple[Remedy, ...]:
    """Changes that ease what is most used: a centre line, 2x4 slats, legs at mid-side.

    Each is computed anew; one that can't be built is left out.
    """
    options = strength.demand.model.build.options
    per_side = options.legs.per_side
    middle = per_side == 2 or bool(options.legs.omit)  # then nothing stands at mid-side yet
    tried: list[tuple[str, dict[str, object], bool]] = [
        ("Add a centre line", {"centre.lines": options.centre.lines + 1}, True),
        ("Use 2x4 slats", {"slats.lumber": "2x4"}, True),
        (
            "Put the legs at mid-side" if middle else "Put one more leg on each side",
            {"legs.per_side": per_side if options.legs.omit else per_side + 1, "legs.omit": []},
            False,
        ),
    ]
    found = []
    for what, changes, slats in tried:
        if slats and changes.get("slats.lumber") == options.slats.lumber:
            continue
        after = _after(strength, changes)
        if after is None:
            continue
        kind, about = ("standing", "kneeling on a slat") if slats else ("sitting", "the side under people on the edge")
        old, new = _worst(strength.demand, kind, slats), _worst(after, kind, slats)
        if old is not None and new is not None and new < old:
            found.append(Remedy(what, changes, about, old, new))
    return tuple(found)


def _after(strength: Strength, changes: dict[str, object]) -> Demand | None:
    try:
        return demand(design(change(strength.demand.model.build.options, changes)))
    except TutorialError:
        return None


def _worst(known: Demand, kind: str, slats: bool) -> float | None:
    uses: list[Use] = list(slat_uses(known) if slats else line_uses(known))
    return max((u.ratio for u in uses if u.kind == kind and u.what == "bending"), default=None)
