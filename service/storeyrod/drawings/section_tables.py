"""Tables beside a section: materials, what lies round it, points, and what was worked out."""

from collections.abc import Iterator, Sequence
from typing import Final

from storeyrod.drawings.lettering import both_ends, number
from storeyrod.drawings.line_styles import LETTERS_SMALL
from storeyrod.drawings.material_hatching import material_cell
from storeyrod.drawings.ruled_table import Cell, Table
from storeyrod.drawings.section_subject import SectionSubject

_NAME: Final = 44.0
"""Room for a name, mm."""

NO_PLACE: Final = "-"
"""Where a point has no place of its own."""


def section_tables(subject: SectionSubject, most: int) -> list[Table]:
    """The tables that have rows, each of no more than so many under its heading; the last one counts those left out."""
    tables = [_materials(subject), _environments(subject), _points(subject), _results(subject)]
    return [Table(one.title, (one.rows[0], *_first(one.rows[1:], most))) for one in tables if len(one.rows) > 1]


def _name(words: str) -> str:
    return both_ends(words, LETTERS_SMALL, _NAME)


def _cells(*words: str) -> tuple[Cell, ...]:
    return tuple(map(Cell, words))


def _first(rows: Sequence[tuple[Cell, ...]], most: int) -> list[tuple[Cell, ...]]:
    """As many rows as are drawn, and how many more there are."""
    if len(rows) <= most:
        return list(rows)
    empty = _cells(*[""] * (len(rows[0]) - 1))
    return [*rows[: most - 1], (Cell(f"and {len(rows) - most + 1} more"), *empty)]


def _materials(subject: SectionSubject) -> Table:
    rows = [
        (Cell(f"{index + 1} {_name(one.name)}"), Cell("", material_cell(one)), Cell(f"{one.conductivity:.4g}"))
        for index, one in enumerate(subject.materials)
    ]
    return Table("Materials", (_cells("no., name", "", "W/(m·K)"), *rows))


def _environments(subject: SectionSubject) -> Table:
    per = "W" if subject.turned else "W/m"
    rows = [
        _cells(
            f"{letter} {_name(one.name)}",
            number(one.temperature),
            f"{one.resistance:.3g}",
            "-" if one.heat_flow is None else f"{one.heat_flow:.3f}",
        )
        for letter, one in zip(subject.letters, subject.environments, strict=True)
    ]
    heading = _cells("environment", "°C", "Rs, m²·K/W", f"gives, {per}")
    return Table("Environments and the heat that each gives", (heading, *rows))


def _points(subject: SectionSubject) -> Table:
    rows = [
        _cells(_name(one.id), number(one.at[0]), number(one.at[1]), f"{one.temperature:.2f}") for one in subject.points
    ]
    return Table("Points", (_cells("point", "x, mm", "y, mm", "°C"), *_coldest(subject), *rows))


def _coldest(subject: SectionSubject) -> Iterator[tuple[Cell, ...]]:
    coldest = subject.coldest
    if coldest is not None:
        places = (NO_PLACE, NO_PLACE) if subject.even else (number(coldest.at[0]), number(coldest.at[1]))
        yield _cells(subject.coldest_words, *places, f"{coldest.temperature:.2f}")


def _results(subject: SectionSubject) -> Table:
    return Table("Results", (_cells("quantity", "value"), *(_cells(*row) for row in subject.results)))
