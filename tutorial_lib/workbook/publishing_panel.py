"""Notebook 08's panel: choose what goes out with the video, look at pages and plates, make the kit, open it."""

from __future__ import annotations

import os
from base64 import b64encode
from collections.abc import Callable
from functools import cached_property
from html import escape
from pathlib import Path
from typing import Any
from urllib.parse import quote

from tutorial_lib import files
from tutorial_lib.adapting import Adaptation, compare, comparison
from tutorial_lib.cutting import comes_out
from tutorial_lib.errors import Fault, InputError, TutorialError
from tutorial_lib.facts import facts_of
from tutorial_lib.narration import Report, beside, check, read_captions
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.cue_cards import cue_cards
from tutorial_lib.publishing.cue_pages import cue_pages_source
from tutorial_lib.publishing.identity import version
from tutorial_lib.publishing.kit.contents import BOTH, GROUPS, Wanted
from tutorial_lib.publishing.kit.making import CONTENTS, NOT_MADE, folder_of, made, write_kit
from tutorial_lib.publishing.kit.sizes import sizes_wanted
from tutorial_lib.publishing.labels import labels_source
from tutorial_lib.publishing.plates.setting import source as plates_source
from tutorial_lib.publishing.sheet import sheet_source
from tutorial_lib.publishing.typeset import compile_pages
from tutorial_lib.workbook import current
from tutorial_lib.workbook.rows import classed, not_taken
from tutorial_lib.workbook.view import style, widgets

SMALL = {"page": 60.0, "plate": 24.0}  # [ppi] of a preview: letters of a page can be read, a plate is a third as large
MARGIN = "2px 0 2px 146px"  # [px] where the fields of all panels begin
LOOKS: tuple[tuple[str, str, int], ...] = (  # what to look at, its kind of picture, least width [px]
    ("Screen plates, wide", "plate", 300), ("Screen plates, tall", "plate", 170), ("Booklet", "page", 420),
    ("Labels", "page", 420), ("Cue cards", "page", 420),
)  # fmt: skip
SIZES, FOLDER, REPLACE = "Also for sizes", "Into the folder", "Replace a kit that is there"
WIDE, TALL, BOOKLET, LABELS, CUES = (name for name, _, _ in LOOKS)


