"""What single functions answer to many questions: tables by every name and size, formulas over a grid that meets their
limits, prices, sizes and lists as people type them, well and badly.

    python -m tests.snapshots.answers                  # writes them anew; the diff shows what moved
    python -m tests.snapshots.answers "screw values"   # all that is said, to lay beside another checkout's
"""

from __future__ import annotations

import sys
import zlib
from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction
from itertools import product
from pathlib import Path
from typing import Any

from tests.snapshots.sums import Sum, renew, sums
from tests.snapshots.written import told
from tutorial_lib import tables
from tutorial_lib.assembly import doorway, lifting, squaring
from tutorial_lib.cutting import cut_lists, marking
from tutorial_lib.cutting.money import Money, Price, read_price
from tutorial_lib.design import values
from tutorial_lib.errors import TutorialError
from tutorial_lib.finishing import cans, coats, sanding
from tutorial_lib.finishing.timeline import timeline
from tutorial_lib.measures import mm
from tutorial_lib.strength import screws, sections
from tutorial_lib.tables.rows import nearest

STORED = Path(__file__).parents[1] / "data" / "plans" / "answers.txt"
Asked = Callable[..., Any]


def _of(ask: Asked, *grid: Iterable[Any]) -> Iterator[str]:
    """One function at every point of a grid, with what it refuses; of names a checksum, of sentences the numbers."""
    for point in product(*grid):
        try:
            answer = ask(*point)
        except (TutorialError, ValueError) as refusal:
            places = _plain([fault.where for fault in getattr(refusal, "faults", ())])
            yield f"{ask.__name__} refuses {point!r}: {places}"
        else:
            yield f"{ask.__name__} {point!r}: {_plain(answer)}"


def _plain(value: Any) -> str:
    """A value's numbers, and its names as numbers too."""
    if isinstance(value, str):
        return f"{value} {zlib.crc32(value.encode())}" if len(value.split()) < 6 else value.replace("\n", " ")
    if isinstance(value, dict):
        return _plain(tuple(value.items()))
    if isinstance(value, tuple | list):
        return f"({', '.join(map(_plain, value))})"
    fields = getattr(value, "__dataclass_fields__", None)
    return told(value) if fields is None else f"({', '.join(_plain(getattr(value, name)) for name in fields)})"


NAMES = ("twin", "king", "King size bed", "single", "double", "UK double", "EU 160x200 cm", "54x75 in", "53 by 74",
         "1/2", "54x75", "75x54 in", "AU king", "EU double", "full XL", "quen", "short queen", "140 x 200",
         "90x200cm", "", "three quarter", "UK king", "54 in x 75 in", "US twin", "AU queen", "0x75 in")  # fmt: skip
WIDTHS = (2, 3, 4, 5, 6, 8, 10, 12, 14)
GRADES = ("No.1", "#2", "No.3", "Stud", "Construction", "Select Structural", "Utility", "Standard", "C24", "SS", "")
HALVES = tuple(Fraction(n, 2) for n in range(1, 17))
TYPED_PRICES = ("$12.98", "4,50 €", "-3", "1,234.50", "1.234,50", "1 234", "12'000.5", "CHF 5", "$5 USD",
                "", "x", "0,123", "0.999", "1000000", "1000001", "-0", "£.50", "1,234", "1,23,4", "9" * 50)  # fmt: skip
LISTS = ("name,length,count\na,{0},3\nb,{1},2\n", "name;length;count;section\na;{0};3;2x4\nb;{1};1;2x4\n",
         "name,length,count,together\na,{0},2,x\nb,{1},2,x\n", "name,length\na,{0}\n", "name,length,count\na,{0},-1\n",
         "name,length,count\na,{0},3\na,{0},2\n", "name,length,count\n,{0},1\nb,,2\nc,{1},0\n")  # fmt: skip
STOCKS = ("name,length,price\ns,{2},5.10\n", "name,length,price,available,section\ns,{2},5,2,2x4\nt,{2},,1,2x4\n",
          "name,length,price\ns,{2},$5\nt,{1},€4\n", "name;length;price\ns;{2};0\n", "name,length,price\n")  # fmt: skip
UNITS = (
    ("10 in", "20 1/2 in", "96 in"),
    ("250 mm", "520.5 mm", "2400 mm"),
    ("10", "20", "96"),
    ("1 ft", "9 ft", "8 ft"),
)


def mattresses() -> Iterator[str]:
    """By every name there is, and by what people type."""
    families = (None, "US A", "US B", "UK", "EU")
    yield from _of(tables.mattress, (*NAMES, *dict.fromkeys(m.name for m in tables.mattresses())), families)
    yield from _of(tables.nearest_mattress, NAMES)
    sizes = [(m.width, m.length) for m in tables.mattresses()]
    for name in (None, "full", "UK double", "queen"):
        yield from (f"family {size} {name}: {_plain(tables.family_of(*size, name) or '')}" for size in sizes)
    yield from _of(nearest, ("quen", "twn", "dbl", "oyl", "zzz"), (("queen", "twin", "double", "oil"),))


