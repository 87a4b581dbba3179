"""Boards at hand as a list: one kind a row, rows added and removed."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from tutorial_lib.adapting.own_boards import MOST
from tutorial_lib.records import dataclass

NARROW, HALF = "120px", "188px"


@dataclass(frozen=True)
class AtHand:
    """One row as a person fills it in."""

    count: int = 1
    section: str = ""
    length: str = ""
    actual: str = ""  # thickness x width as measured; empty: as the table has it

    @property
    def text(self) -> str:
        """The row as one says it: "10 of 2x4, 92 1/2 in, actual 1 1/2 x 3 7/16"."""
        said = f"{self.count} of {self.section.strip()}, {self.length.strip()}"
        return f"{said}, actual {self.actual.strip()}" if self.actual.strip() else said

    @property
    def whole(self) -> bool:
        """True once there is enough to read."""
        return bool(self.section.strip() and self.length.strip())


class BoardList:
    """The rows as widgets.

    Args:
        w: the ipywidgets module, imported by the view alone.
        sections: lumber offered by name.
        act: told the rows when a person changes one that is filled in.
    """

    def __init__(self, w: Any, sections: Sequence[str], act: Callable[[tuple[AtHand, ...]], None]) -> None:
        self.w, self.sections, self.act = w, tuple(sections), act
        self.rows: list[_Row] = []
        self.inside = w.VBox()
        self.add_button = w.Button(description="Add boards I have", layout={"width": "auto"})
        self.add_button.on_click(lambda _: self.add(AtHand()))
        self.box = w.VBox([self.inside, self.add_button])

    @property
    def value(self) -> tuple[AtHand, ...]:
        """Every row that is filled in."""
        return tuple(row.value for row in self.rows if row.value.whole)

    @value.setter
    def value(self, boards: Sequence[AtHand]) -> None:
        self.rows = []
        for one in boards:
            self.add(one)
        self._lay()

    def add(self, board: AtHand) -> None:
        """One more row."""
        self.rows.append(_Row(self, board))
        self._lay()

    def remove(self, row: _Row) -> None:
        """A row less, and what follows from it."""
        self.rows.remove(row)
        self._lay()
        self.moved(row)

    def moved(self, row: _Row) -> None:
        """A person has changed a row; one that is still being filled in changes nothing yet."""
        if row.value.whole or row not in self.rows:
            self.act(self.value)

    def _lay(self) -> None:
        self.inside.children = tuple(row.box for row in self.rows)


class _Row:
    """One kind of boards: how many, of what, how long, as measured."""

    def __init__(self, owner: BoardList, board: AtHand) -> None:
        w = owner.w
        self.count = w.BoundedIntText(description="I have", value=board.count, min=1, max=MOST,
                                      **_small(NARROW, "48px"))  # fmt: skip
        self.section = w.Combobox(description="of", value=board.section, options=owner.sections, ensure_option=False,
                                  continuous_update=False, placeholder="2x4", **_small(NARROW, "22px"))  # fmt: skip
        self.length = w.Text(description="long", value=board.length, continuous_update=False, placeholder="92 1/2 in",
                             **_small(HALF, "48px"))  # fmt: skip
        self.actual = w.Text(description="actual", value=board.actual, continuous_update=False,
                             placeholder="1 1/2 x 3 7/16", **_small(HALF, "48px"))  # fmt: skip
        for field in (self.count, self.section, self.length, self.actual):
            field.observe(lambda _: owner.moved(self), "value")
        gone = w.Button(description="Remove", layout={"width": "auto"})
        gone.on_click(lambda _: owner.remove(self))
        self.box = w.VBox([w.HBox([self.count, self.section, gone]), w.HBox([self.length, self.actual])])

    @property
    def value(self) -> AtHand:
        """The row as it is filled in."""
        return AtHand(self.count.value, self.section.value, self.length.value, self.actual.value)


def _small(width: str, label: str) -> dict[str, Any]:
    return {"style": {"description_width": label}, "layout": {"width": width}}