class PublishPanel:
    """What the kit is made of, what it looks like, and the button that makes it."""

    def __init__(self) -> None:
        self.start = current.current()
        self.chosen = {name: True for name, _ in GROUPS}
        self.look = WIDE
        self.sizes = ""
        self.folder = str(current.own_folder() / f"{self.start.options.build.name}-kit")
        self.replace = False
        self.left_out = ""  # sizes that can't be built so, and why
        self._box: Any = None

    @cached_property
    def wanted(self) -> Wanted:
        """What the kit of the build in hand is made of, with the captions that belong to it."""
        options, creator = self.start.options, self.start.creator
        own = Plan(options)
        adapted = Adaptation(creator=own, yours=own) if options == creator else compare(creator, options)
        return Wanted(found=comparison(adapted, _report(adapted.creator)))

    def lines(self) -> list[str]:
        """What can be made, as text; why nothing can where a value of the build can't be used."""
        try:
            plan = self.wanted.plan
        except TutorialError as error:
            return [str(error)]
        talk = f"{len(self.wanted.chapters)} chapters" if self.wanted.chapters else "no captions, so no chapters"
        return [
            plan.options.build.title,
            *(name for name, _ in GROUPS),
            f"{len(self.wanted.plates)} screen plates, {talk}",
            *(plate.key for plate in self.wanted.plates),
        ]

    # Looking.

    def source(self) -> str:
        """What is looked at, as typst source."""
        wanted = self.wanted
        if self.look in (WIDE, TALL):
            return plates_source(wanted.plates, "wide" if self.look == WIDE else "tall")
        if self.look == BOOKLET:
            return sheet_source(wanted.plan, BOTH[0], wanted.found)
        if self.look == LABELS:
            return labels_source(wanted.plan, wanted.labels[BOTH[0]])
        build = wanted.plan.options.build
        return cue_pages_source(cue_cards(wanted.facts), build.title, version(wanted.plan.options))

    def pictures(self) -> list[tuple[bytes, str, str]]:
        """What is looked at as PNG, each with its words and what stands under it."""
        kind = next(kind for name, kind, _ in LOOKS if name == self.look)
        shots = compile_pages(self.source(), "png", SMALL[kind])
        if kind == "plate":
            return [(shot, plate.alt, plate.head) for shot, plate in zip(shots, self.wanted.plates, strict=True)]
        named = [f"{self.look}, page {n} of {len(shots)}" for n in range(1, len(shots) + 1)]
        return list(zip(shots, named, named, strict=True))

    def html(self) -> str:
        """The pictures in rows."""
        least = next(width for name, _, width in LOOKS if name == self.look)
        shown = "".join(_figure(*picture, plate=self.look in (WIDE, TALL)) for picture in self.pictures())
        grid = f"display:grid;gap:14px;grid-template-columns:repeat(auto-fill,minmax({least}px,1fr))"
        return f'<div style="{grid}">{shown}</div>'

    # Making.

    def make(self, told: Callable[[str, float], object] | None = None) -> Path:
        """Makes the kit and writes it; where.

        Args:
            told: what is being made, and how much is done.

        Raises:
            InputError: nothing is chosen, the folder is taken, a size is unknown, or the disk refuses.
        """
        sizes = sizes_wanted(self.sizes, self.start.creator, SIZES) if self.sizes.strip() else ()
        groups = [name for name, chosen in self.chosen.items() if chosen]
        if not groups and not sizes:
            raise InputError(Fault("Publish", "has nothing to make; tick what goes into the kit, or name a size."))
        folder = self._free()
        wanted = Wanted(found=self.wanted.found, labels=self.wanted.labels, sizes=sizes)
        listed = list(made(wanted, groups, told))
        self.left_out = "".join(file.data.decode() for file in listed if file.path == NOT_MADE)
        return write_kit(folder, folder_of(wanted, listed), force=self.replace)

    def _free(self) -> Path:
        """The folder for the kit: new, empty, or a kit that may be replaced."""
        if not self.folder.strip(" \"'"):
            raise InputError(Fault(FOLDER, "is empty; name the folder the kit goes into."))
        folder = current.typed_path(self.folder)
        files.make_folder(folder.parent)
        files.refuse_filling(folder, force=True)
        held = folder.is_dir() and any(folder.iterdir())
        if held and not (folder / CONTENTS).is_file():
            raise InputError(Fault(str(folder), "holds files and is no kit; name another folder."))
        if held and not self.replace:
            raise InputError(Fault(str(folder), f'holds a kit; tick "{REPLACE}", or name another folder.'))
        return folder

    # What it looks like.

    @property
    def widget(self) -> Any:
        """The widgets; made when first asked for."""
        if self._box is None:
            self._box = _Widgets(self).box
        return self._box

    def _repr_mimebundle_(self, include: Any = None, exclude: Any = None) -> Any:
        bundle = self.widget._repr_mimebundle_()
        data = dict(bundle[0] if isinstance(bundle, tuple) else bundle)
        data["text/plain"] = "\n".join(self.lines())
        return data


