"""The bed in space as glTF: read by another library, each piece where and as large as the plan has it."""

from __future__ import annotations

import io
import json

import numpy as np
import pytest
import trimesh

from tests.conftest import ROOT
from tests.publishing import demo
from tutorial_lib.cli.shared import read_options
from tutorial_lib.design.model import Build
from tutorial_lib.drawing.gltf import METRE, gltf
from tutorial_lib.plan import plan

TUBES = plan(read_options(str(ROOT / "assets/builds/gallery/queen-tubes.toml"))).build


def loaded(build: Build) -> trimesh.Scene:
    scene = trimesh.load(io.BytesIO(gltf(build).encode()), file_type="gltf")
    assert isinstance(scene, trimesh.Scene)
    return scene


@pytest.mark.parametrize("build", [demo.demo().build, TUBES], ids=["demo", "tubes"])
def test_every_piece_is_a_node_in_its_place(build: Build) -> None:
    scene = loaded(build)
    for label, piece in build.pieces.items():
        place, geometry = scene.graph[label]
        corners = trimesh.transform_points(scene.geometry[geometry].bounds, place)
        (x0, y0, z0), (x1, y1, z1) = piece.box.lo, piece.box.hi
        wanted = np.array([[x0, z0, -y1], [x1, z1, -y0]], dtype=float) * METRE
        assert np.allclose(corners, wanted, atol=2e-5), label


@pytest.mark.parametrize("build", [demo.demo().build, TUBES], ids=["demo", "tubes"])
def test_solids_are_closed_and_face_outward(build: Build) -> None:
    scene = loaded(build)
    for mesh in scene.geometry.values():
        mesh.merge_vertices(merge_norm=True)
        assert mesh.is_watertight and mesh.volume > 0


def test_a_board_has_the_plans_volume_and_a_tube_less_than_its_box() -> None:
    slat = next(p for p in demo.demo().build.pieces.values() if p.use == "slat")
    mesh = loaded(demo.demo().build).geometry["slat"]
    assert mesh.volume == pytest.approx(float(np.prod([float(x) for x in slat.box.size])) * METRE**3, rel=1e-4)
    tube = next(p for p in TUBES.pieces.values() if p.shape == "tube")
    box = float(np.prod([float(x) for x in tube.box.size])) * METRE**3
    assert 0.75 * box < loaded(TUBES).geometry["leg"].volume < 0.79 * box


def test_only_the_materials_used_are_there_and_the_file_is_the_same_again() -> None:
    wood, steel = json.loads(gltf(demo.demo().build)), json.loads(gltf(TUBES))
    assert [m["name"] for m in wood["materials"]] == ["wood"]
    assert [m["name"] for m in steel["materials"]] == ["wood", "steel"]
    assert {n["name"] for n in wood["nodes"]} >= {"slat 14", "part: slat"}
    assert gltf(TUBES) == gltf(TUBES)
