"""Tables beside walls: clear of all that stands around the wall, where the wall keeps the better sheet."""

import pytest
from sheet_geometry import box_of_text, points_of

from drawing_walls import ALL_WALLS, sheet_of
from storeyrod.drawings.beside_wall import arranged
from storeyrod.drawings.display_list import Text
from storeyrod.findings import Refusal

AROUND = (44.0, 30.0, 26.0, 12.0)


def test_a_wide_wall_has_its_table_below():
    """At 1:50 a wall of 14 m takes 280 of 390 mm; 26 + 44 more leave no room for a table of 100 at its side."""
    placed = arranged((14_000, 2400), AROUND, (100, 30), None, "", 50)
    assert (placed.paper.name, placed.scale) == ("A3", 50)
    assert placed.table[1] < 100


def test_a_high_wall_has_its_table_at_the_right():
    placed = arranged((3000, 9000), AROUND, (100, 30), None, "", 50)
    assert placed.table[0] == placed.paper.field[2] - 5 - 100


def test_a_scale_asked_for_is_kept():
    assert arranged((14_000, 2400), AROUND, (100, 30), 100, "", 50).scale == 100


def test_a_scale_that_leaves_no_room_in_either_place_is_refused():
    with pytest.raises(Refusal) as caught:
        arranged((14_000, 2400), AROUND, (100, 30), 5, "/sheets/0/scale", 50)
    assert (caught.value.slug, caught.value.faults[0].pointer) == ("sheet-too-small", "/sheets/0/scale")


@pytest.mark.parametrize("kind", ["fasteners", "wind"])
@pytest.mark.parametrize("wall", ALL_WALLS.values(), ids=ALL_WALLS)
def test_the_table_stands_clear_of_the_wall_and_its_dimensions(wall, kind):
    sheet = sheet_of(wall, kind=kind)
    around, table = (
        [
            point
            for group in view.groups
            for item in group.items
            for point in (
                (box_of_text(view, item)[:2], box_of_text(view, item)[2:])
                if isinstance(item, Text)
                else map(view.on_paper, points_of(item))
            )
        ]
        for view in sheet.views[:2]
    )
    xs, ys = zip(*table, strict=True)
    left, bottom, right, top = min(xs), min(ys), max(xs), max(ys)
    assert [point for point in around if left < point[0] < right and bottom < point[1] < top] == []
