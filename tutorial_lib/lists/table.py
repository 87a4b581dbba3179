"""A list: plain rows under headings that carry the unit."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from tutorial_lib.measures import Writer
from tutorial_lib.records import dataclass


class Mark(Fraction):
    """A number as it is written, a length in the plan's unit for one: sorts as a number, reads as the tape shows it.

    >>> str(Mark(Fraction(153, 4), "38 1/4")), Mark(Fraction(2), "2") < Mark(Fraction(10), "10")
    ('38 1/4', True)
    """

    __slots__ = ("text",)
    text: str

    def __new__(cls, value: Fraction, text: str) -> Mark:
        made = super().__new__(cls, value)
        made.text = text
        return made

    def __str__(self) -> str:
        return self.text

    def __repr__(self) -> str:
        return self.text

    def __reduce__(self) -> tuple[type[Mark], tuple[Fraction, str]]:
        return Mark, (Fraction(self.numerator, self.denominator), self.text)


Cell = str | int | float | Mark | None


@dataclass(frozen=True)
class Column:
    """One column: its heading and the unit of its cells."""

    head: str
    unit: str = ""
    tape: bool = False  # inch marks stand in it, though each row names its own unit

    @property
    def title(self) -> str:
        """Heading with its unit."""
        return f"{self.head} ({self.unit})" if self.unit else self.head

    @property
    def of_inches(self) -> bool:
        """True where lengths are written as an inch tape shows them, which no spreadsheet takes for numbers."""
        return self.tape or self.unit == "in"

    @property
    def decimal(self) -> Column:
        """The column beside it that has the same numbers as decimals.

        >>> Column("length", "in").decimal.title, Column("value", tape=True).decimal.title
        ('length (decimal in)', 'value (decimal)')
        """
        return Column(self.head, f"decimal {self.unit}".strip())


@dataclass(frozen=True)
class List:
    """Rows under columns.

    Raises:
        ValueError: a row has more or fewer cells than there are columns.
    """

    key: str  # "cuts"; the file's name
    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]

    def __post_init__(self) -> None:
        if any(len(row) != len(self.columns) for row in self.rows):
            raise ValueError(f"{self.key}: every row needs {len(self.columns)} cells")

    @property
    def heads(self) -> tuple[str, ...]:
        """The headings with their units."""
        return tuple(column.title for column in self.columns)


def to_reckon_with(table: List) -> List:
    """The list with a column of decimals beside each of inch marks, the same numbers: for programs that reckon.

    >>> rows = [("slat", Mark(Fraction(153, 4), "38 1/4"))]
    >>> to_reckon_with(made("t", "T", ("part", Column("length", "in")), rows)).rows
    (('slat', 38 1/4, 38.25),)
    """
    columns = [kept for c in table.columns for kept in ((c, c.decimal) if c.of_inches else (c,))]
    rows = [
        [kept for c, cell in zip(table.columns, row, strict=True) for kept in _beside(c, cell)] for row in table.rows
    ]
    return List(table.key, table.title, tuple(columns), tuple(map(tuple, rows)))


def _beside(column: Column, cell: Cell) -> tuple[Cell, ...]:
    return (cell, number(cell)) if column.of_inches else (cell,)


def number(cell: Cell) -> Cell:
    """A cell as a plain number; None where it is words, or nothing."""
    if cell is None or isinstance(cell, str):
        return None
    return float(cell) if isinstance(cell, Fraction) else cell


def made(key: str, title: str, columns: Iterable[Column | str], rows: Iterable[tuple[Cell, ...]]) -> List:
    """A list; a column without a unit may be given by its heading alone."""
    full = tuple(column if isinstance(column, Column) else Column(column) for column in columns)
    return List(key, title, full, tuple(rows))


def mark(w: Writer, x: Fraction) -> Mark:
    """A length [in] in the plan's unit, at the tape's mark."""
    return Mark(w.marked(x), w.mark(x))


def exact(w: Writer, x: Fraction) -> Mark:
    """A length [in] as it was stated or is sold, never moved to a tape's mark."""
    return Mark(Fraction(w.convert("length", x)), w.stated_number(x))


def bit(w: Writer, x: Fraction) -> Mark:
    """A drill bit's diameter [in] by its sold size."""
    return Mark(Fraction(w.convert("length", x)), w.bit_number(x))


def weight(w: Writer, pounds: Fraction | float) -> Mark | None:
    """A weight as it is written, in the plan's unit; none where nothing is lifted."""
    told = w.number("weight", pounds)
    return Mark(Fraction(told), told) if Fraction(told) else None


def amount(x: Fraction | None) -> Mark | None:
    """An amount of money as it is written, with its cents; None stays none."""
    return None if x is None else Mark(x, f"{float(x):.2f}")
