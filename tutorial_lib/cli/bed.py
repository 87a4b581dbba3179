"""Commands about one bed: its facts, its companion sheet, the bed for another mattress."""

from __future__ import annotations

import argparse
from typing import Any

from tutorial_lib.cli.shared import (
    ANSWERED_NO,
    DONE,
    add_json,
    add_output,
    add_paper,
    print_findings,
    read_options,
    write_json,
    write_pdf,
)
from tutorial_lib.cli.told import Told
from tutorial_lib.cli.viewer import Bed, add_captions, add_viewer, compared, read_bed, tell_notes, viewers_file
from tutorial_lib.errors import InputError

EXAMPLES = """examples:
  another mattress, and boards from the shed:
    tutorial adapt their-bed.toml --mattress king --have "10 of 2x4, 92 1/2in" -o my-bed.toml
  a measured mattress, a hand saw, a small car, and a store that makes ten free cuts:
    tutorial adapt their-bed.toml --mattress "53 3/8 x 74 1/2 in" --set saw.kind=hand --set "saw.kerf=1/16 in" \\
        --set "shop.carry=72 in" --set shop.store_cuts=10 -o my-bed.toml
  a mattress sold by the centimetre: a metric plan, in boards as they are sold there:
    tutorial adapt their-bed.toml --mattress "140x200 cm" -o my-bed.toml
  other boards for one part, other people, another wood:
    tutorial adapt their-bed.toml --set slats.lumber=2x4 --set "load.person=250 lb" --set wood.species=Hem-Fir
  your shop's lengths and prices of one lumber:
    tutorial adapt their-bed.toml --set 'lumber.2x6.stock=[{length = "10 ft", price = "9.80"}]'"""


def add_facts(commands: Any) -> None:
    """Register `facts`."""
    command = commands.add_parser(
        "facts", help="print or write every number of the plan",
        epilog='example: tutorial facts their-bed.toml --mattress "UK double"',
    )  # fmt: skip
    command.add_argument("build", metavar="BUILD.toml")
    add_viewer(command)
    add_json(command)
    command.set_defaults(run=_facts)


def _facts(args: argparse.Namespace) -> int:
    from tutorial_lib.facts.figures import lines

    told = Told(args)
    tell_notes(told)
    if args.json:
        return write_json(told.facts.as_json(), args)
    for text in lines(told.facts):
        print(text)
    print_findings(told.findings)
    return DONE


def add_adapt(commands: Any) -> None:
    """Register `adapt`."""
    command = commands.add_parser(
        "adapt",
        help="your own bed from the creator's: another mattress, boards or saw; 1 on a stop",
        description="What changes, what is new and which sentences of the video no longer hold for your bed; with -o "
        "also your own build file, for every other command. Exit status 1 where nobody should build it so.",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        epilog=EXAMPLES,
    )
    command.add_argument("build", metavar="BUILD.toml")
    add_viewer(command)
    command.add_argument("--to", metavar="BUILD2.toml", help="what changed between two builds of the same bed")
    add_captions(command)
    command.add_argument("-o", "--output", metavar="MY-BED.toml", help="your build file to write")
    add_json(command)
    command.set_defaults(run=_adapt)


def _adapt(args: argparse.Namespace) -> int:
    from tutorial_lib.adapting.telling import text

    bed = _other(args) if args.to else read_bed(args)
    if not (args.to or bed.asked or bed.options.origin):
        raise InputError("`tutorial adapt` takes --mattress, --set or --have, or --to another build of the same bed.")
    found = compared(bed, args.captions)
    if args.output:
        _write(bed, args)
    if args.json:
        write_json(found.as_json(), args)
    else:
        print(text(found))
    return ANSWERED_NO if bed.adapted.stops else DONE


def _other(args: argparse.Namespace) -> Bed:
    """Two builds of the same bed, side by side."""
    from tutorial_lib.adapting import compare
    from tutorial_lib.adapting.viewer import Asked

    if args.mattress or args.changes or args.have or args.output:
        raise InputError("`tutorial adapt --to` compares two builds; no --mattress, --set, --have or -o goes with it.")
    options = read_options(args.build)
    return Bed(compare(options, read_options(args.to)), options, Asked(), args.build)


def _write(bed: Bed, args: argparse.Namespace) -> None:
    from tutorial_lib import files

    if not args.output.endswith(".toml"):
        raise InputError(f"{args.output}: a build file ends in .toml.")
    files.write_text(args.output, viewers_file(bed, args.output), force=args.force)
    if args.json != "-":
        print(f"wrote {args.output}; every command takes it: tutorial sheet {args.output}\n")


def add_sheet(commands: Any) -> None:
    """Register `sheet`."""
    command = commands.add_parser(
        "sheet", help="the companion sheet as PDF", epilog="example: tutorial sheet my-bed.toml --paper a4",
    )  # fmt: skip
    command.add_argument("build", metavar="BUILD.toml")
    add_viewer(command)
    add_captions(command)
    add_paper(command)
    command.add_argument("--both", action="store_true", help="lengths in the other system too")
    command.add_argument("--large", action="store_true", help="for the wall: 11 x 17 in, or A3 with --paper a4")
    command.add_argument("--workings", action="store_true", help="with proofs, workings and sources at the end")
    add_output(command, "NAME-sheet.pdf")
    command.set_defaults(run=_sheet)


def _sheet(args: argparse.Namespace) -> int:
    from tutorial_lib.publishing.sheet import sheet_source
    from tutorial_lib.remedies import remember

    bed = read_bed(args)
    remember(bed.adapted.yours)
    tell_notes(bed.adapted)
    found = compared(bed, args.captions)
    asked = {"both": args.both, "large": args.large, "workings": args.workings}
    return write_pdf(
        bed.adapted.yours, "sheet", lambda: sheet_source(bed.adapted.yours, args.paper, found, **asked), args
    )


def add_templates(commands: Any) -> None:
    """Register `templates`."""
    command = commands.add_parser(
        "templates", help="full-size drilling templates and story sticks as PDF",
        epilog="example: tutorial templates my-bed.toml --paper a4",
    )  # fmt: skip
    command.add_argument("build", metavar="BUILD.toml")
    add_viewer(command)
    add_paper(command)
    add_output(command, "NAME-templates.pdf")
    command.set_defaults(run=_templates)


def _templates(args: argparse.Namespace) -> int:
    from tutorial_lib.publishing.templates import templates_source

    bed = read_bed(args)
    tell_notes(bed.adapted)
    return write_pdf(bed.adapted.yours, "templates", lambda: templates_source(bed.adapted.yours, args.paper), args)
