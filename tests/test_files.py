"""The user's files: faults in one sentence, writes whole or not at all."""

from __future__ import annotations

import errno
import os
import stat
import threading
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from tutorial_lib import files
from tutorial_lib.errors import InputError


def test_text_is_read_with_or_without_a_byte_order_mark(tmp_path: Path) -> None:
    path = tmp_path / "bed.toml"
    path.write_bytes(b"\xef\xbb\xbfa = 1\r\n")
    assert files.read_text(path) == "a = 1\r\n"


def test_a_missing_file_names_the_one_it_may_have_been(tmp_path: Path) -> None:
    (tmp_path / "my-bed.toml").touch()
    with pytest.raises(InputError, match=r"is not there; did you mean .*my-bed\.toml"):
        files.read_text(tmp_path / "my_bed.toml")
    with pytest.raises(InputError, match=r"is not there\.$"):
        files.read_text(tmp_path / "captions.vtt")
    with pytest.raises(InputError, match="nor is its folder"):
        files.read_text(tmp_path / "beds" / "bed.toml")


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="is a folder"):
        files.read_text(tmp_path)
    with pytest.raises(InputError, match="is a folder"):
        files.write_text(tmp_path, "x", force=True)


def test_other_encodings_are_refused_with_the_line(tmp_path: Path) -> None:
    path = tmp_path / "bed.toml"
    path.write_bytes(b"a = 1\nb = '\xbd'\n")
    with pytest.raises(InputError, match="line 2 is not UTF-8"):
        files.read_text(path)


def test_a_name_no_file_can_have(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="can't be read: the name is too long"):
        files.read_text(tmp_path / ("x" * 5000))
    with pytest.raises(InputError, match="can't be read: no file can have such a name"):
        files.read_text("a\0b")
    for name in ("x" * 300, "y" * 5000):
        with pytest.raises(InputError, match="can't be written: the name is too long"):
            files.write_text(tmp_path / name, "x")
    with pytest.raises(InputError, match="can't be written: no file can have such a name"):
        files.write_text("a\0b", "x")
    assert not list(tmp_path.iterdir())


def test_nothing_is_overwritten_unless_asked(tmp_path: Path) -> None:
    path = tmp_path / "facts.json"
    files.write_text(path, "one")
    with pytest.raises(InputError, match="use --force"):
        files.write_text(path, "two")
    assert path.read_text() == "one"
    files.write_text(path, "two", force=True)
    assert path.read_text() == "two"
    assert [p.name for p in tmp_path.iterdir()] == ["facts.json"]


def test_a_write_that_fails_leaves_the_old_file_and_no_rest(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "facts.json"
    files.write_text(path, "old")

    def full(self: Path, target: Path) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    with pytest.raises(InputError, match="the disk is full"):
        files.write_text(path, "new", force=True)
    assert path.read_text() == "old"
    assert [p.name for p in tmp_path.iterdir()] == ["facts.json"]


def test_a_folder_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="Make it first"):
        files.write_text(tmp_path / "out" / "facts.json", "x")


