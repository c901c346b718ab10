"""Labels spread along a line, against plain cases and against small steps of every label."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from storeyrod.drawings.spreading import spread, spread_between


@pytest.mark.parametrize(
    ("wanted", "places"),
    [
        ([], []),
        ([5.0], [5.0]),
        ([0.0, 10.0], [0.0, 10.0]),
        ([5.0, 5.0], [4.0, 6.0]),  # apart by the gap of 2, about their middle
        ([5.0, 6.0, 20.0], [4.5, 6.5, 20.0]),
        ([5.0, 5.0, 8.0], [4.0, 6.0, 8.0]),  # the third just keeps its place
        ([5.0, 5.0, 7.0], [11 / 3, 17 / 3, 23 / 3]),  # all three about their mean of 17/3
        ([0.0, 0.0], [0.0, 2.0]),  # held at the lower limit
        ([30.0, 30.0], [28.0, 30.0]),
    ],
)
def test_labels_move_no_farther_than_they_must(wanted, places):
    assert spread(wanted, 2.0, 0.0, 30.0) == pytest.approx(places)


def test_labels_that_find_no_room_are_refused():
    assert spread([1.0, 2.0, 3.0], 2.0, 0.0, 3.9) is None
    assert spread([1.0, 2.0, 3.0], 2.0, 0.0, 4.0) == pytest.approx([0.0, 2.0, 4.0])


@pytest.mark.parametrize(
    ("wanted", "places"),
    [
        ([1.0, 12.0], [1.0, 12.0]),
        ([5.0, 9.0], [4.0, 10.0]),  # each to the nearer stretch
        ([0.0, 0.0, 0.0, 0.0], [0.0, 2.0, 4.0, 10.0]),  # three stand in the first stretch, the last goes on
        ([20.0, 20.0, 20.0], [16.0, 18.0, 20.0]),
        ([4.0] * 10, [0.0, 2.0, 4.0, None, 10.0, 12.0, 14.0, 16.0, 18.0, 20.0]),
    ],
)
def test_labels_stand_in_several_stretches(wanted, places):
    assert spread_between(wanted, 2.0, [(0.0, 4.0), (10.0, 20.0)]) == pytest.approx(places)


def test_without_a_stretch_no_label_stands():
    assert spread_between([1.0, 2.0], 2.0, []) == [None, None]


@given(st.lists(st.floats(-5.0, 35.0), min_size=1, max_size=12))
@settings(max_examples=50)
def test_no_single_label_could_stand_nearer_to_its_place(wanted):
    wanted = sorted(wanted)
    places = spread(wanted, 2.0, 0.0, 30.0)
    assert places is not None
    bounds = [-2.0, *places, 32.0]
    for index, place in enumerate(places):
        low, high = bounds[index] + 2.0, bounds[index + 2] - 2.0
        assert low - 1e-9 <= place <= high + 1e-9
    # Squares of distances: no block of labels that may move up or down by a little gains by it.
    for first in range(len(places)):
        for last in range(first, len(places)):
            pull = sum(wanted[first : last + 1]) - sum(places[first : last + 1])
            if places[first] - bounds[first] - 2.0 > 1e-9:
                assert pull >= -1e-6
            if bounds[last + 2] - places[last] - 2.0 > 1e-9:
                assert pull <= 1e-6
