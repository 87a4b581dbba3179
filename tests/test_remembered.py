"""What is kept from one command to the next: equal to what is worked out anew, and never in anyone's way."""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.design.builds import DEMO, demo
from tests.snapshots.written import OURS, read
from tutorial_lib import files, plan, remedies, remembered
from tutorial_lib.cli import main
from tutorial_lib.design.build_file import change, to_toml
from tutorial_lib.facts import Fact, Facts, facts_of
from tutorial_lib.facts.fact import Board
from tutorial_lib.facts.kept import as_kept, from_kept
from tutorial_lib.findings import Finding, Remedy
from tutorial_lib.plan import Plan
from tutorial_lib.remembered import keep, recalled

Run = Callable[..., tuple[int, str, str]]


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A cache of the test's own, and the memory turned on; where things are kept."""
    monkeypatch.delenv(remembered.OFF)
    monkeypatch.setattr(files, "cache_folder", lambda: tmp_path / "cache" / "tutorial-workbook")
    return tmp_path / "cache" / "tutorial-workbook" / "worked-out"


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    """A command: its exit status, what it printed, and what it told beside that."""

    def _run(*arguments: object) -> tuple[int, str, str]:
        status = main(list(map(str, arguments)))
        out, err = capsys.readouterr()
        return status, out, err

    return _run


def fails(*_: object, **__: object) -> None:
    raise AssertionError("worked out anew")


