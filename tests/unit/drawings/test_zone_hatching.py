"""Hatching of zones: strokes stay inside their shape, run on from shape to shape, and differ from zone to zone."""

import math

import pytest
from shapely import LineString, Polygon

from storeyrod.drawings.display_list import box_polygon
from storeyrod.drawings.zone_hatching import HATCHES, strokes_in

SQUARE = box_polygon((0.0, 0.0, 100.0, 100.0)).rings
NOTCHED = (((0.0, 0.0), (100.0, 0.0), (100.0, 30.0), (40.0, 30.0), (40.0, 60.0), (0.0, 60.0)),)
HOLED = (*SQUARE, ((25.0, 25.0), (75.0, 25.0), (75.0, 75.0), (25.0, 75.0)))
GABLE = (((0.0, 0.0), (90.0, 0.0), (90.0, 40.0), (45.0, 71.0), (0.0, 40.0)),)


def length(lines) -> float:
    return sum(math.dist(*line) for line in lines)


@pytest.mark.parametrize("zone", HATCHES)
@pytest.mark.parametrize("rings", [SQUARE, NOTCHED, HOLED, GABLE], ids=["square", "notched", "holed", "gable"])
def test_strokes_lie_inside_by_shapely_and_are_as_dense_as_their_pitch(zone, rings):
    """Strokes a pitch apart are as long in all as the area over the pitch, but for those at the edges."""
    shape = Polygon(rings[0], rings[1:])
    lines = list(strokes_in(rings, HATCHES[zone], 1.0))
    assert all(shape.buffer(0.02).covers(LineString(line)) for line in lines)
    assert length(lines) == pytest.approx(shape.area / HATCHES[zone].pitch, rel=0.06)


def test_strokes_of_level_hatching_by_hand():
    """A pitch of 3.6 in a height of 100: from 0, which counts as the lower edge, to 27 x 3.6 = 97.2."""
    lines = list(strokes_in(SQUARE, HATCHES["C"], 1.0))
    assert lines[0][0][1] == 0.0
    assert [line[0][1] for line in lines] == pytest.approx([3.6 * number for number in range(28)])
    assert {abs(line[1][0] - line[0][0]) for line in lines} == {100.0}


@pytest.mark.parametrize("zone", HATCHES)
def test_neighbours_share_their_strokes(zone):
    """Two halves have together what the whole has."""
    halves = box_polygon((0.0, 0.0, 37.0, 100.0)).rings, box_polygon((37.0, 0.0, 100.0, 100.0)).rings
    whole = length(strokes_in(SQUARE, HATCHES[zone], 1.0))
    assert sum(length(strokes_in(half, HATCHES[zone], 1.0)) for half in halves) == pytest.approx(whole, abs=0.1)


def test_no_two_zones_are_hatched_alike():
    assert len({(hatch.across, hatch.pitch, hatch.dashes) for hatch in HATCHES.values()}) == len(HATCHES)


def test_the_pitch_is_that_of_paper():
    assert len(list(strokes_in(SQUARE, HATCHES["C"], 10.0))) == 3
