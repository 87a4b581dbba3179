"""What becomes of a hostile input at each door: it is used, or refused with a message a person can act on; all else is
a failure."""

from __future__ import annotations

import contextlib
import io
import json
import os
import re
import shutil
import tempfile
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any
from unittest import mock

from tests.hard import doors_viewer
from tests.hard.spoil import DEMO, FACTS, Case, cues, demo
from tutorial_lib.errors import InputError

LONGEST = 1500  # characters of one fault
REFUSED = 2  # the status of a command that could not use its input
MOST = 60  # lines of a message
LIBRARY = re.compile(
    r"NoneType|object is not|unhashable|Traceback|<class|Fraction\(|[A-Z][a-z]+Options|Input should|codec can't|"
    r"\b[A-Z][A-Za-z]+Error\b|not subscriptable|out of range|could not convert|invalid literal|Exceeds the limit"
)
STEERING = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]")


class FailureError(Exception):
    """What must not happen."""


def enter(door: str, case: Case) -> str:
    """Take a case through its door: "used" or "refused".

    Raises:
        FailureError: the message is no good.
        Exception: whatever the library let through.
    """
    try:
        return "refused" if DOORS[door](case) == REFUSED else "used"
    except InputError as error:
        judge(str(error))
        return "refused"


def judge(message: str) -> None:
    """Refuse a message with the words of a library, or one that repeats what was given at length."""
    if found := LIBRARY.search(message):
        raise FailureError(f"a library speaks ({found[0]}): {message[:300]}")
    lines = message.splitlines()
    if len(lines) > MOST or any(len(line) > LONGEST for line in lines):
        raise FailureError(f"{len(lines)} lines, the longest {max(map(len, lines))} characters: {message[:300]}")
    if not message.strip() or "fault of the program" in message:
        raise FailureError(f"no message for a person: {message[:300]}")


def _length(case: Case) -> None:
    from tutorial_lib.measures import read_length, write_length

    got = read_length(case["text"], case["default"])
    if got < 0 or not write_length(got):
        raise FailureError(f"{got}")


def _mattress(case: Case) -> None:
    from tutorial_lib.tables import mattress

    mattress(case["name"])


def _deep(options: Any) -> None:
    """All facts of a plan, and that they are numbers; all that was found, with the remedies tried."""
    from tutorial_lib.facts import facts_of
    from tutorial_lib.plan import plan
    from tutorial_lib.remedies import helped

    made = plan(options)
    json.dumps(facts_of(made).as_json(), allow_nan=False)
    for finding in helped(made, made.findings):
        judge(str(finding))


def _build(case: Case) -> None:
    from tutorial_lib.design.build_file import read_build, to_toml

    options = read_build(case["text"], "bed.toml")
    if read_build(to_toml(options)) != options:
        raise FailureError("what is written does not read back")
    if case["deep"]:
        _deep(options)


@cache
def _demo() -> Any:
    from tutorial_lib.design.build_file import read_build

    return read_build(demo(), "bed.toml")


def _change(case: Case) -> None:
    from tutorial_lib.adapting.viewer import changes_of
    from tutorial_lib.design.build_file import change

    options = change(_demo(), changes_of(tuple(case["changes"])))
    if case["deep"]:
        _deep(options)


def _lists(case: Case) -> None:
    from tutorial_lib.cutting.parts_list import cut_lists
    from tutorial_lib.measures import read_length

    made = cut_lists(
        case["pieces"],
        case["stock"],
        kerf=read_length(case["kerf"], where="--kerf"),
        trim=read_length(case["trim"], where="--trim"),
        names=("pieces.csv", "stock.csv"),
    )
    json.dumps(made.as_json(), allow_nan=False)
    made.as_text()


@cache
def _facts_known() -> Any:
    from tutorial_lib.facts import read_facts

    return read_facts(json.dumps(FACTS), "facts.json")


def _captions(case: Case) -> None:
    from tutorial_lib.narration import check, read_captions

    report = check(read_captions(case["data"].encode("latin-1"), case["name"]), _facts_known())
    json.dumps(report.as_json(), allow_nan=False)


def _facts(case: Case) -> None:
    from tutorial_lib.facts import read_facts
    from tutorial_lib.narration import check, read_captions

    facts = read_facts(case["text"], "facts.json")
    talk = read_captions(b"WEBVTT\n\n00:01.000 --> 00:04.000\nCut all fourteen slats at 38 1/4 inches.\n", "talk.vtt")
    json.dumps(check(talk, facts).as_json(), allow_nan=False)


def _answers(case: Case) -> int:
    with _folder() as folder:
        for name in ("talk.vtt.answers.json", "talk.answers.json", "talk.vtt.decisions.json"):
            Path(name).write_text(case["text"], encoding="utf-8", errors="replace")
        return _run(["check", "facts.json", "talk.vtt"], folder)


