"""Tables in columns: no row lost, none twice, nothing over anything else, no higher and no wider than asked for."""

from itertools import combinations

import pytest

from storeyrod.drawings.ruled_table import Cell, Table
from storeyrod.drawings.table_columns import TableColumns


def table(name: str, rows: int) -> Table:
    return Table(name, ((Cell("no."), Cell("what")), *((Cell(f"{name} {row}"), Cell("x" * 8)) for row in range(rows))))


def standing(tables: list[Table], high: float) -> list[tuple[Table, tuple[float, float]]]:
    columns = TableColumns(tables)
    found = columns.no_higher(high)
    assert found is not None
    return list(columns.at(found, (0.0, 0.0)))


def words(parts: list[tuple[Table, tuple[float, float]]]) -> list[str]:
    return [row[0].words for part, _ in parts for row in part.rows[1:]]


@pytest.mark.parametrize("high", [16.0, 40.0, 100.0, 1000.0])
def test_every_row_stands_once_and_in_order(high):
    tables = [table("a", 30), table("b", 2), table("c", 11)]
    assert words(standing(tables, high)) == [row[0].words for one in tables for row in one.rows[1:]]


@pytest.mark.parametrize("high", [16.0, 40.0, 100.0, 1000.0])
def test_no_table_stands_over_another_or_below_the_foot(high):
    tables = [table("a", 30), table("b", 2), table("c", 11)]
    boxes = [(x, y - part.size[1], x + part.size[0], y) for part, (x, y) in standing(tables, high)]
    assert min(bottom for _, bottom, _, _ in boxes) >= -high - 1e-9
    for one, other in combinations(boxes, 2):
        assert one[0] >= other[2] or other[0] >= one[2] or one[1] >= other[3] or other[1] >= one[3]


def test_a_table_that_has_room_in_the_next_column_is_not_broken():
    """Rows of 5.4 mm under a title of 5: a of 6 rows takes 42.8 mm of 60, b of 4 takes 32."""
    parts = standing([table("a", 6), table("b", 4)], 60.0)
    assert [(part.title, len(part.rows)) for part, _ in parts] == [("a", 7), ("b", 5)]
    assert parts[1][1][0] > parts[0][0].size[0]


def test_a_broken_table_goes_on_under_its_heading():
    parts = standing([table("a", 30)], 100.0)
    assert [part.title for part, _ in parts] == ["a", "a, continued"]
    assert {part.rows[0][0].words for part, _ in parts} == {"no."}


def test_no_columns_stand_where_no_row_finds_room():
    assert TableColumns([table("a", 3)]).no_higher(15.0) is None


def test_the_lowest_columns_are_as_wide_as_they_may_be():
    tables = TableColumns([table("a", 30)])
    low, high = tables.lowest(300.0, 200.0), tables.lowest(80.0, 200.0)
    assert low is not None
    assert high is not None
    assert low.size[0] <= 300.0
    assert low.size[1] < high.size[1] <= 200.0
    assert tables.lowest(20.0, 200.0) is None
