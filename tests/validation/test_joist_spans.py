"""Spans of joists as building codes print them, in feet and inches: strength in bending or sag, whichever is shorter.

International Residential Code 2018, Table R802.5.1(2), page 405: ceilings with limited storage, 20 psf live and 10 psf
dead, L/240 under the live load; read in a public copy, four species, four grades. And floors, 40 + 10 and 30 + 20 psf,
L/360, No.2 of four species, as a public span table gives Tables R502.3.1(1) and (2). Three or more side by side: Cr
1.15.
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.validation.ours import allowed, graded, lumber, sag_span, spans
from tests.validation.printed import Printed, Source, cells

TO_AN_INCH = "spans to the inch, some cut, some rounded: within an inch"
CEILINGS = Source(
    title="International Residential Code",
    edition="2018, ICC",
    place="Table R802.5.1(2), p. 405",
    state="seen",
    rounding=TO_AN_INCH,
)
FLOORS = Source(
    title="Joist span table after the International Residential Code",
    edition="2015 values, mycarpentry.com",
    place="Tables R502.3.1(1), (2)",
    state="seen",
    rounding=TO_AN_INCH,
)
NAMES = {"DF": "Douglas Fir-Larch", "HF": "Hem-Fir", "SP": "Southern Pine", "SPF": "Spruce-Pine-Fir"}
GRADES = {"SS": "Select Structural", "1": "No.1", "2": "No.2", "3": "No.3"}

# species grade: 2x4, 2x6, 2x8, 2x10
CEILING_19 = """
DF SS 8-11 14-0 18-5 23-7|DF 1 8-7 12-6 15-10 19-5|DF 2 8-2 11-11 15-1 18-5|DF 3 6-2 9-1 11-6 14-1
HF SS 8-5 13-3 17-5 22-3|HF 1 8-3 12-4 15-8 19-2|HF 2 7-10 11-7 14-8 17-10|HF 3 6-1 8-10 11-3 13-8
SP SS 8-9 13-9 18-2 23-1|SP 1 8-5 12-9 16-2 18-11|SP 2 7-4 11-0 13-11 16-6|SP 3 5-8 8-4 10-6 12-9
SPF SS 8-3 12-11 17-1 21-8|SPF 1 8-0 11-9 14-10 18-2|SPF 2 8-0 11-9 14-10 18-2|SPF 3 6-1 8-10 11-3 13-8
"""
CEILING_24 = """
DF SS 8-3 13-0 17-2 21-3|DF 1 7-8 11-2 14-2 17-4|DF 2 7-3 10-8 13-6 16-5|DF 3 5-7 8-1 10-3 12-7
HF SS 7-10 12-3 16-2 20-6|HF 1 7-7 11-1 14-0 17-1|HF 2 7-1 10-4 13-1 16-0|HF 3 5-5 7-11 10-0 12-3
SP SS 8-1 12-9 16-10 21-6|SP 1 7-8 11-5 14-6 16-11|SP 2 6-7 9-10 12-6 14-9|SP 3 5-1 7-5 9-5 11-5
SPF SS 7-8 12-0 15-10 19-5|SPF 1 7-2 10-6 13-3 16-3|SPF 2 7-2 10-6 13-3 16-3|SPF 3 5-5 7-11 10-0 12-3
"""
# width, spacing [in]: SP, DF, HF, SPF
FLOOR_40_10 = """
6 12 10-3 10-9 10-0 10-3|6 16 9-4 9-9 9-1 9-4|6 24 7-7 8-3 7-11 8-1
8 12 13-6 14-2 13-2 13-6|8 16 11-10 12-9 12-0 12-3|8 24 9-8 10-5 10-2 10-3
10 12 16-2 18-0 16-10 17-3|10 16 14-0 15-7 15-2 15-5|10 24 11-5 12-9 12-5 12-7
12 12 19-1 20-11 20-4 20-7|12 16 16-6 18-1 17-7 17-10|12 24 13-6 14-9 14-4 14-7
"""
# only where sag or another limit makes it differ from 40 + 10
FLOOR_30_20 = """
6 12 10-9 11-8 11-0 11-3|6 16 - 10-1 9-10 9-11|6 24 - - 8-0 -
8 12 13-8 14-9 14-4 14-7|8 16 - - 12-5 12-7|10 12 - - 17-6 17-9
"""


def _lines(text: str) -> Iterator[list[str]]:
    for line in text.replace("\n", "|").split("|"):
        if line.strip():
            yield line.split()


def _inches(text: str) -> float:
    feet, inches = text.split("-")
    return 12 * int(feet) + int(inches)


def _span(name: str, grade: str, width: int, spacing: float, live: float, dead: float, part: float) -> float:
    """The shorter of both [in]; loads in psf, sag under the live load alone."""
    kind, size = graded(NAMES[name], GRADES[grade], width), lumber(2, width)
    strong = spans(allowed(kind, size, repeated=1.15), size.modulus, (live + dead) * spacing / 144)
    return min(strong, sag_span(kind.E * size.inertia, live * spacing / 144, part))


def _ceilings() -> Iterator[tuple[str, float, object]]:
    for spacing, text in ((19.2, CEILING_19), (24.0, CEILING_24)):
        for name, grade, *printed in _lines(text):
            for width, cell in zip((4, 6, 8, 10), printed, strict=True):
                yield (f"{name} {grade} 2x{width} at {spacing}", _inches(cell),
                       lambda a=(name, grade, width, spacing, 20.0, 10.0, 240.0): _span(*a))  # fmt: skip


def _floors() -> Iterator[tuple[str, float, object]]:
    for live, dead, text in ((40.0, 10.0, FLOOR_40_10), (30.0, 20.0, FLOOR_30_20)):
        for width, spacing, *printed in _lines(text):
            for name, cell in zip(("SP", "DF", "HF", "SPF"), printed, strict=True):
                if cell != "-":
                    yield (f"{name} 2x{width} at {spacing}, {live:.0f} + {dead:.0f} psf", _inches(cell),
                           lambda a=(name, "2", int(width), float(spacing), live, dead, 360.0): _span(*a))  # fmt: skip


PRINTED: tuple[Printed, ...] = (*cells(CEILINGS, 1.0, _ceilings()), *cells(FLOORS, 1.0, _floors()))


@pytest.mark.parametrize("cell", PRINTED, ids=str)
def test_printed(cell: Printed) -> None:
    cell.check()
