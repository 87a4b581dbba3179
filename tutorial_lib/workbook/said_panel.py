"""Notebook 06's panel: the numbers said on camera as a list to work through, answered one after another."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from tutorial_lib import files
from tutorial_lib.cutting import comes_out
from tutorial_lib.design.options import Options
from tutorial_lib.errors import Fault
from tutorial_lib.facts import Fact, Facts, facts_of
from tutorial_lib.narration import Answer, Item, Report, check, read_captions
from tutorial_lib.narration.verdicts import answers, asking
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.blocks import Block, Note, Text
from tutorial_lib.publishing.check_list import headline, if_it_speaks_of, meaning
from tutorial_lib.publishing.said_files import write_said_files
from tutorial_lib.publishing.topics import said as pages
from tutorial_lib.workbook import current
from tutorial_lib.workbook.controls import Control
from tutorial_lib.workbook.panel import Panel

SHIPPED = current.CLONE / "assets" / "captions"
NOTHING = ""
NONE_LEFT, CHOOSE = (("none left to settle", NOTHING),), (("choose", NOTHING),)
ANSWERS = ("part", "slip", "elsewhere")
BUTTONS = (*ANSWERS, "leave", "undo", "write")


class SaidPanel(Panel):
    """The list; one doubtful number in hand, with the facts it may speak of, best first, and what each would mean."""

    heading = "Said on camera"

    def __init__(self, options: Options | None = None, captions: str = "") -> None:
        self.seen: Report | None = None
        self.key: tuple[Any, ...] = ()
        self.told = ""  # what the last button did
        self.handed = False  # the captions in hand came as a file, not as a path
        self.history: list[tuple[Answer, ...]] = []
        self.controls = (  # type: ignore[misc]  # the captions depend on the build
            Control(key="captions", label="Captions or script", kind="text", value=captions or chosen_captions()),
            Control(key="upload", label="or hand a file in", kind="upload"),
            Control(key="number", label="Number", kind="choice", choices=NONE_LEFT, value=NOTHING),
            Control(
                key="search", label="Search the plan", kind="text", value="", empty="a word, for facts not in the list"
            ),
            Control(key="fact", label="It speaks of", kind="choice", choices=CHOOSE, value=NOTHING),
            Control(key="part", label="It speaks of that", kind="button", letter="T"),
            Control(key="slip", label="A slip about that", kind="button", letter="S"),
            Control(key="elsewhere", label="Not about this bed", kind="button", letter="N"),
            Control(key="leave", label="Leave it, next", kind="button", letter="L"),
            Control(key="undo", label="Undo the last answer", kind="button", letter="U"),
            Control(
                key="show_",
                label="Show also",
                kind="choice",
                choices=tuple((n, n) for n, _ in pages.LISTS),
                value=pages.LISTS[0][0],
            ),
            Control(key="write", label="Write all as files", kind="button"),
        )
        super().__init__(options)
        self._next()
        self._offer()

    # the check

    def path(self) -> Path:
        """The captions file; a name alone is looked for among the shipped ones too."""
        typed = str(self.own["captions"])
        shipped = SHIPPED / typed
        return shipped if typed and shipped.is_file() else current.typed_path(typed)

    def beside(self) -> Path:
        """Where answers and written files go: beside the captions, for the shipped ones in the person's own folder."""
        path = self.path()
        return current.state_folder() / path.name if path.parent == SHIPPED else path

    def answered(self) -> tuple[Answer, ...]:
        """The answers kept so far."""
        return answers.beside(self.beside())

    def report(self, plan: Plan) -> Report:
        """The check of the talk against the plan, made again only when something changed."""
        kept, said = self.answered(), files.read_bytes(self.path())  # a file of the same name may say something else
        key = (plan.options, self.own["captions"], said, kept)
        if self.seen is None or key != self.key:
            talk = read_captions(said, self.path().name)
            self.plan_facts: Facts = facts_of(plan)
            self.seen, self.key = check(talk, self.plan_facts, comes_out, kept), key
        return self.seen

    def open_items(self) -> list[Item]:
        """What is still to be settled, in spoken order: doubtful numbers, and slips nobody has answered."""
        if self.seen is None:
            return []
        return [i for i in self.seen.with_verdict("unsure", "conflicts") if not i.answered]

    def chosen(self) -> Item | None:
        """The number in hand."""
        return next((i for i in self.open_items() if name_of(i) == self.own["number"]), None)

    # what happens

    def change(self, changes: Mapping[str, Any]) -> None:
        """Answers when a button was pressed, goes to the next number, then redraws."""
        self.told, self.handed = "", bool(changes.get("upload"))
        for pressed in [key for key in changes if key in BUTTONS][:1]:
            self._press(pressed)
        if self.handed:
            changes = {"captions": str(self._handed_in(*changes["upload"]))}
        if "number" in changes:
            self.own |= {"fact": NOTHING, "search": ""}
        super().change({k: v for k, v in changes.items() if k not in BUTTONS})
        if "captions" in changes:
            self._remember()
        if self.chosen() is None:
            self._next()
        self._offer()
        self._refresh()

    def place_of(self, fault: Fault, keys: list[str]) -> str:
        """What is wrong with a file handed in is told beside the button that took it."""
        return "upload" if self.handed else super().place_of(fault, keys)

    def _remember(self) -> None:
        """Keeps which captions were opened, where they can be read and are the person's own."""
        if not self.errors and self.path().parent != SHIPPED:
            current.remember_captions(self.path())

    def _handed_in(self, name: str, data: bytes) -> Path:
        """Keeps captions handed in through the browser in the person's own folder; where."""
        path = current.state_folder() / Path(name).name
        path.parent.mkdir(parents=True, exist_ok=True)
        files.write_bytes(path, data, force=True)
        return path

    def _press(self, button: str) -> None:
        item = self.chosen()
        if button == "undo" and self.history:
            self._keep(self.history.pop())
        elif button == "write":
            self._write()
        elif button == "leave" and item is not None:
            self._next(after=item)
        elif button in ANSWERS and item is not None:
            self._answer(button, item)

    def _answer(self, button: str, item: Item) -> None:
        fact = str(self.own["fact"]) or None
        if button != "elsewhere" and fact is None:
            self.told = "Choose first what it speaks of."
            return
        given = answers.of(item, "elsewhere") if button == "elsewhere" else answers.of(item, button, fact)  # type: ignore[arg-type]
        self.history.append(self.answered())
        self._keep(answers.with_answer(self.answered(), item, given))
        self._next(after=item)

    def _next(self, after: Item | None = None) -> None:
        """Takes the next open number in hand, the first again after the last."""
        left = [i for i in self.open_items() if i is not after]
        later = [i for i in left if after is None or i.start > after.start] or left
        self.own |= {"number": name_of(later[0]) if later else NOTHING, "fact": NOTHING, "search": ""}

    def _keep(self, kept: Sequence[Answer]) -> None:
        path = Path(answers.file_name(str(self.beside())))
        path.parent.mkdir(parents=True, exist_ok=True)
        files.write_text(path, answers.dumps(kept), force=True)

    def _write(self) -> None:
        if self.seen is not None:
            folder = self.beside().parent
            folder.mkdir(parents=True, exist_ok=True)
            made = write_said_files(folder, self.seen, self.plan_facts, force=True)
            self.told = f"Written to {folder}: " + ", ".join(path.name for path in made)

    def enabled(self, control: Control) -> bool:
        """Nothing to go through before there are captions, nothing to answer before a number is chosen."""
        if self.seen is None:
            return control.key in ("captions", "upload")
        if control.key == "undo":
            return bool(self.history)
        return control.key not in ("fact", "search", "leave", *ANSWERS) or self.chosen() is not None

    def facts_to_choose(self) -> list[tuple[str, str]]:
        """The facts offered for the number in hand: those it may speak of, then what the search finds."""
        item = self.chosen()
        if item is None or self.seen is None:
            return []
        units = self.seen.units
        likely = [(meaning(c, units), c.subject) for c in item.choices]
        if item.subject:
            likely = [(if_it_speaks_of(item, self.plan_facts[item.subject], units), item.subject)]
        searched = asking.found(self.plan_facts, str(self.own["search"] or ""), item.unit)
        more = [(if_it_speaks_of(item, self.plan_facts[k], units), k) for k in searched]
        return [*more, *likely] if searched else likely

    def _offer(self) -> None:
        """Fills the choices of number and fact; the likeliest fact is chosen already."""
        if self.seen is None:
            return
        numbers = tuple((words_of(item), name_of(item)) for item in self.open_items()) or NONE_LEFT
        facts = tuple(self.facts_to_choose()) or CHOOSE
        lists = {"number": numbers, "fact": facts}
        for key, choices in lists.items():
            if self.own[key] not in [value for _, value in choices]:
                self.own[key] = choices[0][1]
        self.controls = tuple(  # type: ignore[misc]  # the talk's
            replace(control, choices=lists.get(control.key, control.choices)) for control in self.controls
        )

    # what is shown

    def show(self, plan: Plan) -> Sequence[Block]:
        """The first line, the timeline, what to correct and to look at, the corrections."""
        if not self.own["captions"]:
            return [Text("Give the path of your captions or draft script.")]
        report = self.report(plan)
        first, *others = pages.overview(report)
        return [
            first,
            *([Note(self.told)] if self.told else []),  # in sight of the button
            *others,
            *pages.work_list(report, self.chosen()),
            *pages.across(report),
            *pages.corrections_page(report),
            *pages.folded(report, dict(pages.LISTS)[self.own["show_"]]),
        ]

    def facts(self, plan: Plan) -> Iterable[Fact]:
        """The facts the talk gets wrong."""
        if self.seen is None:
            return ()
        wrong = {i.subject for i in self.seen.conflicts}
        return [fact for key, fact in self.plan_facts.items() if key in wrong]

    def lines(self) -> list[str]:
        """The first line, every slip and every doubtful number, as text."""
        if self.seen is None:
            return [self.heading]
        told = [f"{i.where}  {i.quote}: {i.why}" for i in (*self.seen.conflicts, *self.seen.doubtful)]
        return [headline(self.seen), *told]


class CueCardPanel(Panel):
    """What to say, to show and not to say, before filming."""

    heading = "Cue cards"

    def show(self, plan: Plan) -> Sequence[Block]:
        """The cards, chapter by chapter."""
        return pages.cards(facts_of(plan))


def name_of(item: Item) -> str:
    """A number by a name of its own."""
    return f"{words_of(item)} ({item.start})"


def words_of(item: Item) -> str:
    """A number as the list offers it."""
    mark = "look at" if item.verdict == "unsure" else "wrong"
    return f"{item.where}  {mark}: “{item.quote}”"


def chosen_captions() -> str:
    """The captions remembered with the build in hand or named by it, else those shipped for it."""
    kept = current.captions()
    if kept is None:
        return shipped_captions()
    return kept.name if kept.parent == SHIPPED.resolve() else str(kept)


def shipped_captions() -> str:
    """The captions shipped for the build in hand, if there are any."""
    made = current.current()
    for stem in (made.name, made.creator.build.name):
        found = sorted(SHIPPED.glob(f"{stem}.*"))
        if found:
            return found[0].name
    return ""
