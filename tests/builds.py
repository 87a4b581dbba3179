"""Random beds over all options, by seed: what a person might really write down, in inches or in millimetres.

``options(seed)`` is the same bed every time. Places (set-backs, recess, screws) are mostly left open, as people leave
them; a small share is stated. Some can't exist: design refuses them with an InputError.
"""

from __future__ import annotations

import random
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from tutorial_lib.design.build_file import from_raw
from tutorial_lib.design.options import Options
from tutorial_lib.measures import Units, writer

Raw = dict[str, Any]
WAYS = 30_000  # seeds from here on take the rarer ways too; those before stay the beds they were


@dataclass(frozen=True)
class Shop:
    """What is sold in one country's units."""

    units: Units
    sizes: tuple[str, ...]
    rails: tuple[str, ...]
    cleats: tuple[str, ...]
    runners: tuple[str, ...]
    lines: tuple[str, ...]
    slats: tuple[str, ...]
    posts: tuple[str, ...]
    boards: tuple[str, ...]
    stock: tuple[str, ...]
    blocks: tuple[str, ...]  # of corner blocks
    battens: str  # of a headboard


INCH = Shop(
    "in",
    ("twin", "twin XL", "full", "queen", "king", "California king", "full XL"),
    ("2x6", "2x6", "2x8"),
    ("2x2", "2x3", "2x4"),
    ("2x4", "2x6"),
    ("2x4", "2x6"),
    ("1x3", "1x4", "2x4", "1x6"),
    ("4x4",),
    ("2x4", "2x6"),
    ("8 ft", "10 ft", "12 ft"),
    ("2x3", "2x3", "2x2"),
    "1x2",
)
METRIC = Shop(
    "mm",
    ("EU single", "EU double 140", "EU double 160", "EU double 180", "EU double 200", "UK double", "UK king"),
    ("45x145", "45x195", "45x170"),
    ("45x45", "45x70", "34x45"),
    ("45x95", "45x145"),
    ("45x95", "45x145"),
    ("22x70", "22x95", "28x95", "22x145"),
    ("95x95", "70x70"),
    ("45x95", "45x120"),
    ("2400 mm", "3000 mm", "4200 mm"),
    ("45x70", "45x70", "45x45"),
    "22x45",
)


def raw(seed: int) -> Raw:
    """The tables of a build file."""
    rng = random.Random(seed)
    shop = METRIC if rng.random() < 0.3 else INCH
    runners = rng.random() < 0.5
    out: Raw = {
        "build": {"name": f"bed-{seed}", "title": f"Bed {seed}", "units": shop.units},
        "mattress": _mattress(rng, shop),
        "frame": {"rail": rng.choice(shop.rails), "corners": rng.choice(("side rails run past", "end rails cap"))},
        "support": {"kind": "runners" if runners else "cleats",
                    "lumber": rng.choice(shop.runners if runners else shop.cleats)},
        "slats": _slats(rng, shop),
        "legs": _legs(rng, shop, runners),
        "heights": _height(rng, shop),
        "wood": {"species": rng.choice(("Spruce-Pine-Fir", "Douglas Fir-Larch", "Hem-Fir", "Southern Pine"))},
        "load": {"person": f"{rng.randrange(120, 280, 10)} lb", "people": rng.choice((1, 2, 2))},
    }  # fmt: skip
    out["centre"] = _centre(rng, shop, runners)
    if out["legs"]["kind"] == "tube":  # its flange wants wide wood above it
        out["support"]["lumber"] = shop.runners[1]
        out["centre"] |= {"kind": "flat", "lumber": shop.lines[1]} if out["centre"] else {}
    _state_a_little(rng, shop, out)
    if seed >= WAYS:
        _rarer_ways(rng, shop, out, runners)
    out["lumber"] = {name: {"stock": [{"length": length} for length in shop.stock]} for name in sorted(_named(out))}
    return out


