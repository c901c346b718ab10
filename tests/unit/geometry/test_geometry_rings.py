"""Rings: the tidy form, what is simple, and whole ticks."""

import pytest

from storeyrod.geometry.plane import Vertex, area_outside, is_simple, overlap_area, rectangle, signed_area, tidy
from storeyrod.geometry.ticks import millimetres, square_metres, ticks

SQUARE = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]
HOUSE = [(0.0, 0.0), (10.0, 0.0), (10.0, 6.0), (5.0, 9.0), (0.0, 6.0)]


@pytest.mark.parametrize(
    "same",
    [
        SQUARE,
        SQUARE[2:] + SQUARE[:2],
        SQUARE[::-1],
        [*SQUARE, SQUARE[0]],
        [(0.0, 0.0), (0.0, 0.0), (4.0, 0.0), (10.0, 0.0), (10.0, 10.0), (5.0, 10.0), (0.0, 10.0), (0.0, 3.0)],
    ],
    ids=["as it is", "started elsewhere", "clockwise", "closed", "with repeated and collinear points"],
)
def test_the_same_square_has_one_tidy_form(same: list[Vertex]) -> None:
    assert tidy(same) == tuple(SQUARE)


@pytest.mark.parametrize(
    ("spike", "expected"),
    [
        ([(0, 0), (10, 0), (15, 0), (10, 0), (10, 10), (0, 10)], SQUARE),
        ([(0, 0), (5, 0), (5, 3), (5, 0), (10, 0), (10, 10), (0, 10)], SQUARE),
        ([(0, 0), (10, 0), (10, 10), (10, 15), (10, 10), (0, 10)], SQUARE),
        ([(0, 0), (10, 0), (13, -3), (10, 0), (10, 10), (0, 10)], SQUARE),
    ],
    ids=["along an edge", "into the wall", "up at a corner", "askew at a corner"],
)
def test_a_spike_without_area_goes_and_the_corner_under_it_stays(
    spike: list[tuple[float, float]], expected: list[Vertex]
) -> None:
    assert tidy([(float(x), float(y)) for x, y in spike]) == tuple(expected)


@pytest.mark.parametrize(
    "line",
    [[], [(1.0, 1.0)], [(1.0, 1.0)] * 4, [(0.0, 0.0), (1.0, 1.0)], [(0.0, 0.0), (1.0, 1.0), (3.0, 3.0), (2.0, 2.0)]],
    ids=["nothing", "a point", "one point often", "two points", "a line there and back"],
)
def test_what_encloses_nothing_has_no_tidy_form(line: list[Vertex]) -> None:
    assert tidy(line) == ()


def test_collinear_points_on_a_long_rake_go() -> None:
    # Products of such coordinates exceed 2**53, where floats no longer hold every whole number.
    far = 4_999_999_999.0
    assert tidy([(0.0, 0.0), (far, 0.0), (far, 3 * far), (0.0, 2 * far), (0.0, far)]) == (
        (0.0, 0.0), (far, 0.0), (far, 3 * far), (0.0, 2 * far),
    )  # fmt: skip
    assert tidy([(0.0, 0.0), (1.5e9, 3.5e9), (3e9, 7e9), (0.0, 7e9)]) == ((0.0, 0.0), (3e9, 7e9), (0.0, 7e9))


def test_the_area_of_a_gabled_end_is_wall_and_triangle() -> None:
    assert signed_area(HOUSE) == 10 * 6 + 10 * 3 / 2
    assert signed_area(HOUSE[::-1]) == -75.0


@pytest.mark.parametrize(
    ("ring", "simple"),
    [
        (SQUARE, True),
        (HOUSE, True),
        ([(0.0, 0.0), (10.0, 10.0), (10.0, 0.0), (0.0, 10.0)], False),
        ([(0.0, 0.0), (10.0, 0.0), (5.0, 5.0), (10.0, 10.0), (0.0, 10.0), (5.0, 5.0)], False),
        ([(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (4.0, 0.0), (0.0, 10.0)], False),
        ([(0.0, 0.0), (1.0, 0.0)], False),
    ],
    ids=["square", "house", "bow tie", "two triangles at a point", "touching its own edge", "two points"],
)
def test_only_a_ring_around_one_area_is_simple(ring: list[Vertex], simple: bool) -> None:
    assert is_simple(ring) is simple


def test_areas_shared_and_outside() -> None:
    other = rectangle(5.0, 5.0, 15.0, 15.0)
    assert (overlap_area(SQUARE, other), area_outside(other, SQUARE)) == (25.0, 75.0)


@pytest.mark.parametrize("length", [0.0001, 75.0, 102.5, 9.704545454, -160.0, 500_000.0])
def test_ticks_are_the_nearest_ten_thousandth(length: float) -> None:
    assert ticks(length).is_integer()
    assert abs(millimetres(ticks(length)) - length) <= 0.00005 + 1e-10


@pytest.mark.parametrize("sixteenths", [1, 3, 37, 4001])
def test_sixteenths_of_an_inch_are_whole_ticks(sixteenths: int) -> None:
    assert ticks(sixteenths * 25.4 / 16) == sixteenths * 15875


def test_a_square_metre_is_ten_to_the_fourteenth_square_ticks() -> None:
    assert square_metres(1e14) == pytest.approx(1.0, rel=1e-15)
