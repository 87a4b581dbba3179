"""What is in a kit: for each group of files the function that makes them, one after another."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import field
from functools import cached_property
from typing import TYPE_CHECKING

from tutorial_lib.adapting.tracks import webvtt as track
from tutorial_lib.adapting.viewer import as_build
from tutorial_lib.design.build_file import to_toml
from tutorial_lib.design.options import YoursOptions
from tutorial_lib.drawing.dxf import plan_dxf, templates_dxf
from tutorial_lib.drawing.gltf import gltf
from tutorial_lib.facts import facts_of
from tutorial_lib.lists import csv_text, lists_of
from tutorial_lib.lists.talk import check_report
from tutorial_lib.publishing.chapters import Chapter, chapters, plain_list, webvtt
from tutorial_lib.publishing.cue_cards import cue_cards
from tutorial_lib.publishing.cue_pages import cue_pages_source
from tutorial_lib.publishing.identity import version
from tutorial_lib.publishing.kit.drawings import scenes
from tutorial_lib.publishing.labels import USUAL, LabelSheet, labels_source
from tutorial_lib.publishing.plain_texts import description, shopping_text
from tutorial_lib.publishing.plates.kinds import Plates
from tutorial_lib.publishing.plates.plate import FORMS
from tutorial_lib.publishing.plates.setting import plate_files
from tutorial_lib.publishing.said_files import said_files
from tutorial_lib.publishing.sheet import book_on, booklet_source, sheet_pages
from tutorial_lib.publishing.templates import templates_source
from tutorial_lib.publishing.typeset import Paper, compile_pdf
from tutorial_lib.publishing.vector import drawings_svg
from tutorial_lib.records import dataclass

if TYPE_CHECKING:
    from tutorial_lib.adapting import Comparison
    from tutorial_lib.facts import Facts
    from tutorial_lib.narration import Report
    from tutorial_lib.plan import Plan
    from tutorial_lib.publishing.plates.plate import Plate


@dataclass(frozen=True, kw_only=True)
class Wanted:
    """What a kit is made of."""

    found: Comparison  # the creator's bed and this one, and what the video says
    labels: dict[Paper, LabelSheet] = field(default_factory=lambda: dict(USUAL))
    sizes: tuple[str, ...] = ()  # other sizes of which booklets are made
    cluster: str | None = None  # address of a Dask scheduler that makes them

    @property
    def plan(self) -> Plan:
        """The bed the kit is of."""
        return self.found.adaptation.yours

    @property
    def report(self) -> Report | None:
        """The check of the video; None without captions."""
        return self.found.report

    @property
    def of_the_talk(self) -> Report | None:
        """The check where the kit is of the very bed that is talked of: its slips are no other's."""
        return self.report if self.found.adaptation.same else None

    @property
    def name(self) -> str:
        """What its files are called."""
        return self.plan.options.build.name

    @cached_property
    def facts(self) -> Facts:
        """The facts of the bed."""
        return facts_of(self.plan)

    @cached_property
    def chapters(self) -> tuple[Chapter, ...]:
        """The video's chapters."""
        return chapters(self.report, self.found.before) if self.report else ()

    @cached_property
    def plates(self) -> list[Plate]:
        """The screen plates; those of corrections are of the video's own bed, and in its kit alone."""
        made = Plates(self.plan, self.facts, self.report).all()
        return made if self.of_the_talk else [plate for plate in made if plate.kind != "correction"]


@dataclass(frozen=True, kw_only=True)
class File:
    """One file of a kit."""

    path: str  # in the folder, with "/"
    data: bytes
    what: str  # in words
    group: str = ""
    time: float | None = None  # [s] of the video it goes with
    preview: bytes = b""  # a small PNG of it, for the index page


WALL: dict[Paper, str] = {"letter": "11 x 17 in", "a4": "A3"}
BOTH: tuple[Paper, ...] = ("letter", "a4")
Maker = Callable[[Wanted], Iterator[File]]


def booklets(wanted: Wanted) -> Iterator[File]:
    """The booklet on both papers, and large for the wall."""
    pages = {paper: sheet_pages(book_on(paper, wanted.plan, wanted.found)) for paper in BOTH}
    for large in (False, True):
        for paper in BOTH:
            made = compile_pdf(booklet_source(wanted.plan, pages[paper], paper, large=large))
            size = WALL[paper] if large else _paper(paper)
            path = f"booklet/{wanted.name}-{'wall-' if large else ''}{paper}.pdf"
            yield File(path=path, data=made, what=f"Booklet, {size}{', for the wall' if large else ''}")


def bench(wanted: Wanted) -> Iterator[File]:
    """Templates and labels, on both papers."""
    for paper in BOTH:
        made = compile_pdf(templates_source(wanted.plan, paper))
        what = f"Drilling templates and story sticks, full size, {_paper(paper)}"
        yield File(path=f"bench/{wanted.name}-templates-{paper}.pdf", data=made, what=what)
    for paper, sheet in wanted.labels.items():
        made = compile_pdf(labels_source(wanted.plan, sheet))
        what = f"Labels for the pieces, {sheet.size}, {sheet.columns} x {sheet.rows} on {_paper(paper)}"
        yield File(path=f"bench/{wanted.name}-labels-{paper}.pdf", data=made, what=what)


