"""Writes exact inches the way a tape shows them: sixteenths, feet and inches, or millimetres. Rounding is said."""

from __future__ import annotations

from fractions import Fraction
from math import floor

from tutorial_lib.errors import InputError
from tutorial_lib.records import dataclass

MM_PER_INCH = Fraction(254, 10)  # exact by definition, 24 FR 5348 (1959)
FINEST_TAPE = 64  # 1/64 in: finer differences are told in decimals


@dataclass(frozen=True)
class Rounded:
    """A length as written, and what writing it changed."""

    text: str
    exact: bool
    by: Fraction  # written minus exact [in]; above 0 when it was rounded up
    note: str  # "rounded up by 1/64 in", or "" when exact


def mm(value: int | str | Fraction) -> Fraction:
    """Millimetres as exact inches [in].

    >>> mm(1400)
    Fraction(7000, 127)
    """
    return Fraction(value) / MM_PER_INCH


def to_mm(x: Fraction) -> Fraction:
    """Inches as exact millimetres [mm].

    >>> to_mm(Fraction(3, 2))
    Fraction(381, 10)
    """
    return x * MM_PER_INCH


def round_to(x: Fraction, denominator: int = 16) -> Fraction:
    """The nearest 1/denominator; a tie goes up, as marks on a tape do (common practice, no source).

    >>> round_to(Fraction(1, 32))
    Fraction(1, 16)
    """
    return Fraction(floor(x * denominator + Fraction(1, 2)), denominator)


def write_inches(x: Fraction, denominator: int = 16) -> str:
    """The nearest tape mark, without a unit: "47 5/8".

    >>> write_inches(Fraction(381, 8)), write_inches(Fraction(-1, 4))
    ('47 5/8', '-1/4')
    """
    near = round_to(x, denominator)
    whole, part = divmod(abs(near), 1)
    figures = " ".join(str(piece) for piece in (whole, part) if piece) or "0"
    return f"-{figures}" if near < 0 else figures


def write_length(x: Fraction, units: str = "in", denominator: int = 16) -> str:
    """A length with its unit, at the nearest tape mark: "47 5/8 in" or "1210 mm".

    Args:
        x: the length [in].
        units: "in" or "mm".
        denominator: the finest mark of an inch tape; a metric tape has whole millimetres.
    """
    if _is_metric(units):
        return f"{round_to(to_mm(x), 1)} mm"
    return f"{write_inches(x, denominator)} in"


def write_feet(x: Fraction, denominator: int = 16) -> str:
    """Feet and inches at the nearest tape mark, zero inches written: 3'-11 5/8".

    >>> write_feet(Fraction(381, 8)), write_feet(Fraction(96))
    ('3\\'-11 5/8"', '8\\'-0"')
    """
    near = round_to(x, denominator)
    feet, inches = divmod(abs(near), 12)
    return f"{'-' if near < 0 else ''}{feet}'-{write_inches(inches, denominator)}\""


def sold_length(length: Fraction, joint: str = " ") -> str:
    """A board's length as the yard says it, in whichever units it is sold by.

    >>> sold_length(Fraction(96)), sold_length(Fraction(96), "-"), sold_length(mm(2400))
    ('8 ft', '8-ft', '2400 mm')

    Every fifth whole inch is a whole millimetre too, and was hardly meant as one:

    >>> sold_length(Fraction(75)), sold_length(mm(1905)), sold_length(mm(1900))
    ('75 in', '75 in', '1900 mm')
    """
    if (length / 12).denominator == 1:
        return f"{length // 12}{joint}ft"
    metric = to_mm(length).denominator == 1 and length.denominator != 1
    return write_length(length, "mm" if metric else "in")


def rounded(x: Fraction, units: str = "in", denominator: int = 16) -> Rounded:
    """A length as written, and whether and by how much that differs from the exact one.

    >>> rounded(Fraction(107, 52)).note
    'rounded up by 0.005 in'
    >>> rounded(Fraction(3, 64)).note
    'rounded up by 1/64 in'
    """
    if _is_metric(units):
        by = mm(round_to(to_mm(x), 1)) - x
    else:
        by = round_to(x, denominator) - x
    note = "" if by == 0 else f"rounded {'up' if by > 0 else 'down'} by {_small(abs(by), units)}"
    return Rounded(write_length(x, units, denominator), by == 0, by, note)


def exact_length(x: Fraction, units: str = "in") -> str:
    """A length as text that reads back exactly: inches on the tape, else millimetres, else a decimal or fraction.

    >>> exact_length(Fraction(153, 4)), exact_length(mm(45)), exact_length(Fraction(1, 3))
    ('38 1/4 in', '45 mm', '1/3 in')
    """
    millimetres = to_mm(x)
    if _is_metric(units) and is_decimal(millimetres):
        return f"{exact_decimal(millimetres)} mm"
    if FINEST_TAPE % x.denominator == 0:
        return write_length(x, "in", FINEST_TAPE)
    if is_decimal(millimetres) and not is_decimal(x):
        return f"{exact_decimal(millimetres)} mm"
    if is_decimal(x):
        return f"{exact_decimal(x)} in"
    whole, part = divmod(x, 1)
    return f"{whole} {part} in" if whole else f"{part} in"


def is_decimal(x: Fraction) -> bool:
    """True if a number can be written out in decimals: its denominator has no prime but 2 and 5."""
    rest = x.denominator
    for prime in (2, 5):
        while rest % prime == 0:
            rest //= prime
    return rest == 1


def exact_decimal(x: Fraction) -> str:
    """All digits of a number that has an end, a fraction where it has none.

    >>> exact_decimal(Fraction(12345678901, 100)), exact_decimal(Fraction(1, 3))
    ('123456789.01', '1/3')
    """
    if not is_decimal(x):
        return str(x)
    places = 0
    while (x * 10**places).denominator > 1:
        places += 1
    if places == 0:
        return str(x)
    digits = str(abs(x.numerator) * 10**places // x.denominator).rjust(places + 1, "0")
    return f"{'-' if x < 0 else ''}{digits[:-places]}.{digits[-places:]}"


def _small(x: Fraction, units: str) -> str:
    """A difference finer than the tape [in], in a few figures."""
    if _is_metric(units):
        return _decimals(to_mm(x), 2, "mm")
    if FINEST_TAPE % x.denominator == 0:
        return f"{x} in"
    return _decimals(x, 3, "in")


def _decimals(x: Fraction, places: int, unit: str) -> str:
    finest = Fraction(1, 10**places)
    if x < finest / 2:
        return f"less than {float(finest)} {unit}"
    return f"{float(round_to(x, 10**places)):.{places}f}".rstrip("0").rstrip(".") + f" {unit}"


def _is_metric(units: str) -> bool:
    if units not in ("in", "mm"):
        raise InputError(f'units = "{units}" is not known; use "in" or "mm".')
    return units == "mm"
