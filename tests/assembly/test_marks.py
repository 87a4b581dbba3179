"""Where legs are marked from: the head end of what they go on."""

from __future__ import annotations

from fractions import Fraction
from types import SimpleNamespace
from typing import Any

import pytest

from tutorial_lib.assembly.marks import _along
from tutorial_lib.measures import writer

BED: Any = SimpleNamespace(options=SimpleNamespace(frame=SimpleNamespace(posts=False)), pieces={})


@pytest.mark.parametrize(
    ("edges", "said"),
    [((0, 30), "0, 30 in from the head end of the bed."),
     (("-1/2", 30), "30 in from the head end of the bed; the first stands 1/2 in past that end.")],
)  # fmt: skip
def test_a_leg_that_stands_past_the_end_is_told_so_and_not_marked(edges: tuple[Any, Any], said: str) -> None:
    legs: Any = [SimpleNamespace(near_edge=Fraction(edge), pieces=(), line="left") for edge in edges]
    made: Any = SimpleNamespace(prepares=False)
    assert list(_along(BED, made, legs, "the", writer("in"))) == [f"Mark the legs' head-side edges at {said}"]
