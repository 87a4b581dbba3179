"""Makes a kit, file after file, and puts it in a folder: whole or not at all, the same bytes for the same plan."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from pathlib import Path

from tutorial_lib import files
from tutorial_lib.errors import InputError
from tutorial_lib.publishing.identity import size, version
from tutorial_lib.publishing.kit.contents import GROUPS, File, Wanted
from tutorial_lib.publishing.kit.index import index_html
from tutorial_lib.publishing.kit.sizes import folders, make_sizes

Progress = Callable[[str, float], object]  # what is being made, and how much is done, 0 to 1
CONTENTS, NOT_MADE, SIZES = "contents.json", "sizes/not-made.txt", "Every size"
EACH_SIZE = 2.0  # share of the time
# Share of the time that each group takes, so that a bar runs evenly: seconds of the demo, as measured.
WEIGHTS = {
    "Booklet": 3.3, "At the bench": 0.5, "Under the video": 0.1, "Screen plates": 3.3, "Lists": 0.1, "Drawings": 1.4,
    "Build file": 0.1,
}  # fmt: skip


def made(wanted: Wanted, groups: Sequence[str] | None = None, progress: Progress | None = None) -> Iterator[File]:
    """The files of a kit, group by group.

    Args:
        wanted: what it is made of.
        groups: names of the groups wanted; None takes all.
        progress: told before each group and at the end.
    """
    chosen = [(name, make) for name, make in GROUPS if groups is None or name in groups]
    whole, done = sum(WEIGHTS[name] for name, _ in chosen) + EACH_SIZE * len(wanted.sizes), 0.0
    for name, make in chosen:
        if progress is not None:
            progress(name, done / whole)
        for file in make(wanted):
            yield replace(file, group=name)
        done += WEIGHTS[name]
    if wanted.sizes:

        def told(count: int) -> None:
            if progress is not None:
                progress(f"{count} of {len(wanted.sizes)} sizes", (done + EACH_SIZE * count) / whole)

        told(0)
        yield from _every_size(wanted, told)
    if progress is not None:
        progress("done", 1.0)


def _every_size(wanted: Wanted, told: Callable[[int], object]) -> Iterator[File]:
    """The booklet, build file and caption track of each size; what can't be built is told in a text."""
    creator = wanted.found.adaptation.creator.options
    entries = make_sizes(creator, wanted.sizes, wanted.report, "letter", wanted.cluster, told)
    for entry, folder in folders(entries):
        for name, data, what in entry.files:
            words = f"{entry.size}, {entry.words}: {what}"
            yield File(path=f"sizes/{folder}/{name}", data=data, what=words, group=SIZES)
    failed = "".join(f"{entry.size}: {entry.why_not}\n" for entry in entries if entry.why_not)
    if failed:
        what = "Sizes that can't be built so, and why"
        yield File(path=NOT_MADE, data=failed.encode("utf-8", "replace"), what=what, group=SIZES)


def folder_of(wanted: Wanted, listed: Sequence[File]) -> dict[str, bytes]:
    """A kit as a folder: its files, the page that shows them, and the list by which it knows its own again."""
    plan = wanted.plan
    lead = f"Everything that goes out with the video: a slatted platform bed, {size(plan)}."
    page = index_html(plan.options.build.title, lead, version(plan.options), listed, wanted.of_the_talk)
    held = {file.path: file.data for file in listed} | {"index.html": page.encode("utf-8", "replace")}
    return held | {CONTENTS: contents(held, version(plan.options))}


def contents(held: dict[str, bytes], mark: str) -> bytes:
    """The list of a kit's files with their SHA-256."""
    sums = {name: hashlib.sha256(data).hexdigest() for name, data in sorted(held.items())}
    return (json.dumps({"plan": mark, "files": sums}, indent=1) + "\n").encode()


def write_kit(folder: str | Path, held: dict[str, bytes], *, force: bool = False) -> Path:
    """Write a kit's folder; what an earlier kit left there and this one has no more is taken away, if it is unchanged.

    Raises:
        InputError: as :func:`files.write_folder`.
    """
    return files.write_folder(folder, held, stale=_stale(Path(folder), held) if force else (), force=force)


def _stale(folder: Path, held: dict[str, bytes]) -> list[str]:
    """Files of an earlier kit, as they were written, that the new one has not."""
    try:
        sums = json.loads(files.read_bytes(folder / CONTENTS))["files"]
        left = [name for name in sums if name not in held and ".." not in name.split("/")]
        return [name for name in left if _sum(folder / name) == sums[name]]
    except (InputError, ValueError, KeyError, TypeError, AttributeError):
        return []  # no kit, or not ours: nothing is taken away


def _sum(path: Path) -> str:
    return hashlib.sha256(files.read_bytes(path)).hexdigest() if path.is_file() else ""
