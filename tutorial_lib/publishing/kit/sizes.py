"""Every viewer's booklet: the creator's bed in other sizes, each with its build file and its caption track."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from typing import TYPE_CHECKING

from tutorial_lib import tables
from tutorial_lib.adapting import adapt, comparison
from tutorial_lib.adapting.family import every_size
from tutorial_lib.adapting.tracks import webvtt
from tutorial_lib.adapting.viewer import as_build
from tutorial_lib.design.build_file import read_build, to_toml
from tutorial_lib.design.options import YoursOptions
from tutorial_lib.errors import Fault, InputError
from tutorial_lib.pool import on_cluster, on_processes
from tutorial_lib.publishing.identity import size as mattress
from tutorial_lib.publishing.sheet import sheet_source
from tutorial_lib.publishing.typeset import Paper, compile_pdf
from tutorial_lib.records import dataclass

if TYPE_CHECKING:
    from tutorial_lib.design.options import Options
    from tutorial_lib.narration import Report

ALL = "all"


@dataclass(frozen=True, kw_only=True)
class SizeTask:
    """One size to make, as plain values that travel to another process or machine."""

    creator: str  # the creator's build file
    size: str
    paper: Paper
    report: Report | None  # the check of the creator's video


@dataclass(frozen=True, kw_only=True)
class SizeMade:
    """What is published for one size."""

    size: str
    words: str  # "mattress 76 x 80 in"
    files: tuple[tuple[str, bytes, str], ...] = ()  # name, content, what it is
    why_not: str = ""  # nothing was made, and why


def sizes_wanted(text: str, creator: Options, where: str = "--sizes") -> tuple[str, ...]:
    """The sizes of an option: "all", or names and sizes between commas.

    Args:
        text: as typed.
        creator: the creator's options.
        where: the option or box that a fault names.

    Raises:
        InputError: a name is unknown; all of them.
    """
    if text.strip().lower() == ALL:
        return every_size(creator)
    faults: list[Fault] = []
    found: list[str] = []
    for name in filter(None, (word.strip() for word in text.split(","))):
        try:
            tables.mattress(name, where=where)
            found.append(name)
        except InputError as error:
            faults += error.faults
    if not found and not faults:
        faults.append(Fault(where, 'names no size; write "all", or names between commas: "king, UK double".'))
    if faults:
        raise InputError(faults)
    return tuple(dict.fromkeys(found))


def make_size(task: SizeTask) -> SizeMade:
    """One size: adapted, set, written; what can't be built is told."""
    creator = read_build(task.creator, "creator")
    try:
        adapted = adapt(creator, task.size)
    except InputError as error:
        return SizeMade(size=task.size, words=task.size, why_not=str(error))
    yours, found = adapted.yours, comparison(adapted, task.report)
    build = as_build(adapted, creator, YoursOptions(mattress=task.size))
    heading = f"{creator.build.title}, for {task.size}. Every command takes it."
    files = [
        ("booklet.pdf", compile_pdf(sheet_source(yours, task.paper, found)), "booklet"),
        ("my-bed.toml", to_toml(build, heading).encode(), "build file"),
    ]
    if task.report is not None and task.report.talk.timed:
        files.append(("captions.vtt", webvtt(found).encode("utf-8", "replace"), "captions with these numbers"))
    return SizeMade(size=task.size, words=mattress(yours), files=tuple(files))


def make_sizes(
    creator: Options,
    sizes: Sequence[str],
    report: Report | None,
    paper: Paper,
    cluster: str | None = None,
    told: Callable[[int], object] | None = None,
) -> list[SizeMade]:
    """All sizes, worked out on processes of this machine, or on a cluster; in the order wanted.

    Args:
        creator: the creator's options.
        sizes: names or sizes.
        report: the check of the video; None without captions.
        paper: of the booklets.
        cluster: address of a Dask scheduler; None works here.
        told: called after each with how many are done.

    Raises:
        InputError: as :mod:`tutorial_lib.pool`.
    """
    text = to_toml(creator)
    tasks = [SizeTask(creator=text, size=size, paper=paper, report=report) for size in sizes]
    running = on_cluster(make_size, tasks, cluster) if cluster else on_processes(make_size, tasks)
    done: dict[int, SizeMade] = {}
    for number, made in running:
        done[number] = made
        if told is not None:
            told(len(done))
    return [done[number] for number in range(len(tasks))]


def folders(made: Sequence[SizeMade]) -> Iterator[tuple[SizeMade, str]]:
    """Each size with a folder's name of its own."""
    seen: set[str] = set()
    for entry in made:
        name = base = re.sub(r"[^a-z0-9]+", "-", entry.size.lower()).strip("-") or "size"
        number = 2
        while name in seen:
            name, number = f"{base}-{number}", number + 1
        seen.add(name)
        yield entry, name
