"""The command line: what it answers, and one message with status 2 for what it can't use."""

from __future__ import annotations

import json
import re
import sys
from pathlib import Path

import pytest

from tutorial_lib import cli
from tutorial_lib.cli import project

DEMO = "assets/builds/spare-room-twin.toml"


@pytest.fixture(autouse=True)
def in_the_project(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(root)


def test_new_writes_a_build_file_that_facts_can_read(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "bed.toml"
    assert cli.main(["new", "-o", str(path)]) == 0
    assert cli.main(["facts", str(path)]) == 0
    assert re.search(r"^slat\.length +=", capsys.readouterr().out, re.M)


def test_facts_as_json(tmp_path: Path) -> None:
    path = tmp_path / "facts.json"
    assert cli.main(["facts", DEMO, "--json", str(path)]) == 0
    assert json.loads(path.read_text(encoding="utf-8"))["quantities"]["slat.length"]["value"] == 38.25


PIECES = "name,length,count\nslat,38 1/4 in,14\nrail,78 3/4 in,2\n"
STOCK = "name,length,price\n8 ft,8 ft,4.20\n"
FACTS = {
    "name": "bed",
    "title": "Bed",
    "units": "in",
    "quantities": {
        "slat.length": {"value": 38.25, "unit": "in", "kind": "length", "what": "1x4 slat", "said_as": ["slat"]}
    },
}


def write(folder: Path, **texts: str) -> list[str]:
    """Files by name (a_csv is a.csv); their paths in order."""
    for name, text in texts.items():
        (folder / name.replace("_", ".")).write_text(text, encoding="utf-8")
    return [str(folder / name.replace("_", ".")) for name in texts]


def test_cut_prints_a_plan_and_writes_it(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    lists = write(tmp_path, pieces_csv=PIECES, stock_csv=STOCK)
    assert cli.main(["cut", *lists]) == 0
    assert "9 x 8 ft" in capsys.readouterr().out
    path = tmp_path / "plan.json"
    assert cli.main(["cut", *lists, "--kerf", "3 mm", "--json", str(path)]) == 0
    assert json.loads(path.read_text(encoding="utf-8"))["used"] == {"8 ft": 9}


RATED = {  # loads are checked by rule, so that these tests don't hang on learned weights
    **FACTS,
    "quantities": {
        **FACTS["quantities"],  # type: ignore[dict-item]
        "rating.lying": {"value": 300, "unit": "lb", "kind": "load_rating", "what": "people lying"},
        "rating.sitting": {"value": 200, "unit": "lb", "kind": "load_rating", "what": "people sitting on the edge"},
    },
}


def talk(folder: Path, said: str) -> list[str]:
    """A facts file and captions."""
    captions = f"WEBVTT\n\n00:01.000 --> 00:04.000\n{said}\n"
    return write(folder, facts_json=json.dumps(RATED), talk_vtt=captions)


@pytest.mark.parametrize(
    ("said", "status", "strict"),
    [
        ("The bed holds 150 pounds lying down.", 0, 0),  # right
        ("The bed holds 250 pounds.", 0, 1),  # doubtful: lying yes, sitting no
        ("The bed holds 350 pounds lying down.", 1, 1),  # wrong
    ],
)
def test_check_answers_no_on_a_sure_conflict_and_strictly_on_a_doubt(
    said: str, status: int, strict: int, tmp_path: Path
) -> None:
    paths = talk(tmp_path, said)
    assert cli.main(["check", *paths]) == status
    assert cli.main(["check", *paths, "--strict"]) == strict
    assert cli.main(["check", *paths, "--json", str(tmp_path / "report.json")]) == status
    counts = json.loads((tmp_path / "report.json").read_text(encoding="utf-8"))["counts"]
    assert (counts["conflicts"], counts["unsure"]) == (status, strict - status)


def test_check_asks_once_and_remembers(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    paths = talk(tmp_path, "The bed holds 250 pounds.")
    monkeypatch.setattr("builtins.input", lambda _: "s")
    assert cli.main(["check", *paths, "--ask"]) == 1  # the person said that it is a slip
    assert "1 to correct, 0 to look at" in capsys.readouterr().out
    assert (tmp_path / "talk.vtt.answers.json").exists()
    monkeypatch.setattr("builtins.input", lambda _: pytest.fail("asked twice"))
    assert cli.main(["check", *paths, "--ask"]) == 1
    assert cli.main(["check", *paths]) == 1


def test_check_writes_what_is_pasted(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    paths = talk(tmp_path, "The bed holds 350 pounds lying down.")
    assert cli.main(["check", *paths, "--write", str(tmp_path)]) == 1
    assert "To pin under the video" in capsys.readouterr().out
    made = ("talk.pinned.txt", "talk.overlay.vtt", "talk.corrected.vtt", "talk.cue-cards.txt")
    assert all((tmp_path / name).exists() for name in made)
    assert cli.main(["check", *paths, "--write", str(tmp_path)]) == 2  # nothing is replaced unasked


def test_adapt_says_what_changes(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["adapt", DEMO, "--mattress", "twin XL"]) == 0
    assert "side rail" in capsys.readouterr().out
    path = tmp_path / "adapted.json"
    assert cli.main(["adapt", DEMO, "--set", "saw.kerf=3 mm", "--set", "load.people=1", "--json", str(path)]) == 0
    report = json.loads(path.read_text(encoding="utf-8"))
    assert {"changes", "new", "gone", "findings", "facts"} <= report.keys()
    assert "saw.kerf" in {change["what"] for change in report["changes"]}


def test_adapt_compares_two_builds(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    changed = Path(DEMO).read_text(encoding="utf-8").replace('gap = "2 1/4 in"', 'gap = "2 in"')
    other = write(tmp_path, other_toml=changed)[0]
    assert cli.main(["adapt", DEMO, "--to", other]) == 0
    assert "slats.gap" in capsys.readouterr().out


@pytest.mark.parametrize("command", ["sheet", "templates"])
def test_a_pdf_is_written(command: str, tmp_path: Path) -> None:
    path = tmp_path / "bed.pdf"
    assert cli.main([command, DEMO, "--paper", "a4", "-o", str(path)]) == 0
    assert path.read_bytes().startswith(b"%PDF-")


def bad_inputs(tmp_path: Path) -> dict[str, list[str]]:
    """Command lines that can't be used, by what is wrong with them."""
    (tmp_path / "taken.json").write_text("mine", encoding="utf-8")
    (tmp_path / "empty.toml").touch()
    (tmp_path / "latin.toml").write_bytes(b"[build]\ntitle = '\xe9'\n")
    (tmp_path / "broken.toml").write_text("[build\n", encoding="utf-8")
    demo = Path(DEMO).read_text(encoding="utf-8")
    (tmp_path / "misspelt.toml").write_text(demo.replace("recess =", "reces ="), encoding="utf-8")
    (tmp_path / "no-unit.toml").write_text(demo.replace('"38 in"', '"38"'), encoding="utf-8")
    unknown = (
        demo.replace('size = "twin"', 'size = "qeen"').replace('width = "38 in"', "").replace('length = "75 in"', "")
    )
    (tmp_path / "unknown-mattress.toml").write_text(unknown, encoding="utf-8")
    pieces, stock, other, none = write(
        tmp_path, pieces_csv=PIECES, stock_csv=STOCK, other_csv="part,count\nslat,3\n", none_vtt="WEBVTT\n"
    )
    return {
        "adapt: nothing asked": ["adapt", DEMO],
        "adapt: two ways at once": ["adapt", DEMO, "--to", DEMO, "--mattress", "queen"],
        "adapt: no value": ["adapt", DEMO, "--set", "saw.kerf", "--set", "=3"],
        "adapt: unknown key": ["adapt", DEMO, "--set", "saw.kerff=3 mm"],
        "adapt: unknown mattress": ["adapt", DEMO, "--mattress", "qeen"],
        "facts: unknown mattress": ["facts", DEMO, "--mattress", "qeen"],
        "cut: no such column": ["cut", other, stock],
        "cut: kerf of another unit": ["cut", pieces, stock, "--kerf", "3"],
        "cut: negative trim": ["cut", pieces, stock, "--trim=-1 in"],
        "check: empty captions": ["check", DEMO, none],
        "check: neither kind": ["check", pieces, other],
        "sheet: a folder": ["sheet", DEMO, "-o", str(tmp_path)],
        "kit: a folder with files": ["kit", DEMO, "-o", str(tmp_path)],
        "kit: no folder": ["kit", DEMO, "-o", str(tmp_path / "taken.json")],
        "kit: unknown size": ["kit", DEMO, "-o", str(tmp_path / "kit"), "--sizes", "king, qeen"],
        "kit: a cluster for nothing": ["kit", DEMO, "-o", str(tmp_path / "kit"), "--cluster", "tcp://127.0.0.1:1"],
        "kit: a label without a size": ["kit", DEMO, "-o", str(tmp_path / "kit"), "--label-gap", "1 x 1 in"],
        "plates: two ways at once": ["plates", DEMO, "--facts", "slat.length", "--chapter", "slats"],
        "missing file": ["facts", str(tmp_path / "none.toml")],
        "folder": ["facts", str(tmp_path) + "/x.toml/.."],
        "not a build file": ["facts", "README.md"],
        "empty": ["facts", str(tmp_path / "empty.toml")],
        "not UTF-8": ["facts", str(tmp_path / "latin.toml")],
        "broken TOML": ["facts", str(tmp_path / "broken.toml")],
        "misspelt key": ["facts", str(tmp_path / "misspelt.toml")],
        "no unit": ["facts", str(tmp_path / "no-unit.toml")],
        "unknown mattress": ["facts", str(tmp_path / "unknown-mattress.toml")],
        "taken": ["facts", DEMO, "--json", str(tmp_path / "taken.json")],
        "folder not there": ["facts", DEMO, "--json", str(tmp_path / "no" / "facts.json")],
    }


CASES = {
    "adapt: nothing asked": "takes --mattress, --set or --have",
    "adapt: two ways at once": "--to` compares two builds",
    "adapt: no value": "2 things to put right",
    "adapt: unknown key": "kerf",
    "adapt: unknown mattress": "US queen",
    "facts: unknown mattress": "US queen",
    "cut: no such column": "other.csv",
    "cut: kerf of another unit": "wider than any saw cuts",
    "cut: negative trim": "--trim: ",
    "check: empty captions": "nothing is said in it",
    "check: neither kind": ".toml",
    "sheet: a folder": "is a folder",
    "kit: a folder with files": "holds files; use --force",
    "kit: no folder": "is no folder",
    "kit: unknown size": '"qeen" is not a known mattress',
    "kit: a cluster for nothing": "goes with --sizes",
    "kit: a label without a size": "they go with --label",
    "plates: two ways at once": "--facts or --chapter, not both",
    "missing file": "is not there",
    "folder": "a build file ends in .toml",
    "not a build file": "a build file ends in .toml",
    "empty": "empty.toml",
    "not UTF-8": "line 2 is not UTF-8",
    "broken TOML": "broken.toml:1",
    "misspelt key": "recess",
    "no unit": "has no unit",
    "unknown mattress": "queen",
    "taken": "use --force",
    "folder not there": "Make it first",
}


@pytest.mark.parametrize("case", CASES)
def test_what_can_not_be_used_gets_one_message(case: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(bad_inputs(tmp_path)[case]) == 2
    told = capsys.readouterr()
    assert told.err.startswith("tutorial: ")
    assert CASES[case] in told.err
    assert "Traceback" not in told.err
    assert "fault of the program" not in told.err
    assert told.out == ""
    assert (tmp_path / "taken.json").read_text(encoding="utf-8") == "mine"


def test_an_unknown_command_is_refused_with_status_2(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        cli.main(["paint"])
    assert ended.value.code == 2
    assert "invalid choice" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("new mine.toml", "new takes no mine.toml. The file or folder to write is named with -o: "
                          "tutorial new -o mine.toml"),
        ("facts mine.toml --matress king", "facts takes no --matress king. What it takes: tutorial facts --help"),
        ("sheet mine.toml a b c d", "sheet takes no a b c. The file or folder to write is named with -o: "
                                    "tutorial sheet -o a"),
    ],
)  # fmt: skip
def test_words_that_a_command_does_not_take_are_named_with_what_it_takes(
    words: str, told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert cli.main(words.split()) == 2
    assert capsys.readouterr().err == f"tutorial: {told}\n"


def test_a_fault_of_the_program_is_told_apart(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def broken(path: str, text: str) -> None:
        raise KeyError(path)

    monkeypatch.setattr("tutorial_lib.cli.told.read_options", broken)
    assert cli.main(["facts", DEMO]) == 2
    assert "fault of the program" in capsys.readouterr().err


def test_bench_names_its_groups_where_one_is_unknown(capfd: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["bench", "paint"]) == 2
    assert "no group paint; there are commands, redraw" in capfd.readouterr().err


def test_what_the_program_starts_runs_this_folders_code(
    root: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "tutorial_lib").mkdir()
    (tmp_path / "tutorial_lib" / "__init__.py").touch()
    monkeypatch.setenv("PYTHONPATH", str(tmp_path))
    monkeypatch.chdir(tmp_path)
    assert project._serve([sys.executable, "-P", "-c", "import tutorial_lib; print(tutorial_lib.__file__)"], {}) == 0
    assert capfd.readouterr().out.strip() == str(root / "tutorial_lib" / "__init__.py")