def raw_on_posts(seed: int) -> Raw:
    """The same bed on corner posts that its rails die into, with what only rails that meet have left out."""
    out, rng = raw(seed), random.Random(f"posts {seed}")
    shop = METRIC if out["build"]["units"] == "mm" else INCH
    joint = rng.choice(("corner blocks", "corner blocks", "barrel nuts", "hooks"))
    out["frame"]["corners"] = "rails die into posts"
    out["posts"] = {"lumber": shop.posts[0], "joint": joint}
    if joint == "corner blocks":
        out["posts"]["blocks"] = rng.choice(shop.blocks)
    elif rng.random() < 0.5:
        out["posts"]["reveal"] = _length(shop, rng.uniform(0.25, 1.75))
    if rng.random() < 0.5:
        out["posts"]["above"] = _length(shop, rng.uniform(0.25, 30))
    if rng.random() < 0.4:
        out["mattress"].setdefault("thickness", _length(shop, 10))
        out["headboard"] = {**_panel(seed, shop), "battens": shop.battens, "over": _length(shop, rng.uniform(8, 24))}
    if rng.random() < 0.7:
        out["mattress"]["corner_radius"] = _length(shop, rng.uniform(2, 5))
    if out["support"]["kind"] == "runners":
        out["support"] = {"kind": "cleats", "lumber": rng.choice(shop.cleats)}
    underside = {"underside": _length(shop, rng.uniform(7, 16))}
    if "leg" in out.get("heights", ()):
        out["heights"] = underside
    out.pop("plinth", None)
    legs = {key: out["legs"][key] for key in ("kind", "lumber", "per_side", "leveller") if key in out["legs"]}
    if legs["kind"] not in ("post", "doubled"):
        legs |= {"kind": "doubled", "lumber": shop.boards[0]}
    out["legs"], out["screws"] = legs, {}
    out["centre"].pop("ends", None)
    names = _named(out) | {out["posts"]["lumber"], out["posts"].get("blocks", out["posts"]["lumber"])}
    names |= {out["headboard"][key] for key in ("lumber", "battens", "slats") if key in out["headboard"]} if (
        "headboard" in out) else set()  # fmt: skip
    out["lumber"] = {name: {"stock": [{"length": length} for length in shop.stock]} for name in sorted(names)}
    return out


def _panel(seed: int, shop: Shop) -> Raw:
    """A headboard of boards or, every second one, of upright slats."""
    boards: Raw = {"kind": "boards", "lumber": shop.slats[1]}
    return boards | {"kind": "slats", "slats": shop.slats[0]} if seed % 2 else boards


def raw_with_headboard(seed: int) -> Raw:
    """The same bed with a headboard bolted to its head rail."""
    out, rng = raw(seed), random.Random(f"headboard {seed}")
    shop = METRIC if out["build"]["units"] == "mm" else INCH
    out["mattress"].setdefault("thickness", _length(shop, 10))
    over, inset = (_length(shop, rng.uniform(*ends)) for ends in ((8, 24), (4, 9)))
    out["headboard"] = {**_panel(seed, shop), "uprights": shop.boards[0], "over": over, "inset": inset}
    names = _named(out) | {out["headboard"][key] for key in ("lumber", "uprights", "slats") if key in out["headboard"]}
    out["lumber"] = {name: {"stock": [{"length": length} for length in shop.stock]} for name in sorted(names)}
    return out


def options(seed: int) -> Options:
    """The build, read as a build file is.

    Raises:
        InputError: it is none.
    """
    return from_raw(raw(seed))


def _length(shop: Shop, inches: float) -> str:
    return writer(shop.units).length(Fraction(inches))


def _mattress(rng: random.Random, shop: Shop) -> Raw:
    out: Raw = {"size": rng.choice(shop.sizes)}
    if rng.random() < 0.3:
        out |= {"width": _length(shop, rng.uniform(30, 76)), "length": _length(shop, rng.uniform(70, 84))}
    if rng.random() < 0.5:
        out["thickness"] = _length(shop, rng.uniform(6, 14))
    return out


def _slats(rng: random.Random, shop: Shop) -> Raw:
    edge = rng.choice(("flush", "flush", "equal", "fixed"))
    out: Raw = {"lumber": rng.choice(shop.slats), "edge": edge}
    if edge == "fixed":
        out["edge_gap"] = _length(shop, rng.uniform(0.25, 1.5))
    match rng.randrange(5):
        case 0:
            out["gap"] = _length(shop, rng.uniform(1.25, 2.75))
        case 1:
            out["count"] = rng.randrange(12, 17)
        case 2:
            out["carries"] = "box spring"
    if rng.random() < 0.3:
        out["play"] = _length(shop, rng.uniform(0.0625, 0.25))
    return out


def _legs(rng: random.Random, shop: Shop, runners: bool) -> Raw:
    kinds = ["post", "post", "doubled", "corner L"] + (["tube"] if runners else [])
    kind = rng.choice(kinds)
    places = [None, None, "under the rail", "under"] + ([] if runners else ["inside"])
    out: Raw = {"kind": kind, "per_side": rng.randrange(2, 5), "place": rng.choice(places)}
    out["lumber"] = rng.choice(shop.posts if kind == "post" else shop.boards)
    if rng.random() < 0.15:
        out["leveller"] = _length(shop, rng.uniform(0.25, 1))
    if out["per_side"] > 2 and rng.random() < 0.1:
        out["omit"] = [f"{rng.choice('LR')}2"]
    return {key: value for key, value in out.items() if value is not None}


def _height(rng: random.Random, shop: Shop) -> Raw:
    key = rng.choice(("underside", "sleeping", "leg"))
    low, high = {"underside": (7, 16), "sleeping": (13, 22), "leg": (8, 16)}[key]
    return {key: _length(shop, rng.uniform(low, high))}


