"""Set-out courses and plumb lines: boards of 600 hold 8 courses of 75, so courses 3 and 4 stand at the middle of the lowest row."""

import math
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from set_out_walls import bays, hole, plain, set_out_of, shaped

from storeyrod.setting_out.upright_zones import upright_zones


def courses(elevation, **more):
    return [row["course"] for row in bays(elevation, **more)[0]["set_out_courses"]]


def marks(elevation, **more):
    return [(mark["x_mm"], mark["what"], mark["carry"]) for mark in bays(elevation, **more)[0]["marks"]]


def test_the_two_courses_stand_at_the_middle_of_the_lowest_row_of_boards() -> None:
    rows = bays(plain(2240, 2400))[0]["set_out_courses"]
    assert [(row["course"], row["y_mm"]) for row in rows] == [(3, 257.5), (4, 332.5)]


def test_boards_stand_from_the_lowest_course_of_the_wall() -> None:
    """The foot at 150 is course 2, the middle of the lowest board course 6."""
    assert courses(shaped((0, 150), (2240, 150), (2240, 2400), (0, 2400))) == [5, 6]


def test_a_row_that_an_opening_interrupts_gives_way_to_the_lowest_clear_one() -> None:
    """A door to 900 stops rows 0 and 1, whose middles are at 300 and 900; 1500 is course 20."""
    assert courses(plain(4490, 2400, hole(890, 0, 1135, 900))) == [19, 20]


def test_without_a_clear_row_the_one_that_runs_farthest_is_taken() -> None:
    """A tall door on all rows, and a window in the two lower ones."""
    wall = plain(4490, 2400, hole(890, 0, 910, 2400 - 75, "d"), hole(2690, 225, 910, 900, "w"))
    assert courses(wall) == [19, 20]


def test_a_bay_lower_than_half_a_board_takes_its_own_lowest_courses() -> None:
    assert courses(plain(2240, 225)) == [0, 1]


def test_a_bay_of_one_course_takes_that_one() -> None:
    assert courses(plain(2240, 75)) == [0]


def test_a_board_whose_middle_lies_in_a_course_takes_the_line_below_it() -> None:
    """Nine courses of 75: the middle at 337.5 is half way between courses 4 and 5."""
    assert courses(plain(2240, 2400), board={"cover_height_mm": 675}) == [3, 4]


def test_middles_of_perps_of_both_courses() -> None:
    """Even courses have perps behind every slip, odd ones half a module on."""
    rows = bays(plain(890, 1200))[0]["set_out_courses"]
    assert [row["perps_x_mm"] for row in rows] == [[107.5, 332.5, 557.5, 782.5], [220.0, 445.0, 670.0]]


def test_no_perp_is_marked_in_an_opening() -> None:
    rows = bays(plain(4490, 600, hole(890, 0, 1135, 525)))[0]["set_out_courses"]
    assert all(x < 890 or x > 2025 for row in rows for x in row["perps_x_mm"])


def test_perps_of_a_broken_bond_lie_beside_its_cut_pieces() -> None:
    """1045: 145 in the middle of even courses, twice 180 in odd ones."""
    rows = bays(plain(1045, 1200), perps="equalised")[0]["set_out_courses"]
    assert rows[1]["perps_x_mm"] == pytest.approx([220, 445, 600, 825], abs=1e-9)
    assert rows[0]["perps_x_mm"] == pytest.approx([107.5, 332.5, 522.5, 712.5, 937.5], abs=1e-9)


def test_every_fourth_perp_of_the_even_course_gets_a_line() -> None:
    """At 4 x 225 - 5 and 8 x 225 - 5; the wall of 32 courses goes on both ways."""
    assert marks(plain(2240, 2400)) == [
        (0.0, "end", "up_and_down"),
        (895.0, "perp", "up_and_down"),
        (1795.0, "perp", "up_and_down"),
        (2240.0, "end", "up_and_down"),
    ]


def test_from_the_right_perps_are_counted_from_the_right() -> None:
    assert [x for x, what, _ in marks(plain(2240, 2400, bond_from="right")) if what == "perp"] == [445.0, 1345.0]


def test_jambs_get_lines_and_a_perp_beside_one_does_not() -> None:
    """The fourth perp, at 895, is the one at the jamb at 890."""
    made = marks(plain(4490, 2400, hole(890, 1050, 1135, 1050)))
    assert (890.0, "jamb", "up_and_down") in made
    assert (2025.0, "jamb", "up_and_down") in made
    assert 895.0 not in [x for x, _, _ in made]


def test_jambs_above_one_another_get_one_line() -> None:
    wall = plain(4490, 4800, hole(890, 1050, 1135, 1050, "a"), hole(890, 3000, 1135, 1050, "b"))
    assert [x for x, what, _ in marks(wall) if what == "jamb"] == [890.0, 2025.0]


def test_lines_go_only_where_there_are_whole_courses() -> None:
    """Of a wall of five courses, courses 3 and 4 are the topmost."""
    assert {carry for _, _, carry in marks(plain(2240, 375))} == {"down"}


def test_lines_of_the_lowest_courses_go_up() -> None:
    assert {carry for _, _, carry in marks(plain(2240, 225))} == {"up"}


