"""Notebook 08's panel: what is looked at, what is written, what is told where it can't be."""

from __future__ import annotations

import io
from collections.abc import Sequence
from pathlib import Path

import pytest
from PIL import Image

from tutorial_lib.adapting.family import every_size
from tutorial_lib.design.options import Options
from tutorial_lib.publishing.kit import making
from tutorial_lib.publishing.kit.contents import GROUPS, File, Wanted
from tutorial_lib.publishing.kit.sizes import SizeMade
from tutorial_lib.workbook import current, publishing_panel
from tutorial_lib.workbook.publishing_panel import CUES, LABELS, LOOKS, TALL, WIDE, PublishPanel, _Widgets, links


@pytest.fixture(scope="module")
def panel(tmp_path_factory: pytest.TempPathFactory) -> PublishPanel:
    """The panel on the demo, with a state of its own."""
    patch = pytest.MonkeyPatch()
    patch.setenv("TUTORIAL_STATE", str(tmp_path_factory.mktemp("state")))
    made = PublishPanel()
    assert made.wanted.report is not None  # the captions that the build names
    patch.undo()
    return made


def test_it_says_what_can_be_made(panel: PublishPanel) -> None:
    assert panel.lines()[0] == "Saltmarsh Shed: Spare-room twin bed"
    assert "23 screen plates, 9 chapters" in panel.lines() and "correction-05-slat-count" in panel.lines()


def test_every_view_is_pictures_with_words(panel: PublishPanel) -> None:
    assert [name for name, _, _ in LOOKS][:2] == [WIDE, TALL]
    for look, size in ((TALL, (360, 640)), (LABELS, (510, 660)), (CUES, (660, 510))):
        panel.look = look
        shots = panel.pictures()
        assert all(Image.open(io.BytesIO(data)).size == size and words for data, words, _ in shots), look
    assert panel.html().count("<img") == panel.html().count('alt="Cue cards, page') == len(shots)
    panel.look = WIDE


def test_a_kit_is_made_with_what_was_chosen_and_linked(panel: PublishPanel, tmp_path: Path) -> None:
    ui = _Widgets(panel)
    ui.folder.value = str(tmp_path / "kits" / "mine")
    for name, check in ui.checks.items():
        check.value = name == "Lists"
    seen: list[float] = []
    ui.bar.observe(lambda event: seen.append(event["new"]), "value")
    ui.button.click()
    kit = tmp_path / "kits" / "mine"
    assert (kit / "index.html").is_file() and not (kit / "plates").exists() and seen[-1] == 1.0
    assert "Written to" in ui.told.value and "lists: " in ui.links.value and "First page" in ui.links.value
    assert not ui.button.disabled and ui.bar.layout.display == "none"
    ui.button.click()  # a kit that is there stays as it is
    assert "Not taken" in ui.told.value and "holds a kit" in ui.told.value and not ui.links.value
    ui.replace.value = True
    ui.button.click()
    assert "Written to" in ui.told.value
    ui.sizes.value = "kign"
    ui.button.click()
    assert "Not taken" in ui.told.value and "kign" in ui.told.value


def test_links_go_by_the_server_for_what_lies_beside_the_notebooks(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "a kit").mkdir()
    (tmp_path / "a kit" / "index.html").touch()
    assert "<a " not in links(tmp_path / "a kit")  # no browser opens a file from a server's page
    monkeypatch.setattr(current, "CLONE", tmp_path)
    assert 'href="/files/a%20kit/index.html"' in links(tmp_path / "a kit")
    monkeypatch.setenv("SERVER_SOFTWARE", "voila/0.5")
    assert "<a " not in links(tmp_path / "a kit")  # a page serves no files: the folder is named beside the button


BOXES = {  # what is typed into "Into the folder", and what is said of it; with the box ticked that replaces
    "": "Into the folder: is empty", " \"\" ": "Into the folder: is empty", "~": "is no kit", "/": "is no kit",
    "~nobody-of-that-name/kit": "write the path whole", "{room}/file": "is no folder", "{room}/file/kit": "is a file",
    "{room}/own": "is no kit", "{room}/" + "n" * 300: "too long", "{room}/a\0b": "no file can have such a name",
}  # fmt: skip
SIZES = {
    "1000 in": "no mattress size", "0": "no mattress size", ",": "names no size", "kign": "US king",
    "king; queen": "not a known mattress", "-60 x 75 in": "not a known mattress",
}  # fmt: skip


