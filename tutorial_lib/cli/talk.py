"""The command that checks what is said on camera."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tutorial_lib.cli.shared import ANSWERED_NO, DONE, add_json, read_plan_facts, read_talk, write_json

if TYPE_CHECKING:
    from tutorial_lib.facts import Facts
    from tutorial_lib.narration import Report
    from tutorial_lib.narration.verdicts.decisions import Decisions


def add_check(commands: Any) -> None:
    """Register `check`."""
    command = commands.add_parser("check", help="the numbers said on camera, against the plan; 1 on a conflict")
    command.add_argument("plan", metavar="BUILD-or-FACTS", help="a build file (.toml) or a facts file (.json)")
    command.add_argument("captions", metavar="CAPTIONS", help="captions, a transcript or a draft script")
    command.add_argument("--all", action="store_true", help="print every number, not only what differs")
    add_json(command)
    command.set_defaults(run=_check)


def _check(args: argparse.Namespace) -> int:
    from tutorial_lib.narration.verdicts.report import text

    report = checked(args.captions, read_plan_facts(args.plan))
    if args.json:
        write_json(report.as_json(), args)
    else:
        print(text(report, args.all), end="")
    return ANSWERED_NO if report.conflicts else DONE


def checked(captions: str, facts: Facts) -> Report:
    """Captions by their path against facts, with what the person decided before."""
    from tutorial_lib.cutting import comes_out
    from tutorial_lib.narration import check

    return check(read_talk(captions), facts, comes_out, _decisions(captions))


def _decisions(captions: str) -> Decisions | None:
    """What the person decided before, kept in a file beside the captions."""
    from tutorial_lib import files
    from tutorial_lib.narration.verdicts import decisions

    path = Path(decisions.file_name(captions))
    return decisions.read(files.read_text(str(path)), path.name) if path.exists() else None
