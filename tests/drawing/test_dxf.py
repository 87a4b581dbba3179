"""DXF read again by its library: sound, in the plan's unit, holes where the schedule has them."""

from __future__ import annotations

import io

import ezdxf
import pytest
from ezdxf.document import Drawing
from ezdxf.entitydb import EntityDB

from tests.conftest import ROOT
from tests.publishing import demo
from tutorial_lib.design.build_file import read_build
from tutorial_lib.drawing.dxf import faces, plan_dxf, templates_dxf
from tutorial_lib.plan import Plan

BEDS = {"demo": demo.demo, "metric": demo.metric}


def read(text: str) -> Drawing:
    return ezdxf.read(io.StringIO(text))


@pytest.mark.parametrize("name", BEDS)
def test_it_is_sound_and_in_the_plans_unit(name: str) -> None:
    bed: Plan = BEDS[name]()
    for text in (plan_dxf(bed.build), templates_dxf(bed)):
        document = read(text)
        assert not document.audit().has_errors and not document.audit().fixes
        assert document.units == (1 if name == "demo" else 4)  # $INSUNITS: inches, millimetres
        assert text == (plan_dxf(bed.build) if "HOLES" not in drawn(document) else templates_dxf(bed))


def test_its_bytes_hang_on_no_order_of_a_set(monkeypatch: pytest.MonkeyPatch) -> None:
    real = EntityDB.dxf_types_in_use
    texts = set()
    for backwards in (False, True):  # as two processes would have it
        monkeypatch.setattr(EntityDB, "dxf_types_in_use", lambda db, b=backwards: sorted(real(db), reverse=b))
        texts.add(plan_dxf(demo.demo().build))
    assert len(texts) == 1


def drawn(document: Drawing) -> set[str]:
    return {entity.dxf.layer for entity in document.modelspace()}


@pytest.mark.parametrize("name", BEDS)
def test_every_hole_is_a_circle_of_its_bit_at_its_mark(name: str) -> None:
    bed: Plan = BEDS[name]()
    scale = 1.0 if name == "demo" else 25.4
    holes = [h for group, face in faces(bed) for h in group.on(face)]
    circles = [c for c in read(templates_dxf(bed)).modelspace().query("CIRCLE") if c.dxf.layer == "HOLES"]
    assert [round(c.dxf.radius * 2, 4) for c in circles] == [round(float(h.diameter) * scale, 4) for h in holes]
    assert [round(c.dxf.center.x, 4) for c in circles] == [round(float(h.u) * scale, 4) for h in holes]


def test_a_template_names_the_pieces_it_serves_and_none_between_them() -> None:
    build = ROOT / "assets" / "builds" / "gallery" / "uk-king-over-boxes.toml"
    bed = Plan(read_build(build.read_text(encoding="utf-8")))
    told = [text.dxf.text for text in read(templates_dxf(bed)).modelspace().query("TEXT")]
    assert all(any(f"{face}: {group.which}. " in text for text in told) for group, face in faces(bed))
    assert any("slat 2 left to 4 right, 7 left, 7 right, 10 left to 13 right" in text for text in told)


def test_pieces_lie_where_they_are_from_above() -> None:
    build = demo.demo().build
    outlines = read(plan_dxf(build)).modelspace().query("LWPOLYLINE")
    boxes = {tuple(round(v, 4) for point in line.get_points("xy") for v in point) for line in outlines}
    rail = build.pieces["side rail right"].box
    (x0, y0, _), (x1, y1, _) = rail.lo, rail.hi
    assert tuple(float(v) for v in (x0, y0, x1, y0, x1, y1, x0, y1)) in boxes
    words = {text.dxf.text for text in read(plan_dxf(build)).modelspace().query("TEXT")}
    assert {"L1", "R3", "72 1/4", "5 9/16"} <= words
