"""The command that plans cuts for any two lists."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import Any

from tutorial_lib.cli.shared import DONE, add_json, write_json


def add_cut(commands: Any) -> None:
    """Register `cut`."""
    command = commands.add_parser("cut", help="a cut plan for any parts list, proven cheapest")
    command.add_argument(
        "pieces", metavar="PIECES.csv", help="columns name, length, count; section, together if wanted"
    )
    command.add_argument("stock", metavar="STOCK.csv", help="columns name, length, price; available, section if wanted")
    command.add_argument("--kerf", default="1/8in", metavar="LENGTH", help="width of the saw cut (1/8in)")
    command.add_argument("--trim", default="0", metavar="LENGTH", help="lost at each board's ends (0)")
    add_json(command)
    command.set_defaults(run=_cut)


def _cut(args: argparse.Namespace) -> int:
    from tutorial_lib import files
    from tutorial_lib.cutting.parts_list import cut_lists
    from tutorial_lib.measures import read_length

    made = cut_lists(
        files.read_text(args.pieces),
        files.read_text(args.stock),
        kerf=read_length(args.kerf, where="--kerf"),
        trim=read_length(args.trim, where="--trim"),
        names=(Path(args.pieces).name, Path(args.stock).name),
    )
    if args.json:
        return write_json(made.as_json(), args)
    sys.stdout.write(made.as_text())
    return DONE
