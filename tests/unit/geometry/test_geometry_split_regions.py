"""Regions that fall apart, and bands that lie in them only in part."""

import pytest
import shapely

from storeyrod.geometry.plane import Part, Region, parts_of, rectangle


def test_a_region_split_in_two_still_clips_its_raked_parts() -> None:
    """Even-odd rings do not say which outer ring a hole belongs to; the parts must still be clipped rightly."""
    gable = Region((((0.0, 0.0), (9000.0, 0.0), (9000.0, 3000.0), (4500.0, 6000.0), (0.0, 3000.0)),))
    split = gable.less((4000.0, -1.0, 5000.0, 6001.0))
    parts = [part for column in split.cells(3000.0, 4000.0, [(0.0, 9000.0)]) for part in column]
    expected = shapely.intersection(split.polygon, shapely.box(0, 3000, 9000, 4000))
    assert sum(part.area for part in parts) == pytest.approx(expected.area)
    assert len(parts) == 2


def test_a_hole_in_the_second_part_stays_a_hole() -> None:
    wall = Region((rectangle(0, 0, 9000, 3000), rectangle(6000, 1000, 7000, 2000)))
    split = wall.less((4000.0, -1.0, 5000.0, 3001.0))
    assert split.area == pytest.approx(9000 * 3000 - 1000 * 1000 - 1000 * 3000)
    assert split.polygon.area == pytest.approx(split.area)


def test_clear_and_ragged_runs_part_the_band() -> None:
    wall = Region((rectangle(0, 0, 9000, 3000), rectangle(2000, 50, 4000, 2000)))
    assert wall.clear_and_ragged_runs(0.0, 100.0) == ([(0.0, 2000.0), (4000.0, 9000.0)], [(2000.0, 4000.0)])
    assert wall.clear_and_ragged_runs(100.0, 200.0) == ([(0.0, 2000.0), (4000.0, 9000.0)], [])


def test_nothing_of_a_band_outside_the_region_is_clear_or_ragged() -> None:
    wall = Region((rectangle(0, 0, 9000, 3000),))
    assert wall.clear_and_ragged_runs(-200.0, -100.0) == ([], [])
    assert wall.clear_and_ragged_runs(3000.0, 3100.0) == ([], [])


def test_a_band_that_leaves_the_region_is_ragged() -> None:
    wall = Region((rectangle(0, 0, 9000, 3000),))
    assert wall.clear_and_ragged_runs(2950.0, 3050.0) == ([], [(0.0, 9000.0)])


def test_bands_of_one_level_share_their_runs() -> None:
    wall = Region((rectangle(0, 0, 9000, 3000), rectangle(2000, 1000, 4000, 2000)))
    first, second = wall.slabs(1100.0, 1200.0), wall.slabs(1500.0, 1600.0)
    assert first[0].runs == second[0].runs == ((0.0, 0.0, 2000.0, 2000.0), (4000.0, 4000.0, 9000.0, 9000.0))
    assert (second[0].bottom, second[0].top) == (1500.0, 1600.0)


def test_a_part_has_no_spike_of_rounding_and_no_box_around_one() -> None:
    """From (50, 50) the ring runs down an edge of itself to (100, 0), a millionth of a tick off it, and back."""
    spiked = shapely.Polygon([(0, 100), (50 - 1e-6, 50), (100, 0), (50 + 1e-6, 50), (500, 50), (500, 900), (0, 900)])
    (part,) = parts_of(spiked)
    assert isinstance(part, Part)
    assert (part.left, part.bottom, part.right, part.top) == (0.0, 50.0, 500.0, 900.0)
    assert len(part.rings[0]) == 5
