"""The user's files: faults in one sentence, writes whole or not at all."""

from __future__ import annotations

import os
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
    with pytest.raises(InputError, match="can't be read"):
        files.read_text(tmp_path / ("x" * 5000))
    with pytest.raises(InputError, match="can't be read"):
        files.read_text("a\0b")


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
    with pytest.raises(InputError, match="No space left"):
        files.write_text(path, "new", force=True)
    assert path.read_text() == "old"
    assert [p.name for p in tmp_path.iterdir()] == ["facts.json"]


def test_a_folder_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="Make it first"):
        files.write_text(tmp_path / "out" / "facts.json", "x")


@pytest.mark.skipif(os.name == "nt" or os.geteuid() == 0, reason="the superuser may write anywhere")
def test_a_read_only_folder(tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    with pytest.raises(InputError, match="read-only"):
        files.write_text(tmp_path / "facts.json", "x")


def test_a_read_only_folder_as_the_system_tells_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(**_: object) -> tuple[int, str]:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(files.tempfile, "mkstemp", refused)
    with pytest.raises(InputError, match="read-only"):
        files.write_text(tmp_path / "facts.json", "x")


def test_make_folder(tmp_path: Path) -> None:
    assert files.make_folder(tmp_path / "a" / "b").is_dir()
    (tmp_path / "c").touch()
    with pytest.raises(InputError, match="is a file"):
        files.make_folder(tmp_path / "c")
