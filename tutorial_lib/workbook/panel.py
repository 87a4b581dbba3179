"""The base of all notebook panels.

A panel says which controls it has, what to show for a plan and which facts it speaks of::

    class SlatPanel(Panel):
        controls = (Control("slats.gap", "Gap at most", "length", high=Fraction(4)),)

        def show(self, plan: Plan) -> list[Block]:
            return [Picture(slat_plan(plan.build))]

        def facts(self, plan: Plan) -> Iterable[Fact]:
            return slats.facts(plan)

In a notebook ``SlatPanel()`` as a cell's last line shows it, with the facts as text beside the widgets.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any, ClassVar

from tutorial_lib.design.build_file import change
from tutorial_lib.design.options import Options
from tutorial_lib.errors import Fault, InputError, TutorialError, shortened
from tutorial_lib.facts.fact import Fact
from tutorial_lib.facts.figures import line, write_value
from tutorial_lib.findings import Finding
from tutorial_lib.measures import Units
from tutorial_lib.plan import Plan
from tutorial_lib.publishing.html import html
from tutorial_lib.workbook import current
from tutorial_lib.workbook.controls import Control
from tutorial_lib.workbook.sections import Result, Shown, arrange, flat
from tutorial_lib.workbook.view import View


class Panel(ABC):
    """Controls, live drawing, facts; a bad value explains itself and keeps the last good drawing."""

    controls: ClassVar[tuple[Control, ...]] = ()
    saves: ClassVar[bool] = False  # offer "save as my build" and "back to the creator's"
    heading: ClassVar[str] = ""
    results: ClassVar[tuple[Result, ...]] = ()  # figures of the line under the drawing

    def __init__(self, options: Options | None = None, follows: Panel | None = None) -> None:
        given = current.Current(options=options, creator=options, name=options.build.name) if options else None
        leader = self.leader = follows
        self.start: current.Current = leader.start if leader else given or current.current()
        self.options: Options = leader.options if leader else self.start.options
        self.own: dict[str, Any] = {}
        self.errors: dict[str, str] = {}
        self.changed: frozenset[str] = frozenset()
        self.before: dict[str, Fact] = {}  # the facts before the last change
        self.plan: Plan = leader.plan if leader else Plan(self.options)
        self._view: View | None = None
        self.followers: list[Callable[[], None]] = []  # told after every change
        if leader:
            leader.followers.append(self.follow)
        self._opened: tuple[Options, dict[str, Fact]] | None = None
        self.blocks: list[Shown] = []
        self.stated: dict[str, Fact] = {}
        try:
            self._fit()
            self.blocks = list(self.show(self.plan))
            self.stated = {fact.key: fact for fact in self.facts(self.plan)}
        except TutorialError as error:  # a value of the build file that this chapter can't work with
            self._refuse(error, [control.key for control in self.controls])

    # what a panel says of itself

    @abstractmethod
    def show(self, plan: Plan) -> Sequence[Shown]:
        """What is drawn and told for a plan."""

    def facts(self, plan: Plan) -> Iterable[Fact]:
        """The facts the panel speaks of."""
        return ()

    def remarks(self, plan: Plan) -> Sequence[Finding]:
        """The findings told under the drawing; worked out after it."""
        return arrange(self.blocks).findings

    def ahead(self, plan: Plan) -> Iterable[object]:
        """Works out, in parts, what the remarks need; most panels need nothing that takes long."""
        return ()

    def figures(self, plan: Plan) -> dict[str, Fact]:
        """The facts of the result line, by key; worked out after the drawing."""
        return self.stated if plan is self.plan else {fact.key: fact for fact in self.facts(plan)}

    def before_figures(self) -> dict[str, Fact]:
        """The same for the build as it was opened."""
        if self._opened is None or self._opened[0] != self.start.options:
            self._opened = (self.start.options, self.figures(Plan(self.start.options)))
        return self._opened[1]

    @property
    def units(self) -> Units:
        """ "in" or "mm", as the build file says."""
        return self.options.build.units

    def enabled(self, control: Control) -> bool:
        """False for a control that means nothing with the present options; it is not shown then."""
        return control.when is None or control.when(self.options)

    def offered(self) -> tuple[Control, ...]:
        """The controls for the plan in hand, where they depend on it."""
        return self.controls

    def _fit(self) -> None:
        """The controls of this plan; values of the panel's own stay where they can."""
        before = self.controls
        self.controls = self.offered()  # type: ignore[misc]  # a class's controls are its own
        new = [c for c in self.controls if not c.bound and (c not in before or c.key not in self.own)]
        self.own |= {c.key: _kept(c, self.own) for c in new}

    # what happens when a control moves

    def set(self, key: str, value: Any) -> None:
        """Changes one option (as the build file states it) or one of the panel's own values, and redraws."""
        self.change({key: value})

    def change(self, changes: Mapping[str, Any]) -> None:
        """Changes several at once; on a fault the last good plan stays and the fault is told beside its control."""
        bound = {key: value for key, value in changes.items() if "." in key}
        own = dict(self.own)
        try:
            self.own |= {key: value for key, value in changes.items() if "." not in key}
            options = change(self.options, bound) if bound else self.options
            plan = Plan(options) if bound else self.plan
            if bound and self.leader is not None:
                self.leader.take(options, plan)
            self.take(options, plan)
        except TutorialError as error:
            self.own = own
            self._refuse(error, list(changes))

    def take(self, options: Options, plan: Plan) -> None:
        """Shows another bed; on a fault all stays as it was.

        Raises:
            TutorialError: it can't be worked out.
        """
        kept = self.options, self.plan, self.controls, self.own
        self.options, self.plan = options, plan
        try:
            self._fit()
            blocks, stated = list(self.show(plan)), {fact.key: fact for fact in self.facts(plan)}
        except TutorialError:
            self.options, self.plan, self.controls, self.own = kept  # type: ignore[misc]
            raise
        before, self.errors = self.stated, {}
        self.blocks, self.stated, self.before = blocks, stated, before
        self.changed = frozenset(k for k, f in stated.items() if k not in before or before[k].value != f.value)
        self._refresh()

    def prepare(self, plan: Plan) -> None:  # noqa: B027  most panels show at once
        """Works out what takes long in showing a plan; called beside the redraws."""

    def follow(self) -> None:
        """Shows what the panel it follows shows; marked as not yet so until a moment after the last move."""
        assert self.leader is not None
        if self._view is None:
            self._catch_up()
        elif self.leader.plan is not self.plan:
            self._view.catch_up(self.leader.plan, self._catch_up)

    def _catch_up(self) -> None:
        leader = self.leader
        assert leader is not None
        self.start = leader.start
        if leader.plan is self.plan:
            return
        try:
            self.take(leader.options, leader.plan)
        except TutorialError as error:
            self._refuse(error, [])

    def reset(self) -> None:
        """Back to the creator's build, in this panel and for all notebooks."""
        if self.start.options != self.start.creator:
            self.start = current.reset()
        self._take(self.start.creator)

    def save(self, name: str) -> Path:
        """Saves the build: back to its own file under its own name, else under a new one; where it was written.

        All notebooks then work on it.
        """
        if name == self.start.name and self.start.own:  # a file's name may be any, whatever the build calls itself
            path = current.save(self.start, self.options)
        else:
            path = current.save_as(name, change(self.options, {"build.name": name}), self.start.creator)
        self._reopen()
        return path

    def undo_save(self) -> Path:
        """Takes the last saving back."""
        path = current.undo_save(self.start)
        self._reopen()
        return path

    def revert(self) -> None:
        """Back to what the build's file says."""
        self._reopen()

    def _reopen(self) -> None:
        self.start = current.current()
        self._take(self.start.options)

    def _take(self, options: Options) -> None:
        """Another build as a whole: from a file, or the creator's."""
        self.take(options, Plan(options))

    def told_at(self, key: str) -> str:
        """The control beside which a fault of a key is told; empty for one without a control."""
        return key if any(control.key == key for control in self.controls) else ""

    def _refuse(self, error: TutorialError, keys: list[str]) -> None:
        faults = error.faults if isinstance(error, InputError) else (Fault("", str(error)),)
        self.errors = {}
        for fault in faults:
            place = self.place_of(fault, keys)
            elsewhere = fault.what != fault.beside and (not place or place not in fault.where)
            told = str(fault) if elsewhere else shortened(fault.beside)  # another choice's value needs its key
            self.errors[place] = " ".join(filter(None, (self.errors.get(place), told)))
        self._refresh()

    def place_of(self, fault: Fault, keys: list[str]) -> str:
        """The control beside which a fault of a change of these keys is told; empty for none of them."""
        return self.told_at(next((k for k in keys if k and k in fault.where), keys[0] if len(keys) == 1 else ""))

    def _refresh(self) -> None:
        if self._view is not None:
            self._view.refresh()
        for told in self.followers:
            told()

    # what it looks like

    def lines(self) -> list[str]:
        """The facts as lines of text: what nbval compares and a screen reader reads."""
        return [line(fact, self.options.build.units) for fact in self.stated.values()]

    def change_lines(self) -> list[str]:
        """What changed, before and after: "slats: 14 → 15"."""
        units = self.options.build.units
        out = []
        for key in self.stated:
            if key in self.changed:
                fact, old = self.stated[key], self.before.get(key)
                if isinstance(fact.value, tuple):  # too long for a line; the drawing shows them
                    out.append(f"{fact.what}: as drawn")
                    continue
                was = f"{write_value(old, units)} → " if old else ""
                out.append(f"{fact.what}: {was}{write_value(fact, units)}")
        return out

    def html(self) -> str:
        """The blocks as HTML."""
        return html(flat(self.blocks))

    @property
    def widget(self) -> Any:
        """The ipywidgets box; made when first asked for."""
        if self._view is None:
            self._view = View(self)
        return self._view.box

    def control(self, key: str) -> Any:
        """The widget a person moves for a key."""
        _ = self.widget
        assert self._view is not None
        return self._view.inputs[key]

    def _repr_mimebundle_(self, include: Any = None, exclude: Any = None) -> Any:
        bundle = self.widget._repr_mimebundle_()
        data = dict(bundle[0] if isinstance(bundle, tuple) else bundle)
        data["text/plain"] = "\n".join(self.lines()) or self.heading
        return data


def _kept(control: Control, own: Mapping[str, Any]) -> Any:
    """The value a control has, or its first one where it has none yet or no longer."""
    value = own.get(control.key, control.value)
    if control.kind == "count" and value is not None:
        return min(value, int(control.high))
    gone = control.kind == "choice" and value not in [offered for _, offered in control.choices]
    return control.value if gone else value
