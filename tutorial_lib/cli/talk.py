"""The command that checks what is said on camera."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING, Any

from tutorial_lib.cli.shared import ANSWERED_NO, DONE, add_json, read_plan_facts, read_talk, write_json

if TYPE_CHECKING:
    from tutorial_lib.narration import Report


def add_check(commands: Any) -> None:
    """Register `check`."""
    command = commands.add_parser("check", help="the numbers said on camera, against the plan; 1 on a conflict")
    command.add_argument("plan", metavar="BUILD-or-FACTS", help="a build file (.toml) or a facts file (.json)")
    command.add_argument("captions", metavar="CAPTIONS", help="captions, a transcript or a draft script")
    command.add_argument("--all", action="store_true", help="print every number, not only what differs")
    add_json(command)
    command.set_defaults(run=_check)


def _check(args: argparse.Namespace) -> int:
    from tutorial_lib.narration import check

    talk = read_talk(args.captions)
    report = check(talk, read_plan_facts(args.plan))
    if args.json:
        write_json(report.as_json(), args)
    else:
        _print_report(report, ("conflicts", "rounded") if not args.all else None)
    return ANSWERED_NO if report.conflicts else DONE


def _print_report(report: Report, verdicts: tuple[str, ...] | None) -> None:
    """What was said and does not hold, then the counts."""
    for item in report.items:
        if verdicts is None or item.verdict in verdicts:
            place = item.time or f"line {item.place}"
            print(f'{place:>8}  {item.verdict.replace("_", " ")}: "{item.quote}" {item.why}')
    for finding in report.cross:
        print(finding)
    for note in report.notes:
        print(f"note: {note}")
    print(", ".join(f"{count} {name.replace('_', ' ')}" for name, count in report.counts.items()))
