"""The command line: each command reads files, calls one room, writes or prints what it says.

Rooms are imported inside the commands, so that ``--help`` answers at once. Exit status: 0 done, findings printed;
1 where a command's question is answered no; 2 when the input can't be used, with one message on stderr.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence

from tutorial_lib.cli import bed, house, lists, talk
from tutorial_lib.cli.shared import CAN_NOT, DONE
from tutorial_lib.errors import InputError

INTERRUPTED = 130
TRACEBACK = "TUTORIAL_TRACEBACK"
COMMANDS = (
    house.add_open,
    house.add_test,
    house.add_new,
    bed.add_facts,
    lists.add_cut,
    talk.add_check,
    bed.add_adapt,
    bed.add_templates,
    bed.add_sheet,
)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; returns its exit status."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")  # a console that has no fraction signs still gets the line
    parsed = parser().parse_args(arguments)
    try:
        _refuse_taken(parsed)
        return int(parsed.run(parsed))
    except InputError as error:
        return _complain(str(error))
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError:
        sys.stderr.close()  # the reader of our output has gone; nobody to tell
        return DONE
    except Exception as error:
        if os.environ.get(TRACEBACK):
            raise
        return _complain(
            f"this is a fault of the program, not of your file: {type(error).__name__}: {error}. "
            f"Set {TRACEBACK}=1 to see where."
        )


def _refuse_taken(args: argparse.Namespace) -> None:
    """Refuse a file that is there already before the work for it is done."""
    from tutorial_lib import files

    for path in (getattr(args, "json", None), getattr(args, "output", None)):
        if path and path != "-":
            files.refuse_overwriting(path, force=args.force)


def _complain(message: str) -> int:
    print(f"tutorial: {message}", file=sys.stderr)
    return CAN_NOT


def parser() -> argparse.ArgumentParser:
    """The command line as argparse knows it."""
    top = argparse.ArgumentParser(
        prog="tutorial",
        description="Plans a slatted platform bed for a woodworking tutorial: one build file gives lengths, cuts, "
        "holes, strength, drawings and printable sheets.",
    )
    top.add_argument("--version", action="version", version=_version())
    commands = top.add_subparsers(metavar="COMMAND", required=True)
    for add in COMMANDS:
        add(commands)
    return top


def _version() -> str:
    from tutorial_lib import __version__

    return f"tutorial-workbook {__version__}"
