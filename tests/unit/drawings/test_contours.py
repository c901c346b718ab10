"""Contours against lines known by hand: planes, circles, saddles, and fields with a piece cut out."""

import math
from collections.abc import Callable
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from storeyrod.drawings.contours import Field, contours, straightened

GRADED = np.array([0.0, 1.0, 2.5, 4.0, 9.0, 20.0])


def field_of(
    value: Callable[[float, float], float], xs: np.ndarray = GRADED, ys: np.ndarray = GRADED, without: tuple = ()
) -> Field:
    values = np.array([[value(x, y) for x in xs] for y in ys])
    filled = np.ones((len(ys) - 1, len(xs) - 1), dtype=bool)
    for cell in without:
        filled[cell] = False
    return Field(xs, ys, values, filled)


def length(line: tuple) -> float:
    return sum(math.dist(a, b) for a, b in pairwise(line))


def test_a_plane_gives_one_straight_line_from_side_to_side():
    """x + 2 y = 20 leaves the square of 20 at (20, 0) and (0, 10)."""
    (line,) = contours(field_of(lambda x, y: x + 2 * y), 20.0, 1e-9)
    assert sorted(line) == [pytest.approx((0.0, 10.0)), pytest.approx((20.0, 0.0))]


def test_a_level_through_nodes_runs_through_them():
    (line,) = contours(field_of(lambda x, _: x), 4.0, 1e-9)
    assert sorted(line) == [(4.0, 0.0), (4.0, 20.0)]


def test_a_level_outside_the_range_has_no_line():
    assert contours(field_of(lambda x, y: x + y), 41.0, 0.0) == []


def test_a_circle_closes():
    """x2 + y2 = 64 has the circumference 16 pi and every point 8 from the middle."""
    lines = np.linspace(-10.0, 10.0, 81)
    (line,) = contours(field_of(lambda x, y: x * x + y * y, lines, lines), 64.0, 0.0)
    assert line[0] == line[-1]
    assert length(line) == pytest.approx(16 * math.pi, rel=1e-3)
    assert [math.hypot(*point) for point in line] == pytest.approx([8.0] * len(line), abs=2e-3)


def test_two_hills_have_two_lines():
    lines = np.linspace(-10.0, 10.0, 41)
    hills = field_of(
        lambda x, y: max(math.exp(-((x - 5) ** 2) - y * y), math.exp(-((x + 5) ** 2) - y * y)), lines, lines
    )
    assert len(contours(hills, 0.5, 0.0)) == 2


@pytest.mark.parametrize(
    ("values", "joined"),
    [
        # Corners 1 and 0 crosswise; the mean is 0.5. Above it the high corners are cut off, below it the low ones.
        (((1.0, 0.0), (0.0, 1.0)), {0.4: ((1, 0), (0, 1)), 0.6: ((0, 0), (1, 1))}),
        (((0.0, 1.0), (1.0, 0.0)), {0.4: ((0, 0), (1, 1)), 0.6: ((1, 0), (0, 1))}),
    ],
)
def test_a_saddle_joins_through_its_mean(values, joined):
    corners = np.array([0.0, 1.0])
    saddle = Field(corners, corners, np.array(values), np.ones((1, 1), dtype=bool))
    for level, cut_off in joined.items():
        lines = contours(saddle, level, 0.0)
        middles = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in lines]
        nearest = {min(((0, 0), (1, 0), (0, 1), (1, 1)), key=lambda corner, m=m: math.dist(corner, m)) for m in middles}
        assert nearest == set(cut_off)


def test_a_line_ends_where_there_is_no_material():
    """The lower left quarter is cut out: x = 3 begins at its upper edge, y = 4."""
    xs = np.array([0.0, 2.0, 4.0, 8.0])
    hollow = field_of(lambda x, _: x, xs, xs, without=((0, 0), (0, 1), (1, 0), (1, 1)))
    hollow.values[:2, :2] = np.nan
    (line,) = contours(hollow, 3.0, 0.0)
    assert sorted(line)[0] == (3.0, 4.0)
    assert length(line) == pytest.approx(4.0)


def test_the_range_is_that_of_the_material():
    xs = np.array([0.0, 1.0, 2.0])
    assert field_of(lambda x, y: x + 10 * y, xs, xs[:2], without=((0, 1),)).range == (0.0, 11.0)


def test_points_on_a_chord_are_left_out_and_others_kept():
    line = [(0.0, 0.0), (1.0, 0.01), (2.0, 0.0), (3.0, 2.0), (2.0, 0.5)]
    assert straightened(line, 0.05) == ((0.0, 0.0), (2.0, 0.0), (3.0, 2.0), (2.0, 0.5))


def test_a_line_that_comes_back_keeps_its_far_point():
    assert straightened([(0.0, 0.0), (5.0, 0.0), (1.0, 0.0)], 0.05) == ((0.0, 0.0), (5.0, 0.0), (1.0, 0.0))


grids = st.lists(st.floats(0.1, 5.0), min_size=2, max_size=7).map(
    lambda steps: np.concatenate([[0.0], np.cumsum(steps)])
)


@given(grids, grids, st.floats(0.0, 2 * math.pi), st.floats(0.05, 0.95))
def test_on_any_grid_a_plane_gives_its_own_straight_line(xs, ys, angle, share):
    across = (math.cos(angle), math.sin(angle))
    plane = field_of(lambda x, y: across[0] * x + across[1] * y, xs, ys)
    low, high = plane.range
    level = low + share * (high - low)
    (line,) = contours(plane, level, 1e-6)
    assert [across[0] * x + across[1] * y for x, y in line] == pytest.approx([level] * len(line), abs=1e-6)
    on_edge = [x in (xs[0], xs[-1]) or y in (ys[0], ys[-1]) for x, y in (line[0], line[-1])]
    assert all(on_edge) or line[0] == line[-1]
