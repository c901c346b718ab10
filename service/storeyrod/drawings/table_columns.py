"""Tables in columns: one below another down to a height, in as many columns as they need, long ones going on in the next."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from storeyrod.drawings.display_list import Point
from storeyrod.drawings.ruled_table import ROW, TITLE, Table

_GAP: Final = 4.0
"""Between tables of a column, mm."""

_BESIDE: Final = 6.0
"""Between columns, mm."""

_LEAST: Final = 3
"""Rows with which a table begins at the foot of a column; with fewer it begins in the next one."""

_DUST: Final = 1e-9


@dataclass(frozen=True, slots=True)
class _Part:
    """Rows of a table, its heading left out: the index of the table, the first row, and how many."""

    table: int
    first: int
    rows: int

    @property
    def high(self) -> float:
        """Height with title and heading, mm."""
        return TITLE + ROW * (self.rows + 1)


@dataclass(frozen=True, slots=True)
class Columns:
    """Parts of tables by column, and the room in mm that they take together."""

    parts: tuple[tuple[_Part, ...], ...]
    size: tuple[float, float]


class TableColumns:
    """Tables that stand in columns; parts of one are as wide as all of it."""

    def __init__(self, tables: Sequence[Table]) -> None:
        self._tables = tables
        self._widths = [table.size[0] for table in tables]

    def no_higher(self, high: float) -> Columns | None:
        """Columns no higher than so many mm; none where no row finds room under its heading."""
        if _holds(high) < 1:
            return None
        columns: list[list[_Part]] = [[]]
        for index, table in enumerate(self._tables):
            first, left = 1, len(table.rows) - 1
            while left:
                fits = _holds(high - _used(columns[-1]))
                if columns[-1] and fits < left and (fits < _LEAST or left <= _holds(high)):
                    columns.append([])
                    continue
                part = _Part(index, first, min(fits, left))
                columns[-1].append(part)
                first, left = first + part.rows, left - part.rows
        return Columns(tuple(map(tuple, columns)), (self._wide(columns), max(map(_used, columns)) - _GAP))

    def lowest(self, wide: float, high: float) -> Columns | None:
        """The lowest columns that are together no wider than ``wide`` and no higher than ``high`` mm; none where there are none."""
        tried = (self.no_higher(TITLE + ROW * rows) for rows in range(2, int((high - TITLE) / ROW) + 1))
        return next((one for one in tried if one is not None and one.size[0] <= wide), None)

    def at(self, columns: Columns, corner: Point) -> Iterator[tuple[Table, Point]]:
        """Tables, or what of them stands in a column, with their upper left corners, from that of all of them on."""
        x, top = corner
        for column in columns.parts:
            y = top
            for part in column:
                yield self._part(part), (x, y)
                y -= part.high + _GAP
            x += self._wide([column]) + _BESIDE

    def _part(self, part: _Part) -> Table:
        table = self._tables[part.table]
        title = table.title if part.first == 1 else f"{table.title}, continued"
        return replace(table, title=title, rows=(table.rows[0], *table.rows[part.first : part.first + part.rows]))

    def _wide(self, columns: Sequence[Sequence[_Part]]) -> float:
        widest = (max(self._widths[part.table] for part in column) for column in columns)
        return sum(widest) + _BESIDE * (len(columns) - 1)


def _holds(high: float) -> int:
    """Rows that find room under title and heading."""
    return max(0, int((high - TITLE) / ROW + _DUST) - 1)


def _used(column: Sequence[_Part]) -> float:
    return sum(part.high + _GAP for part in column)