@pytest.mark.parametrize("name", ["guest-bed-90", "full-bed-bolts"])
def test_facts_again_are_the_same_bytes_and_nothing_is_worked_out(
    name: str, folder: Path, run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = next(OURS.rglob(f"{name}.toml"))
    with monkeypatch.context() as off:
        off.setenv(remembered.OFF, "1")
        anew = run("facts", path), run("facts", path, "--json", "-")
        assert not folder.exists()
    assert (run("facts", path), run("facts", path, "--json", "-")) == anew
    assert list(folder.glob("*.json"))
    monkeypatch.setattr(Plan, "build", property(fails))
    assert (run("facts", path), run("facts", path, "--json", "-")) == anew


def test_another_text_another_choice_and_another_name_are_other_beds(
    folder: Path, run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    mine = tmp_path / "mine.toml"
    for text in (to_toml(demo()), to_toml(change(demo(), {"slats.gap": "2 in"}))):
        mine.write_text(text, encoding="utf-8")
        found = [run("facts", mine, "--json", "-", *more) for more in ((), ("--set", "saw.kerf=3 mm"))]
        with monkeypatch.context() as off:
            off.setenv(remembered.OFF, "1")
            assert found == [run("facts", mine, "--json", "-", *more) for more in ((), ("--set", "saw.kerf=3 mm"))]
    assert len(list(folder.glob("*.json"))) == 4


def test_a_check_takes_the_facts_that_facts_kept(
    folder: Path, run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    talk = tmp_path / "talk.txt"
    talk.write_text("The slats are thirty eight and a quarter long.\n", encoding="utf-8")
    with monkeypatch.context() as off:
        off.setenv(remembered.OFF, "1")
        anew = run("check", DEMO, talk, "--all")
    run("facts", DEMO, "--json", "-")
    monkeypatch.setattr(Plan, "build", property(fails))
    assert run("check", DEMO, talk, "--all") == anew


def test_of_a_viewer_s_file_nothing_is_kept_for_its_neighbours_count(folder: Path, run: Run, tmp_path: Path) -> None:
    mine = tmp_path / "mine.toml"
    assert run("adapt", DEMO, "--set", "saw.kerf=3 mm", "-o", mine)[0] == 0
    newer = tmp_path / "newer.toml"
    assert "newer.toml" not in run("facts", mine, "--json", "-")[2]
    newer.write_text(to_toml(change(demo(), {"slats.gap": "2 in"})), encoding="utf-8")
    assert "newer.toml" in run("facts", mine, "--json", "-")[2]


def test_a_file_with_a_fault_is_told_of_each_time(folder: Path, run: Run, tmp_path: Path) -> None:
    bad = tmp_path / "bad.toml"
    bad.write_text("[build]\nname = 3\n", encoding="utf-8")
    assert run("facts", bad) == run("facts", bad) and run("facts", bad)[0] == 2
    assert not folder.exists()


numbers = st.one_of(
    st.fractions(), st.integers(), st.floats(allow_nan=False), st.sampled_from([Fraction(0), float("inf"), -0.0])
)
values = st.one_of(st.text(), numbers, st.lists(numbers, max_size=4).map(tuple))
boards = st.none() | st.builds(Board, st.text(), st.none() | st.fractions())
fact = st.builds(Fact, key=st.text(), value=values, unit=st.text(), kind=st.text(), what=st.text(),
                 said_as=st.lists(st.text(), max_size=2).map(tuple), working=st.text(), board=boards)  # fmt: skip


def again(facts: Facts) -> Facts:
    """As the next command has them."""
    return from_kept(json.loads(json.dumps(as_kept(facts))))


@given(st.lists(fact, max_size=3, unique_by=lambda f: f.key), st.sampled_from(["in", "mm"]))
def test_facts_are_kept_exactly(facts: list[Fact], units: Any) -> None:
    kept, known = again(Facts("a", "b", units, facts)), dict(Facts("a", "b", units, facts))
    assert dict(kept) == known and kept.units == units
    assert repr(list(kept.values())) == repr(list(known.values()))  # a whole number stays one, a float a float


def test_the_facts_of_our_beds_are_kept_exactly() -> None:
    for name in ("guest-bed-90", "queen-tubes"):
        facts = facts_of(read(next(OURS.rglob(f"{name}.toml"))))
        assert repr(list(again(facts).values())) == repr(list(facts.values()))
        assert again(facts).dumps() == facts.dumps()


def own(value: Any) -> Any:
    return value


def test_what_is_kept_comes_back_for_the_same_question_alone(folder: Path) -> None:
    keep("kind", ("a", "b"), {"x": [1, 2.5, "ü\ud800"]})
    assert recalled("kind", ("a", "b"), own) == {"x": [1, 2.5, "ü\ud800"]}
    others = ("kind", ("ab",)), ("kind", ("a", "b", "")), ("other", ("a", "b"))
    assert [recalled(*other, own) for other in others] == [None] * 3


@pytest.mark.parametrize("harm", ["empty", "torn", "one byte", "not JSON", "too large", "a folder", "odd"])
def test_what_is_not_whole_is_as_if_it_were_not_there(harm: str, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    keep("kind", ("a",), ["x", 1])
    (place,) = folder.glob("*.json")
    whole = place.read_bytes()
    if harm == "a folder":
        place.unlink()
        place.mkdir()
    elif harm == "too large":
        monkeypatch.setattr(remembered, "LARGEST", len(whole) - 1)
    else:
        done = {"empty": b"", "torn": whole[:-2], "one byte": whole.replace(b"x", b"y"), "not JSON": b"\xff\x00"}
        place.write_bytes(done.get(harm, whole))
    wanted = (lambda kept: kept["facts"]) if harm == "odd" else own
    assert recalled("kind", ("a",), wanted) is None
    keep("kind", ("a",), ["x", 1])  # and nobody is told where that can't be done
    if harm not in ("a folder", "too large", "odd"):
        assert recalled("kind", ("a",), own) == ["x", 1]


def test_another_program_reads_none_of_it_and_one_changed_meanwhile_keeps_nothing(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    keep("kind", ("a",), 1)
    there = remembered.program()
    monkeypatch.setattr(remembered, "_files", lambda _: iter([("other.py", 1, 2, 3)]))
    keep("kind", ("b",), 2)
    assert recalled("kind", ("b",), own) is None and len(list(folder.iterdir())) == 1
    remembered.program.cache_clear()
    try:
        assert remembered.program() != there and recalled("kind", ("a",), own) is None
    finally:
        remembered.program.cache_clear()


def test_a_file_of_the_program_that_is_changed_makes_another_program(tmp_path: Path) -> None:
    (tmp_path / "room").mkdir()
    one = tmp_path / "room" / "one.py"
    one.write_text("a = 1\n", encoding="utf-8")
    before = sorted(remembered._files(str(tmp_path)))
    one.write_text("a = 2\n", encoding="utf-8")
    os.utime(one, ns=(1, 1))
    assert sorted(remembered._files(str(tmp_path))) != before and len(before) == 1


@pytest.mark.parametrize("place", ["a file", "no home", "a relative place", "others may write", "a link"])
def test_where_nothing_can_be_kept_nothing_is_and_nobody_is_told(
    place: str, folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    home = {"no home": tmp_path / "nobody" / "cache" / "w", "a relative place": Path("~") / ".cache" / "w"}.get(place)
    monkeypatch.chdir(tmp_path)
    if home is not None:
        monkeypatch.setattr(files, "cache_folder", lambda: home)
    elif place == "a file":
        folder.parent.parent.write_text("in the way", encoding="utf-8")
    elif os.name == "nt":
        pytest.skip("permissions are not kept so there")
    elif place == "others may write":
        folder.mkdir(parents=True)
        folder.chmod(0o777)
    else:
        (tmp_path / "elsewhere").mkdir(mode=0o700)
        folder.parent.mkdir(parents=True)
        folder.symlink_to(tmp_path / "elsewhere")
    before = sorted(tmp_path.rglob("*"))
    keep("kind", ("a",), 1)
    assert recalled("kind", ("a",), own) is None
    assert sorted(tmp_path.rglob("*")) == before and capsys.readouterr() == ("", "")


def test_the_oldest_half_goes_when_it_is_too_much(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(remembered, "TIDIED", "")
    for number in range(6):
        keep("kind", (str(number),), "x" * 1000)
        for place in folder.iterdir():
            os.utime(place, ns=(there := place.stat().st_mtime_ns - 10**9, there))
    monkeypatch.setattr(remembered, "MOST", 5000)
    keep("kind", ("6",), "x" * 1000)
    left = [number for number in range(7) if recalled("kind", (str(number),), own) is not None]
    assert left == [5, 6]


def asked(before: Plan, findings: list[Finding]) -> list[tuple[Remedy, ...]]:
    """Each finding's remedies, by a plan of its own that remembers."""
    remedies.remember(before)
    return [finding.remedies for finding in remedies.helped(before, findings)]


def test_remedies_are_those_that_are_tried_anew_whichever_were_kept(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where no more than a few are tried, so that what was tried before counts."""
    monkeypatch.setattr(remedies, "TRIED_AT_MOST", 6)
    options = demo()
    findings = [finding for finding in plan.plan(options).strength.findings if finding.severity != "note"]
    assert [finding.rule for finding in findings] == ["rows of screws", "kneeling", "moving"]
    anew = [finding.remedies for finding in remedies.helped(plan.plan(options), findings)]
    assert asked(plan.plan(options), findings) == anew and any(anew)
    with monkeypatch.context() as untried:
        untried.setattr(remedies, "tried", fails)
        assert asked(plan.plan(options), findings) == anew
    last = max(folder.iterdir(), key=lambda place: place.stat().st_mtime_ns)
    last.unlink()
    assert asked(plan.plan(options), findings) == anew
    assert len(asked(plan.plan(options), findings[2:])[0]) != len(anew[2])  # asked first, more of its own are tried
