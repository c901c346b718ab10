"""Courses as the answer codes them: equal ones in one row, heights from the foot of the course."""

import pytest
from slip_walls import opening, outline, rectangle, request

from slip_rows import written_out
from storeyrod.slips.calculation import calculate


def coded(elevation, **changes):
    """The answer as it is sent."""
    return calculate(request(elevation, **changes)).result


def rows(elevation, **changes):
    return coded(elevation, **changes)["elevations"][0]["courses"]


def test_a_plain_wall_in_stretcher_bond_is_two_rows() -> None:
    """Ten courses: 0, 2, ... 8 and 1, 3, ... 9, the second row a course of 75 higher."""
    made = rows(rectangle(665, 750))
    assert [(row["course"], row["every"], row["count"], row["y_mm"]) for row in made] == [
        (0, 2, 5, 0.0),
        (1, 2, 5, 75.0),
    ]


def test_stack_bond_is_one_row() -> None:
    (row,) = rows(rectangle(665, 750), bond="stack")
    assert (row["course"], row["every"], row["count"]) == (0, 1, 10)


def test_a_single_course_follows_no_other() -> None:
    (row,) = rows(rectangle(665, 75))
    assert (row["every"], row["count"]) == (1, 1)


def test_courses_beside_a_window_are_rows_of_their_own() -> None:
    """Sill on course 4, head on course 8: courses 0 to 3, 4 to 7 and 8 to 11, each in two rows."""
    made = rows(rectangle(2240, 900, opening(562.5, 300, 1135, 300)))
    assert [(row["course"], row["count"]) for row in made] == [(0, 2), (1, 2), (4, 2), (5, 2), (8, 2), (9, 2)]


def test_the_course_that_a_sill_meets_is_a_row_of_its_own() -> None:
    made = rows(rectangle(2240, 900, opening(562.5, 330, 1135, 270)))
    assert [(row["course"], row["count"]) for row in made] == [(0, 2), (1, 2), (4, 1), (5, 2), (6, 1), (8, 2), (9, 2)]


def test_the_pitch_is_given_once() -> None:
    """US modular: 57.15 and 9.525 are 66.675."""
    us = {"slip": {"length_mm": 193.675, "height_mm": 57.15}, "joint": {"perp_mm": 9.525, "bed_mm": 9.525}}
    assert coded(rectangle(665, 150), **us)["course_pitch_mm"] == pytest.approx(66.675, abs=1e-9)
    assert coded(rectangle(665, 150))["course_pitch_mm"] == 75


def test_a_rip_under_the_top_is_measured_from_the_foot_of_its_course() -> None:
    """The sill at 330 leaves 30 of course 4, at its foot; the head at 360 leaves 5 over it, which is under a ripped 65."""
    course = next(row for row in rows(rectangle(2240, 900, opening(562.5, 330, 1135, 30))) if row["course"] == 4)
    assert {(cut["above_foot_mm"], cut["height_mm"]) for cut in course["cuts"] if "rings" not in cut} >= {(0.0, 30.0)}


def test_a_ring_is_measured_from_the_foot_of_its_course() -> None:
    """A rake of 45 degrees: every corner lies between foot and head of a slip."""
    made = rows(outline((0, 0), (1340, 0), (1340, 300), (1040, 600), (0, 600)))
    corners = [corner for row in made for cut in row["cuts"] for ring in cut.get("rings", ()) for corner in ring]
    assert {min(c["above_foot_mm"] for c in corners), max(c["above_foot_mm"] for c in corners)} == {0.0, 65.0}


def test_a_clipped_soldier_is_measured_from_the_foot_of_the_soldiers() -> None:
    """The zone over a head at 450 is 225 high; the wall ends at 600, so that soldiers are 150 high."""
    wall = rectangle(1790, 600, opening(552.5, 0, 685, 450, head="soldier"))
    (over,) = coded(wall)["elevations"][0]["soldier_courses"]
    assert over["y_mm"] == 450
    assert {(cut["above_foot_mm"], cut["height_mm"]) for cut in over["cuts"]} == {(0.0, 150.0)}


def test_rows_written_out_are_every_course_once() -> None:
    made = coded(rectangle(2240, 900, opening(562.5, 330, 1135, 270)))
    courses = written_out(made)["elevations"][0]["courses"]
    assert [(course["course"], course["y_mm"]) for course in courses] == [(number, number * 75) for number in range(12)]


def test_rows_written_out_lie_on_the_gauge_where_the_pitch_is_no_whole_tick() -> None:
    """8 in in three courses: 203.2 / 3; the foot of course 149 is that of its row, to the rounding of a foot."""
    us = {
        "slip": {"length_mm": 193.675, "height_mm": 57.15},
        "joint": {"perp_mm": 9.525, "bed_mm": 8 * 25.4 / 3 - 57.15},
    }
    made = written_out(coded(rectangle(665, 10_160), **us))["elevations"][0]["courses"]
    assert len(made) == 150
    assert made[149]["y_mm"] == pytest.approx(149 * 203.2 / 3, abs=1.1e-4)


def test_a_long_answer_stays_short() -> None:
    """Four storeys of windows, 144 courses and 3 x 4 windows: five bands of two rows for each storey at most."""
    holes = [
        opening(900 + 2700 * column, 900 + 2700 * row, 1135, 1200, name=f"w{column}-{row}")
        for column in range(3)
        for row in range(4)
    ]
    assert len(rows(rectangle(9000, 10_800, *holes))) <= 20
