"""Random beds with choices that hardly anybody makes, a few to a dozen of them at once, as far as they go together.

What is kept when it is not refused follows from the program, so beds that are to stay as they are, are stored.
"""

from __future__ import annotations

import copy
import random
from typing import Any

from tests import builds
from tutorial_lib.design.build_file import from_raw
from tutorial_lib.design.platform_bed import design
from tutorial_lib.errors import TutorialError

KINDS = (builds.raw, builds.raw, builds.raw_on_posts, builds.raw_with_headboard)
JOINTS = ("corner", "block", "batten", "upright", "panel", "panel_slat", "post", "cleat", "runner", "runner_end",
          "slat", "leg", "ply", "line", "flange", "plinth", "bed_bolt")  # fmt: skip
WITH_REFUSAL = 0.1  # of beds that keep what they are refused for
CHOICES: dict[str, tuple[Any, ...]] = {
    "wood.species": ("Spruce-Pine-Fir (South)", "Red Oak", "Mixed Oak", "Red Maple", "Yellow-Poplar", "Hem-Fir", "C24",
                     "Southern Pine", "Radiata pine"),
    "wood.grade": ("No.1", "No.3", "Select Structural", "Construction", "Stud", "Standard", "Utility", "C16", "MGP10"),
    "wood.moisture_bought": (19.0, 6.0, 28.0), "wood.moisture_room": (4.0, 12.0, 20.0),
    "finish.kind": ("oil stain", "water stain", "varnish", "water varnish", "paint", "oil paint", "none", "soap"),
    "finish.coats": (0, 1, 3, 5), "finish.recoat": ("1 h", "12 h", "2 days"), "finish.seal_hidden": (True,),
    "finish.grits": ([80, 120, 220], [150], [60, 80, 100, 120], [180, 120], [80, 400]),
    "finish.cans": ([{"size": "1 quart", "price": "21"}, {"size": "1 gallon", "price": "62"}], [{"size": "250 ml"}]),
    "shop.region": ("US", "EU", "UK", "AU"), "shop.currency": ("gbp", "sek"), "shop.carry": ("60 in", "8 ft", "7 ft"),
    "shop.store_cuts": (1, 4), "shop.store_tolerance": ("1/2 in",), "shop.spare_boards": (1, 3),
    "saw.kind": ("hand",), "saw.kerf": ("3/32 in", "0 in", "3 mm"), "saw.trim": ("0 in", "1 in"),
    "saw.prefer": (["longest offcut"], [], ["longest offcut", "fewest layouts"]),
    "slats.hold": ("straps", "loose"), "slats.middle": ("unscrewed",), "slats.halves": (True,), "slats.straps": (3, 5),
    "slats.strap_width": ("2 in",), "slats.carries": ("box spring",), "slats.spacing_limit": ("10 in",),
    "legs.omit": (["L2"], ["R2", "L2"]), "legs.glue_blocks": ("2x2",), "legs.leveller": ("3/4 in",),
    "legs.kind": ("doubled", "corner L", "tube"), "legs.flange": ("3 in", "5 in"), "legs.per_side": (2, 4, 5),
    "legs.place": ("under", "inside", "under the rail"), "legs.setback": ("0 in", "6 in", "11 in"),
    "centre.lines": (0, 1, 2, 3), "centre.kind": ("flat",), "centre.ends": ("hanger", "block"),
    "centre.legs": (0, 1, 5), "centre.leg_kind": ("doubled", "tube"), "centre.setback": ("12 in",),
    "centre.play": ("1/4 in",),
    "plinth.lumber": ("1x6", "2x6", "1x4"), "plinth.carries": (True,), "support.recess": ("0 in", "1 in", "2 in"),
    "storage.height": ("7 in", "12 in"), "storage.width": ("18 in", "40 in"), "storage.depth": ("15 in", "30 in"),
    "storage.count": (1, 4), "storage.sides": ("left", "right"), "mattress.split": (True,),
    "mattress.tolerance": ("0 in", "1 in"), "mattress.gap_limit": ("2 in", "4 in"), "mattress.box_spring": ("8 in",),
    "room.door_width": ("27 in", "32 in"), "room.stair_width": ("30 in", "36 in"), "room.landing": ("33 in",),
    "room.stair_headroom": ("74 in",), "room.door_height": ("78 in",), "room.helpers": (1, 4),
    "room.knock_down": (True,), "driver.length": ("5 in", "14 in"), "driver.radius": ("3/4 in", "3 in"),
    "load.people": (1, 3), "load.person": ("320 lb", "100 lb"), "load.mattress": ("150 lb",), "load.careful": (True,),
    "load.standing": ("0 lb", "400 lb"), "prices.bracket": ("2.20",), "prices.flange": ("6",), "prices.tube": ("9",),
    "prices.disc": ("0.40",), "prices.pad": ("0.25",), "prices.nut": ("0.10",), "prices.washer": ("0.05",),
    "headboard.bed": ("stands",), "headboard.gap": ("1 in", "4 in"), "headboard.over": ("4 in", "30 in"),
    **{f"screws.{joint}.kind": ("structural screw", "lag screw", "carriage bolt", "wood screw") for joint in JOINTS},
    **{f"screws.{joint}.gauge": ("#6", "#12", "#14", "5 mm") for joint in JOINTS},
    **{f"screws.{joint}.length": ("1 1/4 in", "2 in", "3 or 3 1/2 in", "5 in") for joint in JOINTS},
    **{f"screws.{joint}.diameter": ("1/4 in", "3/8 in", "1/2 in") for joint in JOINTS},
    **{f"screws.{joint}.count": (1, 2, 5) for joint in JOINTS},
    **{f"screws.{joint}.inset": ("1/2 in", "2 in") for joint in JOINTS},
    **{f"screws.{joint}.spacing": ("2 in", "5 in") for joint in JOINTS},
    **{f"screws.{joint}.head_depth": ("1/4 in", "1/2 in") for joint in JOINTS},
    **{f"screws.{joint}.pilot": ("1/8 in", "3/16 in") for joint in JOINTS},
    **{f"screws.{joint}.price": ("7.90",) for joint in JOINTS}, **{f"screws.{joint}.box": (25,) for joint in JOINTS},
}  # fmt: skip
GROUPS = tuple(dict.fromkeys(key.split(".")[0] for key in CHOICES))


