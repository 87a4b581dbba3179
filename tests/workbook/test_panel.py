"""A panel changes options, restates the facts that changed, and keeps the last good drawing on a bad value."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from pathlib import Path

import pytest

from tests.design.builds import DEMO
from tutorial_lib.design.build_file import read_build
from tutorial_lib.design.options import Options
from tutorial_lib.errors import Fault, InputError
from tutorial_lib.facts import Fact, facts_of
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import Block, Heading, Text
from tutorial_lib.workbook import current
from tutorial_lib.workbook.controls import Control
from tutorial_lib.workbook.panel import Panel

pytest.importorskip("ipywidgets")
BUILD = Path(__file__).parents[2] / "assets" / "builds" / "spare-room-twin.toml"


class Slats(Panel):
    controls = (
        Control(key="slats.gap", label="Gap", kind="length", low=Fraction(1), high=Fraction(4)),
        Control(key="loud", label="Loud", kind="check", value=False),
        Control(key="legs.per_side", label="Legs", kind="count", low=Fraction(1), high=Fraction(6)),
    )

    def show(self, plan: Plan) -> Sequence[Block]:
        said = f"{plan.build.slats.count} slats"
        return [Heading("Slats"), Text(said.upper() if self.own["loud"] else said)]

    def facts(self, plan: Plan) -> Iterable[Fact]:
        return facts_of(plan, ["design"]).values()


@pytest.fixture
def options() -> Options:
    return read_build(BUILD.read_text(encoding="utf-8"))


@pytest.fixture
def panel(options: Options) -> Slats:
    made = Slats(options)
    assert made.widget is not None
    return made


def test_typing_a_length_redraws_and_restates(panel: Slats) -> None:
    panel.control("slats.gap").value = "1 1/2"
    assert "16 slats" in panel.html()
    assert "slats: 14 → 16" in panel.change_lines()
    assert panel.control("slats.gap").value == "1 1/2 in"


def test_a_slider_moves_the_same_option(panel: Slats) -> None:
    slider = panel._view.sliders["slats.gap"]  # type: ignore[union-attr]
    assert slider.value == 10  # 2 1/4 in, in eighths above 1 in
    slider.value = 4
    assert panel.options.slats.gap == Fraction(3, 2)
    assert panel.control("slats.gap").value == "1 1/2 in"


@pytest.mark.parametrize("bad", ["wide", "-2", "3 blobs"])
def test_a_bad_value_is_told_beside_its_control_and_the_drawing_stays(panel: Slats, bad: str) -> None:
    before = panel.html()
    panel.control("slats.gap").value = bad
    fault = panel._view.faults["slats.gap"].value  # type: ignore[union-attr]
    assert "Not taken:" in fault
    assert panel.html() == before
    panel.control("slats.gap").value = "2 in"
    assert panel.errors == {}
    assert panel._view.faults["slats.gap"].value == ""  # type: ignore[union-attr]


def test_an_empty_box_leaves_the_choice_open(panel: Slats) -> None:
    panel.control("slats.gap").value = ""
    assert panel.options.slats.gap is None


def test_a_control_of_its_own_changes_the_panel_not_the_bed(panel: Slats, options: Options) -> None:
    panel.control("loud").value = True
    assert "14 SLATS" in panel.html()
    assert panel.options == options


def test_the_text_form_is_the_facts_as_lines(panel: Slats) -> None:
    data = panel._repr_mimebundle_()
    assert "slat.count = 14 (slats)" in data["text/plain"].splitlines()
    assert "application/vnd.jupyter.widget-view+json" in data


def test_reset_takes_the_creators_choices_up_again(panel: Slats, options: Options) -> None:
    panel.set("slats.gap", "1 1/2 in")
    panel.reset()
    assert panel.options == options
    assert "14 slats" in panel.html()


def test_a_file_of_any_name_is_saved_back_and_the_build_keeps_its_own(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TUTORIAL_STATE", str(tmp_path / "state"))
    theirs = tmp_path / "Loft 160.toml"
    theirs.write_text(DEMO.read_text(encoding="utf-8"), encoding="utf-8")
    current.open_build(str(theirs))
    panel = Slats()
    panel.set("slats.gap", "1 1/2 in")
    assert panel.save(panel.start.name) == theirs
    saved = read_build(theirs.read_text(encoding="utf-8"))
    assert saved.slats.gap == Fraction(3, 2) and saved.build.name == read_build(DEMO.read_text("utf-8")).build.name


def test_saving_tells_where_and_a_taken_name_is_refused(
    panel: Slats, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TUTORIAL_STATE", str(tmp_path))
    panel.set("slats.gap", "1 1/2 in")
    path = panel.save("my-bed")
    assert read_build(path.read_text(encoding="utf-8")).slats.gap == Fraction(3, 2)
    with pytest.raises(InputError, match="there is a build called spare-room-twin"):
        panel.save("spare-room-twin")
    panel.set("slats.gap", "2 in")
    assert panel.save("my-bed") == path  # its own name: back to its own file
    panel.undo_save()
    assert panel.options.slats.gap == Fraction(3, 2)
    panel.set("slats.gap", "1 in")
    panel.revert()
    assert panel.options.slats.gap == Fraction(3, 2)
    panel.reset()
    assert panel.plan.build.slats.count == 14


def test_a_value_is_told_with_its_key_but_beside_its_own_control() -> None:
    runners = BUILD.parent / "gallery" / "queen-runners-set-in.toml"
    panel = Slats(read_build(runners.read_text(encoding="utf-8")).bed)
    panel.set("legs.per_side", 1)
    told = panel.errors["legs.per_side"]
    assert told.startswith('plinth.lumber = "1x8" needs a leg')  # another choice stands against it
    posts = Slats(read_build((runners.parent / "queen-corner-posts.toml").read_text(encoding="utf-8")).bed)
    posts.set("legs.per_side", 1)
    assert posts.errors["legs.per_side"].startswith("1 is less than the two posts")
    assert str(Fault("legs.per_side", "= 1 is less.")) == "legs.per_side = 1 is less."
