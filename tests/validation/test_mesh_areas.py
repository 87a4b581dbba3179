"""Open areas against an independent mesh library (trimesh, with Manifold's exact union of solids), 30 random beds.

The surface of the union of all pieces is what is left when every contact has been taken off both pieces.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.design.builds import changed, demo
from tutorial_lib.design.platform_bed import design
from tutorial_lib.errors import InputError
from tutorial_lib.finishing.faces import area, contacts, faces

trimesh = pytest.importorskip("trimesh")
pytest.importorskip("manifold3d")

SCALE = 2**10  # coordinates in 1/1024 in, so that touching faces stay equal in floats


def random_beds():
    """Thirty beds over all constructions, in a fixed order."""
    import random

    pick = random.Random(6)
    beds = []
    while len(beds) < 30:
        runners = pick.random() < 0.5
        legs = pick.choice(["post", "doubled", "corner L"])
        keys = {
            "mattress__width": f"{pick.randrange(30, 77)} in",
            "mattress__length": f"{pick.randrange(70, 85)} in",
            "clearance__side": f"{pick.randrange(1, 9)}/16 in",
            "frame__corners": pick.choice(["side rails run past", "end rails cap"]),
            "support__kind": "runners" if runners else "cleats",
            "support__lumber": "2x6" if runners else "2x2",
            "support__recess": None if runners else "1 in",
            "support__end_play": "0 in" if runners else "1/2 in",
            "slats__lumber": pick.choice(["1x3", "1x4", "2x4"]),
            "centre__lines": pick.randrange(3),
            "centre__kind": pick.choice(["beam", "flat"]) if runners else "beam",
            "legs__kind": legs,
            "legs__lumber": "4x4" if legs == "post" else "2x4",
            "legs__per_side": pick.randrange(2, 5),
            "legs__setback": f"{pick.randrange(2, 9)} in",
            "heights__underside": f"{pick.randrange(8, 16)} in",
            "screws": None,
        }
        try:
            beds.append(design(changed(**keys)))
        except InputError:
            continue
    return beds


def open_area(bed):
    pieces = tuple(bed.pieces.values())
    return sum(
        (
            face.area - sum((area(box, face.axis) for _, box in contacts(face, pieces)), Fraction(0))
            for piece in pieces
            for face in faces(piece)
        ),
        Fraction(0),
    )


def mesh_area(bed):
    boxes = []
    for piece in bed.pieces.values():
        bounds = [[round(float(v) * SCALE) for v in corner] for corner in (piece.box.lo, piece.box.hi)]
        boxes.append(trimesh.creation.box(bounds=bounds))
    return trimesh.boolean.union(boxes, engine="manifold").area / SCALE**2


@pytest.mark.parametrize("bed", random_beds(), ids=lambda bed: f"{len(bed.pieces)} pieces")
def test_open_area_is_the_surface_of_the_whole(bed):
    assert float(open_area(bed)) == pytest.approx(mesh_area(bed), rel=1e-4)


def test_the_demo_bed():
    bed = design(demo())
    assert float(open_area(bed)) == pytest.approx(mesh_area(bed), rel=1e-4)
