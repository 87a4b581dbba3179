"""Hicks, Civil Engineering Formulas, Table 2.1: beams over two to eight supports, equal spans, one load over all.

The page was read in a public copy: shear to the right of each support (parts of w l), moment over each support and the
greatest in each span (parts of w l2), where it stands and where the moment turns its sign (parts of l). Two cells
contradict the shears of their own row and are left out: 0.533 (55/104 is 0.529) and 0.783 (from 23/38 and 20/38,
0.784).
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import cache

import pytest

from tests.validation.ours import Bent, SpreadLoad, beam, root
from tests.validation.printed import Printed, Source, cells

HICKS = Source(
    title="Hicks, Civil Engineering Formulas",
    edition="McGraw-Hill 2002",
    place="Table 2.1, p. 50",
    state="seen",
    rounding="fractions exact; decimals cut or rounded, to one of their last figure",
)
LONG = 40.0  # [in] each span

# supports: (shear right of each, moment over each but the first, greatest moment by span, its place)
TABLE = {
    2: ("1/2", "", "0.125", "0.500"),
    3: ("3/8 5/8", "1/8", "0.0703 0.0703", "0.375 0.625"),
    4: ("4/10 5/10", "1/10", "0.080 0.025", "0.400 0.500"),
    5: ("11/28 15/28 13/28", "3/28 2/28", "0.0772 0.0364 0.0364", "0.393 0.536 0.464"),
    6: ("15/38 20/38 19/38", "4/38 3/38", "0.0779 0.0332 0.0461", "0.395 0.526 0.500"),
    7: ("41/104 55/104 51/104 53/104", "11/104 8/104 9/104", "0.0777 0.0340 0.0433 0.0433", "0.394 - 0.490 0.510"),
    8: ("56/142 75/142 70/142 71/142", "15/142 11/142 12/142", "0.0778 0.0338 0.0440 0.0405",
        "0.394 0.528 0.493 0.500"),
}  # fmt: skip
# supports: by span, where the moment turns
TURNS = {
    3: ("0.750", "0.250"),
    4: ("0.800", "0.276 0.724"),
    5: ("0.786", "0.266 0.806", "0.194 0.734"),
    6: ("0.789", "0.268 -", "0.196 0.804"),
    7: ("0.788", "0.268 0.790", "0.196 0.785", "0.215 0.804"),
    8: ("0.789", "0.268 0.788", "0.196 0.790"),
}


@cache
def _bent(supports: int) -> Bent:
    places = [LONG * i for i in range(supports)]
    return beam(places, [SpreadLoad(0, places[-1], 1.0)], 1e6)


def _shear(supports: int, at: int) -> float:
    """To the right of a support, as a part of w l."""
    pushed = sum(_bent(supports).reaction(LONG * i) for i in range(at + 1))
    return pushed / LONG - at


def _over(supports: int, at: int) -> float:
    return -_bent(supports).moment(LONG * at) / LONG**2


def _peak(supports: int, span: int) -> float:
    """Where the shear is nought in a span, as a part of l."""
    return _shear(supports, span)


def _greatest(supports: int, span: int) -> float:
    return _bent(supports).moment(LONG * (span + _peak(supports, span))) / LONG**2


def _turn(supports: int, span: int, before: bool) -> float:
    """Between the peak and the support before or after it."""
    peak = LONG * (span + _peak(supports, span))
    other = LONG * span if before else LONG * (span + 1)
    return root(_bent(supports).moment, min(peak, other), max(peak, other)) / LONG - span


def _fractions() -> Iterator[tuple[str, float, object]]:
    for n, (shears, moments, _, _) in TABLE.items():
        for i, text in enumerate(shears.split()):
            yield f"{n} supports, shear right of {i + 1}", float(Fraction(text)), lambda n=n, i=i: _shear(n, i)
        for i, text in enumerate(moments.split(), start=1):
            yield f"{n} supports, moment over {i + 1}", float(Fraction(text)), lambda n=n, i=i: _over(n, i)


def _moments() -> Iterator[tuple[str, float, object]]:
    for n, (_, _, greatest, _) in TABLE.items():
        for i, text in enumerate(greatest.split()):
            yield f"{n} supports, greatest moment in span {i + 1}", float(text), lambda n=n, i=i: _greatest(n, i)


def _places() -> Iterator[tuple[str, float, object]]:
    for n, (_, _, _, places) in TABLE.items():
        for i, text in enumerate(places.split()):
            if text == "-":
                continue
            yield f"{n} supports, place of it in span {i + 1}", float(text), lambda n=n, i=i: _peak(n, i)
    for n, spans in TURNS.items():
        for i, text in enumerate(spans):
            for k, word in enumerate(text.split()):
                if word == "-":
                    continue
                before = (k == 0 and len(text.split()) == 2) or (n, i) == (3, 1)
                where = "first" if before else "last"
                yield (f"{n} supports, {where} turn in span {i + 1}", float(word),
                       lambda n=n, i=i, before=before: _turn(n, i, before))  # fmt: skip


PRINTED: tuple[Printed, ...] = (
    *cells(HICKS, 1e-6, _fractions()),
    *cells(HICKS, 0.0001, _moments()),
    *cells(HICKS, 0.001, _places()),
)


@pytest.mark.parametrize("cell", PRINTED, ids=str)
def test_printed(cell: Printed) -> None:
    cell.check()
