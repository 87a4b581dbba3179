"""The one pint registry, with exact fractions; pint is imported when a quantity of its own is asked for.

pint's own ``Fraction`` support breaks as soon as an area or a stress is printed (its exponents are fractions, which
format only floats before Python 3.12); :class:`Frac` closes that gap.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Any

from tutorial_lib.errors import InputError
from tutorial_lib.measures.sizes import DEFINITIONS, ratio

if TYPE_CHECKING:
    import pint


class Frac(Fraction):
    """A Fraction that stays one through arithmetic and can be formatted as a number."""

    __slots__ = ()

    def __format__(self, spec: str) -> str:
        if not spec:
            return str(self)
        if spec.endswith("n") and self.denominator == 1:
            return format(self.numerator, spec)
        return format(float(self), spec)


def _closed(name: str) -> Any:
    base = getattr(Fraction, name)

    def method(self: Frac, *args: Any) -> Any:
        result = base(self, *args)
        return Frac(result) if type(result) is Fraction else result

    method.__name__ = name
    return method


for _name in "add radd sub rsub mul rmul truediv rtruediv mod rmod pow rpow neg pos abs round".split():
    setattr(Frac, f"__{_name}__", _closed(f"__{_name}__"))


@cache
def registry() -> pint.UnitRegistry[Any]:
    """The process's only unit registry: workshop units, exact fractions."""
    import pint

    made: pint.UnitRegistry[Any] = pint.UnitRegistry(str(DEFINITIONS), non_int_type=Frac)
    pint.set_application_registry(made)  # type: ignore[no-untyped-call]  # pint leaves it untyped
    return made


@lru_cache(maxsize=256)
def factor(unit: str, to: str) -> Fraction:
    """How many of ``to`` are in one ``unit``, exact: ``factor("lb", "kg")``.

    >>> factor("in", "mm")
    Fraction(127, 5)
    """
    return Fraction(1) if unit == to else convert(1, unit, to)


def convert(value: Fraction | int, unit: str, to: str) -> Fraction:
    """A value in another unit, exact.

    Args:
        value: the figure; a float is refused, since it is rarely the number that was meant.
        unit: its unit, such as "in", "psi", "lb/ft**3".
        to: the unit wanted.

    Raises:
        InputError: a unit is unknown, or the two measure different things.

    >>> convert(Fraction(381, 8), "in", "mm")
    Fraction(48387, 40)
    """
    if isinstance(value, float):
        raise InputError(f"{value} is a decimal approximation; give a whole number or a fraction.")
    times = ratio(unit, to)
    return Fraction(value) * times if times is not None else _by_pint(value, unit, to)


def _by_pint(value: Fraction | int, unit: str, to: str) -> Fraction:
    """A value in another unit, where there is an offset, another spelling or something to refuse."""
    import tokenize

    import pint

    try:
        return Fraction(registry().Quantity(Frac(value), unit).to(to).magnitude)
    except (pint.UndefinedUnitError, pint.DimensionalityError) as error:
        raise InputError(f"{value} {unit} can't be written in {to}: {error}.") from None
    except (pint.DefinitionSyntaxError, tokenize.TokenError, SyntaxError, ValueError, TypeError):
        raise InputError(f'"{unit}" or "{to}" is not a unit; write it like "in" or "lb/ft**3".') from None
