"""The one writer of a plan's units: any quantity in, text or number in inches and pounds, or mm and kg, out.

Quantities are handed over in the unit they are held in (``scales.HELD``): lengths in inches, weights and forces in
pounds, stresses in psi, areas in square feet, liquids in US gallons. Everything told to a person goes through here.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from fractions import Fraction
from functools import cache
from math import floor
from typing import TYPE_CHECKING, Any

from tutorial_lib.errors import InputError
from tutorial_lib.measures.scales import BY_UNIT, HELD, Kind, Scale, Units, counting_places, decimals, figure
from tutorial_lib.measures.units import convert, factor, registry
from tutorial_lib.measures.writing import mm, round_to, to_mm, write_inches, write_length
from tutorial_lib.records import dataclass

if TYPE_CHECKING:
    import pint

Number = Fraction | float | int

SIGNS = {"usd": "$", "eur": "€", "gbp": "£"}
FINEST_BIT = 64  # fractional bits are sold by 1/64 in


@dataclass(frozen=True)
class Writer:
    """Writes quantities in one plan's own units.

    >>> metric = writer("mm")
    >>> metric.length(Fraction(381, 8)), metric.weight(200), metric.stress(875), metric.area(18.65)
    ('1210 mm', '91 kg', '6.03 N/mm²', '1.73 m²')
    >>> metric.screw("4 mm", Fraction(200, 127)), metric.bolt(Fraction(50, 127), Fraction(700, 127))
    ('4 x 40 mm', 'M10 x 140 mm')
    >>> writer("in", both=True).marks([Fraction(9, 2), Fraction(301, 8)]), writer("mm", both=True).length(Fraction(4))
    ('4 1/2, 37 5/8 in (114, 956 mm)', '102 mm (4 in)')
    """

    units: Units
    both: bool = False  # lengths that are told, bits and kerfs stand in the other system too, in brackets

    def __post_init__(self) -> None:
        if self.units not in ("in", "mm"):
            raise InputError(f'units = "{self.units}" is not known; use "in" or "mm".')

    @property
    def metric(self) -> bool:
        """True for a plan in millimetres and kilograms."""
        return self.units == "mm"

    @property
    def own(self) -> Writer:
        """This system's writer, without the other: for the names that things are sold under."""
        return writer(self.units)

    @property
    def other(self) -> Writer:
        """The other system's writer."""
        return writer("in" if self.metric else "mm")

    # Any kind of quantity.

    def scale(self, kind: Kind) -> Scale:
        """How this plan writes one kind of quantity."""
        held = HELD[kind]
        return held.metric if self.metric else held.inch

    def unit(self, kind: Kind) -> str:
        """The unit as a table's heading has it: "kg", "N/mm²", "sq ft"."""
        return self.scale(kind).written

    def convert(self, kind: Kind, value: Number) -> Number:
        """A value in the plan's unit, unrounded: a Fraction or whole number stays exact, a float a float.

        >>> writer("mm").convert("length", Fraction(3, 2))
        Fraction(381, 10)
        """
        to = self.scale(kind).unit
        if kind == "temperature":  # its zero moves, so that no factor does
            return convert(Fraction(value), HELD[kind].unit, to)
        times = factor(HELD[kind].unit, to)
        return value * float(times) if isinstance(value, float) else value * times

    def rounded(self, kind: Kind, value: Number) -> float | int:
        """A value in the plan's unit, rounded by the kind's rule, as a number; lengths are not rounded this way.

        >>> writer("mm").rounded("weight", 200.0), writer("mm").rounded("area", 18.65)
        (91, 1.73)
        """
        converted = float(self.convert(kind, value))
        places = self.scale(kind).places
        near = round(converted, counting_places(converted) if places is None else places)
        return int(near) if near == int(near) else near

    def number(self, kind: Kind, value: Number, places: int | None = None) -> str:
        """A value in the plan's unit without the unit, for a table's cell; rounded by the kind's rule, or to places."""
        if kind == "length":
            return self.mark(Fraction(value))
        places = self.scale(kind).places if places is None else places
        converted = self.convert(kind, value)
        return figure(converted) if places is None else decimals(converted, places)

    def write(self, kind: Kind, value: Number, places: int | None = None) -> str:
        """A value with its unit.

        >>> writer("in").write("stress", 1443.75), writer("mm").write("stress", 1443.75)
        ('1444 psi', '9.95 N/mm²')
        """
        return _with_unit(self.number(kind, value, places), self.unit(kind))

    def between(self, kind: Kind, low: Number, high: Number) -> str:
        """A range, its unit once: "12 to 18 fl oz"."""
        ends = dict.fromkeys((self.number(kind, low), self.number(kind, high)))
        return _with_unit(" to ".join(ends), self.unit(kind))

    def of(self, quantity: pint.Quantity[Any]) -> str:
        """A pint quantity in the plan's own units.

        >>> writer("mm").of(registry().Quantity(200, "lb")), writer("in").of(registry().Quantity(90, "kg"))
        ('91 kg', '198 lb')
        """
        for kind in BY_UNIT:
            if quantity.check(registry().Unit(HELD[kind].unit).dimensionality):
                return self.write(kind, quantity.to(HELD[kind].unit).magnitude)
        if quantity.check("[time]"):
            return self.time(quantity.to("h").magnitude)
        if quantity.dimensionless:
            return figure(quantity.to("").magnitude)
        raise InputError(f"{quantity} is of no kind that a plan writes.")

    # Lengths [in].

    @property
    def grid(self) -> Fraction:
        """The finest mark of the plan's tape [in]: 1/16 in, or 1 mm."""
        return mm(1) if self.metric else Fraction(1, 16)

    @property
    def reading_error(self) -> Fraction:
        """How far a length may lie off and still be the same reading of a tape [in]: 1/64 in, or 0.5 mm; our choice."""
        return mm(Fraction(1, 2)) if self.metric else Fraction(1, 64)

    @property
    def bit_error(self) -> Fraction:
        """The same for a diameter or a kerf [in]: 1/128 in, or 0.1 mm; our choice."""
        return mm(Fraction(1, 10)) if self.metric else Fraction(1, 128)

    def length(self, x: Fraction, finest: int = 16) -> str:
        """At the tape's mark: "47 5/8 in", "1210 mm"."""
        return self._with_other(write_length(x, self.units, finest), lambda w: w.length(x))

    def mark(self, x: Fraction, finest: int = 16) -> str:
        """The tape's mark without its unit: "47 5/8", "1210"."""
        return str(self.marked(x)) if self.metric else write_inches(x, finest)

    def marked(self, x: Fraction, finest: int = 16) -> Fraction:
        """The tape's mark as a number in the plan's unit, the one that :meth:`mark` writes.

        >>> writer("in").marked(Fraction(107, 52)), writer("mm").marked(Fraction(3, 2))
        (Fraction(33, 16), Fraction(38, 1))
        """
        return round_to(to_mm(x), 1) if self.metric else round_to(x, finest)

    def marks(self, xs: Iterable[Fraction], finest: int = 16) -> str:
        """A row of marks, the unit once: "0, 5 9/16, 11 1/8 in"."""
        rows = list(xs)
        told = f"{', '.join(self.mark(x, finest) for x in rows)} {self.units}"
        return self._with_other(told, lambda w: w.marks(rows))

    def size(self, *xs: Fraction) -> str:
        """Width by length, or more, the unit once: "38 x 75 in"."""
        told = f"{' x '.join(map(self.mark, xs))} {self.units}"
        return self._with_other(told, lambda w: w.size(*xs))

    def stated(self, x: Fraction) -> str:
        """As it was stated, never moved to a mark: a kerf of 3/64 in stays 3/64 in, of 3.2 mm 3.2 mm."""
        return self._with_other(f"{self.stated_number(x)} {self.units}", lambda w: w.nearest_bit(x))

    def stated_number(self, x: Fraction) -> str:
        """As it was stated, without its unit: "3/64", "3.2".

        What was stated in inches, as the usual blade of 1/8 in is, a metric plan tells to 0.1 mm: no scale shows more.

        >>> [writer("mm").stated_number(x) for x in (mm("3.25"), Fraction(1, 8), Fraction(1, 4))]
        ['3.25', '3.2', '6.4']
        """
        if self.metric:
            places = 1 if FINEST_BIT % x.denominator == 0 else 2
            return decimals(round_to(to_mm(x), 10**places), places)
        return write_inches(x, x.denominator) if FINEST_BIT % x.denominator == 0 else decimals(x, 4)

    def calculated(self, x: Number) -> str:
        """Finer than a tape shows: "0.812 in", "20.6 mm"."""
        return self.write("calculated", x)

    def bit(self, diameter: Number) -> str:
        """A drill bit or hole by its sold size, never moved to a tape mark: "9/64 in", "3.5 mm"."""
        return self._with_other(f"{self.bit_number(diameter)} {self.units}", lambda w: w.nearest_bit(diameter))

    def bits(self, diameters: Iterable[Number]) -> str:
        """A row of bits, the unit once: "11/32, 3/8 in"."""
        row = list(diameters)
        told = f"{', '.join(map(self.bit_number, row))} {self.units}"
        others = ", ".join(map(self.other.nearest_bit_number, row))
        return self._with_other(told, lambda w: f"{others} {w.units}")

    def nearest_bit(self, diameter: Number) -> str:
        """A bit, hole or kerf of the other system by the nearest size of this one: 5.5 mm as "7/32 in"."""
        return f"{self.nearest_bit_number(diameter)} {self.units}"

    def nearest_bit_number(self, diameter: Number) -> str:
        """The same without its unit.

        >>> writer("in").nearest_bit_number(Fraction(55, 254)), writer("mm").nearest_bit_number(Fraction(7, 32))
        ('7/32', '5.6')
        """
        if self.metric:
            return self.bit_number(diameter)
        return write_inches(round_to(Fraction(diameter).limit_denominator(10**6), FINEST_BIT), FINEST_BIT)

    def bit_number(self, diameter: Number) -> str:
        """A drill bit or hole by its sold size, without its unit: "9/64", "3.5"."""
        exact = Fraction(diameter).limit_denominator(10**6)
        if self.metric:
            return decimals(round_to(to_mm(exact), 10), 1)
        near = Fraction(floor(exact * FINEST_BIT + Fraction(1, 2)), FINEST_BIT)
        return write_inches(near, FINEST_BIT) if abs(near - exact) < Fraction(1, 10**5) else decimals(exact, 3)

    # What is bought.

    def section(self, name: str, thickness: Fraction, width: Fraction) -> str:
        """A section by the name it is sold under; one of the other system with its size in this one.

        >>> writer("in").section("2x4", Fraction(3, 2), Fraction(7, 2))
        '2x4'
        >>> writer("mm").section("2x4", Fraction(3, 2), Fraction(7, 2))
        '2x4 (38 x 89 mm)'
        """
        size = self.own.size(thickness, width)
        own = _whole(to_mm(thickness)) and _whole(to_mm(width))
        return name if own == self.metric else f"{name} ({size})"

    def screw(self, size: str, length: Fraction) -> str:
        """A screw as asked for in a shop: "#8 x 1 1/2 in", "4 x 40 mm".

        Args:
            size: gauge "#8", or a metric screw's diameter "4 mm".
            length: [in].
        """
        return f"{size.removesuffix(' mm') if self.metric else size} x {self.own.length(length)}"

    def bolt(self, diameter: Fraction, length: Fraction) -> str:
        """A bolt or lag screw by shank and length: "3/8 x 5 1/2 in", "M10 x 140 mm"."""
        millimetres, long = to_mm(diameter), self.own.length(length)
        if _whole(millimetres):
            return f"M{millimetres} x {long}"
        size = decimals(millimetres, 1) if self.metric else write_inches(diameter, FINEST_BIT)
        return f"{size} x {long}"

    def _with_other(self, told: str, other: Callable[[Writer], str]) -> str:
        return f"{told} ({other(self.other)})" if self.both else told

    # Weights [lb] and the rest.

    def weight(self, pounds: Number) -> str:
        """People, boards, what stands on a leg: "77 lb", "35 kg"."""
        return self.write("weight", pounds)

    def force(self, pounds: Number) -> str:
        """In a fastener or a member: "72.6 lb", "323 N"."""
        return self.write("force", pounds)

    def stress(self, psi: Number) -> str:
        """Stress: "875 psi", "6.03 N/mm²"."""
        return self.write("stress", psi)

    def area(self, square_feet: Number) -> str:
        """An area to sand or finish: "18.65 sq ft", "1.73 m²"."""
        return self.write("area", square_feet)

    def volume(self, gallons: Number) -> str:
        """A liquid: "12 fl oz", "355 ml"; from a quart or a litre on "1.5 gallons", "2.5 litres"."""
        if self.metric:
            litres = gallons * float(factor("gal", "l"))
            return self.write("volume", gallons) if litres < 1 else _counted(litres, "litre")
        return self.write("volume", gallons) if gallons * 4 < 1 else _counted(gallons * 4, "quart")

    def time(self, hours: Number) -> str:
        """A time: "30 min", "4 h", from two days on "3.3 days"; the same in every plan."""
        if hours < 1:
            return f"{decimals(hours * 60, 0)} min"
        return f"{decimals(hours, 1)} h" if hours < 48 else f"{decimals(hours / 24, 1)} days"


@cache
def writer(units: Units, both: bool = False) -> Writer:
    """The writer of a plan's units, "in" or "mm"; lengths in both where that is asked for."""
    return Writer(units, both)


def money(amount: Fraction | float, currency: str) -> str:
    """An amount with its currency: "$89.50", "89.50 chf"."""
    sign = SIGNS.get(currency.lower(), "")
    return f"{sign}{float(amount):.2f}" if sign else f"{float(amount):.2f} {currency}"


def _with_unit(number: str, unit: str) -> str:
    return f"{number} {unit}" if number[-1:].isdigit() else number  # "beyond any limit" has no unit


def _counted(value: Number, name: str) -> str:
    text = decimals(value, 1)
    return f"{text} {name}" + ("" if text == "1" else "s")


def _whole(x: Fraction) -> bool:
    return x.denominator == 1