# What takes long and is not what a command line is judged by: setting, drawing, fetching, working out every size.
LIGHT: dict[str, Any] = {
    "tutorial_lib.publishing.typeset.compile_pdf": lambda *_, **__: b"%PDF-1.7",
    "tutorial_lib.publishing.kit.making.made": lambda *_, **__: (),
    "tutorial_lib.publishing.kit.making.folder_of": lambda *_: {"index.html": b"kit"},
    "tutorial_lib.publishing.plates.setting.plate_files": lambda *_: (),
    "tutorial_lib.site.parts.fetch": lambda *_: {},
    "tutorial_lib.site.folder.site": lambda *_: {"index.html": b"page"},
    "tutorial_lib.adapting.family.every_size": lambda *_: ("queen",),
}


def _command(case: Case) -> int:
    with _folder() as folder, contextlib.ExitStack() as light:
        for name, instead in LIGHT.items():
            light.enter_context(mock.patch(name, instead))
        return _run(case["arguments"], folder)


def _run(arguments: list[str], folder: Path) -> int:
    """A command line, its status and all it printed."""
    from tutorial_lib import cli

    before = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        try:
            status = cli.main(arguments)
        except SystemExit as ended:  # argparse's way to refuse, and to help
            status = int(ended.code or 0)
    if status not in (0, 1, 2):
        raise FailureError(f"status {status}")
    for text in (out.getvalue(), err.getvalue()):
        if found := STEERING.search(text):
            raise FailureError(f"{found[0]!r} reaches the terminal")
    if status == 2:
        judge(err.getvalue())
    if "--force" not in arguments and any(path.read_bytes() != data for path, data in before.items()):
        raise FailureError("a file that was there was changed")
    return status


@cache
def _things() -> Path:
    """A folder with one of each file that a command may be given."""
    made = Path(tempfile.mkdtemp(prefix="things-"))
    shutil.copy(DEMO, made / "bed.toml")
    texts = {
        "facts.json": json.dumps(FACTS),
        "talk.vtt": "\n\n".join(cues()[:6]),
        "pieces.csv": "name,length,count\nslat,38 1/4 in,14\n",
        "stock.csv": "name,length,price\n8 ft,8 ft,4.20\n",
        "bad.toml": "[build\n",
        "empty.toml": "",
        "taken.json": "mine",
    }
    for name, text in texts.items():
        (made / name).write_text(text, encoding="utf-8")
    (made / "folder").mkdir()
    return made


@contextlib.contextmanager
def _folder() -> Iterator[Path]:
    """A fresh copy of the things, made the working folder."""
    here = Path.cwd()
    with tempfile.TemporaryDirectory(prefix="hard-") as name:
        folder = Path(name) / "bench"
        shutil.copytree(_things(), folder)
        os.chdir(folder)
        try:
            yield folder
        finally:
            os.chdir(here)


@cache
def _panels() -> tuple[Any, ...]:
    """Each panel that redraws at once; what only a button begins, and takes long, is left out."""
    from tutorial_lib.workbook.adapting_panel import AdaptingPanel, WrongCutPanel
    from tutorial_lib.workbook.assembly_panel import AssemblyPanel, MovementPanel, OrderPanel
    from tutorial_lib.workbook.cutting_panel import CuttingPanel, MarkingPanel
    from tutorial_lib.workbook.design_panel import DesignPanel
    from tutorial_lib.workbook.drilling_panel import DrillingPanel, HolesPanel
    from tutorial_lib.workbook.finishing_panel import FaceMapPanel, FinishingPanel
    from tutorial_lib.workbook.said_panel import CueCardPanel, SaidPanel
    from tutorial_lib.workbook.start_panel import StartPanel
    from tutorial_lib.workbook.strength_panel import StrengthPanel, WorkingPanel

    kinds = (DesignPanel, CuttingPanel, DrillingPanel, FinishingPanel, AssemblyPanel, MovementPanel, AdaptingPanel,
             WrongCutPanel, SaidPanel, OrderPanel, MarkingPanel, HolesPanel, FaceMapPanel, CueCardPanel, StartPanel,
             StrengthPanel, WorkingPanel)  # fmt: skip
    return tuple(cache(kind) for kind in kinds)


def _panel(case: Case) -> None:
    panel = _panels()[case["panel"]]()
    if not panel.controls:
        return
    control = panel.controls[case["control"] % len(panel.controls)]
    panel.set(control.key, _moved(control, case))
    for message in panel.errors.values():
        judge(message)
    panel.html()


def _moved(control: Any, case: Case) -> Any:
    """What the control's widget sends."""
    if control.kind == "choice":
        return control.choices[case["number"] % len(control.choices)][1] if control.choices else None
    if control.kind == "count":
        return case["number"]
    if control.kind == "upload":
        return (f"{case['text'][:40]}.toml", case["text"].encode("utf-8", "replace"))
    if control.kind in ("check", "button"):
        return case["number"] % 2 == 0
    return None if case["empty"] and control.kind == "length" else case["text"]


DOORS = {
    "length": _length, "mattress": _mattress, "build": _build, "bed": _build, "change": _change, "lists": _lists,
    "captions": _captions, "facts": _facts, "answers": _answers, "command": _command, "panel": _panel,
    "have": doors_viewer.have, "labels": doors_viewer.labels, "sizes": doors_viewer.sizes,
    "plates": doors_viewer.plates, "page": doors_viewer.page,
}  # fmt: skip
