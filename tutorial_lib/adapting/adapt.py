"""Options for another mattress, other boards, another saw: the creator's choices kept as far as they hold."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Any

from tutorial_lib import tables
from tutorial_lib.adapting.metric import to_metric
from tutorial_lib.adapting.search import search
from tutorial_lib.adapting.soundness import Soundness
from tutorial_lib.adapting.steps import Step, differences
from tutorial_lib.adapting.stock import with_stock
from tutorial_lib.adapting.styles import what_would
from tutorial_lib.design.build_file import change, read_build, to_toml
from tutorial_lib.design.options import Options
from tutorial_lib.design.sizes import mattress_size
from tutorial_lib.findings import Finding
from tutorial_lib.measures import exact_length, write_length
from tutorial_lib.plan import Plan, plan


@dataclass(frozen=True)
class Adaptation:
    """The creator's plan, yours, and the way from one to the other."""

    creator: Plan
    yours: Plan
    steps: tuple[Step, ...]
    troubles: tuple[str, ...] = ()  # why it can't be carried; empty when it can
    notes: tuple[str, ...] = ()  # said once: which size a name was taken for, what else it could be
    would: str = ""  # what would carry it, checked, when this style can't
    judged: bool = True  # held against the creator's own strength; not when two builds are only compared

    @property
    def findings(self) -> list[Finding]:
        """What the rules find in the adapted plan, after a stop of its own when the style can't carry it."""
        found = list(self.yours.findings)
        if self.troubles:
            what = "This style of bed can't carry it: " + "; ".join(self.troubles[:3]) + "."
            found.insert(
                0, Finding("adapting", "stop", what, whose="the rules and the strength check", remedy=self.would)
            )
        return found

    @property
    def stops(self) -> list[Finding]:
        """Findings nobody should build past."""
        return [finding for finding in self.findings if finding.severity == "stop"]


def adapt(creator: Options, mattress: str | None = None, changes: Mapping[str, Any] | None = None) -> Adaptation:
    """The build for another mattress or other choices, changing what must change, least first.

    Args:
        creator: the creator's own options; adapting always starts from these.
        mattress: a name, a region and a name, or a size ("king", "UK double", "54x75 in"); None keeps it.
        changes: dotted keys of the build file to values, as the build file would state them.

    Raises:
        InputError: an unknown mattress or key, or a value that can't be used.
        DesignError: what was asked for can't exist and no allowed change cures it.
    """
    own = _creators_plan(creator)
    wanted, steps, notes = creator, list[Step](), list[str]()
    if changes:
        wanted, steps = _asked(wanted, changes)
    if mattress is not None:
        wanted, more, said = _mattress(wanted, mattress)
        steps, notes = steps + more, notes + said
    if wanted == creator:
        return Adaptation(own, own, (), (), tuple(notes))
    return _searched(own, wanted, frozenset(changes or ()), steps, notes)


def compare(creator: Options, other: Options) -> Adaptation:
    """Two builds of the same bed side by side: what changed since it was filmed."""
    steps = tuple(differences(creator, other, "stated in the other build"))
    return Adaptation(plan(creator), plan(other), steps, judged=False)


@lru_cache(maxsize=4)
def _planned(build_file: str) -> Plan:
    return plan(read_build(build_file))


def _creators_plan(creator: Options) -> Plan:
    """The creator's plan; worked out once for all sizes that start from it."""
    return _planned(to_toml(creator))


def _searched(own: Plan, wanted: Options, fixed: frozenset[str], steps: list[Step], notes: list[str]) -> Adaptation:
    sound = Soundness(own)
    found = search(sound, wanted, fixed)
    stocked, more = with_stock(found.plan)
    yours = found.plan if stocked == found.plan.options else plan(stocked)
    troubles = tuple(dict.fromkeys(trouble.text for trouble in sound.troubles(yours)))
    would = what_would(sound, wanted) if troubles else ""
    told = differences(wanted, found.plan.options, lambda key: found.reason(key, sound))
    every = (*steps, *told, *more)
    return Adaptation(own, yours, tuple(every), troubles, tuple(notes), would)


def _asked(options: Options, changes: Mapping[str, Any]) -> tuple[Options, list[Step]]:
    rest = {key: value for key, value in changes.items() if key != "build.units"}
    changed = change(options, rest)
    steps = differences(options, changed, "asked for")
    units = changes.get("build.units", options.build.units)
    if units == "mm" != options.build.units:
        metric, moved = to_metric(changed)
        return metric, [*steps, *moved]
    return (changed, steps) if units == options.build.units else (change(changed, {"build.units": units}), steps)


def _mattress(options: Options, name: str) -> tuple[Options, list[Step], list[str]]:
    """The options for another mattress: its size, its region's tolerance, clearance grown to it."""
    width, length = mattress_size(options)
    choice = tables.mattress(name, tables.family_of(width, length, options.mattress.size), "--mattress")
    size, units = choice.chosen, options.build.units
    notes = [f"{name} is taken for {size}: {choice.why}."]
    if (size.width, size.length) == (width, length):
        return options, [], notes
    measured = size.region == "measured"
    tolerance = tables.tolerance(f"mattress {size.region}").value
    asked = {
        "mattress.size": None if measured else f"{size.region} {size.name}",
        "mattress.width": exact_length(size.width, size.units),
        "mattress.length": exact_length(size.length, size.units),
        "mattress.tolerance": exact_length(tolerance, size.units),
    }
    changed = change(options, asked)
    steps = [Step("mattress", f"{write_length(width, units)} x {write_length(length, units)}", str(size), "asked for")]
    for key in ("side", "end"):
        now = getattr(changed.clearance, key)
        if 2 * now < tolerance:
            grown = _up(tolerance / 2, units)
            changed = change(changed, {f"clearance.{key}": exact_length(grown, units)})
            whose = "a measured mattress" if measured else f"a mattress sold in the {size.region}"
            steps.append(
                Step(
                    f"clearance.{key}",
                    write_length(now, units),
                    write_length(grown, units),
                    f"{whose} may be {write_length(tolerance, size.units)} over its size",
                )
            )
    return changed, steps, notes


def _up(x: Fraction, units: str) -> Fraction:
    """Up to the next 1/16 in or 1 mm."""
    grid = Fraction(5, 127) if units == "mm" else Fraction(1, 16)
    return -(-x // grid) * grid
