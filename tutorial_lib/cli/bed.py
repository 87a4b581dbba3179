"""Commands about one bed: its facts, its companion sheet, the bed for another mattress."""

from __future__ import annotations

import argparse
from typing import Any

from tutorial_lib.cli.shared import (
    ANSWERED_NO,
    DONE,
    add_json,
    add_mattress,
    add_output,
    add_paper,
    print_findings,
    read_changes,
    read_options,
    read_plan,
    read_talk,
    write_json,
    write_pdf,
)
from tutorial_lib.errors import InputError


def add_facts(commands: Any) -> None:
    """Register `facts`."""
    command = commands.add_parser("facts", help="print or write every number of the plan")
    command.add_argument("build", metavar="BUILD.toml")
    add_mattress(command)
    add_json(command)
    command.set_defaults(run=_facts)


def _facts(args: argparse.Namespace) -> int:
    from tutorial_lib.facts import facts_of
    from tutorial_lib.facts.figures import lines

    made, _ = read_plan(args.build, args.mattress)
    facts = facts_of(made)
    if args.json:
        return write_json(facts.as_json(), args)
    for text in lines(facts):
        print(text)
    print_findings(made.findings)
    return DONE


def add_adapt(commands: Any) -> None:
    """Register `adapt`."""
    command = commands.add_parser("adapt", help="the bed for another mattress, boards or saw; 1 on a stop")
    command.add_argument("build", metavar="BUILD.toml")
    add_mattress(command)
    command.add_argument(
        "--set", metavar="KEY=VALUE", action="append", default=[], dest="changes",
        help='another choice, by its key in the build file: --set "saw.kerf=3 mm"; may be repeated',
    )  # fmt: skip
    command.add_argument("--to", metavar="BUILD2.toml", help="what changed between two builds of the same bed")
    command.add_argument(
        "--captions", metavar="FILE", help="what the video says, to name the sentences that no longer hold"
    )
    add_json(command)
    command.set_defaults(run=_adapt)


def _adapt(args: argparse.Namespace) -> int:
    from tutorial_lib.adapting import adapt, compare
    from tutorial_lib.adapting.comparison import comparison
    from tutorial_lib.facts import facts_of
    from tutorial_lib.narration import check

    changes = read_changes(args.changes)
    if bool(args.to) == bool(args.mattress or changes):
        raise InputError("`tutorial adapt` takes --mattress and --set, or --to another build; one of the two ways.")
    own = read_options(args.build)
    talk = read_talk(args.captions) if args.captions else None  # read first: a fault in it is told at once
    adapted = compare(own, read_options(args.to)) if args.to else adapt(own, args.mattress, changes)
    report = check(talk, facts_of(adapted.creator)) if talk else None
    found = comparison(adapted, report)
    if args.json:
        write_json(found.as_json(), args)
    else:
        print(found.as_text())
    return ANSWERED_NO if adapted.stops else DONE


def add_sheet(commands: Any) -> None:
    """Register `sheet`."""
    command = commands.add_parser("sheet", help="the companion sheet as PDF")
    command.add_argument("build", metavar="BUILD.toml")
    add_mattress(command)
    add_paper(command)
    add_output(command, "NAME-sheet.pdf")
    command.set_defaults(run=_sheet)


def _sheet(args: argparse.Namespace) -> int:
    from tutorial_lib.publishing.sheet import sheet_source

    made, creator = read_plan(args.build, args.mattress)
    return write_pdf(made, "sheet", lambda: sheet_source(made, args.paper, creator), args)


def add_templates(commands: Any) -> None:
    """Register `templates`."""
    command = commands.add_parser("templates", help="full-size drilling templates and story sticks as PDF")
    command.add_argument("build", metavar="BUILD.toml")
    add_mattress(command)
    add_paper(command)
    add_output(command, "NAME-templates.pdf")
    command.set_defaults(run=_templates)


def _templates(args: argparse.Namespace) -> int:
    from tutorial_lib.publishing.templates import templates_source

    made, _ = read_plan(args.build, args.mattress)
    return write_pdf(made, "templates", lambda: templates_source(made, args.paper), args)
