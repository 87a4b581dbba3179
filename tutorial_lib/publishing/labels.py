"""Labels for the pieces, on sheets of labels of a stated size: letter, name, length, and which end is which."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

from tutorial_lib.drawing.lettering import typographic
from tutorial_lib.errors import Fault, InputError
from tutorial_lib.lists.names import letters
from tutorial_lib.measures import mm, read_length, to_mm, writer
from tutorial_lib.publishing.identity import version
from tutorial_lib.publishing.typeset import PAPERS, Paper, quoted
from tutorial_lib.records import dataclass

if TYPE_CHECKING:
    from tutorial_lib.plan import Plan

TEMPLATE = Path(__file__).with_name("labels.typ")
SIZES: dict[Paper, tuple[Fraction, Fraction]] = {
    "letter": (Fraction(17, 2), Fraction(11)), "a4": (mm(210), mm(297)),
}  # fmt: skip  # [in]
LEAST = (Fraction(5, 4), Fraction(5, 8))  # [in] a smaller label has no room for a name that can be read
END = {0: "head end", 1: "left end", 2: "top end"}  # where a piece's measures start


@dataclass(frozen=True, kw_only=True)
class LabelSheet:
    """A sheet of labels, in the middle of the paper with a gap between them: so many, or as many as fit."""

    paper: Paper
    width: Fraction  # [in] of one label
    height: Fraction
    across: Fraction = Fraction(0)  # [in] gap between two beside each other
    down: Fraction = Fraction(0)
    grid: tuple[int, int] | None = None  # columns and rows, as stated

    @property
    def size(self) -> str:
        """One label in words, in millimetres where it is so many whole ones: "2 5/8 x 1 in", "70 x 37 mm"."""
        metric = to_mm(self.width).denominator == to_mm(self.height).denominator == 1
        return writer("mm" if metric else "in").size(self.width, self.height)

    @property
    def columns(self) -> int:
        """How many stand beside each other."""
        return self.grid[0] if self.grid else int((SIZES[self.paper][0] + self.across) / (self.width + self.across))

    @property
    def rows(self) -> int:
        """How many stand under each other."""
        return self.grid[1] if self.grid else int((SIZES[self.paper][1] + self.down) / (self.height + self.down))

    def place(self, number: int) -> tuple[Fraction, Fraction]:
        """Left and top of a label on its sheet [in], counted from nought, row by row."""
        row, column = divmod(number % (self.columns * self.rows), self.columns)
        wide, high = SIZES[self.paper]
        left = (wide - self.columns * self.width - (self.columns - 1) * self.across) / 2
        top = (high - self.rows * self.height - (self.rows - 1) * self.down) / 2
        return left + column * (self.width + self.across), top + row * (self.height + self.down)


# Sizes that stationers sell; the sheet is measured, not named. Common practice, no source.
USUAL: dict[Paper, LabelSheet] = {
    "letter": LabelSheet(
        paper="letter", width=Fraction(21, 8), height=Fraction(1), across=Fraction(1, 8), grid=(3, 10)
    ),
    "a4": LabelSheet(paper="a4", width=mm(70), height=mm(37), grid=(3, 8)),
}  # fmt: skip


def read_label_sheet(paper: Paper, size: str | None, gap: str | None = None, grid: str | None = None) -> LabelSheet:
    """A sheet from what a person states.

    Args:
        paper: "letter" or "a4".
        size: one label, "2 5/8 x 1 in", "70 x 37 mm"; None for the usual one of the paper.
        gap: between labels, across and down: "1/8 x 0 in"; None for none, or the usual one's.
        grid: how many across and down, "3 x 10"; None for as many as fit.

    Raises:
        InputError: a size can't be read, is too small for words, or larger than the paper.
    """
    if size is None:
        if gap is not None or grid is not None:
            raise InputError(Fault("--label-gap, --label-grid", "they go with --label, the size of one label."))
        return USUAL[paper]
    width, height = _pair(size, "--label", "2 5/8 x 1 in")
    across, down = _pair(gap, "--label-gap", "1/8 x 0 in") if gap else (Fraction(0), Fraction(0))
    _refuse_unfit(paper, width, height)
    stated = _grid(grid) if grid else None
    sheet = LabelSheet(paper=paper, width=width, height=height, across=across, down=down, grid=stated)
    most = replace(sheet, grid=None)
    if stated and (stated[0] > most.columns or stated[1] > most.rows):
        told = f"{stated[0]} x {stated[1]} of them don't fit {paper} paper; at most {most.columns} x {most.rows} do."
        raise InputError(Fault("--label-grid", told))
    return sheet


def read_label_sheets(size: str | None, gap: str | None, grid: str | None) -> dict[Paper, LabelSheet]:
    """The sheets of both papers; of a stated size those it fits.

    Raises:
        InputError: as :func:`read_label_sheet`, where it fits neither.
    """
    found: dict[Paper, LabelSheet] = {}
    faults: list[Fault] = []
    for paper in SIZES:
        try:
            found[paper] = read_label_sheet(paper, size, gap, grid)
        except InputError as error:
            faults += error.faults
    if not found:
        raise InputError(faults)
    return found


def _grid(text: str) -> tuple[int, int]:
    found = re.fullmatch(r"\s*([1-9][0-9]?)\s*[x×]\s*([1-9][0-9]?)\s*", text)
    if not found:
        raise InputError(Fault("--label-grid", f'"{text}" is no count; write columns x rows, such as "3 x 10".'))
    return int(found[1]), int(found[2])


def _pair(text: str, where: str, like: str) -> tuple[Fraction, Fraction]:
    """Two lengths with an x between; the unit of the last counts for both."""
    first, cross, second = text.replace("×", "x").partition("x")
    unit = next((u for u in ("mm", "cm", "in") if second.strip().endswith(u)), "")
    if not cross or not first.strip() or not second.strip():
        raise InputError(Fault(where, f'"{text}" is no size; write width x height, such as "{like}".'))
    has_own = any(first.strip().endswith(u) for u in ("mm", "cm", "in", '"'))
    return read_length(first.strip() if has_own or not unit else f"{first.strip()} {unit}"), read_length(second.strip())


def _refuse_unfit(paper: Paper, width: Fraction, height: Fraction) -> None:
    w = writer("mm" if paper == "a4" else "in")
    size = w.size(width, height)
    if width < LEAST[0] or height < LEAST[1]:
        least = w.size(*LEAST)
        raise InputError(Fault("--label", f"{size} has no room for a name; the least is {least}."))
    if width > SIZES[paper][0] or height > SIZES[paper][1]:
        raise InputError(Fault("--label", f"{size} is larger than a sheet of {paper} paper; state one label's size."))


def labels_source(plan: Plan, sheet: LabelSheet) -> str:
    """One label for each piece, in the order of the parts, as typst source."""
    each = sheet.columns * sheet.rows
    labels = _labels(plan)
    pages = [labels[i : i + each] for i in range(0, len(labels), each)]
    title = quoted(f"Labels: {plan.options.build.title}")
    size = min(
        float(sheet.height) * 13, max(13.0, float(sheet.width) * 5), 24.0
    )  # to read from farther where there is room
    head = f"#show: sheet.with(title: {title}, paper: {quoted(PAPERS[sheet.paper])}, size: {_pt(size)})\n"
    bodies = []
    for page in pages:
        placed = [_label(sheet, number, words) for number, words in enumerate(page)]
        bodies.append("\n".join(placed) + "\n")
    return TEMPLATE.read_text(encoding="utf-8") + head + "#pagebreak()\n".join(bodies)


def _label(sheet: LabelSheet, number: int, words: Sequence[str]) -> str:
    x, y = sheet.place(number)
    told = ", ".join(quoted(typographic(word)) for word in words)
    frame = ", ".join(_pt(float(v) * 72) for v in (x, y, sheet.width, sheet.height))
    return f"#label({frame}, {told})"


def _pt(x: float) -> str:
    return f"{x:.2f}pt"


def _labels(plan: Plan) -> list[tuple[str, str, str, str]]:
    """Letter, name, length with its lumber, and the end that measures start from, of every piece."""
    w, mark = writer(plan.options.build.units), version(plan.options)
    of = letters(plan.build)
    found = []
    for part in plan.build.made:
        for piece in part.pieces:
            start = f"tape from the {END[piece.axis]} · {mark}"
            found.append((of[part.key], piece.label, f"{part.section.name}, {w.length(piece.length)}", start))
    return found