@pytest.mark.skipif(os.name == "nt" or os.geteuid() == 0, reason="the superuser may write anywhere")
def test_a_read_only_folder(tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    with pytest.raises(InputError, match="may not be written to"):
        files.write_text(tmp_path / "facts.json", "x")


def test_a_read_only_folder_as_the_system_tells_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(**_: object) -> tuple[int, str]:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(files.tempfile, "mkstemp", refused)
    with pytest.raises(InputError, match="may not be written to"):
        files.write_text(tmp_path / "facts.json", "x")


def test_make_folder(tmp_path: Path) -> None:
    assert files.make_folder(tmp_path / "a" / "b").is_dir()
    (tmp_path / "c").touch()
    with pytest.raises(InputError, match="is a file"):
        files.make_folder(tmp_path / "c")


def test_of_several_writers_of_one_name_exactly_one_wins(tmp_path: Path) -> None:
    path = tmp_path / "facts.json"
    start = threading.Barrier(8)

    def write(text: str) -> str:
        start.wait()
        try:
            files.write_text(path, text * 1000)
        except InputError as error:
            assert "is there already" in str(error)
            return ""
        return text

    with ThreadPoolExecutor(8) as pool:
        for _ in range(25):
            won = [text for text in pool.map(write, "abcdefgh") if text]
            assert len(won) == 1
            assert path.read_text() == won[0] * 1000
            path.unlink()
    assert not list(tmp_path.iterdir())


def test_a_name_taken_while_the_work_was_done_is_left_alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "facts.json"
    monkeypatch.setattr(files, "refuse_overwriting", lambda path, force: None)
    path.write_text("theirs")
    with pytest.raises(InputError, match="is there already"):
        files.write_text(path, "ours")
    assert path.read_text() == "theirs"
    assert [p.name for p in tmp_path.iterdir()] == ["facts.json"]


@pytest.mark.skipif(os.name == "nt", reason="a rename claims the name there")
def test_where_names_can_not_be_linked_the_name_is_taken_first(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def no_links(*_: object) -> None:
        raise OSError(errno.EPERM, "Operation not permitted")

    monkeypatch.setattr(files.os, "link", no_links)
    path = tmp_path / "facts.json"
    files.write_text(path, "one")
    with pytest.raises(InputError, match="is there already"):
        files.write_text(path, "two")
    assert path.read_text() == "one"


@pytest.mark.skipif(os.name == "nt", reason="permissions are another matter there")
def test_force_keeps_the_permissions(tmp_path: Path) -> None:
    path = tmp_path / "facts.json"
    path.write_text("old")
    path.chmod(0o640)
    files.write_text(path, "new", force=True)
    assert path.read_text() == "new"
    assert stat.S_IMODE(path.stat().st_mode) == 0o640


@pytest.mark.skipif(os.name == "nt", reason="links and pipes are another matter there")
@pytest.mark.parametrize("force", [False, True])
def test_force_replaces_plain_files_only(force: bool, tmp_path: Path) -> None:
    kept = tmp_path / "kept.toml"
    kept.write_text("mine")
    (tmp_path / "link.toml").symlink_to(kept)
    (tmp_path / "nowhere.toml").symlink_to(tmp_path / "none.toml")
    os.mkfifo(tmp_path / "pipe.toml")
    for name, told in (("link", "is a link"), ("nowhere", "is a link"), ("pipe", "is a pipe or a device")):
        with pytest.raises(InputError, match=told):
            files.write_text(tmp_path / f"{name}.toml", "x", force=force)
    with pytest.raises(InputError, match="is a pipe or a device"):
        files.write_text("/dev/null", "x", force=force)
    assert kept.read_text() == "mine"
    assert (tmp_path / "link.toml").is_symlink()
    assert sorted(p.name for p in tmp_path.iterdir()) == ["kept.toml", "link.toml", "nowhere.toml", "pipe.toml"]


@pytest.mark.skipif(os.name == "nt", reason="pipes are another matter there")
def test_a_pipe_or_a_device_is_not_read(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.vtt")
    for path in (tmp_path / "pipe.vtt", Path("/dev/zero")):
        with pytest.raises(InputError, match="is a pipe or a device"):
            files.read_bytes(path)


KIT = {"index.html": b"<p>", "plates/wide/slat.png": b"\x89PNG"}


def tree(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def test_a_folder_is_written_whole(tmp_path: Path) -> None:
    files.write_folder(tmp_path / "kit", KIT)
    assert tree(tmp_path) == {f"kit/{name}": data for name, data in KIT.items()}
    (tmp_path / "empty").mkdir()
    assert tree(files.write_folder(tmp_path / "empty", KIT)) == KIT


def test_a_folder_that_holds_files_is_left_as_it_is(tmp_path: Path) -> None:
    (tmp_path / "kit").mkdir()
    (tmp_path / "kit" / "index.html").write_bytes(b"mine")
    with pytest.raises(InputError, match="kit: is there already and holds files; use --force"):
        files.write_folder(tmp_path / "kit", KIT)
    assert tree(tmp_path) == {"kit/index.html": b"mine"}
    (tmp_path / "file").touch()
    with pytest.raises(InputError, match="is no folder"):
        files.write_folder(tmp_path / "file", KIT)
    with pytest.raises(InputError, match="none is not there"):
        files.write_folder(tmp_path / "none" / "kit", KIT)


def test_by_force_others_files_stay_and_old_ones_of_ours_go(tmp_path: Path) -> None:
    kit = tmp_path / "kit"
    files.write_folder(kit, {"index.html": b"old", "lists/old.csv": b"x", "notes.txt": b"mine"})
    files.write_folder(kit, KIT, stale=["lists/old.csv", "gone.csv"], force=True)
    assert tree(kit) == {**KIT, "notes.txt": b"mine"} and len(list(tmp_path.iterdir())) == 1
    assert not (kit / "lists").exists()


def test_a_fault_on_the_way_leaves_the_folder_as_it_was(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    kit = files.write_folder(tmp_path / "kit", {"index.html": b"old", "lists/old.csv": b"x"})
    whole, calls = Path.replace, []

    def failing(self: Path, target: Path) -> Path:
        calls.append(target)
        if len(calls) == 2:
            raise OSError(errno.ENOSPC, "full")
        return whole(self, target)

    monkeypatch.setattr(Path, "replace", failing)
    with pytest.raises(InputError, match="the disk is full"):
        files.write_folder(kit, KIT, stale=["lists/old.csv"], force=True)
    monkeypatch.undo()
    assert len(calls) > 2 and tree(tmp_path) == {"kit/index.html": b"old", "kit/lists/old.csv": b"x"}


def test_a_link_in_a_folder_is_not_followed(tmp_path: Path) -> None:
    kit = files.write_folder(tmp_path / "kit", {"index.html": b"old"})
    (tmp_path / "elsewhere").mkdir()
    (kit / "plates").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(InputError, match="is a link to another place"):
        files.write_folder(kit, KIT, force=True)
    assert tree(tmp_path) == {"kit/index.html": b"old"}
