"""The command that measures the program itself and writes the benchmark's table."""

from __future__ import annotations

import argparse
import os
import sys
from typing import Any

from tutorial_lib.cli.project import in_clone, own_code


def add_bench(commands: Any) -> None:
    """Register `bench`."""
    command = commands.add_parser(
        "bench",
        help="measure the program, beside others where there are any, and write the table",
        description="Times of start-up, commands, redraw, cut plans, the check of a talk, all sizes, families and the "
        "viewers' page, as one table in tests/benchmark/README.md. All of it takes a quarter of an hour.",
        epilog="example: tutorial bench commands cuts",
    )
    command.add_argument("groups", metavar="GROUP", nargs="*", help="parts of the table; all of it without one")
    command.set_defaults(run=_bench)


def _bench(args: argparse.Namespace) -> int:
    import subprocess

    root = in_clone("tests", "bench").parent
    command = [sys.executable, "-m", "tests.benchmark", *args.groups]
    return subprocess.call(command, cwd=root, env={**os.environ, **own_code()})
