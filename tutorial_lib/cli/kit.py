"""Commands that make what goes out with a video: screen plates, and the whole kit."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tutorial_lib.cli.shared import DONE, print_absent, print_findings
from tutorial_lib.cli.viewer import Bed, add_viewer, compared, read_bed, tell_notes

if TYPE_CHECKING:
    from tutorial_lib.plan import Plan
    from tutorial_lib.publishing.kit.making import Progress


def add_kit(commands: Any) -> None:
    """Register `kit`."""
    command = commands.add_parser(
        "kit",
        help="everything that goes out with the video, as one folder with an index page",
        description="Booklets, templates, labels, screen plates, chapters, description, corrections, tracks, lists and "
        "drawings in one folder, whole or not at all. Chapters and corrections need the captions: name them, or let "
        "the build name them under [said].",
        epilog="example: tutorial kit my-bed.toml captions.vtt -o my-bed-kit",
    )
    command.add_argument("build", metavar="BUILD.toml")
    command.add_argument("captions", metavar="CAPTIONS", nargs="?", help="what the video says")
    add_viewer(command)
    command.add_argument("-o", "--output", metavar="FOLDER", dest="folder", help="folder to make (NAME-kit)")
    add_labels(command)
    command.add_argument(
        "--sizes", metavar="LIST",
        help='also every viewer\'s booklet: "all", or sizes between commas, "king, UK double, 54x75 in"',
    )  # fmt: skip
    command.add_argument(
        "--cluster", metavar="ADDRESS", help="make the sizes on a Dask cluster, tcp://HOST:PORT (this machine's cores)"
    )
    command.add_argument("--force", action="store_true", help="replace a kit that is there; other files stay")
    command.set_defaults(run=_kit)


def add_labels(command: argparse.ArgumentParser) -> None:
    """The options for the sheets of labels."""
    command.add_argument("--label", metavar="SIZE", help='one label of your sheets: "2 5/8 x 1 in", "70 x 37 mm"')
    command.add_argument("--label-gap", metavar="SIZE", help='gap between two labels, across and down: "1/8 x 0 in"')
    command.add_argument("--label-grid", metavar="COUNT", help='labels across and down, "3 x 10" (as many as fit)')


def _kit(args: argparse.Namespace) -> int:
    from tutorial_lib import files
    from tutorial_lib.publishing.check_list import headline
    from tutorial_lib.publishing.kit.contents import Wanted
    from tutorial_lib.publishing.kit.making import folder_of, made, write_kit
    from tutorial_lib.publishing.labels import read_label_sheets
    from tutorial_lib.remedies import remember

    labels = read_label_sheets(args.label, args.label_gap, args.label_grid)
    bed = read_bed(args)
    tell_notes(bed.adapted)
    remember(bed.adapted.yours)
    folder = args.folder or f"{bed.adapted.yours.options.build.name}-kit"
    files.refuse_filling(folder, force=args.force)
    sizes = _sizes(bed, args)
    wanted = Wanted(found=compared(bed, args.captions), labels=labels, sizes=sizes, cluster=args.cluster)
    with bar() as progress:
        listed = list(made(wanted, progress=progress))
        held = folder_of(wanted, listed)
    write_kit(folder, held, force=args.force)
    print(f"wrote {len(held)} files to {folder}; open {Path(folder) / 'index.html'}")
    if wanted.of_the_talk is not None:
        print(f"said in the video: {headline(wanted.of_the_talk)}; the page tells which")
    print_absent(_words(bed.adapted.yours))
    print_findings(bed.adapted.findings)
    return DONE


def _words(plan: Plan) -> str:
    """The creator's own words that stand in a kit: titles, and those on the plates."""
    told = plan.options.build
    return "".join((told.title, told.channel, told.episode, _called(plan)))


def _called(plan: Plan) -> str:
    """What parts and boards are called: by the build, and by the creator's own word."""
    own = (name for names in plan.options.names.values() for name in names[:1])
    return "".join((*own, *(part.name + part.section.name for part in plan.build.parts)))


