"""Commands about one bed: its facts, its companion sheet, the bed for another mattress."""

from __future__ import annotations

import argparse
from typing import Any

from tutorial_lib.cli.shared import (
    DONE,
    add_json,
    add_mattress,
    add_output,
    add_paper,
    print_findings,
    read_plan,
    write_json,
    write_pdf,
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
    from tutorial_lib.facts.figures import line

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
    add_paper(command)
    add_output(command, "NAME-sheet.pdf")
    command.set_defaults(run=_sheet)


def _sheet(args: argparse.Namespace) -> int:
    from tutorial_lib.publishing.sheet import sheet_pdf

    made, creator = read_plan(args.build, args.mattress)
    return write_pdf(made, "sheet", lambda: sheet_pdf(made, args.paper, creator), args)


def add_templates(commands: Any) -> None:
    """Register `templates`."""
    command = commands.add_parser("templates", help="full-size drilling templates and story sticks as PDF")
    command.add_argument("build", metavar="BUILD.toml")
    add_mattress(command)
    add_paper(command)
    add_output(command, "NAME-templates.pdf")
    command.set_defaults(run=_templates)


def _templates(args: argparse.Namespace) -> int:
    from tutorial_lib.publishing.templates import templates_pdf

    made, _ = read_plan(args.build, args.mattress)
    return write_pdf(made, "templates", lambda: templates_pdf(made, args.paper), args)
