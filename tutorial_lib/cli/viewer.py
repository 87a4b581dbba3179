"""A bed from the command line: a build file, what a viewer asks for, and what its video says."""

from __future__ import annotations

import argparse
import os
import sys
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from tutorial_lib.cli.shared import read_options
from tutorial_lib.errors import InputError
from tutorial_lib.records import dataclass

if TYPE_CHECKING:
    from tutorial_lib.adapting import Adaptation, Comparison
    from tutorial_lib.adapting.viewer import Asked
    from tutorial_lib.cli.told import Told
    from tutorial_lib.design.options import Options
    from tutorial_lib.narration import Report

NEIGHBOURS = 100  # build files looked at beside one's own for a newer plan of the creator's


def add_viewer(command: argparse.ArgumentParser) -> None:
    """The options for a bed of one's own; the same on every command that takes a build."""
    command.add_argument(
        "--mattress", metavar="NAME",
        help='your mattress: "king", "UK double", or its size, "53 3/8 x 74 1/2 in", "140x200 cm"',
    )  # fmt: skip
    command.add_argument(
        "--set", metavar="KEY=VALUE", action="append", default=[], dest="changes",
        help="another choice, by its key in the build file (`tutorial new` writes one with all): "
        '--set "saw.kerf=3 mm", --set "shop.carry=72 in", --set shop.store_cuts=4; may be repeated',
    )  # fmt: skip
    command.add_argument(
        "--have", metavar="BOARDS", action="append", default=[],
        help='boards you have, used first and not bought: --have "10 of 2x4, 92 1/2in, actual 1 1/2 x 3 7/16"; '
        "may be repeated",
    )  # fmt: skip


def add_captions(command: argparse.ArgumentParser) -> None:
    """The option for what the video says."""
    command.add_argument("--captions", metavar="FILE", help="what the video says (the build's own, [said] captions)")


@dataclass(frozen=True)
class Bed:
    """A bed to tell of: the creator's plan and yours, and what was asked for."""

    adapted: Adaptation
    options: Options  # as read
    asked: Asked
    path: str


def read_bed(args: argparse.Namespace, text: str | None = None) -> Bed:
    """The bed of a command: its build file, or its text where that is read, with --mattress, --set and --have.

    Raises:
        InputError: the build file, the mattress, a choice or a board can't be used.
    """
    from tutorial_lib.adapting.viewer import Asked, viewers_bed

    options = read_options(args.build, text)
    asked = Asked(args.mattress, tuple(args.changes), tuple(args.have))
    adapted = viewers_bed(options, asked)
    if newer := newer_plan(options, args.build):
        note = f"{newer} is another version of the creator's plan than the one in {Path(args.build).name}"
        adapted = replace(adapted, notes=(*adapted.notes, f"{note}: adapt from it again to follow it."))
    return Bed(adapted, options, asked, args.build)


def tell_notes(noted: Adaptation | Told) -> None:
    """What was said once about a name or a newer plan, on stderr."""
    for note in noted.notes:
        print(f"tutorial: {note}", file=sys.stderr)


def newer_plan(options: Options, path: str) -> str:
    """The name of a build file beside a viewer's that has another plan under the creator's name; empty if none has."""
    if options.origin is None:
        return ""
    from tutorial_lib.publishing.identity import version

    for other in sorted(Path(path).absolute().parent.glob("*.toml"))[:NEIGHBOURS]:
        try:
            found = read_options(str(other))
        except InputError:
            continue
        same = found.origin is None and found.build.name == options.origin.build.name
        if same and version(found) != version(options.origin):
            return other.name
    return ""


def compared(bed: Bed, captions: str | None) -> Comparison:
    """The creator's bed and yours, with what the video says where captions are named or the build names them."""
    from tutorial_lib.adapting import comparison

    return comparison(bed.adapted, _report(bed, captions))


def _report(bed: Bed, captions: str | None) -> Report | None:
    from tutorial_lib.cli.talk import checked
    from tutorial_lib.facts import facts_of

    path = captions or _own_captions(bed)
    return checked(path, facts_of(bed.adapted.creator)) if path else None


def _own_captions(bed: Bed) -> str | None:
    """The captions the build names, from its own folder; told where they are not there."""
    named = bed.options.said.captions or (bed.options.origin.said.captions if bed.options.origin else None)
    if not named:
        return None
    path = Path(bed.path).parent / Path(named).expanduser()
    if path.is_file():
        return str(path)
    print(f"tutorial: the captions the build names, {named}, are not there; what the video says is left out.",
          file=sys.stderr)  # fmt: skip
    return None


def viewers_file(bed: Bed, target: str) -> str:
    """The text of the viewer's build file, with the creator's build in it."""
    from tutorial_lib.adapting.viewer import as_build
    from tutorial_lib.design.build_file import to_toml

    creator = _moved((bed.options.origin or bed.options).bed, bed.path, target)
    asked = bed.asked.after(bed.options.yours).as_options()
    made = _moved(as_build(bed.adapted, creator, asked), bed.path, target)
    heading = (
        f"{made.build.title}: your own bed, adapted from {creator.build.title}.\n"
        "Change what differs from your bed. What you asked for is under [yours]; the creator's build,\n"
        "against which the video is held, is under [from]: leave that as it is."
    )
    return to_toml(made, heading)


def _moved(options: Options, source: str, target: str) -> Options:
    """The options with their captions as seen from another folder."""
    named = options.said.captions
    if not named or Path(named).expanduser().is_absolute():
        return options
    path = (Path(source).absolute().parent / named).resolve()
    try:
        seen = os.path.relpath(path, Path(target).absolute().parent)
    except ValueError:  # another drive
        seen = str(path)
    said = options.said.model_copy(update={"captions": Path(seen).as_posix()})
    return options.model_copy(update={"said": said})
