"""What answers in the browser: a viewer's choices in, the sections of their page out, the drawing first."""

from __future__ import annotations

import base64
import binascii
import json
import zlib
from collections.abc import Callable, Iterator, Mapping
from typing import Any

from tutorial_lib.adapting import Comparison, comparison
from tutorial_lib.adapting.asked import wanted
from tutorial_lib.adapting.search import telling
from tutorial_lib.adapting.viewer import Asked, as_build, changes_of, viewers_bed
from tutorial_lib.design.build_file import read_build, to_toml
from tutorial_lib.design.options import Options, YoursOptions
from tutorial_lib.drawing.gltf import gltf
from tutorial_lib.drawing.lettering import typographic
from tutorial_lib.errors import InputError, TutorialError
from tutorial_lib.plan import plan
from tutorial_lib.publishing.identity import version
from tutorial_lib.site import page
from tutorial_lib.site.form import Choices, faults, form, shown_keys
from tutorial_lib.site.heard import unpacked

LONGEST_LINK = 60_000  # characters of a packed build file, and bytes of one unpacked: far more than any bed has


class Live:
    """One viewer's page.

    Args:
        creator: the creator's build file.
        heard: what the video says, packed; empty where no captions were given.
        tried: called for each bed that is looked at on the way to the viewer's, so that who waits sees it go on.
    """

    def __init__(self, creator: str, heard: str, tried: Callable[[], object] = lambda: None) -> None:
        self._tried = tried
        self.creator: Options = read_build(creator, "creator.toml").bed
        self.report = unpacked(heard)
        self.choices = Choices()
        self.found: Comparison | None = None
        self._parts: Iterator[Mapping[str, Any]] = iter(())

    def form(self) -> str:
        """The form as HTML, the choices it holds and its controls that mean something in the creator's bed, as JSON."""
        told = {"form": form(self.creator), "choices": self.choices.as_json(), "keys": shown_keys(self.creator)}
        return json.dumps(told)

    def ask(self, choices: str, drawing: bool = True) -> str:
        """Takes choices as JSON; as JSON what can be shown at once, or why they can't be used. ``next`` gives more.

        Args:
            drawing: whether to draw; a page with a worker for the drawing has it from there.
        """
        self._parts, self.found, given = iter(()), None, json.loads(choices)
        try:
            self.choices = Choices.read(given)
            asked = self.choices.asked(self.creator)
            self._parts = self._rest(asked)
            return json.dumps({"regions": self._quick(asked) if drawing else {}, "faults": {}})
        except TutorialError as error:
            return json.dumps({"regions": {}, "faults": faults(error, given)})

    def warm(self) -> None:
        """Draws beds that nobody sees: what a browser's Python does first takes three times as long."""
        for name in ("queen", "full", "king"):
            self.ask(json.dumps({"mattress": name}))
        self.ask("{}")

    def next(self) -> str:
        """The next part as JSON; empty when all is told."""
        try:
            part = next(self._parts, None)
        except TutorialError as error:
            self._parts = iter(())
            return json.dumps({"regions": {}, "faults": faults(error, self.choices.as_json()), "whole": True})
        return "" if part is None else json.dumps(part)

    def _quick(self, asked: Asked) -> Mapping[str, str]:
        """The bed as asked for, before the rules and the strength check have had their say."""
        try:
            options = wanted(self.creator, asked.mattress, changes_of(asked.changes)).options
            return page.first(plan(options))
        except InputError:
            return {}  # as it stands it can't exist; the search below may find what must change

    def _rest(self, asked: Asked) -> Iterator[Mapping[str, Any]]:
        with telling(self._tried):
            adapted = viewers_bed(self.creator, asked)
        self.found = comparison(adapted, self.report)
        yours = adapted.yours
        yield {
            "regions": page.first(yours), "title": typographic(page.title(yours)), "version": version(yours.options),
            "keys": shown_keys(yours.options),
        }  # fmt: skip
        for name, made in page.sections(self.found).items():
            yield {"regions": {name: made()}}
        yield {"regions": {}, "whole": True, "space": gltf(yours.build)}

    def _answer(self) -> Comparison:
        """The bed of the choices; the creator's own before anybody chose."""
        if self.found is None:
            self.found = comparison(viewers_bed(self.creator, self.choices.asked(self.creator)), self.report)
        return self.found

    # --- a bed kept, sent and read back -----------------------------------------------------------

    def build_file(self) -> str:
        """The viewer's build file, with the creator's in it; every command and notebook takes it."""
        asked = self.choices.asked(self.creator).as_options()
        return to_toml(as_build(self._answer().adaptation, self.creator, asked))

    def file_name(self) -> str:
        """A name for it."""
        return f"{self.creator.build.name}-mine.toml"

    def read(self, text: str) -> str:
        """Takes up a viewer's build file; the fault if it can't be used, empty otherwise."""
        try:
            options = read_build(text, "the build file")
        except TutorialError as error:
            return str(error)
        if options.origin is None or options.origin.build.name != self.creator.build.name:
            return f"This is no build file of a viewer's from {self.creator.build.title}."
        self.choices = Choices.of(options.yours)
        return ""

    def link(self) -> str:
        """The viewer's choices packed for behind the # of the page's address."""
        asked: YoursOptions = self.choices.asked(self.creator).as_options()
        if not self.choices:
            return ""
        mine = self.creator.model_copy(update={"origin": self.creator, "yours": asked})
        packed = zlib.compress(to_toml(mine).encode(), 9)
        return base64.urlsafe_b64encode(packed).decode().rstrip("=")

    def from_link(self, text: str) -> str:
        """Takes up a packed build file; the fault if it is none."""
        try:
            if len(text) > LONGEST_LINK:
                raise ValueError
            packed = base64.urlsafe_b64decode(text + "=" * (-len(text) % 4))
            unpacking = zlib.decompressobj()
            told = unpacking.decompress(packed, LONGEST_LINK)
            if unpacking.unconsumed_tail or not unpacking.eof:
                raise ValueError
            return self.read(told.decode())
        except (ValueError, binascii.Error, zlib.error):
            return "The link to this bed is damaged; the page shows the creator's."

    def sheet(self, paper: str) -> str:
        """The booklet as typst source."""
        from tutorial_lib.publishing.sheet import sheet_source

        found = self._answer()
        return sheet_source(found.adaptation.yours, "a4" if paper == "a4" else "letter", found)

    def sheet_name(self) -> str:
        """A name for the PDF."""
        return f"{self._answer().adaptation.yours.options.build.name}-sheet.pdf"
