"""What to buy: fasteners by kind and length with spares, in the boxes sold, and brackets by the piece."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from math import ceil
from typing import TYPE_CHECKING, Literal

from tutorial_lib.design.brackets import corner_of
from tutorial_lib.design.fasteners import Fastener, Fastening
from tutorial_lib.design.model import Build, Joint
from tutorial_lib.design.straps import straps_of
from tutorial_lib.drilling.sizes import by_shank
from tutorial_lib.measures import writer
from tutorial_lib.records import dataclass
from tutorial_lib.tables import box_sizes

if TYPE_CHECKING:
    from tutorial_lib.drilling.sizes import ScrewSize
    from tutorial_lib.measures import Writer

SPARE_PARTS = 10  # one spare screw in ten, at least two (common practice, no source)


@dataclass(frozen=True)
class Buy:
    """One kind of fastener to buy, for all joints that take it."""

    fastener: Fastener  # as bought
    used_for: tuple[str, ...]  # kinds of joint
    needed: int
    with_spares: int
    boxes: tuple[tuple[int, int], ...]  # (how many boxes, pieces in each), largest first

    @property
    def bought(self) -> int:
        """Pieces in all boxes."""
        return sum(count * size for count, size in self.boxes)


@dataclass(frozen=True)
class Hardware:
    """Something bought by the piece that is not a screw or bolt."""

    name: str
    count: int
    where: str
    mind: str = ""  # what to look at when it is bought
    priced_as: Literal["", "nut", "washer", "bracket"] = ""  # key of its price in the build file


def boxes(
    wanted: int, sizes: Sequence[int], prices: Mapping[int, Fraction] | None = None
) -> tuple[tuple[int, int], ...]:
    """The boxes that hold what is wanted: cheapest, least left over, then fewest; of one size, or one and a smaller.

    Args:
        wanted: how many pieces.
        sizes: pieces in a box, smallest first.
        prices: of a box of each size; None where none are known.

    >>> boxes(31, (50, 100))
    ((1, 50),)
    >>> boxes(120, (50, 100, 250))
    ((1, 100), (1, 50))
    >>> boxes(120, (50, 250), {50: Fraction(6), 250: Fraction(15)})
    ((1, 250),)
    """
    price = prices or dict.fromkeys(sizes, Fraction(0))
    found = []
    for i, large in enumerate(sizes):
        for small in sizes[: i + 1]:
            for whole in range(ceil(wanted / large) + 1):
                rest = ceil(max(0, wanted - whole * large) / small)
                if whole + rest and (small != large or not rest):
                    cost = whole * price[large] + rest * price[small]
                    held = whole * large + rest * small
                    found.append((cost, held, whole + rest, ((whole, large), (rest, small))))
    best = min(found, key=lambda entry: entry[:3])[3]
    return tuple((count, size) for count, size in best if count)


def buys(fastenings: Sequence[Fastening]) -> tuple[Buy, ...]:
    """Fasteners to buy, in the order of the job; the same one for several joints is bought together."""
    counts: Counter[Fastener] = Counter()
    uses: dict[Fastener, dict[str, None]] = {}
    for fastening in fastenings:
        bought = fastening.fastener.bought
        counts[bought] += fastening.count
        uses.setdefault(bought, {})[fastening.joint.kind] = None
    return tuple(_buy(fastener, count, tuple(uses[fastener])) for fastener, count in counts.items())


def _buy(fastener: Fastener, needed: int, uses: tuple[str, ...]) -> Buy:
    bolt = fastener.kind in ("carriage bolt", "hex bolt")
    spares = 0 if bolt else max(2, ceil(needed / SPARE_PARTS))
    kind = "wood screw" if fastener.kind in ("structural screw", "bracket") else fastener.kind
    loose = kind in ("carriage bolt", "hex bolt", "lag screw")
    sizes = (1,) if loose else box_sizes(kind)
    return Buy(fastener, uses, needed, needed + spares, boxes(needed + spares, sizes))


BOLTED = (  # kind, its nut and where that goes, where its washer goes
    ("carriage bolt", "nut", "on the carriage bolts", "under the nuts"),
    ("lag screw", "", "", "under the lag screws' heads"),
    ("hex bolt", "barrel nut", "in the rails, on the hex bolts", "under the hex bolts' heads"),
)


def _nuts(build: Build, fastenings: Sequence[Fastening]) -> Iterator[Hardware]:
    """A nut for each bolt by its thread, a barrel nut for one into a rail's end; washers by the shank they go on."""
    w = writer(build.options.build.units)
    for kind, nut, where, under in BOLTED:
        counts: Counter[Fraction] = Counter()
        for fastening in fastenings:
            if fastening.fastener.kind == kind:
                counts[fastening.fastener.shank] += fastening.count
        for shank, count in counts.items():
            row = by_shank("carriage bolt", float(shank))
            thread = row.thread if row else w.bit(shank)
            wide = f"{w.length(Fraction(row.washer_width))} across" if row else ""
            if nut:
                yield Hardware(f"{nut}, {thread}", count, where, priced_as="nut")
            yield Hardware(f"flat washer, {_shank(w, row, shank)}", count, under, wide, "washer")


def _shank(w: Writer, row: ScrewSize | None, shank: Fraction) -> str:
    """What a washer is asked for by: "3/8 in", "M10"."""
    return row.size if row and row.series == "metric" else w.bit(shank)


def _straps(build: Build) -> list[Hardware]:
    """Webbing and what fastens it, with a spare staple in ten."""
    straps = straps_of(build)
    if straps is None:
        return []
    w = writer(build.options.build.units)
    size = f"{w.length(straps.width)} wide, {w.length(straps.length)} long"
    staples = ceil(straps.staples * (1 + Fraction(1, SPARE_PARTS)))
    return [
        Hardware(f"strap of webbing, {size}", straps.count, "along the slats"),
        Hardware("staple or tack", staples, "straps to slats, spares included"),
    ]


def hardware(build: Build, fastenings: Sequence[Fastening]) -> tuple[Hardware, ...]:
    """Nuts, washers and brackets. Brackets bring their own screws: use those their maker names."""
    out = [
        *_nuts(build, fastenings),
        *([] if build.bed_stands else _straps(build)),
        *_brackets(build),
    ]
    return tuple(bought for bought in out if bought.count)


def _brackets(build: Build) -> Iterator[Hardware]:
    names = {
        "line_end": ("bracket or hanger", "centre line to end rail"),
        "line_leg": ("bracket", "centre line to its leg"),
        "leg": ("bracket", "rail to the leg under it"),
        "post": ("bed-rail hook with its plate", "rail to post"),
    }
    for kind, (name, where) in names.items():
        mine = [j for j in build.joints if j.kind == kind and j.fastener == "bracket"]
        mind = "; ".join(_to_mind(build, mine))
        yield Hardware(name, sum(map(build.makes, mine)), where, mind, "" if kind == "post" else "bracket")


def _to_mind(build: Build, joints: Sequence[Joint]) -> Iterator[str]:
    """What to look at when brackets are bought: how wide they may be, and that their screws are counted nowhere."""
    widths = [corner.width for corner in (corner_of(build, joint) for joint in joints) if corner is not None]
    if widths:
        yield f"{writer(build.options.build.units).length(min(widths))} wide at most"
    yield "with the screws its maker names, not counted here"
