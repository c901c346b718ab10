"""The pattern of fasteners. Four across a board and every fourth course: common practice, no source."""

import math
from itertools import combinations

import pytest
from fastener_requests import answer, found_codes, only, places, stages, wall, window

FULL = "wall-00-01"


def test_a_full_board_of_eight_courses_gets_eight_fasteners() -> None:
    found = answer(wall(1200, 600)).result
    assert found["fasteners_count"] == found["full_board_count"] == 8


def test_a_full_board_gets_eleven_fasteners_on_a_square_metre() -> None:
    """Arithmetic: 8 on 1.2 m by 0.6 m is 11.11 per square metre."""
    assert answer(wall(1200, 600)).result["density_per_m2"] == pytest.approx(11.11, abs=0.005)


def test_columns_take_equal_shares_of_the_width() -> None:
    assert sorted({x for x, _ in places(answer(wall(1200, 600)), FULL)}) == [150, 450, 750, 1050]


def test_rows_stand_in_the_middle_of_slips_on_the_middle_course_of_every_four() -> None:
    """Courses 2 and 6: 2 x 75 + 32.5 and 6 x 75 + 32.5."""
    assert sorted({y for _, y in places(answer(wall(1200, 600)), FULL)}) == [182.5, 482.5]


def test_rows_line_up_across_a_seam() -> None:
    found = answer(wall(2100, 600, openings=[window("a", 1500, 0, 600, 150)]))
    rows = {piece: {y for _, y in places(found, piece)} for piece in ("wall-00-01", "wall-00-02")}
    assert rows["wall-00-01"] == rows["wall-00-02"] == {182.5, 482.5}


def test_rows_count_on_the_course_number_of_the_building() -> None:
    """A wall that starts one course up keeps the rows of its neighbour: courses 2, 6 and 10."""
    outline = [{"x_mm": x, "y_mm": y} for x, y in [(0, 75), (1200, 75), (1200, 900), (0, 900)]]
    found = answer({**wall(1200, 900), "id": "a"}, {"id": "b", "outline": outline})
    assert {row["y_mm"] for row in found.result["positions"]} == {182.5, 482.5, 782.5}


@pytest.mark.parametrize(("width", "columns"), [(200, 2), (600, 2), (601, 3), (900, 3), (901, 4), (1200, 4)])
def test_columns_follow_the_width_of_a_piece(width: float, columns: int) -> None:
    assert answer(wall(width, 600)).result["fasteners_count"] == 2 * columns


@pytest.mark.parametrize(("courses", "rows"), [(3, 1), (4, 1), (5, 2), (8, 2)])
def test_rows_follow_the_courses_of_a_piece(courses: int, rows: int) -> None:
    assert answer(wall(1200, courses * 75)).result["fasteners_count"] == 4 * rows


def test_a_piece_that_the_rows_miss_gets_its_middle_course() -> None:
    """Courses 3 to 5 hold none of the rows 2 and 6: course 4 carries them."""
    found = answer(wall(1200, 600, openings=[window("a", 0, 0, 1200, 225), window("b", 0, 450, 1200, 150)]))
    assert {y for _, y in places(found, "wall-00-01")} == {4 * 75 + 32.5}


def test_a_piece_too_narrow_for_two_columns_has_two_fasteners_in_a_plumb_line_and_is_reported() -> None:
    found = answer(wall(199, 600))
    assert places(found, FULL) == [(99.5, 182.5), (99.5, 482.5)]
    item = only(found, "pier-narrow")
    assert (item["value"], item["limit"], item["where"]["pieces"]) == (199, 200, [FULL])


def test_a_piece_of_twice_the_edge_distance_and_the_spacing_has_two_columns() -> None:
    found = answer(wall(200, 600), substrate_edge_distance_mm=50)
    assert {x for x, _ in places(found, FULL)} == {50, 150}
    assert "pier-narrow" not in found_codes(found)


def test_a_low_narrow_piece_with_room_for_one_fastener_is_reported() -> None:
    item = only(answer(wall(150, 225)), "fasteners-few")
    assert (item["value"], item["limit"]) == (1, 2)


def test_a_low_piece_with_room_for_two_is_not_reported() -> None:
    assert "fasteners-few" not in found_codes(answer(wall(200, 225)))


def test_a_strip_of_one_course_cannot_keep_the_edge_distance_and_says_what_it_keeps() -> None:
    found = answer(wall(1200, 75))
    item = only(found, "edge-distance-impossible")
    assert (item["value"], item["limit"]) == (32.5, 50)
    assert {y for _, y in places(found, FULL)} == {32.5}


def test_a_strip_of_three_courses_keeps_the_edge_distance() -> None:
    assert "edge-distance-impossible" not in found_codes(answer(wall(1200, 225)))


def test_a_pattern_closer_than_the_spacing_is_staggered() -> None:
    """Every course is 75 mm, under the least spacing of 100 mm: eight courses of four are set in the gaps of those beside them."""
    found = answer(wall(1200, 600), every_nth_course=1)
    assert len(places(found, FULL)) >= 32
    assert all(math.dist(a, b) >= 100 - 1e-6 for a, b in combinations(places(found, FULL), 2))
    assert "fasteners-few" not in found_codes(found)


def test_a_pattern_that_has_no_room_even_so_is_reported() -> None:
    """Eight courses of four at 250 mm from one another on a board of 1100 by 375 between its edge distances."""
    assert "fasteners-few" in found_codes(answer(wall(1200, 600), every_nth_course=1, min_spacing_mm=250))


def test_a_least_number_per_piece_adds_fasteners_where_there_is_room() -> None:
    assert answer(wall(300, 600), min_per_piece_count=6).result["fasteners_count"] == 6