class _Widgets:
    """The panel's controls and what they do."""

    def __init__(self, panel: PublishPanel) -> None:
        w = widgets()
        self.panel = panel
        common = {"style": {"description_width": "140px"}, "layout": {"width": "640px", "max_width": "100%"}}
        narrow = {"width": "180px"}
        self.checks = {
            name: w.Checkbox(value=True, description=name, indent=False, layout=narrow) for name in panel.chosen
        }
        self.sizes = w.Text(description=SIZES, placeholder="none; all; or king, UK double", **common)
        self.folder = w.Text(description=FOLDER, value=panel.folder, **common)
        aside = {"margin": MARGIN, "width": "auto"}
        self.replace = w.Checkbox(description=REPLACE, indent=False, layout=aside)
        self.button = classed(w.Button(description="Make the kit"), "tw-main")
        self.bar = w.FloatProgress(max=1.0, layout={"width": "300px", "display": "none"})
        self.bar.tooltip = "How much is made"
        self.told, self.links, self.shown = w.HTML(), w.HTML(), w.HTML(layout={"width": "100%"})
        looks = [name for name, _, _ in LOOKS]
        self.look = w.Dropdown(options=looks, value=panel.look, description="Look at", **common)
        self.button.on_click(lambda _: self.make())
        self.look.observe(lambda event: self.turn(event["new"]), "value")
        checks = w.HBox(list(self.checks.values()), layout={"flex_flow": "row wrap", "margin": MARGIN})
        making = classed(w.HBox([self.button, self.bar, self.told], layout={"margin": MARGIN}), "tw-bar")
        title = classed(w.HTML(f"<b>Publish</b> <span>{escape(panel.start.options.build.title)}</span>"), "tw-title")
        head = classed(w.HBox([title]), "tw-head")
        looking = classed(w.HBox([self.look]), "tw-bar")
        rows = [style(), head, checks, self.sizes, self.folder, self.replace, making, self.links, looking, self.shown]
        self.box = classed(w.VBox(rows), "tw-panel")
        self.turn(panel.look)

    def turn(self, look: str) -> None:
        """Shows other pictures."""
        self.panel.look = look
        self.shown.value = "Being made ..."  # pages of a large bed take some seconds
        try:
            self.shown.value = self.panel.html()
        except TutorialError as error:
            self.shown.value = escape(str(error))

    def make(self) -> None:
        """Makes the kit while the bar tells how far it is; what can't be is told beside the button."""
        panel = self.panel
        panel.chosen = {name: check.value for name, check in self.checks.items()}
        panel.sizes, panel.folder, panel.replace = self.sizes.value, self.folder.value, self.replace.value
        self.button.disabled, self.bar.value, self.bar.layout.display = True, 0.0, ""
        self.told.value = self.links.value = ""
        try:
            folder = panel.make(self.progress)
        except TutorialError as error:
            self.told.value = _lines(not_taken(str(error)))
        else:
            left = f"\n<b>Not made:</b> {escape(panel.left_out)}" if panel.left_out else ""
            self.told.value = _lines(f"Written to {escape(str(folder))}{left}")
            self.links.value = links(folder)
        finally:
            self.button.disabled, self.bar.layout.display = False, "none"

    def progress(self, what: str, share: float) -> None:
        """Moves the bar."""
        self.bar.value, self.told.value = share, escape(what)


def _lines(words: str) -> str:
    """Words as they are broken into lines."""
    return f'<span style="white-space:pre-line">{words}</span>'


def links(folder: Path) -> str:
    """Links to what was written: its first page, then every file, folder by folder."""
    listed = sorted(path for path in folder.rglob("*") if path.is_file())
    groups: dict[str, list[Path]] = {}
    for path in listed:
        groups.setdefault(path.relative_to(folder).parent.as_posix(), []).append(path)
    first = f"<p><b>First page:</b> {_link(folder / 'index.html', 'index.html')}, in that folder</p>"
    rows = "".join(
        f"<details><summary>{escape(name if name != '.' else folder.name)}: {len(paths)} files</summary>"
        f"{', '.join(_link(path, path.name) for path in paths)}</details>"
        for name, paths in groups.items()
    )
    return first + rows


def _link(path: Path, words: str) -> str:
    """A link by the notebook server where it shows the place; else a name, as browsers lead from no page to a disk."""
    whole = path.absolute()
    if "voila" in os.environ.get("SERVER_SOFTWARE", "") or not whole.is_relative_to(current.CLONE):
        return escape(words)  # the page server shows no files at all
    address = f"/files/{quote(whole.relative_to(current.CLONE).as_posix())}"
    return f'<a href="{address}" target="_blank" rel="noopener">{escape(words)}</a>'


def _figure(data: bytes, words: str, under: str, plate: bool) -> str:
    ground = "background:#6b6259" if plate else "border:1px solid var(--rule)"
    shot = f"data:image/png;base64,{b64encode(data).decode('ascii')}"
    return (
        f'<figure style="margin:0"><img src="{shot}" alt="{escape(words)}" style="display:block;width:100%;{ground}">'
        f'<figcaption style="font-size:13px">{escape(under)}</figcaption></figure>'
    )


def _report(creator: Plan) -> Report | None:
    """The check of the captions that belong to the build; None without."""
    path = current.captions()
    if path is None:
        return None
    shipped = path.parent == current.CLONE / "assets" / "captions"
    kept = current.state_folder() / path.name if shipped else path  # answers on shipped captions are kept apart
    return check(read_captions(files.read_bytes(path), path.name), facts_of(creator), comes_out, beside(kept))
