"""Regions of materials gathered from cells, by hand."""

import numpy as np
import pytest

from storeyrod.drawings.material_hatching import materials_of
from storeyrod.drawings.material_regions import NOTHING, regions_of

# An L of material 0 along the left and the foot, material 1 in the middle, nothing at the upper right.
XS = np.array([0.0, 5.0, 10.0, 20.0, 30.0])
YS = np.array([0.0, 10.0, 20.0, 30.0])
CELLS = np.array([[0, 0, 0, 0], [0, 0, 1, 1], [0, 0, NOTHING, NOTHING]], dtype=np.int32)


@pytest.fixture
def regions():
    return regions_of(XS, YS, CELLS)


def test_lines_at_which_nothing_changes_are_left_out(regions):
    assert regions.xs == [0.0, 10.0, 30.0]
    assert regions.ys == [0.0, 10.0, 20.0, 30.0]


def test_a_point_knows_its_material(regions):
    assert [regions.at(point) for point in ((7.0, 25.0), (12.0, 12.0), (12.0, 25.0), (31.0, 5.0))] == [0, 1, -1, -1]


def test_level_boxes_cover_a_material_once(regions):
    """500 mm2 make the L: 30 x 10 and 10 x 20."""
    boxes = list(regions.level_boxes(0))
    assert sum((right - left) * (top - bottom) for left, bottom, right, top in boxes) == 500.0


def test_boxes_run_on_through_cells_of_the_same_material(regions):
    assert (0.0, 0.0, 10.0, 30.0) in list(regions.boxes(0))
    assert (0.0, 0.0, 30.0, 10.0) in list(regions.boxes(0))


def test_seams_run_between_materials_and_not_along_the_outline(regions):
    assert sorted(regions.seams()) == [((10.0, 10.0), (10.0, 20.0)), ((10.0, 10.0), (30.0, 10.0))]


def test_borders_close_round_a_material(regions):
    """The middle is 20 x 10: a length of 60, and each corner twice an end."""
    borders = list(regions.borders(1))
    assert sum(abs(a[0] - b[0]) + abs(a[1] - b[1]) for a, b in borders) == 60.0
    ends = [end for border in borders for end in border]
    assert {ends.count(end) for end in ends} == {2}


@pytest.mark.parametrize(
    ("box", "empty"),
    [
        ((11.0, 21.0, 29.0, 29.0), True),
        ((10.0, 20.0, 40.0, 40.0), True),
        ((9.0, 21.0, 29.0, 29.0), False),
        ((11.0, 19.9, 29.0, 29.0), False),
        ((-9.0, -9.0, -1.0, 50.0), True),
    ],
)
def test_a_box_is_empty_where_no_material_reaches_into_it(regions, box, empty):
    assert regions.is_empty(box) == empty


def test_the_better_conductor_is_hatched_closer():
    insulation, brick, concrete = materials_of([("insulation", 0.035), ("brick", 0.8), ("concrete", 2.3)])
    assert insulation.hatch.pitch > brick.hatch.pitch > concrete.hatch.pitch


def test_a_metal_is_filled():
    assert materials_of([("steel", 50.0)])[0].hatch is None


def test_equal_conductivities_look_the_same_and_up_to_twelve_differ():
    made = materials_of([(f"part {index}", 0.03 * 1.5 ** (index % 12)) for index in range(24)])
    assert len({one.hatch for one in made[:12]}) == 12
    assert [one.hatch for one in made[:12]] == [one.hatch for one in made[12:]]