def lumber() -> Iterator[str]:
    """Design values, size factors, sections and what is sold where."""
    species = [wood.name for wood in tables.all_species()]
    yield from _of(tables.design_values, (*species, "SPF", "DF-L", "white oak", "hem fir", "walnut"), GRADES, WIDTHS)
    rows = [tables.design_values(wood, "No.2", 6) for wood in ("SPF", "Southern Pine")]
    rows += [tables.design_values("SPF", grade, 4) for grade in ("Stud", "Construction", "Utility")]
    yield from _of(tables.size_factor, rows, ("Fb", "Ft", "Fc", "E"), (1, 2, 3, 4), WIDTHS)
    yield from _of(tables.flat_use_factor, (1, 2, 3, 4), WIDTHS)
    yield from _of(tables.grades_of, species)
    yield from _of(tables.duration_factor, ("permanent", "ten years", "seven days", "ten minutes", "impact", "never"))
    sizes = tables.dressed_sizes()
    yield from _of(tables.section_in, ("US", "EU", "UK", "AU"), sizes)
    yield from _of(tables.board_lengths, ("US", "EU", "UK", "AU"), [size.name for size in sizes])
    yield from _of(tables.nominal_width, (*HALVES, *(mm(n) for n in (45, 70, 95, 145, 195))))
    yield from _of(tables.nearest_section, (Fraction(3, 4), Fraction(3, 2), mm(45)), HALVES, ("imperial", "metric"))
    yield from _of(tables.dressed, ("2x4", "2 x 4", "2X4", "45x95", "1x5", "2by4", "x", "5/4x6", "2x40"))
    yield from _of(sections.graded, species)


def fasteners() -> Iterator[str]:
    """Every screw, bolt and bit by name, and names that aren't any."""
    kinds, series = ("wood screw", "lag screw", "carriage bolt"), ("imperial", "metric")
    names = ("#8", "8", "#15", "5 mm", "7 mm", "1/4", "3/8", "M8", "8 mm", "9/16", "", "#10")
    yield from _of(tables.sold_lengths, kinds, ("8", "10", "1/4", "3/8", "M8", "8 mm", "5 mm", "7"))
    for ask in (tables.screw, tables.lag_screw, tables.carriage_bolt, tables.barrel_nut):
        yield from _of(ask, names)
    for every in (tables.screws, tables.lag_screws, tables.carriage_bolts):
        yield from _of(every, series)
    yield from _of(tables.drill_bits, (None, "in", "mm"), (None, "twist", "spade", "long twist"))


def screw_values() -> Iterator[str]:
    """The yield equations and withdrawal, on both sides of every limit."""
    gravities, thick = (0.30, 0.31, 0.42, 0.55, 0.73, 0.74), (0.13, 0.19, 0.2499, 0.25, 0.375, 0.5)
    yield from _of(screws.wood_bearing, gravities, thick, (False, True))
    modes = ("Im", "Is", "II", "IIIm", "IIIs", "IV")
    yield from _of(screws.reduction, (0.1, 0.17, 0.2, 0.2499, 0.25, 0.3), thick, modes, (0.0, 45.0, 90.0))
    yield from _of(screws.withdrawal, gravities, thick)
    yield from _of(screws.lag_withdrawal, gravities, thick)
    yield from _of(screws.combined, (50.0, 100.0), (80.0, 120.0), (0.0, 10.0, 60.0), (0.0, 20.0, 70.0))

    def lateral(root: float, main: float, side: float, fe: float, angle: float) -> Any:
        found = screws.lateral(screws.Dowel(
            diameter=root * 1.25, root=root, yield_strength=80000, main=main, side=side, main_bearing=fe,
            side_bearing=3350.0, angle=angle))  # fmt: skip
        return found.value, found.mode, found.modes

    yield from _of(lateral, (0.12, 0.2, 0.25), (0.0, 0.4, 1.5, 3.0), (0.0, 0.5, 1.5), (2000.0, 4650.0), (0.0, 90.0))