def _centre(rng: random.Random, shop: Shop, runners: bool) -> Raw:
    lines = rng.choice((0, 1, 1, 2, 3))
    if not lines:
        return {}
    out: Raw = {"lines": lines, "kind": rng.choice(("beam", "flat")), "lumber": rng.choice(shop.lines),
                "legs": rng.randrange(2, 5)}  # fmt: skip
    if not runners:
        out["ends"] = rng.choice(("leg", "leg", "hanger", "block"))
    return out


def _state_a_little(rng: random.Random, shop: Shop, out: Raw) -> None:
    """A few of the places that are mostly left open."""
    runners, legs = out["support"]["kind"] == "runners", out["legs"]
    if rng.random() < 0.2:
        legs["setback"] = _length(shop, rng.uniform(0 if runners else 2, 8))
    if runners and legs.get("place") == "under" and legs["kind"] != "tube" and rng.random() < 0.4:
        legs["side_setback"] = _length(shop, rng.uniform(0.25, 2))
    if not runners and rng.random() < 0.2:
        out["support"]["recess"] = _length(shop, rng.uniform(1.5, 2.5))
    if not runners and legs.get("place") == "under" and rng.random() < 0.5:
        out.setdefault("screws", {})["leg"] = {"kind": "carriage bolt"}
    if rng.random() < 0.15:
        gauge = rng.choice(("4 mm", "5 mm")) if shop.units == "mm" else rng.choice(("#8", "#10"))
        out.setdefault("screws", {})["slat"] = {"gauge": gauge}


def _rarer_ways(rng: random.Random, shop: Shop, out: Raw, runners: bool) -> None:
    """Slats on straps, loose, unscrewed in the middle or in halves; other centre legs; glue blocks; boxes; heights."""
    slats, legs, lines = out["slats"], out["legs"], out["centre"].get("lines", 0)
    slats["hold"] = rng.choice(("screws", "screws", "straps", "loose"))
    if lines:
        slats["middle"] = rng.choice(("screwed", "unscrewed"))
    if lines == 1 and rng.random() < 0.5:
        slats["halves"] = True
        out["centre"]["kind"] = rng.choice(("flat", "flat", "beam"))
    if lines and rng.random() < 0.3:
        kind = rng.choice(("post", "doubled"))
        out["centre"] |= {"leg_kind": kind, "leg_lumber": rng.choice(shop.posts if kind == "post" else shop.boards)}
    if legs["kind"] == "corner L" and rng.random() < 0.5:
        legs["glue_blocks"] = shop.cleats[0]
    if rng.random() < 0.4:
        out["storage"] = {"width": _length(shop, rng.uniform(12, 30)), "depth": _length(shop, rng.uniform(12, 24)),
                          "height": _length(shop, rng.uniform(6, 11)), "count": rng.randrange(1, 7)}  # fmt: skip
        if rng.random() < 0.5:
            del out["heights"]
    elif rng.random() < 0.4 and "thickness" in out["mattress"]:
        out["heights"] = {"mattress_top": _length(shop, rng.uniform(24, 30))}
    out["mattress"]["split"] = rng.random() < 0.2
    _plinth(rng, shop, out, runners)
    if shop.units == "mm" and rng.random() < 0.5:
        out["wood"] = {"species": rng.choice(("C16", "C24"))}
    if runners and rng.random() < 0.3:
        gauge = "5 mm" if shop.units == "mm" else "#9"
        out.setdefault("screws", {})["runner_end"] = {"gauge": gauge}


def _plinth(rng: random.Random, shop: Shop, out: Raw, runners: bool) -> None:
    """Boards round legs that stand in from the edges."""
    legs = out["legs"]
    if runners and legs["kind"] in ("post", "doubled") and "storage" not in out and rng.random() < 0.4:
        out["plinth"] = {"lumber": rng.choice(shop.slats)}
        legs |= {"place": "under", "setback": _length(shop, rng.uniform(1.75, 5)),
                 "side_setback": _length(shop, rng.uniform(1.75, 2.5))}  # fmt: skip
        legs.pop("omit", None)


def _named(out: Raw) -> set[str]:
    """The sections that the build names."""
    names = {out["frame"]["rail"], out["support"]["lumber"], out["slats"]["lumber"]}
    names |= {out["centre"]["lumber"]} if out["centre"] else set()
    names |= {out["centre"][key] for key in ("leg_lumber",) if key in out["centre"]}
    names |= {out["legs"][key] for key in ("glue_blocks",) if key in out["legs"]}
    names |= {out["plinth"]["lumber"]} if "plinth" in out else set()
    return names | ({out["legs"]["lumber"]} if out["legs"]["kind"] != "tube" else set())
