"""Tables beside walls: clear of all that stands around the wall, where the wall keeps the better sheet."""

import re

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


def test_a_refused_scale_is_answered_with_the_smallest_that_one_of_the_places_takes():
    """A0 leaves 1159 - 44 - 26 = 1089 mm; a table of 100 at the side takes 107 of them: 14 000 / 982 = 14.3. Below the wall it takes
    none: 14 000 / 1089 = 12.9, and 2400 / 13 stands above it.
    """
    with pytest.raises(Refusal, match="give 13 or more"):
        arranged((14_000, 2400), AROUND, (100, 30), 12, "/sheets/0/scale", 50)
    assert arranged((14_000, 2400), AROUND, (100, 30), 13, "/sheets/0/scale", 50).paper.name == "A0"


def refused_at(scale: int, kind: str) -> int:
    """The denominator that a refusal of a long wall names."""
    with pytest.raises(Refusal) as caught:
        sheet_of(ALL_WALLS["long"], scale=scale, kind=kind)
    return int(re.search(r"give (\d+) or more", caught.value.detail)[1])


@pytest.mark.parametrize("kind", ["fasteners", "wind"])
def test_a_long_wall_is_drawn_at_the_scale_that_its_refusal_names_and_at_none_below(kind):
    least = refused_at(20, kind)
    assert sheet_of(ALL_WALLS["long"], scale=least, kind=kind).width == 1189
    assert refused_at(least - 1, kind) == least


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