def handling() -> Iterator[str]:
    """Lifting, doors, turns, diagonals."""
    steps = (0.0, 5.0, 10.0, 12.5, 25.0, 25.1, 30.0, 31.0, 70.0, 70.5, 90.0, 135.0, 136.0)
    for ask in (lifting.horizontal, lifting.vertical, lifting.distance, lifting.asymmetry):
        yield from _of(ask, steps)
    yield from _of(lifting.coupling, ("good", "fair", "poor"), steps)
    yield from _of(lifting.turn, (20.0, 51.0, 102.0, 150.0, 300.0), (60.0, 80.0), (0.0, 12.0, 40.0))
    edges = tuple(map(Fraction, (5, 29, 30, 31, 40, 79)))
    yield from _of(
        doorway.passes, list(product(edges[2:], edges[1:4], edges[:2])), edges[1:4], (Fraction(80), Fraction(30))
    )
    yield from _of(doorway.longest_round, (30.0, 36.0), (30.0, 42.0), (0.0, 12.0, 30.0, 40.0))
    yield from _of(squaring.diagonal, (Fraction(40), Fraction(61)), (Fraction(76), Fraction(80)))
    yield from _of(squaring.difference, (40.0, 61.0), (76.0, 80.0), (0.0, 0.5, 2.0))
    yield from _of(squaring.lean, (40.0, 61.0), (76.0, 80.0), (0.0, 0.125, 1.0))


def marks() -> Iterator[str]:
    """Marking methods by simulation, few trials."""
    rows = [marking.row_of(Fraction(76), Fraction(7, 2), count, Fraction(11, 4)) for count in (12, 13, 14)]
    yield from _of(marking.compare, rows, (marking.Errors(), marking.Errors(slat_width=0.1, tape=0.0)), (60,))
    yield from _of(marking.chance_to_rock, (0.01, 1 / 32, 0.2), (marking.Errors(),), (200,))


def finish() -> Iterator[str]:
    """Cans, coats, grits and how long it all takes."""
    one, four = (cans.Can(name, Fraction(size), price) for name, size, price in (
        ("quart", Fraction(1, 4), Fraction(22)), ("gallon", 1, Fraction(60))))  # fmt: skip
    unpriced = [cans.Can(can.name, can.gallons, None) for can in (one, four)]
    amounts = (0.01, 0.25, 0.26, 0.5, 0.51, 0.75, 1.0, 1.1, 2.0, 2.3)
    yield from _of(cans.choose, amounts, ([one], [one, four], unpriced))
    kinds = ("oil", "oil stain", "water stain", "varnish", "water varnish", "paint", "oil paint", "none", "soap", "oyl")
    yield from _of(coats.coats, kinds, (0, 1, 3), (Fraction(0), Fraction(90)), (Fraction(2),), ([one, four],))
    grits = ((), (120,), (120, 180), (80, 400), (180, 120), (60, 80, 100), (119, 180), (320,), (40, 80, 120, 180, 220))
    yield from _of(sanding.sanding, grits, (Fraction(0), Fraction(1), Fraction(90)), (Fraction(50),))
    for kind, numbers, recoat in product(kinds[:4], grits[1:4], (None, 3.0)):
        made = coats.coats(kind, 2, Fraction(90), Fraction(2), [one, four])
        sanded = sanding.sanding(numbers, Fraction(90), Fraction(50))[0]
        yield f"timeline {kind} {numbers} {recoat}: {_plain(timeline(sanded, made, recoat))}"


def typed() -> Iterator[str]:
    """Prices, weights, hours and cans as they are typed."""
    yield from _of(read_price, TYPED_PRICES)
    figures = "5|5 lb|2.5 kg|-1 lb|3 h|2 days|90 min|1 quart|750 ml|5 l|0|x|1/0|1 1/2 in".split("|")
    for ask in (
        values.read_pounds,
        values.read_hours,
        values.read_gallons,
        values.read_money,
        values.read_length_field,
    ):
        yield from _of(ask, figures)
    money = [Money.of([Price(Fraction(price)), Price(Fraction(1), "€", True)]) for price in ("1", "0.125", "3.999")]
    money += [Money.in_currency(code) for code in ("usd", "gbp", "aud", "sek")]
    yield from (f"money {coins}: {_plain((one.write(coins), one.number(coins)))}"
                for one, coins in product(money, (0, 1, 5, 100, 12345)))  # fmt: skip


def lists() -> Iterator[str]:
    """Parts lists as files, well and badly written."""

    def listed(pieces: str, stock: str, lengths: tuple[str, ...], kerf: str) -> str:
        return cut_lists(pieces.format(*lengths), stock.format(*lengths), kerf, "0").as_text()

    yield from _of(listed, LISTS, STOCKS, UNITS, ("1/8 in", "3 mm", "2 in"))


ASKED: dict[str, Callable[[], Iterator[str]]] = {
    "mattresses": mattresses, "lumber": lumber, "fasteners": fasteners, "screw values": screw_values,
    "handling": handling, "marks": marks, "finish": finish, "typed": typed, "lists": lists,
}  # fmt: skip


def of(name: str) -> dict[str, Sum]:
    """The sums of what is answered, by function."""
    return sums(ASKED[name]())


def main(names: list[str]) -> None:
    """Writes them anew, or what one says."""
    renew(STORED, ASKED, lambda name: ASKED[name](), names)


if __name__ == "__main__":
    main(sys.argv[1:])