def raw(seed: int) -> builds.Raw:
    """The tables of a build file."""
    chance = random.Random(f"wild {seed}")
    made = chance.choice(KINDS)(chance.randrange(builds.WAYS, 2 * builds.WAYS))
    anything = chance.random() < WITH_REFUSAL or _refused(made)
    for _ in range(chance.randint(4, 24)):
        group = chance.choice(GROUPS)
        key = chance.choice([key for key in CHOICES if key.startswith(f"{group}.")])
        more = _with(made, key, chance.choice(CHOICES[key]))
        made = more if anything or not _refused(more) else made
    _priced(made, chance)
    return made


def _with(made: builds.Raw, key: str, value: Any) -> builds.Raw:
    made = copy.deepcopy(made)
    *sections, last = key.split(".")
    at = made
    for section in sections:
        at = at.setdefault(section, {})
    at[last] = value
    return made


def _refused(made: builds.Raw) -> bool:
    try:
        design(from_raw(made))
    except TutorialError:
        return True
    return False


def _priced(made: builds.Raw, chance: random.Random) -> None:
    """Prices, boards at hand and few in the shop, for some."""
    for lumber in made.get("lumber", {}).values():
        for row in lumber["stock"] if chance.random() < 0.6 else ():
            row["price"] = f"{chance.randint(200, 2500) / 100}"
        if chance.random() < 0.2:
            lumber["stock"].append({"length": f"{chance.randint(30, 100)} in", "available": chance.randint(1, 6)})
        if chance.random() < 0.1:
            lumber["stock"].append({"length": f"{chance.randint(20, 60)} in", "offcut": True})