def plates(wanted: Wanted) -> Iterator[File]:
    """The screen plates in both forms, as PNG and SVG."""
    for form in FORMS:
        for plate, png, svg, small in plate_files(wanted.plates, form):
            for ending, data in (("png", png), ("svg", svg)):
                path = f"plates/{form}/{plate.key}.{ending}"
                yield File(path=path, data=data, what=plate.alt, time=plate.time, preview=small)


def video(wanted: Wanted) -> Iterator[File]:
    """What goes under and beside the video: description, chapters, corrections, tracks, cue cards."""
    report = wanted.report
    adapted = wanted.found.adaptation
    block = description(wanted.plan, report, wanted.chapters, None if adapted.same else adapted.creator)
    yield _text("video/description.txt", block, f"Description, to paste under the video{_too_long(block)}")
    yield _text("video/shopping-list.txt", shopping_text(wanted.plan), "Shopping list, to send")
    if wanted.chapters:
        yield _text("video/chapters.vtt", webvtt(wanted.chapters), "Chapters, WebVTT")
        yield _text("video/chapters.txt", plain_list(wanted.chapters), "Chapters, for a description")
    if wanted.of_the_talk is not None:
        for name, text in said_files(wanted.of_the_talk, wanted.found.before).items():
            yield _text(f"video/{name}", text, SAID.get(name.split(".", 1)[-1], name))
    elif report is not None and report.talk.timed:
        yield _text("video/captions-with-yours.vtt", track(wanted.found), "Captions with these numbers, WebVTT")
    source = cue_pages_source(cue_cards(wanted.facts), wanted.plan.options.build.title, version(wanted.plan.options))
    yield File(path="video/cue-cards.pdf", data=compile_pdf(source), what="Cue cards in big type")


LONGEST = 5000  # characters that a video's description may have where videos are watched; common practice, no source


def _too_long(block: str) -> str:
    over = len(block) - LONGEST
    return f": {len(block)} characters, {over} more than is usually taken; leave out what you can" if over > 0 else ""


SAID = {  # by the end of the name
    "pinned.txt": "Corrections, to pin under the video", "overlay.vtt": "Corrections to lay over the video, WebVTT",
    "corrected.vtt": "Captions with the slips put right", "corrected.txt": "Script with the slips put right",
    "cue-cards.txt": "Cue cards, plain text",
}  # fmt: skip


def tables(wanted: Wanted) -> Iterator[File]:
    """Every list as CSV, and the facts."""
    listed = [*lists_of(wanted.plan), *([check_report(wanted.of_the_talk)] if wanted.of_the_talk else [])]
    for table in listed:
        yield _text(f"lists/{table.key}.csv", csv_text(table), f"{table.title}, CSV")
    yield _text("lists/facts.json", wanted.facts.dumps(), "Every number of the plan, JSON")


def drawn(wanted: Wanted) -> Iterator[File]:
    """Every drawing as SVG, plan and templates as DXF, the bed in space as glTF."""
    named = list(scenes(wanted.plan, wanted.found))
    for (name, scene), (data, small) in zip(named, drawings_svg([scene for _, scene in named]), strict=True):
        yield File(path=f"drawings/{name}.svg", data=data, what=scene.alt, preview=small)
    yield _text("drawings/plan.dxf", plan_dxf(wanted.plan.build), "The bed from above, DXF")
    yield _text("drawings/templates.dxf", templates_dxf(wanted.plan), "Every drilled face, full size, DXF")
    yield _text("drawings/bed.gltf", gltf(wanted.plan.build), "The bed in space, a node a piece, glTF")


def build(wanted: Wanted) -> Iterator[File]:
    """The build file itself, for who builds along."""
    adapted = wanted.found.adaptation
    options = wanted.plan.options
    if not adapted.same:  # a viewer's own, with the creator's in it
        options = as_build(adapted, adapted.creator.options, YoursOptions())
    yield _text(f"{wanted.name}.toml", to_toml(options), "Build file, to adapt to another mattress")


GROUPS: tuple[tuple[str, Maker], ...] = (
    ("Booklet", booklets), ("At the bench", bench), ("Under the video", video), ("Screen plates", plates),
    ("Lists", tables), ("Drawings", drawn), ("Build file", build),
)  # fmt: skip


def names(groups: Sequence[str] | None = None) -> list[str]:
    """The groups of a kit, all or those wanted, in their order."""
    return [name for name, _ in GROUPS if groups is None or name in groups]


def _paper(paper: Paper) -> str:
    return {"letter": "Letter", "a4": "A4"}[paper]


def _text(path: str, text: str, what: str) -> File:
    return File(path=path, data=text.encode("utf-8", "replace"), what=what)
