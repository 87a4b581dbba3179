"""A figure and its unit as people write it, as a pint quantity."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from tutorial_lib.errors import InputError
from tutorial_lib.measures.scales import HELD
from tutorial_lib.measures.units import Frac, registry

if TYPE_CHECKING:
    import pint

BARE = ("", "count", "grit")  # counted, not measured
WRITTEN = {  # of two kinds written alike the first stands: "lb" is a weight
    scale.written: scale.unit for held in reversed(HELD.values()) for scale in (held.inch, held.metric)
}


def quantity(value: Fraction | float | int, unit: str) -> pint.Quantity[Any]:
    """A pint quantity of a figure with its unit as a fact has it: "in", "kg", "sq ft", "count", "%", "usd".

    Amounts of money are quantities of their own currency: two currencies don't add up.

    Raises:
        InputError: the unit is not known.

    >>> print(quantity(Fraction(153, 4), "in").to("mm"))
    19431/20 millimetre
    """
    name = "" if unit in BARE else WRITTEN.get(unit, unit)
    if re.fullmatch(r"[a-z]{3}", name) and name not in registry():
        registry().define(f"{name} = [{name}]")
    try:
        return registry().Quantity(Frac(value) if isinstance(value, Fraction | int) else value, name)
    except AttributeError as error:  # pint's undefined unit
        raise InputError(f'"{unit}" is not a unit: {error}.') from None
