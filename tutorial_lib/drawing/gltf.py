"""The bed in space as glTF 2.0: one file of plain JSON, one node a piece, that any viewer opens.

glTF has metres and y up; the bed has inches and z up: (x, y, z) becomes (x, z, -y). A node stands at its piece's
lowest corner, so that what has the same size shares one mesh. After the Khronos glTF 2.0 specification (from memory),
held against its own validator.
"""

from __future__ import annotations

import json
from base64 import b64encode
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import field
from math import cos, hypot, pi, sin
from struct import pack
from typing import Any

from tutorial_lib.design.model import Build, Piece
from tutorial_lib.measures import factor, writer
from tutorial_lib.records import dataclass

METRE = float(factor("in", "m"))
AROUND = 24  # sides of a tube
FLOAT, SHORT, ARRAY, ELEMENTS, TRIANGLES = 5126, 5123, 34962, 34963, 4
WOOD, STEEL = 0, 1  # numbers of the materials
MATERIALS = (
    ("wood", (0.93, 0.83, 0.66), 0.0, 0.8),
    ("steel", (0.55, 0.56, 0.57), 1.0, 0.4),
)  # name, colour (linear), metallic, roughness
Spot = tuple[float, float, float]


@dataclass(frozen=True)
class Mesh:
    """Corners [m] with their normals, and triangles by their numbers, seen from outside counter-clockwise."""

    spots: tuple[Spot, ...]
    normals: tuple[Spot, ...]
    triangles: tuple[int, ...]


@dataclass
class _File:
    """What the JSON gathers: bytes, and what lies where in them."""

    data: bytearray = field(default_factory=bytearray)
    views: list[dict[str, int]] = field(default_factory=list)
    accessors: list[dict[str, Any]] = field(default_factory=list)

    def floats(self, spots: Sequence[Spot], bounds: bool) -> int:
        """Lays three floats each; the number of their accessor."""
        rounded = [unit for spot in spots for unit in spot]
        more = _bounds(spots) if bounds else {}
        return self._lay(pack(f"<{len(rounded)}f", *rounded), FLOAT, len(spots), "VEC3", ARRAY, more)

    def shorts(self, numbers: Sequence[int]) -> int:
        """Lays corner numbers; the number of their accessor."""
        return self._lay(pack(f"<{len(numbers)}H", *numbers), SHORT, len(numbers), "SCALAR", ELEMENTS, {})

    def _lay(self, data: bytes, kind: int, count: int, form: str, target: int, more: dict[str, Any]) -> int:
        self.data += b"\0" * (-len(self.data) % 4)
        view = {"buffer": 0, "byteOffset": len(self.data), "byteLength": len(data), "target": target}
        self.data += data
        self.views.append(view)
        self.accessors.append(
            {"bufferView": len(self.views) - 1, "componentType": kind, "count": count, "type": form, **more}
        )
        return len(self.accessors) - 1


def gltf(build: Build) -> str:
    """The bed as the text of a .gltf file; the same text for the same bed."""
    return json.dumps(document(build), ensure_ascii=False, separators=(",", ":")) + "\n"


def document(build: Build) -> dict[str, Any]:
    """The bed as a glTF 2.0 document."""
    file, meshes = _File(), list[dict[str, Any]]()
    known: dict[tuple[Any, ...], int] = {}
    nodes = []
    for piece in build.pieces.values():
        steel = build.section_of(piece.label).steel
        key = (piece.box.size, piece.shape, piece.axis if piece.shape == "tube" else 0, steel)
        if key not in known:
            known[key] = len(meshes)
            meshes.append(_written(mesh_of(piece), file, build.part_of(piece.label).name, STEEL if steel else WOOD))
        nodes.append(_node(build, piece, known[key]))
    parents, roots = _grouped(build, nodes)
    kinds = MATERIALS if any(part.section.steel for part in build.parts) else MATERIALS[:1]
    title = build.options.build.title
    return {
        "asset": {"version": "2.0", "generator": "tutorial-workbook", "extras": {"title": title, "unit": "metre"}},
        "scene": 0,
        "scenes": [{"name": title, "nodes": roots}],
        "nodes": [*nodes, *parents],
        "meshes": meshes,
        "materials": [_material(*material) for material in kinds],
        "accessors": file.accessors,
        "bufferViews": file.views,
        "buffers": [{"byteLength": len(file.data), "uri": _data(bytes(file.data))}],
    }


def _data(data: bytes) -> str:
    return f"data:application/octet-stream;base64,{b64encode(data).decode('ascii')}"


def _node(build: Build, piece: Piece, mesh: int) -> dict[str, Any]:
    part, w = build.part_of(piece.label), writer(build.options.build.units)
    x, y, z = (float(v) * METRE for v in piece.box.lo)
    told = {"part": part.name, "lumber": part.section.name, "length": w.length(piece.length)}
    return {"name": piece.label, "mesh": mesh, "translation": [_r(x), _r(z), _r(-y)], "extras": told}