def test_beside_a_raised_base_lines_go_up_only_where_nothing_is_below() -> None:
    """The base steps up to course 3 at 1340; the step itself is plumb but no jamb."""
    wall = shaped((0, 0), (1340, 0), (1340, 225), (2240, 225), (2240, 2400), (0, 2400))
    assert marks(wall) == [
        (0.0, "end", "up_and_down"),
        (895.0, "perp", "up_and_down"),
        (1795.0, "perp", "up"),
        (2240.0, "end", "up"),
    ]


@given(st.integers(20_000, 490_000).map(lambda tenths: tenths / 10))
@settings(max_examples=25, deadline=None)
def test_p13_middles_of_perps_are_exact_multiples_not_sums(length) -> None:
    """Against fractions: k slips and k - 1/2 perps from the left end; the last piece is a whole slip or a half bat."""
    bay = bays(plain(length, 600), perps="equalised")[0]
    if bay["arrangement"] != "equalised":
        return
    even = next(row for row in bay["set_out_courses"] if row["course"] == 4)
    count = len(even["perps_x_mm"])
    joints = Fraction(str(length)) - 215 * (count + 1)
    perp = min((joints / count, (joints + Fraction("112.5")) / count), key=lambda one: abs(one - 10))
    exact = [215 * (k + 1) + perp * (k + Fraction(1, 2)) for k in range(count)]
    assert even["perps_x_mm"] == pytest.approx([float(x) for x in exact], abs=1e-6)


def test_no_perp_is_marked_in_a_soldier_course() -> None:
    """Soldiers of 215 and a bed over a head at 150 take courses 2 to 4 between 552.5 and 1687.5."""
    rows = bays(plain(2240, 600, hole(552.5, 0, 1135, 150, head="soldier")))[0]["set_out_courses"]
    assert [row["course"] for row in rows] == [3, 4]
    assert [row["perps_x_mm"] for row in rows] == [[107.5, 332.5, 1907.5, 2132.5], [220.0, 445.0, 1795.0, 2020.0]]


def test_a_row_that_soldiers_interrupt_gives_way_to_a_clear_one() -> None:
    assert courses(plain(2240, 2400, hole(552.5, 0, 1135, 150, head="soldier"))) == [11, 12]


def test_piers_beside_an_opening_go_on_beside_its_soldiers() -> None:
    runs = bays(plain(2240, 600, hole(552.5, 0, 1135, 150, head="soldier")))[0]["runs"]
    piers = [(run["x_from_mm"], run["x_to_mm"], run["course_to"]) for run in runs if run["kind"] == "end_pier"]
    assert piers == [(0, 552.5, 4), (1687.5, 2240, 4)]


def test_courses_run_over_a_head_too_narrow_for_a_soldier() -> None:
    """A slip is 65 high, so 40 takes none: the odd course has its perp over it."""
    rows = bays(plain(890, 600, hole(540, 0, 40, 150, head="soldier")))[0]["set_out_courses"]
    assert rows[0]["perps_x_mm"] == [107.5, 332.5, 557.5, 782.5]


def test_no_perp_is_marked_under_a_ring_of_voussoirs() -> None:
    """A semicircle of 342.5 from 150 with one ring of headers: the ring and its bed reach 455 from the centre at x 1120.

    Course 3 stands from 225, 75 above the centre: half its width there is the root of 455 x 455 - 75 x 75 = 448.8, from 671.2 on. Course
    4 is 150 above it: 429.6, from 690.4 on. They have perps at 107.5 and 220 and every 225 mm from there.
    """
    arch = {
        "id": "a", "kind": "arch", "x_mm": 777.5, "width_mm": 685, "sill_mm": 0, "springing_mm": 150, "rise_mm": 342.5,
        "voussoirs": {"cut": "taper"},
    }  # fmt: skip
    lower, upper = bays(plain(2240, 600, arch))[0]["set_out_courses"]
    assert [x for x in lower["perps_x_mm"] if 671.2 < x < 1568.8] == []
    assert lower["perps_x_mm"] == [107.5, 332.5, 557.5, 1682.5, 1907.5, 2132.5]
    assert upper["perps_x_mm"] == [220.0, 445.0, 670.0, 1570.0, 1795.0, 2020.0]


def test_a_flat_arch_takes_of_a_course_what_its_outer_arc_spans() -> None:
    """Chord 1200, rise 200: radius 1000 and half angle asin 0.6. With 102.5 and a bed the outer arc has 1112.5 and ends 890 above the
    centre, at 590. Course 8, from 600, is 900 above the centre; course 7, up to 590, ends at the skewback: 890 x 3/4.
    """
    arch = {
        "id": "a", "kind": "arch", "x_mm": 1000, "width_mm": 1200, "sill_mm": 0, "springing_mm": 500, "rise_mm": 200,
        "voussoirs": {},
    }  # fmt: skip
    _, wall = set_out_of(plain(3200, 900, arch))
    half = {
        round(foot / 750_000): right / 10_000 - 1600
        for _, foot, right, _ in upright_zones(wall.faces[0], wall.system, wall.gauge)
    }
    assert half[8] == pytest.approx(math.sqrt(1112.5**2 - 900**2))
    assert half[7] == pytest.approx(890 * 3 / 4)
