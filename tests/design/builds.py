"""Random builds for the property tests of every room."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import Any

from hypothesis import strategies as st

from tutorial_lib.design.build_file import change, read_build
from tutorial_lib.design.options import Options
from tutorial_lib.measures import write_inches

DEMO = Path(__file__).parents[2] / "assets" / "builds" / "spare-room-twin.toml"


def demo() -> Options:
    """The Saltmarsh Shed spare-room twin."""
    return read_build(DEMO.read_text(encoding="utf-8"), DEMO.name)


def changed(**keys: Any) -> Options:
    """The demo with some keys changed; a double underscore stands for the dot."""
    return change(demo(), {key.replace("__", "."): value for key, value in keys.items()})


def sixteenths(low: int, high: int) -> st.SearchStrategy[str]:
    """Lengths as a build file states them."""
    return st.integers(low, high).map(lambda n: f"{write_inches(Fraction(n, 16))} in")


SIZES = ("twin", "twin XL", "full", "queen", "king", "California king", "UK double", "EU double 160")
NO_DEMO = {"mattress.width": None, "mattress.length": None, "support.recess": None, "support.end_play": None,
           "screws": None, "names": None}  # fmt: skip


@st.composite
def changes(draw: st.DrawFn) -> dict[str, Any]:
    """Changes to the demo that span every construction; some can't exist and are refused."""
    runners = draw(st.booleans())
    legs = draw(st.sampled_from(["post", "doubled", "corner L", "tube"]))
    return NO_DEMO | {
        "mattress.size": draw(st.sampled_from(SIZES)),
        "frame.corners": draw(st.sampled_from(["side rails run past", "end rails cap"])),
        "frame.rail": draw(st.sampled_from(["2x6", "2x8"])),
        "clearance.side": draw(sixteenths(2, 12)),
        "support.kind": "runners" if runners else "cleats",
        "support.lumber": draw(st.sampled_from(["2x4", "2x6"] if runners else ["2x2", "2x3"])),
        "centre.lines": draw(st.integers(0, 3)),
        "centre.kind": draw(st.sampled_from(["beam", "flat"])),
        "centre.ends": draw(st.sampled_from(["leg", "hanger"])),
        "centre.legs": draw(st.integers(2, 4)),
        "slats.lumber": draw(st.sampled_from(["1x3", "1x4", "2x4", "1x6"])),
        "slats.carries": draw(st.sampled_from(["mattress", "box spring"])),
        "slats.edge": draw(st.sampled_from(["flush", "equal", "fixed"])),
        "slats.edge_gap": "3/4 in",
        "legs.kind": legs,
        "legs.lumber": "4x4" if legs == "post" else "2x4",
        "legs.place": draw(st.sampled_from(["under", "inside"])),
        "legs.per_side": draw(st.integers(2, 4)),
        "legs.setback": draw(sixteenths(0, 96)),
        "heights.underside": draw(st.integers(8, 16).map(lambda n: f"{n} in")),
    }
