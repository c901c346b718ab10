"""Tables beside a section: materials, what lies round it, points, and what was worked out."""

from collections.abc import Iterator, Sequence
from typing import Final

from storeyrod.drawings.display_list import Group, Point
from storeyrod.drawings.lettering import number, shortened
from storeyrod.drawings.line_styles import LETTERS_SMALL
from storeyrod.drawings.material_hatching import material_cell
from storeyrod.drawings.ruled_table import Cell, Table, table_groups
from storeyrod.drawings.section_outline import letter_of
from storeyrod.drawings.section_subject import SectionSubject

_NAME: Final = 44.0
"""Room for a name, mm."""

_MOST: Final = 25
"""Rows of all tables together, without headings, that find room on the smallest sheet."""

_MOST_ENVIRONMENTS: Final = 5
_LEAST_POINTS: Final = 3
_GAP: Final = 4.0
_BESIDE: Final = 6.0


def section_tables(subject: SectionSubject) -> list[Table]:
    """The tables that have rows; environments and results first, materials before points share the room that is left."""
    around, results = _environments(subject), _results(subject)
    rest = _MOST - len(around.rows) - len(results.rows) + 2
    points = len(subject.points) + (subject.coldest is not None)
    materials = _materials(subject, rest - min(points, _LEAST_POINTS))
    tables = [materials, around, _points(subject, rest - len(materials.rows) + 1), results]
    return [table for table in tables if len(table.rows) > 1]


def _name(words: str) -> str:
    return shortened(words, LETTERS_SMALL, _NAME)


def _cells(*words: str) -> tuple[Cell, ...]:
    return tuple(map(Cell, words))


def _first(rows: Sequence[tuple[Cell, ...]], most: int) -> list[tuple[Cell, ...]]:
    """As many rows as are drawn, and how many more there are."""
    if len(rows) <= most:
        return list(rows)
    empty = _cells(*[""] * (len(rows[0]) - 1))
    return [*rows[: most - 1], (Cell(f"and {len(rows) - most + 1} more"), *empty)]


def _materials(subject: SectionSubject, most: int) -> Table:
    rows = [
        (Cell(f"{index + 1} {_name(one.name)}"), Cell("", material_cell(one)), Cell(f"{one.conductivity:.4g}"))
        for index, one in enumerate(subject.materials)
    ]
    return Table("Materials", (_cells("no., name", "", "W/(m·K)"), *_first(rows, most)))


def _environments(subject: SectionSubject) -> Table:
    per = "W" if subject.turned else "W/m"
    rows = [
        _cells(
            f"{letter_of(index)} {_name(one.name)}",
            number(one.temperature),
            f"{one.resistance:.3g}",
            "-" if one.heat_flow is None else f"{one.heat_flow:.3f}",
        )
        for index, one in enumerate(subject.environments)
    ]
    heading = _cells("environment", "°C", "Rs, m²·K/W", f"gives, {per}")
    return Table("Environments and the heat that each gives", (heading, *_first(rows, _MOST_ENVIRONMENTS)))


def _points(subject: SectionSubject, most: int) -> Table:
    coldest = [] if subject.coldest is None else [subject.coldest]
    rows = [
        _cells(_name(one.id), number(one.at[0]), number(one.at[1]), f"{one.temperature:.2f}")
        for one in (*coldest, *subject.points)
    ]
    return Table("Points", (_cells("point", "x, mm", "y, mm", "°C"), *_first(rows, most)))


def _results(subject: SectionSubject) -> Table:
    return Table("Results", (_cells("quantity", "value"), *(_cells(*row) for row in subject.results)))


def stacked_size(tables: Sequence[Table]) -> tuple[float, float]:
    """Room of tables one below another, mm."""
    sizes = [table.size for table in tables]
    return max(width for width, _ in sizes), sum(height for _, height in sizes) + _GAP * (len(sizes) - 1)


def side_by_side_size(tables: Sequence[Table]) -> tuple[float, float]:
    """Room of tables side by side, mm."""
    sizes = [table.size for table in tables]
    return sum(width for width, _ in sizes) + _BESIDE * (len(sizes) - 1), max(height for _, height in sizes)


def tables_groups(tables: Sequence[Table], at: Point, *, below: bool) -> Iterator[Group]:
    """Tables from their upper left corner on: side by side below a section, else one below another."""
    x, y = at
    for table in tables:
        yield from table_groups(table, (x, y))
        width, height = table.size
        x, y = (x + width + _BESIDE, y) if below else (x, y - height - _GAP)
