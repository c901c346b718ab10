"""The table of months below the charts of a moisture check: air on both sides, what condenses and what is held."""

from collections.abc import Callable, Iterator, Sequence
from typing import Final

from storeyrod.drawings.display_list import Group, Point, Style, box_polygon
from storeyrod.drawings.ruled_table import ROW, TITLE, Cell, Table, table_groups
from storeyrod.drawings.vapour_subject import ShownMonth, VapourSubject

MOST_WET: Final = 4
"""Planes with rows of their own; further ones are in the sum."""

SHOWN: Final = Style(0.0, fill=0.9)
"""Behind the month that is drawn."""

_GRAMS: Final = 1000.0


def month_table(subject: VapourSubject) -> Table:
    """A column for each month, January first, or for each block of days; rows of planes are c1, c2 and so on, as in the charts."""
    heading = (Cell(""), *(Cell(month.name) for month in subject.months))
    rows = [
        _row("outside, °C", subject.months, lambda month: f"{month.outdoor.temperature:.1f}"),
        _row("outside, relative humidity in %", subject.months, lambda month: f"{100 * month.outdoor.humidity:.0f}"),
        _row("inside, °C", subject.months, lambda month: f"{month.indoor.temperature:.1f}"),
        _row("inside, relative humidity in %", subject.months, lambda month: f"{100 * month.indoor.humidity:.0f}"),
        _row("vapour pressure outside, Pa", subject.months, lambda month: f"{month.outdoor.pressure:.0f}"),
        _row("vapour pressure inside, Pa", subject.months, lambda month: f"{month.indoor.pressure:.0f}"),
    ]
    for number, plane in list(enumerate(subject.wet, start=1))[:MOST_WET]:
        name = f"c{number} ({subject.name_of(plane)})"
        rows += [
            _row(f"{name} condenses, g/m²", subject.months, _grams_of(plane, held=False)),
            _row(f"{name} holds at the end, g/m²", subject.months, _grams_of(plane, held=True)),
        ]
    if len(subject.wet) > 1:
        rows.append(_row("all planes hold, g/m²", subject.months, lambda month: _grams(sum(month.held.values()))))
    return Table(_title(subject), (heading, *rows))


def _title(subject: VapourSubject) -> str:
    if subject.monthly:
        return "Month by month; the month drawn has a grey ground"
    if len(subject.months) == 1:
        return "The steady climate"
    return "Block by block of days; the block drawn has a grey ground"


def _row(name: str, months: Sequence[ShownMonth], words: Callable[[ShownMonth], str]) -> tuple[Cell, ...]:
    return (Cell(name), *(Cell(words(month)) for month in months))


def _grams_of(plane: int, *, held: bool) -> Callable[[ShownMonth], str]:
    return lambda month: _grams((month.held if held else month.condensed).get(plane, 0.0))


def _grams(kilograms: float) -> str:
    """Grams to the tenth; a plane without moisture has a dash."""
    return f"{_GRAMS * kilograms:.1f}" if kilograms else "-"


def month_table_groups(subject: VapourSubject, table: Table, at: Point) -> Iterator[Group]:
    """The table with its upper left corner at a point of the paper, the month drawn on a grey ground."""
    left, top = at
    columns = table.columns
    start = left + sum(columns[: subject.shown + 1])
    high = top - TITLE
    ground = (start, high - ROW * len(table.rows), start + columns[subject.shown + 1], high)
    yield Group("month-shown", SHOWN, (box_polygon(ground),))
    yield from table_groups(table, at)
