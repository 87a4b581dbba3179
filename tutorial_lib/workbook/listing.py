"""A list of the plan as a table in a notebook: sorted and narrowed by two controls, taken along as CSV."""

from __future__ import annotations

import asyncio
from base64 import b64encode
from html import escape
from typing import Any

from tutorial_lib.errors import TutorialError
from tutorial_lib.lists import List, csv_text, list_of
from tutorial_lib.workbook.frames import frame, table_html
from tutorial_lib.workbook.panel import Panel
from tutorial_lib.workbook.resting import BEHIND, REST, Waiting
from tutorial_lib.workbook.rows import not_taken
from tutorial_lib.workbook.view import style, widgets

AS_LISTED = "as listed"


class Listing:
    """One list of a panel's plan; it follows the panel.

    Args:
        name: the list's name, "facts", "cuts" ... (:data:`tutorial_lib.lists.NAMES`).
        panel: whose plan it lists.
    """

    def __init__(self, name: str, panel: Panel) -> None:
        self.name, self.panel = name, panel
        self.sort, self.contains = AS_LISTED, ""
        self._box: Any = None
        self._following = Waiting()
        panel.followers.append(self.follow)

    @property
    def list(self) -> List:
        """The rows as they are now."""
        return list_of(self.panel.plan, self.name)

    def html(self) -> str:
        """The table as it is shown."""
        return table_html(self.list, "" if self.sort == AS_LISTED else self.sort, self.contains)

    def refused(self) -> str:
        """Why there is no list: a value of the build that can't be used; empty where there is one."""
        try:
            _ = self.list
        except TutorialError as error:
            return str(error)
        return ""

    def follow(self) -> None:
        """Lists anew after a rest without moves, and says until then that it is behind; told by the panel."""
        if self._box is not None:
            self._following.begin(self._catch_up, self.refresh)

    async def _catch_up(self) -> None:
        self._file.value = BEHIND
        await asyncio.sleep(REST)
        self.refresh()

    def refresh(self) -> None:
        """Lists anew."""
        if self._box is None:
            return
        refused = self.refused()
        if refused:
            self._table.value, self._file.value = not_taken(refused), ""
            return
        found = self.list
        data = b64encode(csv_text(found).encode()).decode()
        self._table.value = self.html()
        self._file.value = (f'<a download="{escape(self.name)}.csv" href="data:text/csv;charset=utf-8;base64,{data}">'
                            f"{escape(self.name)}.csv</a>")  # fmt: skip

    @property
    def widget(self) -> Any:
        """The controls and the table; made when first asked for."""
        if self._box is None:
            w = widgets()
            heads = [AS_LISTED] if self.refused() else [AS_LISTED, *self.list.heads]
            by = w.Dropdown(options=heads, description="Sort by", layout={"width": "300px"})
            only = w.Text(description="Only with", placeholder="words", layout={"width": "260px"})
            by.observe(lambda event: self._set(sort=event["new"]), "value")
            only.observe(lambda event: self._set(contains=event["new"]), "value")
            self._table, self._file = w.HTML(), w.HTML()
            bar = w.HBox([by, only, self._file])
            bar.add_class("tw-bar")
            self._box = w.VBox([style(), bar, self._table])
            self._box.add_class("tw-panel")
            self.refresh()
        return self._box

    def _set(self, **changed: str) -> None:
        self.sort, self.contains = changed.get("sort", self.sort), changed.get("contains", self.contains)
        self.refresh()

    def _repr_mimebundle_(self, include: Any = None, exclude: Any = None) -> Any:
        bundle = self.widget._repr_mimebundle_()
        data = dict(bundle[0] if isinstance(bundle, tuple) else bundle)
        data["text/plain"] = self.refused() or frame(self.list).to_string(index=False)
        return data
