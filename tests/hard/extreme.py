"""Beds that a person may ask for and hardly anybody will: as wide, long, heavy and full as the options let them be."""

from __future__ import annotations

import json
import random
from typing import Any

from tests import builds
from tests.hard.spoil import Case

LENGTHS = ("8 ft", "10 ft", "12 ft", "14 ft", "16 ft", "92 5/8 in", "104 5/8 in", "2.4 m", "3000 mm", "97 3/64 in")


def bed(chance: random.Random) -> Case:
    """A build file with some of its choices at their ends."""
    kind = chance.choice((builds.raw, builds.raw, builds.raw_on_posts, builds.raw_with_headboard))
    made = kind(chance.randrange(2 * builds.WAYS))
    for extreme in chance.sample(EXTREMES, chance.randint(1, 5)):
        extreme(made, chance)
    return {"text": toml(made), "deep": True}


def _size(made: builds.Raw, chance: random.Random) -> None:
    made["mattress"] |= {"width": chance.choice(("12 in", "76 in", "144 in", "2011 mm", "84 3/64 in")),
                         "length": chance.choice(("12 in", "84 in", "144 in", "2203 mm", "143 63/64 in")),
                         "split": chance.random() < 0.3}  # fmt: skip


def _slats(made: builds.Raw, chance: random.Random) -> None:
    made["slats"].pop("count", None)
    made["slats"].pop("gap", None)
    made["slats"] |= chance.choice(({"count": 200}, {"count": 60}, {"gap": "1/4 in"}, {"gap": "0 in"}, {"count": 1}))
    made["slats"]["play"] = chance.choice(("0 in", "1/64 in", "1 in"))


def _legs(made: builds.Raw, chance: random.Random) -> None:
    made["legs"] |= {"per_side": chance.choice((1, 2, 12)), "leveller": chance.choice(("0 in", "3 in"))}
    made["legs"].pop("omit", None)


def _lines(made: builds.Raw, chance: random.Random) -> None:
    beam = made["centre"].get("lumber") or made["frame"]["rail"]
    made["centre"] |= {"lines": 3, "lumber": beam, "legs": chance.choice((0, 2, 12))}


def _load(made: builds.Raw, chance: random.Random) -> None:
    made["load"] |= {"person": chance.choice(("1000 lb", "700 lb", "1 lb", "450 kg")), "people": chance.choice((1, 4)),
                     "mattress": chance.choice(("0 lb", "900 lb")), "standing": chance.choice(("0 lb", "1000 lb")),
                     "careful": chance.random() < 0.5}  # fmt: skip


def _stock(made: builds.Raw, chance: random.Random) -> None:
    """Forty lengths of everything, with and without a price, a few boards at hand among them."""
    for name in made["lumber"]:
        rows: list[dict[str, Any]] = []
        for i in range(40):
            row: dict[str, Any] = {"length": chance.choice((f"{72 + 3 * i} in", f"{1800 + 97 * i} mm", *LENGTHS))}
            if chance.random() < 0.8:
                row["price"] = f"{chance.randint(100, 3000) / 100}"
            if chance.random() < 0.3:
                row["available"] = chance.randint(0, 40)
            rows.append(row)
        made["lumber"][name]["stock"] = rows


def _shop(made: builds.Raw, chance: random.Random) -> None:
    made["shop"] = {"carry": chance.choice(("24 in", "60 in", "400 in")), "spare_boards": chance.choice((0, 20)),
                    "store_cuts": chance.choice((1, 50)), "store_tolerance": "3 in"}  # fmt: skip
    made["saw"] = {"kerf": chance.choice(("0 in", "1 in", "1/64 in", "2.37 mm")),
                   "trim": chance.choice(("0 in", "12 in"))}  # fmt: skip


def _screws(made: builds.Raw, chance: random.Random) -> None:
    screws = made.setdefault("screws", {})
    for joint in chance.sample(("cleat", "runner", "slat", "leg", "corner"), 2):
        given = {"spacing": chance.choice(("1/8 in", "1 in", "40 in"))} if chance.random() < 0.5 else {}
        screws[joint] = screws.get(joint, {}) | given | {"count": chance.choice((1, 7, 60, 80))}


def _finish(made: builds.Raw, chance: random.Random) -> None:
    cans = [{"name": f"can {i}", "covers": f"{i + 3} m2", "price": f"{i + 2}.10"} for i in range(30)]
    made["finish"] = {"kind": chance.choice(("oil", "varnish")), "coats": 10, "seal_hidden": True,
                      "grits": chance.choice(([80], [80, 100, 120, 150, 180, 220, 320, 400]))}  # fmt: skip
    if chance.random() < 0.3:
        made["finish"]["cans"] = cans


def _room(made: builds.Raw, chance: random.Random) -> None:
    size = chance.choice(("12 in", "30 in", "200 in"))
    made["room"] = {"door_width": size, "door_height": "80 in", "stair_width": size, "landing": size,
                    "stair_headroom": "80 in", "helpers": chance.choice((1, 8)), "knock_down": True}  # fmt: skip
    made["storage"] = {"width": chance.choice(("2 in", "40 in")), "depth": "20 in", "height": "10 in", "count": 200}
    made["wood"] = made.get("wood", {}) | {"moisture_bought": chance.choice((4.0, 30.0)), "moisture_room": 4.0}


EXTREMES = (_size, _slats, _legs, _lines, _load, _stock, _shop, _screws, _finish, _room)


def toml(tables: builds.Raw) -> str:
    """A build file's text."""
    return "\n".join(f"{key} = {_value(table)}" for key, table in tables.items()) + "\n"


def _value(given: Any) -> str:
    if isinstance(given, dict):
        return "{" + ", ".join(f"{json.dumps(key)} = {_value(one)}" for key, one in given.items()) + "}"
    if isinstance(given, list | tuple):
        return "[" + ", ".join(map(_value, given)) + "]"
    return json.dumps(given)
