"""The command that makes the viewers' page."""

from __future__ import annotations

import argparse
import shlex
from pathlib import Path
from typing import Any

from tutorial_lib.cli.shared import DONE, print_findings, read_options
from tutorial_lib.cli.viewer import Bed, compared, tell_notes
from tutorial_lib.errors import InputError

SIZES = "full, queen, king"


def add_site(commands: Any) -> None:
    """Register `site`."""
    command = commands.add_parser(
        "site",
        help="the viewers' page: your bed for their mattress, worked out in their own browser",
        description="A static folder for any host: the page shows your bed at once, then loads this library into the "
        "viewer's browser, where it works out their own bed, offline from the second visit on. The first time its "
        "parts are fetched from the package registries. With --plain one HTML file without script, with the sizes "
        "asked for worked out beforehand.",
        epilog="example: tutorial site my-bed.toml captions.vtt -o my-bed-site",
    )
    command.add_argument("build", metavar="BUILD.toml")
    command.add_argument("captions", metavar="CAPTIONS", nargs="?", help="what the video says (the build's own)")
    command.add_argument("-o", "--output", metavar="FOLDER", dest="target",
                         help="folder to make (NAME-site); with --plain the file (NAME-site.html)")  # fmt: skip
    command.add_argument("--plain", action="store_true", help="one HTML file without script, which opens from disk")
    command.add_argument("--sizes", metavar="NAMES", default=SIZES,
                         help=f'with --plain: the mattresses to work out, or "all" ("{SIZES}")')  # fmt: skip
    command.add_argument("--force", action="store_true", help="replace what is there")
    command.set_defaults(run=_site)


def _site(args: argparse.Namespace) -> int:
    from tutorial_lib.adapting.viewer import Asked, viewers_bed

    options = read_options(args.build)
    if options.origin is not None:
        raise InputError(f"{args.build} is a viewer's build; the page is made from the creator's own.")
    bed = Bed(viewers_bed(options), options, Asked(), args.build)
    tell_notes(bed.adapted)
    return _plain(bed, args) if args.plain else _folder(bed, args)


def _folder(bed: Bed, args: argparse.Namespace) -> int:
    from tutorial_lib import files
    from tutorial_lib.site.folder import site
    from tutorial_lib.site.parts import fetch

    folder = args.target or f"{bed.options.build.name}-site"
    files.refuse_filling(folder, force=args.force)
    found = compared(bed, args.captions)
    made = site(found, fetch())
    files.write_folder(folder, made, force=args.force)
    print(f"wrote {len(made)} files to {folder}. Put the folder on any host, or try it here: "
          f"python3 -m http.server --directory {shlex.quote(folder)}")  # fmt: skip
    print_findings(bed.adapted.findings)
    return DONE


def _plain(bed: Bed, args: argparse.Namespace) -> int:
    from tutorial_lib import files
    from tutorial_lib.adapting import comparison
    from tutorial_lib.adapting.family import every_size
    from tutorial_lib.adapting.viewer import Asked, viewers_bed
    from tutorial_lib.site.folder import plain

    target = args.target or f"{bed.options.build.name}-site.html"
    files.refuse_overwriting(target, force=args.force)
    own = compared(bed, args.captions)
    names = every_size(bed.options) if args.sizes == "all" else [n.strip() for n in args.sizes.split(",") if n.strip()]
    beds = [("the creator's own", own)]
    beds += [(name, comparison(viewers_bed(bed.options, Asked(name)), own.report)) for name in names]
    files.write_text(target, plain(beds), force=args.force)
    print(f"wrote {target}: {Path(target).name} opens from disk, with {len(beds)} beds")
    return DONE
