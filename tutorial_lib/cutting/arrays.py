"""What fits a board, and all mixes of boards: counted by numpy, or in plain Python where numpy isn't (a browser).

Both count the same; plain Python is as quick on beds, and five times slower or more on hundreds of pieces.
"""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING or sys.platform != "emscripten":
    from tutorial_lib.cutting.arrays_numpy import Knapsack, Mixes, all_mixes, listed_sums
else:
    from tutorial_lib.cutting.arrays_plain import Knapsack, Mixes, all_mixes, listed_sums

__all__ = ["Knapsack", "Mixes", "all_mixes", "listed_sums"]
