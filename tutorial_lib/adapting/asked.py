"""What a viewer asks for, put into the creator's options: mattress, units and region, single choices."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any, cast

from tutorial_lib import tables
from tutorial_lib.adapting.boards import region_of
from tutorial_lib.adapting.changed import Change, differences
from tutorial_lib.adapting.metric import to_metric
from tutorial_lib.design.build_file import change
from tutorial_lib.design.options import Options
from tutorial_lib.design.sizes import clearance, mattress_size
from tutorial_lib.measures import Units, exact_length, writer
from tutorial_lib.records import dataclass
from tutorial_lib.tables import Mattress, Region

ASKED = "asked for"
METRIC_REGIONS = ("UK", "EU", "AU")


@dataclass(frozen=True)
class Wanted:
    """Options as asked for, before anything follows from them."""

    options: Options
    changes: tuple[Change, ...] = ()
    notes: tuple[str, ...] = ()
    size: str = ""  # the mattress in a few words: "king", "53 3/8 x 74 1/2 in"

    def then(self, options: Options, changes: tuple[Change, ...] | list[Change]) -> Wanted:
        """The next step of the way."""
        return Wanted(options, (*self.changes, *changes), self.notes, self.size)


def wanted(creator: Options, mattress: str | None, changes: Mapping[str, Any]) -> Wanted:
    """The creator's options with everything asked for; boards and units first, so that what is asked stays as asked.

    Raises:
        InputError: an unknown mattress, region or key, or a value that can't be used.
    """
    size = _size(creator, mattress)
    found = Wanted(creator) if size is None else _named(creator, mattress or "", size)
    found = _converted(found, size, changes)
    rest = {key: value for key, value in changes.items() if key not in ("build.units", "shop.region")}
    if rest:
        changed = change(found.options, rest, "--set")
        found = found.then(changed, differences(found.options, changed, ASKED))
    return found if size is None else _on(found, size, frozenset(changes), _sides(creator))


def _size(creator: Options, name: str | None) -> Mattress | None:
    """The mattress meant; a size that is sold under a name is that size, with its maker's tolerance."""
    if name is None:
        return None
    family = tables.family_of(*mattress_size(creator), creator.mattress.size)
    chosen = tables.mattress(name, family, "--mattress").chosen
    if chosen.region != "measured":
        return chosen
    sold = [row for row in tables.mattresses() if (row.width, row.length) == (chosen.width, chosen.length)]
    return next((row for row in sold if row.metric == chosen.metric), chosen)


def _named(creator: Options, name: str, size: Mattress) -> Wanted:
    """The note on what a name was taken for."""
    family = tables.family_of(*mattress_size(creator), creator.mattress.size)
    choice = tables.mattress(name, family, "--mattress")
    why = choice.why
    if choice.chosen.region == "measured" != size.region:
        why = "the size sold under that name; its maker's tolerance counts"
    words = str(size) if size.region == "measured" else _in_words(size, family)
    if size.region == "measured":
        told = f"{name}: {why}."
    elif choice.others or size != choice.chosen:
        told = f"{name} is taken for {size}: {why}."
    else:
        told = f"{name} is {writer(size.units).size(size.width, size.length)}: {why}."
    return Wanted(creator, (), (told,), words)


def _in_words(size: Mattress, family: str | None) -> str:
    """A size by its name, and by its region's where that is not the creator's."""
    at_home = family is not None and tables.family_region(family) == size.region
    return size.name if at_home else f"{size.region} {size.name}"


def _converted(found: Wanted, size: Mattress | None, changes: Mapping[str, Any]) -> Wanted:
    """In millimetres, and with the region's boards, where the size is sold by the centimetre or it was asked for."""
    options = found.options
    region = _region(options, size, changes)
    units = changes.get("build.units", "mm" if size is not None and size.metric else options.build.units)
    if region == "US" or units not in ("in", "mm"):
        return _with_units(found, changes)
    if units == "mm" and (options.build.units != "mm" or (region and region != region_of(options))):
        made, moved = to_metric(options, region)
        return found.then(made, moved)
    return _with_units(found, changes)


def _with_units(found: Wanted, changes: Mapping[str, Any]) -> Wanted:
    """Units and region stated as they are, for the build file's own check of them."""
    stated = {key: changes[key] for key in ("build.units", "shop.region") if key in changes}
    if not stated:
        return found
    made = change(found.options, stated, "--set")
    return found.then(made, differences(found.options, made, ASKED))


def _region(options: Options, size: Mattress | None, changes: Mapping[str, Any]) -> Region | None:
    """Whose boards: asked for, else where the size is sold; a metric size from nowhere is taken for a European one."""
    if "shop.region" in changes:
        return cast(Region, changes["shop.region"]) if changes["shop.region"] in METRIC_REGIONS else None
    if size is None or not size.metric or "build.units" in changes:
        return None
    return (
        cast(Region, size.region)
        if size.region in METRIC_REGIONS
        else region_of(options)
        if (options.build.units == "mm")
        else "EU"
    )


def _sides(options: Options) -> str:
    """The mattress as its own plan writes it: "38 in x 75 in"."""
    return " x ".join(map(writer(options.build.units).length, mattress_size(options)))


def _on(found: Wanted, size: Mattress, fixed: frozenset[str], before: str) -> Wanted:
    """The options for a mattress: its size, its region's tolerance, clearance grown to it."""
    options = found.options
    width, length = mattress_size(options)
    if (size.width, size.length) == (width, length):
        return found
    measured = size.region == "measured"
    tolerance = tables.tolerance(f"mattress {size.region}").value
    made = change(options, {
        "mattress.size": None if measured else f"{size.region} {size.name}",
        "mattress.width": exact_length(size.width, size.units),
        "mattress.length": exact_length(size.length, size.units),
        "mattress.tolerance": exact_length(tolerance, size.units),
        "mattress.corner_radius": None,  # how round the creator's was says nothing of another
    })  # fmt: skip
    done = [Change(key="mattress", before=before, after=str(size), why=ASKED)]
    for key in ("side", "end"):
        if f"clearance.{key}" not in fixed:
            made, grown = _grown(made, key, tolerance, size)
            done += grown
    return found.then(made, done)


def _grown(options: Options, key: str, tolerance: Fraction, size: Mattress) -> tuple[Options, list[Change]]:
    """Room for a mattress that is as large as its maker may make it."""
    now, units = clearance(options)[key == "end"], options.build.units
    if 2 * now >= tolerance:
        return options, []
    grown = _up(tolerance / 2, units)
    whose = "a measured mattress" if size.region == "measured" else f"a mattress sold in the {size.region}"
    why = f"{whose} may be {writer(size.units).length(tolerance)} over its size"
    made = change(options, {f"clearance.{key}": exact_length(grown, units)})
    was, is_now = writer(units).length(now), writer(units).length(grown)
    return made, [Change(key=f"clearance.{key}", before=was, after=is_now, why=why)]


def _up(x: Fraction, units: Units) -> Fraction:
    """Up to the next 1/16 in or 1 mm."""
    grid = writer(units).grid
    return -(-x // grid) * grid
