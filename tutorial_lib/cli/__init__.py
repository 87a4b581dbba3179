"""The command line: each command reads files, calls one room, writes or prints what it says.

Rooms are imported inside the commands, so that ``--help`` answers at once. Exit status: 0 done, findings printed;
1 where a command's question is answered no; 2 when the input can't be used, with one message on stderr.
"""

from __future__ import annotations

import argparse
import gc
import os
import signal
import sys
import threading
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, redirect_stderr, redirect_stdout
from pathlib import Path
from typing import NoReturn

from tutorial_lib.cli import bed, bench, kit, lists, project, site, talk
from tutorial_lib.cli.shared import CAN_NOT, DONE
from tutorial_lib.cli.terminal import Visible, forget, open_streams
from tutorial_lib.errors import InputError, shortened

INTERRUPTED = 130
GARBAGE_AT = 500_000  # new objects; a sheet makes half of them, and to look through those is 1/30 of its time
TRACEBACK = "TUTORIAL_TRACEBACK"
LONGEST_TOLD = 300  # characters of a foreign message
REPEATED = 3  # words that can't be used
COMMANDS = (
    project.add_open,
    project.add_test,
    project.add_new,
    bed.add_facts,
    lists.add_cut,
    lists.add_lists,
    talk.add_check,
    bed.add_adapt,
    bed.add_templates,
    bed.add_sheet,
    kit.add_plates,
    kit.add_kit,
    site.add_site,
    bench.add_bench,
)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; returns its exit status."""
    _hurry()
    open_streams()
    with redirect_stdout(Visible(sys.stdout)), redirect_stderr(Visible(sys.stderr)):
        return _answer(arguments)


def _hurry() -> None:
    """A command is soon over: nobody waits for garbage to be looked for often, nor for other packages' plugins."""
    gc.set_threshold(GARBAGE_AT)
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")


def _answer(arguments: Sequence[str] | None) -> int:
    parsed, more = parser().parse_known_args(arguments)
    if more:
        return _complain(_not_taken(parsed, more))
    try:
        with _ended_as_interrupted():
            _refuse_taken(parsed)
            status = int(parsed.run(parsed))
            sys.stdout.flush()
            return status
    except InputError as error:
        return _complain(str(_on_lines(error, parsed)))
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError:
        forget(sys.stdout)  # the reader of our output has gone; nobody to tell
        return DONE
    except Exception as error:
        if os.environ.get(TRACEBACK):
            raise
        return _complain(_situation(error) or _fault(error))


def _on_lines(error: InputError, args: argparse.Namespace) -> InputError:
    """The faults with the lines of the build file, where the bed is as the file has it."""
    path = str(getattr(args, "build", None) or getattr(args, "plan", None) or "")
    if not path.endswith(".toml") or any(getattr(args, name, None) for name in ("mattress", "changes", "have")):
        return error
    from tutorial_lib.cli.shared import build_text
    from tutorial_lib.design.faults import on_lines

    try:
        return on_lines(error, Path(path).name, build_text(path))
    except InputError:
        return error


@contextmanager
def _ended_as_interrupted() -> Iterator[None]:
    """A polite request to end (SIGTERM) ends a command as Ctrl-C does: what is half written is taken away."""
    if threading.current_thread() is not threading.main_thread():
        yield  # signals are the main thread's
        return
    before = signal.signal(signal.SIGTERM, signal.default_int_handler)
    try:
        yield
    finally:
        signal.signal(signal.SIGTERM, before)


def _situation(error: Exception) -> str:
    """What to say where the person's surroundings are at fault; empty where the program is."""
    if isinstance(error, ImportError) and not (error.name or "").startswith("tutorial_lib"):
        return (
            f"the package {error.name or 'that it needs'} is missing or damaged. In a clone, remove its .venv folder "
            "and call again; elsewhere install the project again."
        )
    if isinstance(error, MemoryError):
        return "there is not enough memory for this; close other programs, or give it less at once."
    if isinstance(error, RecursionError):
        return "the input is nested too deeply to be read."
    if isinstance(error, OSError):
        if error.filename is None:
            forget(sys.stdout)
            return f"what was to be printed can't be written: {error.strerror}."
        return f"{error.filename}: the system says: {error.strerror}."
    return ""


def _fault(error: Exception) -> str:
    told = str(error)
    told = told if len(told) <= LONGEST_TOLD else f"{told[:LONGEST_TOLD]}…"
    return (
        f"this is a fault of the program, not of your file: {type(error).__name__}: {told}. "
        f"Set {TRACEBACK}=1 to see where."
    )


def _refuse_taken(args: argparse.Namespace) -> None:
    """Refuse a file that is there already before the work for it is done."""
    from tutorial_lib import files

    for path in (getattr(args, "json", None), getattr(args, "output", None)):
        if path and path != "-":
            files.refuse_overwriting(path, force=args.force)


def _not_taken(args: argparse.Namespace, more: Sequence[str]) -> str:
    """What to say of arguments that the command has no use for."""
    told = f"{args.command} takes no {shortened(' '.join(more[:REPEATED]))}."
    if "output" in args and not more[0].startswith("-"):
        return f"{told} The file or folder to write is named with -o: tutorial {args.command} -o {shortened(more[0])}"
    return f"{told} What it takes: tutorial {args.command} --help"


def _complain(message: str) -> int:
    print(f"tutorial: {message}", file=sys.stderr)
    return CAN_NOT


class _Parser(argparse.ArgumentParser):
    """argparse that repeats no more of a long argument than helps."""

    def error(self, message: str) -> NoReturn:
        super().error(shortened(message))


def parser() -> argparse.ArgumentParser:
    """The command line as argparse knows it."""
    top = _Parser(
        prog="tutorial",
        description="Plans a slatted platform bed for a woodworking tutorial: one build file gives lengths, cuts, "
        "holes, strength, drawings and printable sheets.",
    )
    top.add_argument("--version", action="version", version=_version())
    commands = top.add_subparsers(metavar="COMMAND", dest="command", required=True)
    for add in COMMANDS:
        add(commands)
    return top


def _version() -> str:
    from tutorial_lib import __version__

    return f"tutorial-workbook {__version__}"
