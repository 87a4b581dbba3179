"""Notebook 06's panel: every number said on camera against the plan, and the person has the last word."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any

from tutorial_lib import files
from tutorial_lib.cutting import comes_out
from tutorial_lib.design.options import Options
from tutorial_lib.facts import Fact, Facts, facts_of
from tutorial_lib.narration import Item, Report, check, read_captions
from tutorial_lib.narration.verdicts import decisions
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import Block, Text
from tutorial_lib.publishing.pages import said as pages
from tutorial_lib.workbook import current
from tutorial_lib.workbook.controls import Control
from tutorial_lib.workbook.panel import Panel

SHIPPED = current.CLONE / "assets" / "captions"
NOTHING = ""


class SaidPanel(Panel):
    """Ledger by time, timeline, decisions: link a number to another fact, or dismiss it."""

    heading = "Said on camera"

    def __init__(self, options: Options | None = None, captions: str = "") -> None:
        self.seen: Report | None = None
        self.key: tuple[Any, ...] = ()
        self.controls = (  # type: ignore[misc]  # the captions depend on the build
            Control("captions", "Captions or script", "text", value=captions or shipped_captions()),
            Control(
                "show_", "Show", "choice", tuple((name, name) for name, _ in pages.FILTERS), value=pages.FILTERS[0][0]
            ),
            Control("number", "Number", "choice", (("none chosen", NOTHING),), value=NOTHING),
            Control("fact", "It speaks of", "choice", (("nothing in the plan", NOTHING),), value=NOTHING),
            Control("decide", "Keep this for the number", "button"),
            Control("undo", "Back to what the check says", "button"),
        )
        super().__init__(options)
        self._offer()

    # the check

    def path(self) -> Path:
        """The captions file; a name alone is looked for among the shipped ones too."""
        given = Path(self.own["captions"]).expanduser()
        return given if given.exists() or given.is_absolute() else SHIPPED / given

    def decisions_path(self) -> Path:
        """The decisions file: beside the captions, for the shipped ones in the person's own folder."""
        path = self.path()
        folder = current.state_folder() if path.parent == SHIPPED else path.parent
        return folder / decisions.file_name(path.name)

    def decided(self) -> decisions.Decisions:
        """The decisions kept so far."""
        path = self.decisions_path()
        return decisions.read(files.read_text(path), path.name) if path.exists() else {"decisions": []}

    def report(self, plan: Plan) -> Report:
        """The check of the talk against the plan, made again only when something changed."""
        kept = self.decided()
        key = (plan.options, self.own["captions"], decisions.dumps(kept))
        if self.seen is None or key != self.key:
            talk = read_captions(files.read_bytes(self.path()), self.path().name)
            self.plan_facts: Facts = facts_of(plan)
            self.seen, self.key = check(talk, self.plan_facts, comes_out, kept), key
        return self.seen

    def chosen(self) -> Item | None:
        """The number in hand."""
        if self.seen is None or not self.own["number"]:
            return None
        return next((i for i in self.seen.items if name_of(i) == self.own["number"]), None)

    # what happens

    def change(self, changes: Mapping[str, Any]) -> None:
        """Decides when a button was pressed, then redraws."""
        item = self.chosen()
        if "decide" in changes and item is not None:
            fact = self.own["fact"] or None
            self._keep(decisions.decide(self.decided(), item, fact, dismiss=fact is None))
        elif "undo" in changes and item is not None:
            self._keep(decisions.undo(self.decided(), item))
        super().change({k: v for k, v in changes.items() if k not in ("decide", "undo")})
        self._offer()
        self._refresh()

    def enabled(self, control: Control) -> bool:
        """Nothing to decide before a number is chosen."""
        return control.key not in ("fact", "decide", "undo") or self.chosen() is not None

    def _keep(self, kept: decisions.Decisions) -> None:
        path = self.decisions_path()
        path.parent.mkdir(parents=True, exist_ok=True)
        files.write_text(path, decisions.dumps(kept), force=True)

    def _offer(self) -> None:
        """Fills the choices of number and fact."""
        if self.seen is None or self.widget is None or self._view is None:
            return
        verdicts = dict(pages.FILTERS)[self.own["show_"]]
        names = [name_of(i) for i in self.seen.items if i.verdict in verdicts]
        facts = [(f.what or k, k) for k, f in self.plan_facts.items()]
        self._view.rows.quiet = True  # filling a list is no choice of the person's
        try:
            self._fill_list("number", [("none chosen", NOTHING), *((n, n) for n in names)])
            self._fill_list("fact", [("nothing in the plan", NOTHING), *facts])
        finally:
            self._view.rows.quiet = False

    def _fill_list(self, key: str, choices: list[tuple[str, str]]) -> None:
        """Puts choices into a list and keeps what was chosen, if it is still there."""
        made = self.control(key)
        if self.own[key] not in [value for _, value in choices]:
            self.own[key] = NOTHING
        if list(made.options) != choices:
            made.options = choices
        made.value = self.own[key]

    # what is shown

    def show(self, plan: Plan) -> Sequence[Block]:
        """Timeline, ledger, findings across the talk, corrections."""
        if not self.own["captions"]:
            return [Text("Give the path of your captions or draft script.")]
        report = self.report(plan)
        verdicts = dict(pages.FILTERS)[self.own["show_"]]
        return [
            *pages.overview(report),
            *pages.ledger(report, verdicts, self.chosen()),
            *pages.across(report),
            *pages.corrections_page(report),
        ]

    def facts(self, plan: Plan) -> Iterable[Fact]:
        """The facts the talk gets wrong."""
        if self.seen is None:
            return ()
        wrong = {i.subject for i in self.seen.conflicts}
        return [fact for key, fact in self.plan_facts.items() if key in wrong]

    def lines(self) -> list[str]:
        """The counts and every conflict, as text."""
        if self.seen is None:
            return [self.heading]
        counts = [f"{name}: {count}" for name, count in self.seen.counts.items()]
        return counts + [f"{i.time or i.place}  {i.quote}: {i.why}" for i in self.seen.conflicts]


class CueCardPanel(Panel):
    """What to say, to show and not to say, before filming."""

    heading = "Cue cards"

    def show(self, plan: Plan) -> Sequence[Block]:
        """The cards, chapter by chapter."""
        return pages.cards(facts_of(plan))


def name_of(item: Item) -> str:
    """A number as the list offers it."""
    return f"{item.time or f'line {item.place}'}  “{item.quote}” ({item.start})"


def shipped_captions() -> str:
    """The captions shipped for the build in hand, if there are any."""
    made = current.current()
    for stem in (made.name, made.creator.build.name, current.FIRST):
        found = sorted(SHIPPED.glob(f"{stem}.*"))
        if found:
            return found[0].name
    return ""
