"""Commands about one bed: its facts, its companion sheet, the bed for another mattress."""

from __future__ import annotations

import argparse
from typing import Any

from tutorial_lib.cli.shared import (
    DONE,
    add_json,
    add_mattress,
    add_output,
    print_findings,
    read_plan,
    write_json,
)


def add_facts(commands: Any) -> None:
    """Register `facts`."""
    command = commands.add_parser("facts", help="print or write every number of the plan")
    command.add_argument("build", metavar="BUILD.toml")
    add_mattress(command)
    add_json(command)
    command.set_defaults(run=_facts)


def _facts(args: argparse.Namespace) -> int:
    from tutorial_lib.facts import facts_of
    from tutorial_lib.publishing.figures import line

    made, _ = read_plan(args.build, args.mattress)
    facts = facts_of(made)
    if args.json:
        return write_json(facts.as_json(), args)
    for fact in facts.values():
        print(line(fact, facts.units))
    print_findings(made.findings)
    return DONE


def add_sheet(commands: Any) -> None:
    """Register `sheet`."""
    command = commands.add_parser("sheet", help="the companion sheet as PDF")
    command.add_argument("build", metavar="BUILD.toml")
    add_mattress(command)
    command.add_argument("--paper", choices=("letter", "a4"), default="letter", help="size of the paper (letter)")
    add_output(command, "NAME-sheet.pdf")
    command.set_defaults(run=_sheet)


def _sheet(args: argparse.Namespace) -> int:
    from tutorial_lib import files
    from tutorial_lib.publishing.sheet import sheet_pdf

    made, creator = read_plan(args.build, args.mattress)
    path = args.output or f"{made.options.build.name}-sheet.pdf"
    files.refuse_overwriting(path, force=args.force)
    files.write_bytes(path, sheet_pdf(made, args.paper, creator), force=args.force)
    print(f"wrote {path}")
    print_findings(made.findings)
    return DONE
