"""The machine at fault while a folder or a page is written: kit, plates, lists, the viewers' page. What was there
stays, every file is whole, nothing of somebody else's is touched."""

from __future__ import annotations

import os
import random
import resource
import signal
import time
from pathlib import Path

import pytest

from tests.hard.test_faults import DEMO, KILLS, NOBODY, apart
from tutorial_lib import cli, files

pytestmark = pytest.mark.skipif(os.name == "nt", reason="forks, signals and streams of another kind")

LARGE = 2_000_000  # [bytes]
MADE = {f"{group}/{number}.csv": bytes([number]) * 3000 for group in ("lists", "video") for number in range(30)}
OLD = dict.fromkeys(MADE, b"old")


@pytest.fixture(autouse=True)
def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """Only the writing counts: what is set, drawn and fetched is there at once."""
    large = {"index.html": b"x" * LARGE, "lists/cuts.csv": b"y"}
    monkeypatch.setattr("tutorial_lib.publishing.kit.making.made", lambda *_, **__: ())
    monkeypatch.setattr("tutorial_lib.publishing.kit.making.folder_of", lambda *_: large)
    monkeypatch.setattr("tutorial_lib.site.parts.fetch", lambda *_: {})
    monkeypatch.setattr("tutorial_lib.site.folder.site", lambda *_: large)
    monkeypatch.setattr("tutorial_lib.site.folder.plain", lambda *_: "x" * LARGE)
    monkeypatch.setattr("tutorial_lib.publishing.typeset.compile_pdf", lambda *_: b"%PDF-1.7 " + b"x" * LARGE)
    monkeypatch.setattr("tutorial_lib.publishing.sheet.sheet_source", lambda *_, **__: "")
    png = type("Plate", (), {"key": "slat-length"})
    monkeypatch.setattr(
        "tutorial_lib.publishing.plates.setting.plate_files", lambda *_: [(png, b"x" * LARGE, b"y", "")]
    )


def command(kind: str, out: Path) -> list[str]:
    """A command whose output is new since the first of these tests."""
    more = {"plates": ["--facts", "slat.length"], "plain": ["--plain", "--sizes", "queen"]}.get(kind, [])
    return ["site" if kind == "plain" else kind, str(DEMO), *more, "-o", str(out)]


def tree(folder: Path) -> dict[str, bytes]:
    """What a folder holds."""
    return {str(p.relative_to(folder)): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


ALL = ("kit", "site", "plates", "plain", "sheet")


@pytest.mark.parametrize("kind", ALL)
def test_a_disk_that_takes_no_more(kind: str, tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    def on_a_full_disk() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))
        os._exit(cli.main(command(kind, tmp_path / "out")))

    assert os.waitstatus_to_exitcode(os.waitpid(apart(on_a_full_disk), 0)[1]) == 2
    assert "can't be written: it would be larger than a file may be here" in capfd.readouterr().err
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("kind", ALL)
def test_what_is_there_stays_without_force(kind: str, tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "out"
    if kind in ("plain", "sheet"):
        out.write_bytes(b"mine")
    else:
        files.write_folder(out, {"notes.txt": b"mine"})
    before = tree(tmp_path)
    assert cli.main(command(kind, out)) == 2
    told = capfd.readouterr()
    assert "--force" in told.err
    assert "wrote" not in told.out
    assert tree(tmp_path) == before


def test_lists_beside_other_files_replace_none_of_them(tmp_path: Path) -> None:
    out = tmp_path / "lists"
    files.write_folder(out, {"cuts.csv": b"mine"})
    assert cli.main(command("lists", out)) == 2
    assert tree(out) == {"cuts.csv": b"mine"}


@pytest.mark.parametrize("kind", ["kit", "site", "plates", "lists"])
def test_force_leaves_what_has_another_name(kind: str, tmp_path: Path) -> None:
    out = tmp_path / "床 and Ω"
    files.write_folder(out, {"notes.txt": b"mine", "index.html": b"old"})
    assert cli.main([*command(kind, out), "--force"]) == 0
    held = tree(out)
    assert held.pop("notes.txt") == b"mine"
    assert len(held) > 1
    assert list(tmp_path.iterdir()) == [out]


@pytest.mark.skipif(os.geteuid() != 0, reason="only the superuser can become somebody else")
@pytest.mark.parametrize("kind", ["kit", "plain"])
def test_a_folder_that_may_not_be_written_to(kind: str, tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    tmp_path.chmod(0o755)

    def as_nobody() -> None:
        os.setuid(NOBODY)
        os._exit(cli.main(command(kind, tmp_path / "out")))

    assert os.waitstatus_to_exitcode(os.waitpid(apart(as_nobody), 0)[1]) == 2
    assert "may not be written to" in capfd.readouterr().err
    assert not list(tmp_path.iterdir())


def test_of_several_who_write_one_folder_exactly_one_succeeds(tmp_path: Path) -> None:
    for turn in range(5):
        out = tmp_path / f"kit-{turn}"

        def write(text: str, out: Path = out) -> None:
            try:
                files.write_folder(out, {name: text.encode() for name in MADE})
            except files.InputError:
                return
            (tmp_path / f"{out.name} by {text}").touch()

        children = [apart(lambda text=text: write(text)) for text in "abcd"]  # type: ignore[misc]
        for child in children:
            os.waitpid(child, 0)
        won = [path.name[-1] for path in tmp_path.glob(f"kit-{turn} by *")]
        assert len(won) == 1
        assert set(tree(out).values()) == {won[0].encode()}
        assert not list(tmp_path.glob(".writing-*"))


def test_killed_while_replacing_a_folder_every_file_is_whole_and_there(tmp_path: Path) -> None:
    out, chance = tmp_path / "kit", random.Random(7)
    files.write_folder(out, OLD | {"notes.txt": b"mine"})

    def again_and_again() -> None:
        while True:
            files.write_folder(out, MADE, force=True)
            files.write_folder(out, OLD, force=True)

    for _ in range(KILLS):
        child = apart(again_and_again)
        time.sleep(chance.uniform(0.0, 0.1))
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
        held = tree(out)
        assert held.pop("notes.txt") == b"mine"
        assert held.keys() == MADE.keys()
        assert all(data in (OLD[name], MADE[name]) for name, data in held.items())
    files.write_folder(out, MADE, force=True)
    assert tree(out) == MADE | {"notes.txt": b"mine"}


def test_killed_while_making_a_folder_it_is_whole_or_not_there(tmp_path: Path) -> None:
    chance = random.Random(8)
    for turn in range(KILLS):
        out = tmp_path / f"kit-{turn}"
        child = apart(lambda out=out: files.write_folder(out, MADE))  # type: ignore[misc]
        time.sleep(chance.uniform(0.0, 0.03))
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
        assert not out.exists() or tree(out) == MADE


def test_asked_to_end_it_takes_away_what_it_began(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    out = tmp_path / "kit"
    files.write_folder(out, {"index.html": b"old"})
    replace, begun = Path.replace, tmp_path / "begun"

    def slow(self: Path, to: Path) -> Path:
        done = replace(self, to)
        if not begun.exists():  # the first file is in its place
            begun.touch()
            time.sleep(30)
        return done

    monkeypatch.setattr(Path, "replace", slow)
    child = apart(lambda: cli.main([*command("kit", out), "--force"]))
    while not begun.exists():
        time.sleep(0.02)
    os.kill(child, signal.SIGTERM)
    os.waitpid(child, 0)
    assert tree(out) == {"index.html": b"old"}
    assert sorted(path.name for path in tmp_path.iterdir()) == ["begun", "kit"]
