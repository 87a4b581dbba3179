"""The machine at fault: killed while writing, disks full or read-only, streams closed, odd locales and paths. One
message each, status 2, and what was there is still there."""

from __future__ import annotations

import json
import os
import random
import resource
import signal
import subprocess
import sys
import time
import urllib.request
from collections.abc import Callable
from pathlib import Path
from shlex import quote

import pytest

from tutorial_lib import cli, files

pytestmark = pytest.mark.skipif(os.name == "nt", reason="forks, signals and streams of another kind")

DEMO = Path(__file__).parents[2] / "assets" / "builds" / "spare-room-twin.toml"
KILLS = int(os.environ.get("TUTORIAL_KILLS", "8"))  # for each kind of output; by hand: 50
NOBODY = 65534


def apart(work: Callable[[], object]) -> int:
    """A process of its own that does some work over and over, or once where it ends by itself; its number."""
    child = os.fork()
    if child == 0:
        try:
            os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
            work()
        finally:
            os._exit(0)
    return child


def tutorial(*arguments: str, **more: object) -> subprocess.CompletedProcess[str]:
    """The program as a person calls it."""
    call: dict[str, object] = {"capture_output": True, "text": True, "timeout": 120, "cwd": DEMO.parents[2]}
    return subprocess.run([sys.executable, "-m", "tutorial_lib", *arguments], **{**call, **more})  # type: ignore[call-overload, no-any-return]


def commands(out: Path) -> dict[str, list[str]]:
    """Each kind of output."""
    return {
        "json": ["facts", str(DEMO), "--json", str(out), "--force"],
        "pdf": ["templates", str(DEMO), "-o", str(out), "--force"],
        "toml": ["new", "-o", str(out), "--force"],
    }


@pytest.mark.parametrize("kind", ["json", "pdf", "toml"])
def test_killed_while_writing_leaves_the_old_file_or_the_new(
    kind: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    pdf = b"%PDF-1.7 " + b"x" * 3_000_000
    monkeypatch.setattr("tutorial_lib.publishing.typeset.compile_pdf", lambda source: pdf)  # only its writing counts
    monkeypatch.setattr("tutorial_lib.publishing.templates.templates_source", lambda made, paper: "")
    out = tmp_path / f"out.{kind}"
    command = commands(out)[kind]
    assert cli.main(command) == 0
    new, chance = out.read_bytes(), random.Random(9)

    def again_and_again() -> None:
        while True:
            cli.main(command)

    for _ in range(KILLS):
        old = chance.choice((new, b"old"))
        out.write_bytes(old)
        child = apart(again_and_again)
        time.sleep(chance.uniform(0.0, 0.15))
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
        assert out.read_bytes() in (old, new)
    strays = [path.name for path in tmp_path.iterdir() if path != out]
    assert all(name.startswith(".writing-") and name.endswith(".tmp") for name in strays)


def test_asked_to_end_it_takes_away_what_it_began(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    out = tmp_path / "facts.json"

    def slow(self: Path, mode: int) -> None:
        (tmp_path / "writing").touch()
        time.sleep(30)

    monkeypatch.setattr(Path, "chmod", slow)
    child = apart(lambda: cli.main(["facts", str(DEMO), "--json", str(out)]))
    while not (tmp_path / "writing").exists():
        time.sleep(0.02)
    os.kill(child, signal.SIGTERM)
    os.waitpid(child, 0)
    assert [path.name for path in tmp_path.iterdir()] == ["writing"]


def test_of_two_who_write_one_name_exactly_one_succeeds(tmp_path: Path) -> None:
    for turn in range(5):
        out = tmp_path / f"{turn}.json"

        def write(text: str, out: Path = out) -> None:
            try:
                files.write_text(out, text * 100_000)
            except files.InputError:
                return
            (tmp_path / f"{out.stem}-{text}").touch()

        children = [apart(lambda text=text: write(text)) for text in "abcd"]  # type: ignore[misc]
        for child in children:
            os.waitpid(child, 0)
        won = [path.name[-1] for path in tmp_path.glob(f"{turn}-*")]
        assert len(won) == 1
        assert out.read_text(encoding="utf-8") == won[0] * 100_000


def limited() -> None:
    resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))


@pytest.mark.parametrize("kind", ["json", "pdf", "toml"])
def test_a_disk_that_takes_no_more(kind: str, tmp_path: Path) -> None:
    out = tmp_path / "out"
    out.write_text("old", encoding="utf-8")
    own = {**os.environ, "PYTHONDONTWRITEBYTECODE": "1"}  # else Python's own compiled files are cut short there too
    ended = tutorial(*commands(out)[kind], preexec_fn=limited, env=own)
    assert ended.returncode == 2
    assert "can't be written: it would be larger than a file may be here" in ended.stderr
    assert out.read_text(encoding="utf-8") == "old"
    assert list(tmp_path.iterdir()) == [out]


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no such device")
def test_printing_to_a_full_disk_is_told() -> None:
    with open("/dev/full", "w") as full:  # noqa: PTH123
        ended = tutorial("facts", str(DEMO), capture_output=False, stdout=full, stderr=subprocess.PIPE)
    assert ended.returncode == 2
    assert "what was to be printed can't be written" in ended.stderr
    assert len(ended.stderr.splitlines()) == 1