def _sizes(bed: Bed, args: argparse.Namespace) -> tuple[str, ...]:
    from tutorial_lib.errors import InputError
    from tutorial_lib.pool import refuse_silent
    from tutorial_lib.publishing.kit.sizes import sizes_wanted

    if args.sizes is None and args.cluster:
        raise InputError("`tutorial kit --cluster` goes with --sizes: those are made there.")
    wanted = () if args.sizes is None else sizes_wanted(args.sizes, bed.adapted.creator.options)
    if args.cluster:
        refuse_silent(args.cluster)
    return wanted


@contextmanager
def bar() -> Iterator[Progress]:
    """A progress bar on the terminal; nothing where the output goes elsewhere."""
    from tqdm import tqdm

    shape = "{desc:<16} {percentage:3.0f} % |{bar}| {elapsed}"
    # past the stream that makes control signs visible: the bar lives by them
    with tqdm(total=100, bar_format=shape, file=sys.__stderr__, disable=None, leave=False) as bar:

        def told(what: str, share: float) -> None:
            bar.set_description(what, refresh=False)
            bar.n = round(100 * share)
            bar.refresh()

        yield told


def add_plates(commands: Any) -> None:
    """Register `plates`."""
    command = commands.add_parser(
        "plates",
        help="screen plates, pictures to lay over the video",
        description="Transparent PNG and SVG of 1920 x 1080 and 1080 x 1920: parts, counts, slats, legs, section, "
        "steps, corrections; or plates for single facts, or for all that is said in a chapter of the talk.",
        epilog='example: tutorial plates my-bed.toml captions.vtt --chapter slats -o plates',
    )  # fmt: skip
    command.add_argument("build", metavar="BUILD.toml")
    command.add_argument("captions", metavar="CAPTIONS", nargs="?", help="what the video says")
    add_viewer(command)
    command.add_argument("--facts", metavar="KEYS", help='facts by their keys, "slat.length,leg.count"')
    command.add_argument("--chapter", metavar="TITLE", help="a chapter of the talk, by its title or a part of it")
    command.add_argument("-o", "--output", metavar="FOLDER", dest="folder", help="folder to make (NAME-plates)")
    command.add_argument("--force", action="store_true", help="replace files that are there")
    command.set_defaults(run=_plates)


def _plates(args: argparse.Namespace) -> int:
    from tutorial_lib import files
    from tutorial_lib.publishing.kit.contents import Wanted
    from tutorial_lib.publishing.plates.plate import FORMS
    from tutorial_lib.publishing.plates.setting import plate_files

    bed = read_bed(args)
    tell_notes(bed.adapted)
    folder = args.folder or f"{bed.adapted.yours.options.build.name}-plates"
    files.refuse_filling(folder, force=args.force)
    chosen = _chosen(Wanted(found=compared(bed, args.captions)), args)
    held: dict[str, bytes] = {}
    for form in FORMS:
        for plate, png, svg, _ in plate_files(chosen, form):
            held |= {f"{form}/{plate.key}.png": png, f"{form}/{plate.key}.svg": svg}
    files.write_folder(folder, held, force=args.force)
    plates = "1 plate" if len(chosen) == 1 else f"{len(chosen)} plates"
    print(f"wrote {plates}, wide and tall, PNG and SVG, to {folder}")
    print_absent(_called(bed.adapted.yours))
    return DONE


def _chosen(wanted: Any, args: argparse.Namespace) -> list[Any]:
    from tutorial_lib.errors import InputError
    from tutorial_lib.publishing.plates.kinds import Plates, chapter_named

    if args.facts and args.chapter:
        raise InputError("`tutorial plates` takes --facts or --chapter, not both.")
    if not (args.facts or args.chapter):
        return list(wanted.plates)
    maker = Plates(wanted.plan, wanted.facts, wanted.report)
    if args.facts:
        return maker.of_facts(key.strip() for key in args.facts.split(",") if key.strip())
    return maker.of_chapter(chapter_named(wanted.chapters, args.chapter))
