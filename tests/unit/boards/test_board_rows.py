"""Rows of boards: on the course grid of the building, running through and butting in turn at corners (common practice)."""

import pytest
from board_requests import BUILD_UP_MM, answer, row_of, spans, wall

CORNER = {"kind": "external_corner"}


def test_rows_start_at_the_course_line_below_the_lowest_foot() -> None:
    found = answer(wall(2400, 1200), {**wall(2400, 1200), "id": "other"})
    assert {piece["y_mm"] for piece in found.result["pieces"]} == {0.0, 600.0}


def test_a_foot_between_two_course_lines_counts_from_the_line_below() -> None:
    points = [(0, 100), (2400, 100), (2400, 700), (0, 700)]
    found = answer({"id": "wall", "outline": [{"x_mm": x, "y_mm": y} for x, y in points]})
    assert [(p["y_mm"], p["height_mm"]) for p in row_of(found, 0)] == [(100.0, 575.0), (100.0, 575.0)]
    assert row_of(found, 1)[0]["y_mm"] == 675.0


def test_a_foot_below_the_datum_takes_whole_courses_down() -> None:
    points = [(0, -150), (1200, -150), (1200, 600), (0, 600)]
    found = answer({"id": "wall", "outline": [{"x_mm": x, "y_mm": y} for x, y in points]})
    assert [piece["y_mm"] for piece in found.result["pieces"]] == [-150.0, 450.0]


def test_at_an_external_corner_even_rows_run_through_and_odd_rows_butt() -> None:
    found = answer(wall(3000, 1200, left_edge=CORNER))
    through, butting = spans(row_of(found, 0))[0][0], spans(row_of(found, 1))[0][0]
    assert (through, butting) == (BUILD_UP_MM - 100, BUILD_UP_MM)


def test_of_two_faces_the_edge_whose_name_sorts_first_runs_through_in_even_rows() -> None:
    front = {**wall(3000, 1200, right_edge={**CORNER, "to": "side:left"}), "id": "front"}
    side = {**wall(3000, 1200, left_edge={**CORNER, "to": "front:right"}), "id": "side"}
    found = answer(front, side)
    assert spans(row_of(found, 0, "front"))[-1][1] == 3000 - 23
    assert spans(row_of(found, 0, "side"))[0][0] == 123
    assert spans(row_of(found, 1, "front"))[-1][1] == 3000 - 123
    assert spans(row_of(found, 1, "side"))[0][0] == 23


def test_at_an_internal_corner_boards_reach_past_the_finished_end() -> None:
    found = answer(wall(3000, 1200, left_edge={"kind": "internal_corner"}))
    assert spans(row_of(found, 0))[0][0] == -BUILD_UP_MM
    assert spans(row_of(found, 1))[0][0] == -23


def test_two_boards_of_a_corner_fill_it_without_overlap_in_every_row() -> None:
    """Plan of the corner: the run-through board covers the end grain of the other one, 100 mm thick."""
    front = {**wall(3000, 1200, right_edge={**CORNER, "to": "side:left"}), "id": "front"}
    side = {**wall(3000, 1200, left_edge={**CORNER, "to": "front:right"}), "id": "side"}
    found = answer(front, side)
    for row in (0, 1):
        past_front = spans(row_of(found, row, "front"))[-1][1] - (3000 - BUILD_UP_MM)
        past_side = BUILD_UP_MM - spans(row_of(found, row, "side"))[0][0]
        assert sorted([past_front, past_side]) == [0.0, 100.0]


def test_gross_area_is_measured_row_by_row_in_the_board_plane() -> None:
    (row,) = answer(wall(3000, 1200, left_edge=CORNER)).result["elevations"]
    assert row["board_gross_area_m2"] == pytest.approx((3.0 - 0.023) * 0.6 + (3.0 - 0.123) * 0.6, abs=1e-9)


def test_an_opening_at_an_arris_that_reaches_past_the_boards_is_cut_from_them() -> None:
    opening = {"id": "w", "kind": "rectangle", "x_mm": 10, "y_mm": 300, "width_mm": 1000, "height_mm": 600}
    (row,) = answer(wall(3000, 1200, left_edge=CORNER, openings=[opening])).result["elevations"]
    through, butting = 2.977 * 0.6 - 0.987 * 0.3, 2.877 * 0.6 - 0.887 * 0.3
    assert row["board_net_area_m2"] == pytest.approx(through + butting, abs=1e-9)


def test_a_lined_reveal_widens_the_opening_in_the_boards() -> None:
    lining = {"left": {"lining_mm": 20}, "right": {"lining_mm": 20}, "head": {"lining_mm": 30}}
    opening = {
        "id": "w",
        "kind": "rectangle",
        "x_mm": 900,
        "y_mm": 300,
        "width_mm": 1000,
        "height_mm": 450,
        "reveal": lining,
    }
    (row,) = answer(wall(3000, 1200, openings=[opening])).result["elevations"]
    assert row["board_net_area_m2"] == pytest.approx(3.0 * 1.2 - 1.040 * 0.480, abs=1e-9)
