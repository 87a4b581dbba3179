"""What the page is made with: pinned by hash, without an address, and told with its licence."""

from __future__ import annotations

import io
import json
import re
import tomllib
import zipfile

import pytest

from tests.conftest import ROOT
from tutorial_lib.site import parts
from tutorial_lib.site.folder import library


def test_every_part_is_pinned_by_a_hash_and_no_lock_names_an_address() -> None:
    texts = {name: (parts.DATA / name).read_text() for name in parts.LOCKS}
    assert not [name for name, text in texts.items() if re.search(r"https?:|registry\.|/simple/", text)]
    wheels = [line for line in texts["wheels.txt"].splitlines() if line and line[0] != "#"]
    assert all(re.fullmatch(r"[\w-]+==[\w.]+ --hash=sha256:[0-9a-f]{64}", line) for line in wheels)
    pinned = json.loads(texts["deno.lock"])["npm"]
    for name, version in json.loads(texts["package.json"])["dependencies"].items():
        assert pinned[f"{name}@{version}"]["integrity"].startswith("sha512-")


def test_the_wheels_are_those_of_the_desk() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    desk = {line.partition(";")[0].strip() for line in project["dependencies"]}
    browser = dict(re.findall(r"^([\w-]+)==([\w.]+)", (parts.DATA / "wheels.txt").read_text(), re.M))
    for name in ("pydantic", "tomlkit", "segno", "typst", "platformdirs", "pint"):
        assert f"{name}=={browser[name]}" in desk
    assert project["optional-dependencies"]["site"] == [parts.DENO]


def test_the_library_goes_without_what_a_browser_has_no_use_for() -> None:
    names = set(library())
    assert "tutorial_lib/site/live.py" in names and "tutorial_lib/tables/data/boxes.csv" in names
    assert not [
        n for n in names if n.startswith(("tutorial_lib/cli/", "tutorial_lib/site/static", "tutorial_lib/bootstrap"))
    ]


def test_the_same_files_make_the_same_archive() -> None:
    made = parts.zipped({"b": b"2", "a": b"1"})
    assert made == parts.zipped({"a": b"1", "b": b"2"})
    assert zipfile.ZipFile(io.BytesIO(made)).namelist() == ["a", "b"]


def test_a_registry_out_of_reach_is_told_in_a_sentence() -> None:
    with pytest.raises(parts.InputError, match=r"could not be fetched \(false: no word\)\. Is the network there\?"):
        parts._run(["false"], parts.DATA, {})
