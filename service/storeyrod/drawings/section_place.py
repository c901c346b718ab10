"""Where a section stands on its sheet, and its tables: in columns at its right or below it, on the smallest paper that takes all."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.drawings.display_list import Point
from storeyrod.drawings.paper import DETAIL_SCALES, PAPERS, Paper, Room
from storeyrod.drawings.ruled_table import Table
from storeyrod.drawings.table_columns import Columns, TableColumns
from storeyrod.findings import refuse

READABLE: Final = 10.0
"""Beyond one to this, a larger sheet is taken: layers would be thinner than their lines."""

AROUND: Final[Room] = (16.0, 16.0, 16.0, 30.0)
"""Room for numbers, words of environments and the heading round the section, mm of paper."""

MOST_ROWS: Final = (500, 200, 100, 50, 20, 8, 4)
"""Rows of a table, tried in turn: fewer where no sheet holds more."""

_GAP: Final = 2.0
_INSET: Final = 5.0
_HEADING: Final = 15.0
"""Room for the heading above tables at the right, mm."""


@dataclass(frozen=True, slots=True)
class SectionPlace:
    """A sheet, its scale, the room around the section, and tables with their upper left corners."""

    paper: Paper
    scale: float
    around: Room
    tables: tuple[tuple[Table, Point], ...]


@dataclass(frozen=True, slots=True)
class _Tried:
    paper: Paper
    around: Room
    columns: Columns
    corner: Point


def section_place(
    size: tuple[float, float], tables_of: Callable[[int], Sequence[Table]], scale: float | None, pointer: str
) -> SectionPlace:
    """The smallest sheet that takes a section of a size in mm readably with all its tables, and the largest scale on it.

    ``tables_of`` gives the tables with no more rows than it is told. Raises ``sheet-too-small`` where no sheet takes the scale
    asked for.
    """
    for most in MOST_ROWS:
        tables = TableColumns(tables_of(most))
        scaled = [(one, scale or _largest(one, size)) for one in _tried(tables)]
        found = [(one, at) for one, at in scaled if one.paper.takes(*size, one.around, at)]
        if found:
            # the first of equals: tables at the right before tables below
            one, at = min(found, key=lambda pair: (scale is None and pair[1] > READABLE, pair[0].paper.width, pair[1]))
            return SectionPlace(one.paper, at, one.around, tuple(tables.at(one.columns, one.corner)))
    fewest = TableColumns(tables_of(MOST_ROWS[-1]))
    least = min(one.paper.least_scale(*size, one.around) for one in _tried(fewest))
    detail = (
        f"At 1:{scale:g} the section of {size[0]:g} x {size[1]:g} mm fits no sheet up to A0; "
        f"leave out scale, or give {least} or more."
    )
    raise refuse("sheet-too-small", pointer, detail)


def _tried(tables: TableColumns) -> Iterator[_Tried]:
    """On each paper, tables at the right of the section and below it."""
    for paper in PAPERS:
        left, bottom, right, top = paper.field
        beside = tables.no_higher(top - bottom - _HEADING - _INSET)
        if beside is not None:
            room = AROUND[0], AROUND[1], AROUND[2] + beside.size[0] + _GAP + _INSET, AROUND[3]
            yield _Tried(paper, room, beside, (right - _INSET - beside.size[0], top - _HEADING))
        below = tables.lowest(right - left - 2.0 * _INSET, top - bottom - _INSET)
        if below is not None:
            room = AROUND[0], AROUND[1] + below.size[1] + _GAP + _INSET, AROUND[2], AROUND[3]
            yield _Tried(paper, room, below, (left + _INSET, bottom + _INSET + below.size[1]))


def _largest(tried: _Tried, size: tuple[float, float]) -> float:
    """The largest scale at which a section fits; the last one where it fits at none."""
    takes = (scale for scale in DETAIL_SCALES if tried.paper.takes(*size, tried.around, scale))
    return next(takes, DETAIL_SCALES[-1])
