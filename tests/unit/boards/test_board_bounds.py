"""Bounds for any layout: area, course strips and projected width, each by hand."""

import math

from board_requests import answer, wall, window

PLAIN_EDGES = {"bottom_edge": "square", "top_edge": "square"}


def corners(*points: tuple[float, float]) -> list[dict]:
    return [{"x_mm": x, "y_mm": y} for x, y in points]


GABLE = {"id": "gable", "outline": corners((0, 0), (6000, 0), (3000, 3000))}
"""Base 6000 and rise 3000, 45 degrees: five rows of boards 1200 by 600."""


def bound(*walls: dict, stock: list[dict] | None = None, **board: object) -> tuple[int, str]:
    found = answer(*walls, stock=stock, **board).result
    return found["boards_lower_bound_count"], found["boards_lower_bound"]


def test_whole_rows_are_bounded_by_area() -> None:
    assert bound(wall(5000, 2400)) == (math.ceil(5.0 * 2.4 / 0.72), "area")


def test_a_closing_row_of_one_course_needs_lower_edges_as_long_as_itself() -> None:
    """Rows of 600, 600 and 75: the last one stands on the tongue below with factory edges, 4800 long like the others."""
    assert bound(wall(4800, 1275)) == (12, "projected_width")


def test_with_square_edges_a_closing_row_comes_out_of_one_board() -> None:
    """Eight courses of 75 from each board: 4800 by 75 is an eighth of four boards; by area 8.5 boards in all."""
    assert bound(wall(4800, 1275), **PLAIN_EDGES) == (9, "area")


def test_a_gable_on_lapped_boards_needs_the_feet_of_its_rows() -> None:
    """Derived case, proved with two solvers: 6000 + 4800 + 3600 + 2400 + 1200 over 1200 is 15; 13 by area."""
    assert bound(GABLE, kerf_mm=0) == (15, "projected_width")


def test_a_gable_is_cut_from_the_boards_of_its_bound() -> None:
    """15 boards, reached row by row as 5 + 4 + 3 + 2 + 1; a plan with 13 or 14 has turned a piece."""
    found = answer(GABLE, kerf_mm=0).result
    assert (found["boards_needed_count"], found["gap_count"], found["bound_status"]) == (15, 0, "proved")


def test_a_gable_with_square_edges_is_bounded_by_the_widest_clear_width_of_every_course() -> None:
    """40 courses, 6000 down to 150 wide at their feet: 123 000 over 8 x 1200 is 12.81; the area gives 12.5."""
    assert bound(GABLE, kerf_mm=0, **PLAIN_EDGES)[0] == 13


def test_the_strips_of_a_lean_to_take_the_foot_of_every_course() -> None:
    """A triangle 9000 wide and 600 high: eight courses, 9000, 7875 ... 1125 wide at their feet, are 40 500 of 9600 in a board;
    its area is 3.75 boards. Edges are square, and no part of it is a board high but at the left.
    """
    lean_to = {"id": "lean-to", "outline": corners((0, 0), (9000, 0), (0, 600))}
    assert bound(lean_to, **PLAIN_EDGES) == (5, "course_strips")


def test_under_an_overhang_the_strips_take_the_heads_of_the_courses() -> None:
    """The same triangle upside down, over an opening: its courses are 1125 ... 9000 wide at their heads."""
    valley = {"kind": "polygon", "id": "v", "points": corners((0, 0), (9000, 0), (9000, 600))}
    assert bound(wall(9000, 600, openings=[valley]), **PLAIN_EDGES) == (5, "course_strips")


def test_boards_without_ribs_have_no_strips() -> None:
    lean_to = {"id": "lean-to", "outline": corners((0, 0), (9000, 0), (0, 600))}
    assert bound(lean_to, rib_pitch_mm=None, **PLAIN_EDGES) == (4, "area")


def test_a_door_takes_nothing_from_the_lower_edges() -> None:
    """Row 0 stands on 3600 less 1200; over the door the foot of row 1 is cut: 2400 and 2400 of lower edge, 3.5 boards by area."""
    door = window("door", 1200, 0, 1200, 600)
    assert bound(wall(3600, 1200, openings=[door])) == (5, "area")


def test_stock_counts_as_what_it_could_save() -> None:
    """Four boards by area; half a board at hand leaves three and a half."""
    half = {"id": "half", "width_mm": 600, "height_mm": 600, "factory_edges": ["bottom", "top"]}
    assert bound(wall(4800, 600), stock=[half]) == (4, "area")
    assert bound(wall(4800, 600), stock=[{**half, "count": 2}]) == (3, "area")


def test_stock_without_its_lower_edge_saves_no_lower_edge() -> None:
    """A row of 75 on a row of 600: two rows of 2400 need four lower edges, whatever offcuts without one are at hand."""
    low = {"id": "low", "width_mm": 1200, "height_mm": 300, "factory_edges": ["top"], "count": 4}
    assert bound(wall(2400, 675), stock=[low]) == (4, "projected_width")


def test_the_bound_of_a_wall_does_not_depend_on_its_seams() -> None:
    openings = [window("a", 700, 300, 1000, 900), window("b", 2600, 0, 900, 2100)]
    bounds = {
        bound(wall(5000, 2475, openings=openings), minimum_piece_mm=least, stagger_mm=stagger)
        for least in (50, 150, 300)
        for stagger in (0, 200, 400)
    }
    assert len(bounds) == 1


def test_status_is_proved_where_count_and_bound_meet() -> None:
    found = answer(wall(4800, 600)).result
    assert found["bound_status"] == "proved"
    assert found["boards_needed_count"] == found["cutting_lower_bound_count"] == 4