@pytest.fixture
def controls(panel: PublishPanel, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> _Widgets:
    """The panel's controls with one small group ticked, in a home of its own."""
    monkeypatch.setenv("HOME", str(tmp_path / "home"))
    monkeypatch.setattr(_Widgets, "turn", lambda ui, look: None)  # the pictures take seconds
    for name in ("home", "own"):
        (tmp_path / name).mkdir()
        (tmp_path / name / "mine.txt").write_text("mine")
    (tmp_path / "file").touch()
    ui = _Widgets(panel)
    for name, check in ui.checks.items():
        check.value = name == "Build file"
    return ui


def test_odd_folders_and_sizes_are_refused_by_name(controls: _Widgets, tmp_path: Path) -> None:
    before = sorted(tmp_path.rglob("*"))
    controls.replace.value = True
    for typed, said in BOXES.items():
        controls.folder.value = typed.replace("{room}", str(tmp_path))
        controls.button.click()
        assert "Not taken" in controls.told.value and said in controls.told.value, (typed, controls.told.value)
    controls.folder.value = str(tmp_path / "kit")
    for typed, said in SIZES.items():
        controls.sizes.value = typed
        controls.button.click()
        assert "Also for sizes: " in controls.told.value and said in controls.told.value, (typed, controls.told.value)
    controls.sizes.value = ""
    controls.checks["Build file"].value = False
    controls.button.click()
    assert "nothing to make; tick" in controls.told.value
    assert sorted(tmp_path.rglob("*")) == before  # nothing was written, nothing replaced
    assert not controls.button.disabled and not controls.links.value


@pytest.mark.parametrize(
    ("typed", "where"),
    [("~/kit", "home/kit"), ('"{room}/a kit"', "a kit"), (" '{room}/é ☆' ", "é ☆"), ("{room}/a/b/<b>", "a/b/<b>")],
)
def test_odd_folders_are_taken_as_typed(controls: _Widgets, tmp_path: Path, typed: str, where: str) -> None:
    controls.folder.value = typed.replace("{room}", str(tmp_path))
    controls.button.click()
    assert "Written to" in controls.told.value and "<b>" not in controls.told.value
    assert sorted(p.name for p in (tmp_path / where).iterdir()) == [
        "contents.json", "index.html", "saltmarsh-shed-spare-room-twin.toml"]  # fmt: skip


def test_sizes_that_cannot_be_built_are_told(
    controls: _Widgets, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[tuple[str, ...]] = []

    def sized(creator: Options, sizes: Sequence[str], *_: object) -> list[SizeMade]:
        asked.append(tuple(sizes))
        return [SizeMade(size=size, words=size, why_not="too long for any board") for size in sizes]

    monkeypatch.setattr(making, "make_sizes", sized)
    controls.folder.value, controls.sizes.value = str(tmp_path / "kit"), "king, 1000 x 2000 in, king"
    controls.button.click()
    assert asked == [("king", "1000 x 2000 in")]
    assert "1000 x 2000 in: too long for any board" in controls.told.value and "Written to" in controls.told.value
    controls.sizes.value, controls.replace.value = " all ", True
    controls.button.click()
    assert asked[1] == every_size(controls.panel.start.creator)


def test_each_thing_ticked_alone_and_all_are_made(
    controls: _Widgets, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made: list[list[str]] = []

    def listed(wanted: Wanted, groups: list[str], told: object = None) -> list[File]:
        made.append(groups)
        return []

    monkeypatch.setattr(publishing_panel, "made", listed)
    controls.folder.value, controls.replace.value = str(tmp_path / "kit"), True
    for only in controls.checks:
        for name, check in controls.checks.items():
            check.value = name == only
        controls.button.click()
    for check in controls.checks.values():
        check.value = True
    controls.button.click()
    assert made == [*([name] for name, _ in GROUPS), [name for name, _ in GROUPS]]