def test_a_reader_that_goes_away_is_no_fault() -> None:
    ended = tutorial("facts", str(DEMO), stdout=None, capture_output=False, stderr=subprocess.PIPE, shell=False)
    assert ended.returncode == 0
    call = f"{quote(sys.executable)} -m tutorial_lib facts {quote(str(DEMO))} | head -1"
    ended = subprocess.run(["bash", "-c", call], capture_output=True, text=True, cwd=DEMO.parents[2], check=False)
    assert ended.stderr == ""


@pytest.mark.skipif(os.geteuid() != 0, reason="only the superuser can become somebody else")
def test_a_folder_that_may_not_be_written_to(tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    tmp_path.chmod(0o755)

    def as_nobody() -> None:
        os.setuid(NOBODY)
        os._exit(cli.main(["new", "-o", str(tmp_path / "bed.toml")]))

    assert os.waitstatus_to_exitcode(os.waitpid(apart(as_nobody), 0)[1]) == 2
    told = capfd.readouterr().err
    assert "may not be written to" in told or "can't be written" in told
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("closed", ["<&-", ">&-", "2>&-", "<&- >&- 2>&-"])
def test_closed_streams_spoil_nothing(closed: str, tmp_path: Path) -> None:
    out = tmp_path / "facts.json"
    call = f"exec {quote(sys.executable)} -m tutorial_lib facts {quote(str(DEMO))} --json {quote(str(out))} {closed}"
    ended = subprocess.run(["bash", "-c", call], capture_output=True, text=True, cwd=DEMO.parents[2], check=False)
    assert ended.returncode == 0
    assert "Traceback" not in ended.stderr
    assert json.loads(out.read_text(encoding="utf-8"))["name"] == "saltmarsh-shed-spare-room-twin"
    call = call.replace(quote(str(DEMO)), "none.toml")
    missing = subprocess.run(["bash", "-c", call], capture_output=True, cwd=DEMO.parents[2], check=False)
    assert missing.returncode == 2


@pytest.mark.parametrize(
    "locale",
    [{"LC_ALL": "C", "PYTHONUTF8": "0"}, {"PYTHONIOENCODING": "ascii"}, {"LC_ALL": "tr_TR.UTF-8"}, {"LC_ALL": "none"}],
    ids=["C", "ascii", "Turkish", "none"],
)
def test_odd_locales_and_paths(locale: dict[str, str], tmp_path: Path) -> None:
    folder = tmp_path / "ma scierie Ω 床"
    folder.mkdir()
    build, out = folder / "lit à lattes.toml", folder / "pièces 床.json"
    build.write_bytes(DEMO.read_bytes())
    ended = tutorial("facts", str(build), "--json", str(out), env={**os.environ, **locale})
    assert ended.returncode == 0, ended.stderr
    assert json.loads(out.read_text(encoding="utf-8"))["quantities"]["slat.length"]["value"] == 38.25
    refused = tutorial("facts", str(folder / "fehlt.toml"), env={**os.environ, **locale})
    assert refused.returncode == 2
    assert "is not there" in refused.stderr


def test_packages_that_are_gone_are_named() -> None:
    call = [sys.executable, "-S", "-m", "tutorial_lib", "facts", str(DEMO)]
    ended = subprocess.run(call, capture_output=True, text=True, cwd=DEMO.parents[2], check=False)
    assert ended.returncode == 2
    assert "is missing or damaged" in ended.stderr
    assert "fault of the program" not in ended.stderr


def test_an_end_asked_for_ends_the_server_and_its_kernels(tmp_path: Path) -> None:
    pytest.importorskip("jupyterlab")
    call = [sys.executable, "-m", "tutorial_lib", "open", "--no-browser"]
    server = subprocess.Popen(call, cwd=DEMO.parents[2], stderr=subprocess.PIPE, text=True, start_new_session=True)
    try:
        assert server.stderr is not None
        address = next(line for line in server.stderr if "http" in line).split()[-1]
        base, token = "http://" + address.split("/")[2], address.split("token=")[1]
        kernel = json.loads(_post(f"{base}/api/kernels?token={token}"))
        processes = _children(server.pid)
        assert len(processes) >= 2, kernel  # the server and a kernel
        server.terminate()
        server.wait(30)
        deadline = time.monotonic() + 15
        while any(_alive(pid) for pid in processes) and time.monotonic() < deadline:
            time.sleep(0.2)
        assert not [pid for pid in processes if _alive(pid)]
    finally:
        if server.poll() is None:
            os.killpg(server.pid, signal.SIGKILL)


def _post(address: str) -> bytes:
    for _ in range(150):
        try:
            with urllib.request.urlopen(urllib.request.Request(address, b"{}"), timeout=20) as answered:
                return bytes(answered.read())
        except OSError:
            time.sleep(0.3)
    raise AssertionError("the server does not answer")


def _children(pid: int) -> list[int]:
    """All that a process started, and what they started."""
    found = subprocess.run(["ps", "-o", "pid=", "--ppid", str(pid)], capture_output=True, text=True, check=False)
    own = [int(word) for word in found.stdout.split()]
    return own + [grandchild for child in own for grandchild in _children(child)]


def _alive(pid: int) -> bool:
    try:
        return Path(f"/proc/{pid}/stat").read_text(encoding="utf-8").split(") ")[1][0] != "Z"
    except OSError:
        return False
