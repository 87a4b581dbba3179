"""Wood that no screw sold can hold is refused by name; what was stated is kept and judged."""

from __future__ import annotations

from typing import Any

import pytest

from tests.design.builds import changed
from tutorial_lib.design.platform_bed import design
from tutorial_lib.drilling import drill
from tutorial_lib.errors import DesignError


def stops(rail: str, **more: Any) -> list[str]:
    """Rules that stop the demo's drilling with rails this thick, its screws left open."""
    lumber = {"thickness": rail, "width": "5 1/2 in", "stock": [{"length": "8 ft"}]}
    options = changed(frame__rail="plank", lumber__plank=lumber, **{"screws": None, **more})
    return [f.rule for f in drill(design(options)).findings if f.severity == "stop"]


def test_rails_too_thin_for_any_screw_are_refused() -> None:
    with pytest.raises(DesignError) as caught:
        stops("1 1/16 in")
    assert str(caught.value) == (
        "frame.rail: through 1 1/2 in of cleat into 1 1/16 in of side rail no wood screw that is sold holds and stays "
        "inside the wood. Use thicker rails, or runners under them."
    )
    assert stops("1 1/8 in") == []  # 1 in of a #8 screw, 6 D = 0.984 in, and 1/8 in beyond its tip


def test_a_stated_screw_is_judged_not_refused() -> None:
    assert stops("1 1/16 in", screws={"cleat": {"gauge": "#8"}}) == ["screw penetration"]


def test_leg_boards_too_thin_to_screw_together_are_refused() -> None:
    with pytest.raises(DesignError, match=r"^legs.lumber: through 3/4 in of leg board into 3/4 in of leg board"):
        drill(design(changed(legs__kind="doubled", legs__lumber="1x4", legs__place="under the rail",
                             legs__setback=None, screws=None)))  # fmt: skip
