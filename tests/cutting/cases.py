"""The invented cases with proven optima, as pieces and stock; lengths in their own unit."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path
from typing import Any

from tutorial_lib.cutting.boards import PieceDemand, Stock

CASES: list[dict[str, Any]] = json.loads(
    (Path(__file__).parent.parent / "data" / "cutting_cases.json").read_text(encoding="utf-8")
)["instances"]
SIXTEENTH = Fraction(1, 16)


def lists(case: dict[str, Any]) -> tuple[list[PieceDemand], list[Stock], Fraction, Fraction]:
    """Pieces, stock, kerf and trim of a case [in]."""
    pieces = [PieceDemand(f"p{n}", n * SIXTEENTH, count) for n, count in case["items"]]
    stocks = [Stock(f"s{i}", n * SIXTEENTH, price, shelf) for i, (n, price, shelf) in enumerate(case["stocks"])]
    return pieces, stocks, case["kerf"] * SIXTEENTH, case["trim"] * SIXTEENTH
