"""A ruled table on the paper: a heading, rows, and a last row of sums; cells may show a mark before their words."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Final

from storeyrod.drawings.display_list import Group, Item, Line, Point, Style, Text
from storeyrod.drawings.legend import SYMBOL, moved
from storeyrod.drawings.lettering import width_of
from storeyrod.drawings.line_styles import DIMENSION, LETTERING, LETTERS_SMALL, RULING

ROW: Final = 5.4
"""Height of a row, mm."""

TITLE: Final = 5.0
"""Room for the title, mm."""

_MARGIN: Final = 1.5
_BESIDE_MARK: Final = 1.2


@dataclass(frozen=True, slots=True)
class Cell:
    """Words of a cell, and what is drawn before them as in a legend, in a box ``room`` mm wide."""

    words: str
    drawn: tuple[tuple[str, Style, Item], ...] = ()
    room: float = SYMBOL

    @property
    def before(self) -> float:
        """Room before the words, mm."""
        return self.room + _BESIDE_MARK if self.drawn else 0.0


@dataclass(frozen=True)
class Table:
    """Rows of cells under a title; the first row is the heading, and with ``sums`` the last one adds up the others.

    ``pitch`` is the height of a row, mm.
    """

    title: str
    rows: tuple[tuple[Cell, ...], ...]
    sums: bool = False
    pitch: float = ROW

    @cached_property
    def columns(self) -> tuple[float, ...]:
        """Widths of columns on paper, mm."""
        return tuple(max(map(_width, column)) for column in zip(*self.rows, strict=True))

    @property
    def size(self) -> tuple[float, float]:
        """Width and height on paper, mm."""
        return max(sum(self.columns), width_of(self.title, LETTERS_SMALL)), TITLE + self.pitch * len(self.rows)


def _width(cell: Cell) -> float:
    return cell.before + width_of(cell.words, LETTERS_SMALL) + 2 * _MARGIN


def table_groups(table: Table, at: Point) -> Iterator[Group]:
    """The table with its upper left corner at a point of the paper."""
    left, top = at
    high = top - TITLE
    for index, row in enumerate(table.rows):
        y = high - (index + 0.5) * table.pitch
        for x, cell in zip(_starts(table, left), row, strict=True):
            for role, style, item in cell.drawn:
                yield Group(f"table-{role}", style, (moved(item, x + _MARGIN, y),))
    yield Group("table-lines", DIMENSION, tuple(_lines(table, left, high)))
    yield Group("table-ruling", RULING, tuple(_rulings(table, left, high)))
    texts = [Text((left, top - LETTERS_SMALL), table.title, LETTERS_SMALL, bold=True), *_texts(table, left, high)]
    yield Group("table-words", LETTERING, tuple(texts))


def _starts(table: Table, left: float) -> Iterator[float]:
    for width in table.columns:
        yield left
        left += width


def _lines(table: Table, left: float, high: float) -> Iterator[Item]:
    """Between rows, where no ruling runs."""
    right = left + sum(table.columns)
    for index in range(2, len(table.rows) - table.sums):
        yield Line((left, high - index * table.pitch), (right, high - index * table.pitch))


def _rulings(table: Table, left: float, high: float) -> Iterator[Item]:
    """Above and below the heading, over the sums, and at the foot."""
    right, count = left + sum(table.columns), len(table.rows)
    for index in sorted({0, 1, count, *([count - 1] if table.sums else [])}):
        yield Line((left, high - index * table.pitch), (right, high - index * table.pitch))


def _texts(table: Table, left: float, high: float) -> Iterator[Text]:
    """Words of the first column and beside marks begin at the left, all others end at the right."""
    last = len(table.rows) - 1
    for index, row in enumerate(table.rows):
        y, bold = high - (index + 0.5) * table.pitch, table.sums and index == last
        for column, (x, width, cell) in enumerate(zip(_starts(table, left), table.columns, row, strict=True)):
            start = x + _MARGIN + cell.before
            if column == 0 or cell.drawn:
                yield Text((start, y), cell.words, LETTERS_SMALL, middle=True, bold=bold)
            else:
                yield Text((x + width - _MARGIN, y), cell.words, LETTERS_SMALL, "end", middle=True, bold=bold)