def _grouped(build: Build, nodes: Sequence[dict[str, Any]]) -> tuple[list[dict[str, Any]], list[int]]:
    """A node for each part above the nodes of its pieces, and the numbers of those."""
    number = {node["name"]: n for n, node in enumerate(nodes)}
    parents: list[dict[str, Any]] = [
        {"name": f"part: {part.name}", "children": [number[p.label] for p in part.pieces]} for part in build.parts
    ]
    return parents, [len(nodes) + n for n in range(len(parents))]


def _material(name: str, colour: Spot, metallic: float, rough: float) -> dict[str, Any]:
    paint = {"baseColorFactor": [*colour, 1.0], "metallicFactor": metallic, "roughnessFactor": rough}
    return {"name": name, "pbrMetallicRoughness": paint}


def _written(mesh: Mesh, file: _File, name: str, material: int) -> dict[str, Any]:
    attributes = {"POSITION": file.floats(mesh.spots, bounds=True), "NORMAL": file.floats(mesh.normals, bounds=False)}
    one = {
        "attributes": attributes, "indices": file.shorts(mesh.triangles), "material": material, "mode": TRIANGLES
    }  # fmt: skip
    return {"name": name, "primitives": [one]}


def mesh_of(piece: Piece) -> Mesh:
    """A piece from its lowest corner, in glTF's metres and axes; a tube as a round one, a plate and all else as a box.

    The corner that is lowest in x, y, z of the bed lies at the origin, so that z of glTF runs from 0 down.
    """
    dx, dy, dz = (float(v) * METRE for v in piece.box.size)
    size = (dx, dz, dy)
    made = _tube(size, (0, 2, 1)[piece.axis]) if piece.shape == "tube" else _box(size)
    shifted = tuple((_r(x), _r(y), _r(z - dy)) for x, y, z in made.spots)
    return Mesh(shifted, made.normals, made.triangles)


def _box(size: Spot) -> Mesh:
    """A box from the origin: four corners a face, so that each has its own normal."""
    spots: list[Spot] = []
    normals: list[Spot] = []
    triangles: list[int] = []
    for axis in range(3):
        a, b = (axis + 1) % 3, (axis + 2) % 3
        for side in (1, -1):
            turn = ((0, 0), (1, 0), (1, 1), (0, 1)) if side > 0 else ((0, 0), (0, 1), (1, 1), (1, 0))
            first = len(spots)
            for i, j in turn:
                spots.append(_spot({axis: size[axis] * (side > 0), a: size[a] * i, b: size[b] * j}))
                normals.append(_spot({axis: float(side), a: 0.0, b: 0.0}))
            triangles += [first, first + 1, first + 2, first, first + 2, first + 3]
    return Mesh(tuple(spots), tuple(normals), tuple(triangles))


def _tube(size: Spot, axis: int) -> Mesh:
    """A round bar along one axis that fills its box, with flat ends."""
    a, b = (axis + 1) % 3, (axis + 2) % 3
    ways = [(cos(2 * pi * i / AROUND), sin(2 * pi * i / AROUND)) for i in range(AROUND)]
    low = [_spot({axis: 0.0, a: size[a] / 2 * (1 + c), b: size[b] / 2 * (1 + s)}) for c, s in ways]
    high = [_spot({axis: size[axis], a: spot[a], b: spot[b]}) for spot in low]
    out = [_unit(_spot({axis: 0.0, a: c, b: s})) for c, s in ways]
    down, up = (_spot({axis: along, a: 0.0, b: 0.0}) for along in (-1.0, 1.0))
    spots = [*(spot for pair in zip(low, high, strict=True) for spot in pair), *low, *high]
    normals = [*(normal for normal in out for _ in (0, 1)), *[down] * AROUND, *[up] * AROUND]
    return Mesh(tuple(spots), tuple(normals), (*_mantle(), *_fan(2 * AROUND, -1), *_fan(3 * AROUND, 1)))


def _mantle() -> Iterator[int]:
    """The triangles of a round bar's side, whose corners come in pairs, one of each end."""
    for low in range(0, 2 * AROUND, 2):
        after = (low + 2) % (2 * AROUND)
        yield from (low, after, low + 1, after, after + 1, low + 1)


def _fan(first: int, sign: int) -> Iterator[int]:
    """The triangles of a flat round end; seen from outside they run against the clock."""
    for at in range(first + 1, first + AROUND - 1):
        yield from (first, at, at + 1) if sign > 0 else (first, at + 1, at)


def _spot(by_axis: dict[int, float]) -> Spot:
    return by_axis[0], by_axis[1], by_axis[2]


def _unit(spot: Spot) -> Spot:
    long = hypot(*spot) or 1.0
    return spot[0] / long, spot[1] / long, spot[2] / long


def _bounds(spots: Iterable[Spot]) -> dict[str, list[float]]:
    """Least and greatest of each coordinate, as four-byte floats hold them."""
    held = [tuple(_single(v) for v in spot) for spot in spots]
    columns = list(zip(*held, strict=True))
    return {"min": [min(c) for c in columns], "max": [max(c) for c in columns]}


def _single(x: float) -> float:
    from struct import unpack

    return float(unpack("<f", pack("<f", x))[0])


def _r(x: float) -> float:
    return round(x, 6) + 0.0  # [m] a thousandth of a millimetre; no minus nought
