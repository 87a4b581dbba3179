"""Every chapter works on every bed: the cells of all notebooks are run on each bed of the gallery and on beds with
little or wrong in them, and nothing fails. One process for all, and one plan a bed, so that it is quick; what the
cells show is looked at by the browser tests, and compared on the two demos.
"""

from __future__ import annotations

import ast
import gc
import json
import os
import warnings
from collections.abc import Iterator
from itertools import islice
from pathlib import Path
from typing import Any

import pytest

from tutorial_lib.design.build_file import change, read_build, to_toml
from tutorial_lib.design.options import Options
from tutorial_lib.plan import Plan
from tutorial_lib.strength import result
from tutorial_lib.workbook import adapting_panel, current, panel, strength_panel
from tutorial_lib.workbook.publishing_panel import PublishPanel

pytest.importorskip("ipywidgets")
ROOT = Path(__file__).parents[2]
BUILDS = ROOT / "assets" / "builds"
GALLERY = sorted((BUILDS / "gallery").glob("*.toml"))
NOTEBOOKS = sorted((ROOT / "notebooks").glob("*.ipynb"))
TWIN = BUILDS / "spare-room-twin.toml"
# Beds that are not as they should be: nothing to stand on; a screw that can't be bought.
ODD: dict[str, dict[str, Any]] = {
    "a stop": {"legs.omit": ["L1", "L2", "R2"]},
    "no such screw": {"screws.cleat.gauge": "#11"},
}
BEDS = [pytest.param((path, {}), id=path.stem) for path in GALLERY]
BEDS += [pytest.param((TWIN, changes), id=name) for name, changes in ODD.items()]
# All sizes, tried remedies, every leg taken away, every plate as a picture are many whole plans or pages and have
# tests of their own; TUTORIAL_EVERY_BED=1 has them here too.
WHOLE = bool(os.environ.get("TUTORIAL_EVERY_BED"))
LEGS = 2  # taken away one after the other


@pytest.fixture(scope="module", autouse=True)
def quick() -> Iterator[None]:
    """What other tests have loaded is not gone through again for every panel."""
    gc.collect()
    gc.freeze()
    patch = pytest.MonkeyPatch()
    if not WHOLE:
        every = result.leg_map
        patch.setattr(adapting_panel, "MOST_ASKED", ("queen",))
        patch.setattr(strength_panel, "tried", lambda before, finding: iter(()))
        patch.setattr(result, "leg_map", lambda *given: islice(every(*given), LEGS))
        patch.setattr(PublishPanel, "pictures", lambda panel: [(panel.source().encode(), "a plate", "a plate")])
    yield
    patch.undo()
    gc.unfreeze()


@pytest.fixture
def bed(request: pytest.FixtureRequest, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Options]:
    """The bed as the one that all notebooks work on."""
    path, changes = request.param
    options = change(read_build(path.read_text(encoding="utf-8")), {"build.name": "a-bed", **changes})
    monkeypatch.setenv("TUTORIAL_STATE", str(tmp_path))
    (tmp_path / "builds").mkdir()
    (tmp_path / "builds" / "a-bed.toml").write_text(to_toml(options), encoding="utf-8")
    current.choose("a-bed")
    plan = Plan(current.current().options)  # the chapters would each work the same one out
    monkeypatch.setattr(panel, "Plan", lambda wanted: plan if wanted == plan.options else Plan(wanted))
    yield options


def run(notebook: Path) -> list[dict[str, Any]]:
    """Runs the code cells of a notebook and hands back what each would show."""
    book = json.loads(notebook.read_text(encoding="utf-8"))
    names: dict[str, Any] = {}
    shown = []
    for cell in book["cells"]:
        if cell["cell_type"] == "code":
            shown.append(_run_cell("".join(cell["source"]), names))
    return shown


def _run_cell(source: str, names: dict[str, Any]) -> dict[str, Any]:
    *before, last = ast.parse(source).body
    assert isinstance(last, ast.Expr)
    exec(compile(ast.Module(before, []), "<cell>", "exec"), names)
    value = eval(compile(ast.Expression(last.value), "<cell>", "eval"), names)
    bundle: dict[str, Any] = value._repr_mimebundle_()
    return bundle


@pytest.mark.parametrize("bed", BEDS, indirect=True)
def test_all_chapters_work(bed: Options, capsys: pytest.CaptureFixture[str]) -> None:
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        for notebook in NOTEBOOKS:
            for shown in run(notebook):
                assert shown["text/plain"].strip(), notebook.stem
                assert "application/vnd.jupyter.widget-view+json" in shown, notebook.stem
    said = capsys.readouterr()
    assert (said.out, said.err) == ("", "")
