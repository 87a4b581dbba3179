"""Boards as they are sold where a bed is built: sections and lengths of a region, and sections like another's."""

from __future__ import annotations

from fractions import Fraction

from tutorial_lib import tables
from tutorial_lib.design.options import Options
from tutorial_lib.errors import InputError
from tutorial_lib.measures import mm
from tutorial_lib.tables import Region

INCH_BOARDS_IN_MM = tuple(mm(size) for size in (2438, 3048, 3657, 4267, 4876))  # 8 to 16 ft, never longer than sold
ALIKE = Fraction(1, 8)  # [in] two sections are as wide as each other; our choice


def region_of(options: Options) -> Region | None:
    """Whose boards a build takes: stated, else the region all of whose shops keep its rails; None for none."""
    if options.shop.region is not None:
        return options.shop.region
    return next((board.region for board in tables.sold_boards() if board.section == options.frame.rail), None)


def like(options: Options, name: str) -> str:
    """The section that a build's region sells in place of an American one.

    Args:
        options: the build whose region counts.
        name: "2x4".
    """
    size, region = tables.dressed(name), region_of(options)
    if region is not None:
        return tables.section_in(region, size)
    if options.build.units == "mm":
        return tables.nearest_section(size.thickness, size.width, "metric").name
    return name


def lengths(options: Options, section: str) -> tuple[Fraction, ...]:
    """Lengths sold of a section [in]."""
    region = region_of(options)
    if region is not None:
        return tables.board_lengths(region, section)
    return INCH_BOARDS_IN_MM if options.build.units == "mm" else tables.board_lengths("US", section)


def thicker(options: Options, section: str) -> str | None:
    """The section about twice as thick and as wide, where the region sells one."""
    try:
        size = tables.dressed(section)
    except InputError:
        return None
    there = _sold(region_of(options), size.system)
    wide = [other for other in there if abs(other.width - size.width) <= ALIKE]
    fits = [other for other in wide if Fraction(8, 5) <= other.thickness / size.thickness <= Fraction(5, 2)]
    return min(fits, key=lambda other: abs(other.thickness - 2 * size.thickness), default=size).name if fits else None


def _sold(region: Region | None, system: str) -> list[tables.DressedSize]:
    """The sizes a region sells; without one, all of the same system."""
    if region:
        return [board.size for board in tables.sold_boards(region)]
    return [size for size in tables.dressed_sizes() if size.system == system]
