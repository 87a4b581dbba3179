"""The command that plans cuts, for a bed or for any two lists; and the one that writes a bed's lists as CSV."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tutorial_lib.cli.shared import DONE, add_json, print_findings, write_json
from tutorial_lib.cli.viewer import Bed, add_captions, add_viewer, compared, read_bed, tell_notes
from tutorial_lib.errors import InputError

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tutorial_lib.design.options import Options
    from tutorial_lib.lists import List

KERF = "1/8 in"


def add_cut(commands: Any) -> None:
    """Register `cut`."""
    command = commands.add_parser(
        "cut",
        help="a cut plan for a bed, or for any parts list, proven cheapest",
        description="The cut plan of a bed (BUILD.toml), or of any parts list (PIECES.csv STOCK.csv). Lengths are "
        'written as on the tape or in any unit: 38 1/4, 38-1/4", 971.5 mm, 8 ft; inches where none is named and '
        "the list is not metric. Two rows of one board with different prices or numbers are fine: the shelf and the "
        "shop.",
        epilog="example: tutorial cut pieces.csv stock.csv --kerf 3/32",
    )
    command.add_argument(
        "pieces", metavar="BUILD.toml or PIECES.csv",
        help="a build file; or a list with columns name, length, count; section, together if wanted",
    )  # fmt: skip
    command.add_argument(
        "stock", metavar="STOCK.csv", nargs="?",
        help="columns name, length, price; available, section if wanted; price 0 is a board you have",
    )  # fmt: skip
    command.add_argument("--kerf", metavar="LENGTH", help=f"width of the saw cut, for lists ({KERF})")
    command.add_argument("--trim", metavar="LENGTH", help="lost at each board's ends, for lists (0)")
    add_viewer(command)
    add_json(command)
    command.set_defaults(run=_cut)


def _cut(args: argparse.Namespace) -> int:
    if args.pieces.endswith(".toml"):
        return _cut_bed(args)
    if args.mattress or args.changes or args.have:
        raise InputError("--mattress, --set and --have go with a build file: tutorial cut BUILD.toml.")
    if args.stock is None:
        raise InputError(f"{args.pieces}: a list of pieces needs a list of boards: tutorial cut PIECES.csv STOCK.csv.")
    return _cut_lists(args)


def _cut_bed(args: argparse.Namespace) -> int:
    from tutorial_lib.cutting.report import bed_json, bed_text

    if args.stock is not None:
        raise InputError(f"{args.pieces} lists its boards itself; leave {args.stock} out.")
    if args.kerf or args.trim:
        raise InputError('a build file states its saw: --set "saw.kerf=3/32 in", --set "saw.trim=0 in".')
    args.build = args.pieces
    bed = read_bed(args)
    tell_notes(bed.adapted)
    cutting = bed.adapted.yours.cutting
    if args.json:
        return write_json(bed_json(cutting), args)
    sys.stdout.write(bed_text(cutting))
    print_findings(cutting.findings)
    return DONE


def _cut_lists(args: argparse.Namespace) -> int:
    from tutorial_lib import files
    from tutorial_lib.cutting.parts_list import cut_lists

    made = cut_lists(
        files.read_text(args.pieces),
        files.read_text(args.stock),
        kerf=args.kerf or KERF,
        trim=args.trim or "0",
        names=(Path(args.pieces).name, Path(args.stock).name),
    )
    if args.json:
        return write_json(made.as_json(), args)
    sys.stdout.write(made.as_text())
    return DONE


def add_lists(commands: Any) -> None:
    """Register `lists`."""
    command = commands.add_parser(
        "lists", help="shopping list, cuts, holes, steps and the rest as CSV files",
        description="Every list of the bed as CSV (UTF-8). Inch marks stand as a tape shows them, 76 1/2, and in a "
        "column beside them as decimals to reckon with, 76.5.",
        epilog="example: tutorial lists my-bed.toml -o my-bed-lists",
    )  # fmt: skip
    command.add_argument("build", metavar="BUILD.toml")
    add_viewer(command)
    command.add_argument("-o", "--output", metavar="FOLDER", dest="folder", help="folder to make (NAME-lists)")
    add_captions(command)
    command.add_argument("--sizes", action="store_true", help="also every size the bed could be made in; takes a while")
    command.add_argument(
        "--cluster", metavar="ADDRESS",
        help="work the sizes out on a Dask cluster, tcp://HOST:PORT (this machine's cores)",
    )  # fmt: skip
    command.add_argument("--force", action="store_true", help="replace files that are there")
    command.set_defaults(run=_lists)


def _lists(args: argparse.Namespace) -> int:
    from tutorial_lib import files
    from tutorial_lib.lists import csv_text, lists_of

    if args.cluster:
        _refuse_cluster(args)
    bed = read_bed(args)
    tell_notes(bed.adapted)
    made = bed.adapted.yours
    tables = [*lists_of(made), *_more(bed, args)]
    folder = Path(args.folder or f"{made.options.build.name}-lists")
    paths = [folder / f"{table.key}.csv" for table in tables]
    files.make_folder(folder)
    for path in paths:
        files.refuse_overwriting(path, force=args.force)
    for path, table in zip(paths, tables, strict=True):
        files.write_text(path, csv_text(table), force=args.force)
    print(f"wrote {', '.join(path.name for path in paths)} to {folder}")
    return DONE


def _refuse_cluster(args: argparse.Namespace) -> None:
    """Refuse a cluster that isn't there, or that nothing is to be made on, before other work is done."""
    from tutorial_lib.pool import refuse_silent

    if not args.sizes:
        raise InputError("`tutorial lists --cluster` goes with --sizes: those are worked out there.")
    refuse_silent(args.cluster)


def _more(bed: Bed, args: argparse.Namespace) -> Iterator[List]:
    """What is said on camera where there are captions, and all sizes where they are asked for."""
    from tutorial_lib.lists.talk import check_report

    report = compared(bed, args.captions).report
    if report is not None:
        yield check_report(report)
    if args.sizes:
        yield _sizes(bed.adapted.creator.options, args.cluster)


def _sizes(creator: Options, cluster: str | None) -> List:
    """Every size the bed could be made in, worked out on all cores or on a cluster."""
    from functools import partial

    from tutorial_lib.adapting.family import family
    from tutorial_lib.cli.kit import bar
    from tutorial_lib.lists.sizes import all_sizes
    from tutorial_lib.pool import on_cluster, on_processes

    through = partial(on_cluster, address=cluster) if cluster else on_processes
    with bar() as told:
        beds = family(creator, through=through, progress=lambda done, total, bed: told(bed.size, done / total))
    return all_sizes(beds, creator.build.units, creator.shop.currency)