def test_fasteners_stand_beside_an_opening_at_the_edge_distance() -> None:
    found = answer(wall(1200, 600, openings=[window("a", 400, 300, 800, 300)]))
    upper = [x for x, y in places(found, FULL) if y > 300]
    assert upper
    assert all(50 <= x <= 350 for x in upper)


def test_a_row_moves_from_under_a_sill_that_is_too_near() -> None:
    """The row at 182.5 lies 42.5 mm below the sill: over the width of the opening nothing stands there."""
    found = answer(wall(1200, 600, openings=[window("a", 300, 225, 600, 375)]))
    assert all(not (250 < x < 950 and y > 175) for x, y in places(found, FULL))


def test_on_a_raked_piece_the_distance_is_measured_square_to_the_rake() -> None:
    outline = [{"x_mm": x, "y_mm": y} for x, y in [(0, 0), (1200, 0), (0, 600)]]
    found = answer({"id": "wall", "outline": outline})
    for x, y in places(found, FULL):
        assert (1200 - x - 2 * y) / 5**0.5 >= 50 - 1e-6


def test_over_a_run_through_end_fasteners_reach_the_substrate() -> None:
    """Substrate ends 123 mm behind the arris; the board starts at 23 mm."""
    found = answer(wall(2423, 600, left_edge={"kind": "external_corner"}))
    first = places(found, FULL)
    assert min(x for x, _ in first) >= 123 + 50
    assert len(first) == 8


def test_a_butting_end_starts_at_the_substrate() -> None:
    found = answer(wall(2423, 1200, left_edge={"kind": "external_corner"}))
    assert min(x for x, y in places(found, "wall-01-01") if y > 600) >= 123 + 50


def test_wind_and_substrate_stand_under_not_checked() -> None:
    text = " ".join(answer(wall(1200, 600)).not_checked)
    assert "wind" in text
    assert "local code" in text


@pytest.mark.parametrize("word", ["approved", "compliant", "safe"])
def test_the_answer_promises_nothing(word: str) -> None:
    assert word not in " ".join(answer(wall(1200, 600)).not_checked).lower()


def test_a_run_through_end_with_no_substrate_behind_it_is_reported_with_a_negative_distance() -> None:
    """Boards of 100 mm: the last one of a row that runs through lies before the other face's board only."""
    short = {"cover_length_mm": 100, "minimum_piece_mm": 0, "stagger_mm": 0}
    found = answer(
        wall(800, 600, left_edge={"kind": "external_corner"}),
        board=short,
        edge_distance_mm=10,
        substrate_edge_distance_mm=10,
    )
    item = only(found, "edge-distance-impossible")
    assert (item["value"], item["where"]["pieces"]) == (-50, [FULL])


def test_a_strip_without_the_middle_of_a_slip_says_so_without_a_distance() -> None:
    outline = [{"x_mm": x, "y_mm": y} for x, y in [(0, 40), (1200, 40), (1200, 90), (0, 90)]]
    item = only(answer({"id": "wall", "outline": outline}, edge_distance_mm=0), "edge-distance-impossible")
    assert "value" not in item


def test_no_edge_distance_lets_fasteners_stand_on_a_shaped_piece() -> None:
    found = answer(wall(1200, 600, openings=[window("a", 400, 300, 300, 150)]), edge_distance_mm=0)
    assert places(found, FULL)


def test_an_edge_distance_over_half_the_width_sets_one_fastener_in_the_middle() -> None:
    found = answer(wall(500.1, 600), edge_distance_mm=300, min_per_piece_count=1)
    assert [x for x, _ in places(found, FULL)] == [pytest.approx(250.05)]


def test_a_face_whose_linings_leave_no_board_takes_no_fastener() -> None:
    """Linings of 20 mm stand over a bare opening as wide as the wall."""
    linings = {side: {"lining_mm": 20} for side in ("left", "right")}
    gap = {**window("gap", 0, 0, 1200, 600), "reveal": linings}
    found = answer(wall(1200, 600, plane="substrate", openings=[gap])).result
    assert (found["fasteners_count"], found["density_per_m2"]) == (0, 0.0)
    assert [row["density_per_m2"] for row in found["elevations"]] == [0.0]


def test_a_narrow_pier_is_reported_on_every_face_that_has_one() -> None:
    """Piers of 150 mm and one shape: at 5000 on the first face, beyond the end of the second, and at 1500 there."""
    first = wall(6000, 600, openings=[window("a", 4000, 0, 1000, 600), window("b", 5150, 0, 850, 600)])
    ends = {f"{side}_edge": {"kind": "external_corner"} for side in ("left", "right")}
    second = wall(3000, 600, openings=[window("a", 500, 0, 1000, 600), window("b", 1650, 0, 850, 600)], **ends)
    found = answer({**first, "id": "one"}, {**second, "id": "two"})
    narrow = [item["where"]["elevation"] for item in found.findings if item["code"] == "pier-narrow"]
    assert narrow == ["one", "two"]


def test_a_narrow_pier_by_a_jamb_is_said_to_have_its_column_near_the_middle_and_both_of_it_first() -> None:
    """150 mm: 100 from the jamb on its left and 50 from the edge on its right, not 75 and 75."""
    found = answer(wall(2400, 600, openings=[window("o", 150, 0, 900, 600)]))
    assert [x for x, _ in places(found, "wall-00-02")] == [1150, 1150]
    assert stages(found, "wall-00-02") == ["first", "first"]
    advice = only(found, "pier-narrow")["advice"]
    assert "as near the middle as edges allow" in advice
    assert "On the base both of two fasteners go first" in advice
