"""The gauge: course lines above and below a datum, and how far a level lies from them."""

import pytest

from storeyrod.geometry.ticks import TICKS_PER_MM, ticks
from storeyrod.wall.gauge import Gauge

METRIC = Gauge(ticks(65), ticks(75), ticks(10))
"""Courses at 10, 85, 160, ... mm."""

THREE_TO_EIGHT_INCHES = Gauge(ticks(57.15), 203.2 / 3 * TICKS_PER_MM)
"""Three courses to 8 in: the pitch is no whole number of ticks."""


@pytest.mark.parametrize(("level", "course"), [(10, 0), (84.9999, 0), (85, 1), (9.9999, -1), (-65, -1), (-65.0001, -2)])
def test_a_level_stands_on_the_highest_course_at_or_below_it(level: float, course: int) -> None:
    assert METRIC.standing_at(ticks(level)) == course


def test_every_course_line_stands_on_its_own_course_whatever_the_pitch() -> None:
    gauge = THREE_TO_EIGHT_INCHES
    assert [gauge.standing_at(gauge.bottom(number)) for number in range(-500, 501)] == list(range(-500, 501))


def test_three_hundred_courses_of_a_third_of_eight_inches_come_to_eight_hundred_inches() -> None:
    assert THREE_TO_EIGHT_INCHES.bottom(300) == ticks(800 * 25.4)


@pytest.mark.parametrize(("level", "offset"), [(95, 10), (150, -10), (47.5, 37.5), (122.5, 37.5), (-27.5, 37.5)])
def test_a_level_half_way_between_two_courses_counts_as_above_the_lower_one(level: float, offset: float) -> None:
    assert METRIC.off_course(ticks(level)) == ticks(offset)
