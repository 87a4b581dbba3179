"""One build for all notebooks: chosen, saved under a new name, and back to the creator's."""

from __future__ import annotations

from pathlib import Path

import pytest

from tutorial_lib.design.build_file import change, read_build
from tutorial_lib.errors import InputError
from tutorial_lib.workbook import current
from tutorial_lib.workbook.start_panel import StartPanel


@pytest.fixture(autouse=True)
def state(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("TUTORIAL_STATE", str(tmp_path / "state"))
    return tmp_path / "state"


def test_a_fresh_clone_opens_on_the_first_build(state: Path) -> None:
    now = current.current()
    assert now.name == current.FIRST
    assert now.options == now.creator
    assert not state.exists()  # nothing is written by looking


def test_saving_writes_a_new_build_keeps_the_creators_and_chooses_it(state: Path) -> None:
    was = current.current()
    mine = change(was.options, {"slats.gap": "2 in", "build.name": "my-bed"})
    path = current.save_as("my-bed", mine, was.creator)
    assert path.parent == state / "builds"
    now = current.current()
    assert (now.options, now.creator, now.name) == (mine, was.options, "my-bed")
    assert read_build(path.read_text(encoding="utf-8")).origin == was.options


def test_reset_goes_back_to_the_creators_and_keeps_mine() -> None:
    was = current.current()
    current.save_as("my-bed", change(was.options, {"slats.gap": "2 in"}), was.creator)
    assert current.reset().name == current.FIRST
    assert current.current().options == was.options
    assert "my-bed" in current.builds()


@pytest.mark.parametrize("name", ["../x", "My Bed", "", "-a"])
def test_a_name_that_is_no_file_name_is_refused(name: str) -> None:
    was = current.current()
    with pytest.raises(InputError, match="can't be used"):
        current.save_as(name, was.options, was.creator)


def test_nothing_is_overwritten() -> None:
    was = current.current()
    with pytest.raises(InputError, match="there is a build called"):
        current.save_as(current.FIRST, was.options, was.creator)


def test_a_build_that_went_away_falls_back_to_the_first(state: Path) -> None:
    state.mkdir()
    (state / "chosen.txt").write_text("gone\n", encoding="utf-8")
    assert current.current().name == current.FIRST
    with pytest.raises(InputError, match="no such build"):
        current.load("gone")


def test_a_saved_build_keeps_the_comments_of_the_one_it_came_from(state: Path) -> None:
    was = current.current()
    path = current.save_as("my-bed", change(was.options, {"slats.gap": "2 in"}), was.creator)
    again = current.save_as("my-next-bed", change(was.options, {"slats.gap": "1 1/2 in"}), was.creator)
    for text in (path.read_text(encoding="utf-8"), again.read_text(encoding="utf-8")):
        assert "# at most" in text
        assert text.count("# Own build, from") == 1


def test_the_start_panel_chooses_for_all(state: Path) -> None:
    was = current.current()
    current.save_as("my-bed", change(was.options, {"slats.gap": "1 1/2 in"}), was.creator)
    panel = StartPanel()
    assert panel.own["bed"] == "my-bed"
    panel.set("bed", current.FIRST)
    assert current.current().name == current.FIRST
    assert "slats: 16 → 14" in panel.change_lines()
    panel.set("bed", "my-bed")
    panel.set("creator", True)
    assert current.current().name == current.FIRST


def test_a_broken_build_of_mine_is_told_beside_the_choice(state: Path) -> None:
    (state / "builds").mkdir(parents=True)
    (state / "builds" / "broken.toml").write_text("[build\n", encoding="utf-8")
    panel = StartPanel()
    drawn = panel.html()
    panel.set("bed", "broken")
    assert "A heading begins and ends" in panel.errors["bed"]
    assert panel.html() == drawn


def own(gap: str = "2 in") -> current.Current:
    was = current.current()
    current.save_as("my-bed", change(was.options, {"slats.gap": gap, "build.name": "my-bed"}), was.creator)
    return current.current()


def test_saving_writes_back_to_the_own_file_and_can_be_undone() -> None:
    start = own()
    path = current.save(start, change(start.options, {"slats.gap": "1 1/2 in"}))
    assert path == start.path
    assert str(current.current().options.slats.gap) == "3/2"
    assert "# at most" in path.read_text(encoding="utf-8")
    current.undo_save(current.current())
    assert path.read_text(encoding="utf-8") == start.text
    current.undo_save(current.current())
    assert str(current.current().options.slats.gap) == "3/2"


def test_saving_refuses_a_file_that_changed_meanwhile_and_the_creators() -> None:
    start = own()
    assert start.path is not None
    start.path.write_text(start.text + "\n# a word from elsewhere\n", encoding="utf-8")
    with pytest.raises(InputError, match="changed since you opened it"):
        current.save(start, start.options)
    assert "a word from elsewhere" in start.path.read_text(encoding="utf-8")
    with pytest.raises(InputError, match="never changed"):
        current.save(current.load(current.FIRST), start.options)
    with pytest.raises(InputError, match="nothing was saved before"):
        current.undo_save(current.load(current.FIRST))


def test_a_build_from_anywhere_is_opened_by_a_pasted_path(tmp_path: Path) -> None:
    text = current.load(current.FIRST).text
    elsewhere = tmp_path / "a shed"
    elsewhere.mkdir()
    (elsewhere / "garden-bed.toml").write_text(text, encoding="utf-8")
    assert current.open_build(f"  '{elsewhere / 'garden-bed.toml'}' ").name == "garden-bed"
    assert current.current().path == elsewhere / "garden-bed.toml"
    assert "garden-bed" in current.builds()
    with pytest.raises(InputError):
        current.open_build(str(elsewhere / "none.toml"))


def test_a_build_handed_in_becomes_an_own_one_and_never_replaces_one(state: Path) -> None:
    data = current.load(current.FIRST).text.encode()
    assert current.take_upload("Garden Bed.toml", data).name == "garden-bed"
    assert (state / "builds" / "garden-bed.toml").read_bytes() == data
    with pytest.raises(InputError, match="garden-bed"):
        current.take_upload("Garden Bed.toml", data + b"\n")
    with pytest.raises(InputError, match="no text"):
        current.take_upload("x.toml", b"\xff\xfe\x00")


def test_a_build_that_broke_meanwhile_is_told_and_the_first_is_shown() -> None:
    start = own()
    assert start.path is not None
    start.path.write_text("[build\n", encoding="utf-8")
    now = current.current()
    assert now.name == current.FIRST
    assert now.problem.startswith("my-bed can't be worked out, so spare-room-twin is shown.")


def test_captions_are_remembered_with_their_build(tmp_path: Path) -> None:
    talk = tmp_path / "talk.vtt"
    talk.write_text("WEBVTT\n", encoding="utf-8")
    current.remember_captions(talk)
    assert current.captions() == talk
    own()
    assert current.captions() is None
    current.choose(current.FIRST)
    assert current.captions() == talk


def test_the_stamp_changes_with_build_and_captions(tmp_path: Path) -> None:
    first = current.stamp()
    assert current.stamp() == first
    own()
    assert current.stamp() != first


def test_a_bed_that_cannot_be_designed_is_not_shown(state: Path) -> None:
    was = current.current()
    bad = change(was.options, {"wood.grade": "No.3/Stud", "build.name": "my-bed"})
    current.save_as("my-bed", bad, was.creator)
    now = current.current()
    assert now.name == current.FIRST
    assert now.problem.startswith("my-bed can't be worked out") and "grade" in now.problem
