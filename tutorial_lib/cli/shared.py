"""What several commands share: reading plans, writing files, printing findings. Exit statuses."""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from tutorial_lib.errors import InputError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from tutorial_lib.design.options import Options
    from tutorial_lib.findings import Finding
    from tutorial_lib.narration import Talk
    from tutorial_lib.plan import Plan

DONE, ANSWERED_NO, CAN_NOT = 0, 1, 2


def build_text(path: str) -> str:
    """The text of a build file by its path.

    Raises:
        InputError: it is no .toml, or can't be read.
    """
    from tutorial_lib import files

    if not path.endswith(".toml"):
        raise InputError(f"{path}: a build file ends in .toml; `tutorial new` writes one to start from.")
    return files.read_text(path)


def read_options(path: str, text: str | None = None) -> Options:
    """The options of a build file by its path, or of its text where that is read already.

    Raises:
        InputError: it is no .toml, can't be read, or has faults; all of them.
    """
    text = build_text(path) if text is None else text
    from tutorial_lib.design.build_file import read_build

    return read_build(text, Path(path).name)


def read_talk(path: str) -> Talk:
    """Captions, a transcript or a script by its path."""
    from tutorial_lib import files
    from tutorial_lib.narration import read_captions

    return read_captions(files.read_bytes(path), Path(path).name)


def add_output(command: argparse.ArgumentParser, default: str) -> None:
    """The options for the file to write."""
    command.add_argument("-o", "--output", metavar="FILE", help=f"file to write ({default})")
    command.add_argument("--force", action="store_true", help="replace the file if it is there")


def add_json(command: argparse.ArgumentParser) -> None:
    """The options for a JSON report."""
    command.add_argument("--json", metavar="FILE", help='write a JSON file instead of printing ("-" prints it)')
    command.add_argument("--force", action="store_true", help="replace the file if it is there")


def write_json(data: object, args: argparse.Namespace) -> int:
    """Write a report where --json says."""
    from tutorial_lib import files

    text = json.dumps(data, indent=1, ensure_ascii=False) + "\n"
    if args.json == "-":
        sys.stdout.write(text)
    else:
        files.write_text(args.json, text, force=args.force)
        print(f"wrote {args.json}")
    return DONE


def add_paper(command: argparse.ArgumentParser) -> None:
    """The option for the paper."""
    command.add_argument("--paper", choices=("letter", "a4"), default="letter", help="size of the paper (letter)")


def write_pdf(made: Plan, what: str, source: Callable[[], str], args: argparse.Namespace) -> int:
    """Typeset and write a PDF of a plan, named after the build unless -o says otherwise."""
    from tutorial_lib import files
    from tutorial_lib.publishing.typeset import compile_pdf

    path = args.output or f"{made.options.build.name}-{what}.pdf"
    files.refuse_overwriting(path, force=args.force)
    text = source()
    files.write_bytes(path, compile_pdf(text), force=args.force)
    print(f"wrote {path}")
    print_absent(text)
    print_findings(made.findings)
    return DONE


def print_absent(text: str) -> None:
    """The letters of a text that the type hasn't, by their names."""
    from tutorial_lib.drawing.lettering import BOX, absent, letter_name

    if missing := absent(text):
        told = ", ".join(letter_name(char) for char in missing[:8]) + (", ..." if len(missing) > 8 else "")
        print(f"tutorial: the type has no {told}; printed as {BOX} instead.", file=sys.stderr)


def print_findings(findings: Iterable[Finding | str]) -> None:
    """The findings under what was printed before."""
    listed = list(findings)
    if listed:
        print()
    for finding in listed:
        print(finding)
