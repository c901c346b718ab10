"""Seams: half-board stagger where nothing speaks against it, and first widths that keep limits where something does."""

import pytest
from board_requests import answer, found_codes, only, row_of, spans, wall, window

RIGHT_CORNER = {"kind": "external_corner"}


def starts(found, row: int) -> list[float]:
    return [left for left, _ in spans(row_of(found, row))]


def test_rows_of_whole_boards_are_staggered_by_half_a_board() -> None:
    found = answer(wall(4800, 1800))
    assert starts(found, 0) == [0, 1200, 2400, 3600]
    assert starts(found, 1) == [0, 600, 1800, 3000, 4200]
    assert starts(found, 2) == starts(found, 0)


def test_a_wall_no_longer_than_a_board_has_no_seam() -> None:
    assert all(len(row_of(answer(wall(1200, 1200)), row)) == 1 for row in (0, 1))


def test_a_narrow_rest_is_avoided_by_another_first_width() -> None:
    found = answer(wall(4900, 600))
    assert all(right - left >= 150 for left, right in spans(row_of(found, 0)))
    assert "piece-narrow" not in found_codes(found)


def test_no_more_pieces_than_the_length_asks_for_when_the_stagger_allows() -> None:
    found = answer(wall(5500, 1200))
    assert [len(row_of(found, row)) for row in (0, 1)] == [5, 5]
    assert "stagger-short" not in found_codes(found)


def test_rows_start_at_the_corner_when_only_the_right_end_has_one() -> None:
    found = answer(wall(3000, 600, right_edge=RIGHT_CORNER))
    assert spans(row_of(found, 0))[-1] == (3000 - 23 - 1200, 3000 - 23)


def test_a_pier_between_openings_is_one_piece_wide() -> None:
    openings = [window("a", 500, 0, 900, 1200), window("b", 2100, 0, 900, 1200)]
    found = answer(wall(3500, 1200, openings=openings))
    for row in (0, 1):
        assert (1400, 2100) in spans(row_of(found, row))


def test_no_seam_leaves_a_thin_arm_beside_an_opening() -> None:
    found = answer(wall(6000, 1800, openings=[window("a", 1100, 300, 1250, 1200)]))
    for row in (0, 1, 2):
        for seam in starts(found, row)[1:]:
            assert not 950 < seam < 1100
            assert not 2350 < seam < 2500


def test_seams_keep_clear_of_the_corners_of_an_opening() -> None:
    found = answer(wall(6000, 1800, openings=[window("a", 1150, 600, 1210, 600)]))
    for row in (0, 2):
        assert all(min(abs(seam - 1150), abs(seam - 2360)) >= 150 for seam in starts(found, row)[1:])


def test_rounding_on_a_rake_makes_no_piece_narrow() -> None:
    """A seam set 150 from where the row ends on the rake: the piece is 149.99998, less than one step of the grid short."""
    corners = [(0, 0), (2400, 0), (2400, 600), (1195, 3240), (0, 600)]
    found = answer({"id": "wall", "outline": [{"x_mm": x, "y_mm": y} for x, y in corners]})
    assert min(piece["width_mm"] for piece in found.result["pieces"]) == pytest.approx(150, abs=1e-4)
    assert "piece-narrow" not in found_codes(found)


def test_a_wall_narrower_than_the_least_width_is_reported_with_its_width() -> None:
    item = only(answer(wall(149, 600)), "piece-narrow")
    assert (item["value"], item["limit"], item["where"]["pieces"]) == (149, 150, ["wall-00-01"])


def test_a_wall_of_the_least_width_is_not_reported() -> None:
    assert "piece-narrow" not in found_codes(answer(wall(150, 600)))


def test_an_arm_between_two_openings_in_one_piece_is_reported() -> None:
    openings = [window("a", 200, 150, 300, 300), window("b", 590, 150, 300, 300)]
    item = only(answer(wall(1200, 600, openings=openings)), "arm-thin")
    assert (item["value"], item["limit"], item["where"]["pieces"]) == (90, 100, ["wall-00-01"])


def test_a_level_arm_over_an_opening_is_reported_by_its_height() -> None:
    item = only(answer(wall(1200, 600, openings=[window("a", 300, 0, 600, 525)])), "arm-thin")
    assert item["value"] == 75


def test_arms_of_the_least_width_are_not_reported() -> None:
    openings = [window("a", 200, 150, 300, 300), window("b", 600, 150, 300, 300)]
    assert "arm-thin" not in found_codes(answer(wall(1200, 600, openings=openings)))


def test_a_seam_that_cannot_keep_clear_of_a_corner_is_reported_with_its_distance() -> None:
    """Jambs every 300 mm leave no first width 200 mm clear of all of them; 150 mm, half way, is the best there is."""
    openings = [window(f"w{index}", 300 + 600 * index, 600, 300, 600) for index in range(4)]
    item = only(answer(wall(2700, 1800, openings=openings), seam_clear_of_corner_mm=200), "joint-at-opening-corner")
    assert (item["value"], item["limit"]) == (150, 200)


def test_stacked_seams_stand_in_line_and_ask_for_no_stagger() -> None:
    found = answer(wall(4900, 1800), seams="stacked")
    assert starts(found, 0) == starts(found, 1) == starts(found, 2)
    assert "stagger-short" not in found_codes(found)


def test_one_face_may_be_stacked_while_the_system_is_staggered() -> None:
    found = answer(wall(4800, 1200, board_seams="stacked"))
    assert starts(found, 0) == starts(found, 1) == [0, 1200, 2400, 3600]


def test_stacked_seams_keep_clear_of_every_opening_of_their_bay() -> None:
    found = answer(wall(6000, 1800, openings=[window("a", 1150, 600, 1210, 600)]), seams="stacked")
    for row in (0, 1, 2):
        assert all(min(abs(seam - 1150), abs(seam - 2360)) >= 150 for seam in starts(found, row)[1:] if seam != 2360)


def test_a_stagger_that_no_first_width_keeps_is_reported() -> None:
    item = only(answer(wall(2400, 1200), stagger_mm=700), "stagger-short")
    assert item["limit"] == 700
    assert item["value"] == 600


def test_a_stagger_of_half_a_board_is_kept() -> None:
    assert "stagger-short" not in found_codes(answer(wall(2400, 1200), stagger_mm=600))


def test_seams_over_and_under_an_opening_do_not_count_as_neighbours() -> None:
    """Rows that an opening parts do not meet: no stagger is asked for between them."""
    found = answer(wall(1300, 1200, openings=[window("a", 0, 300, 1300, 600)]), stagger_mm=1200)
    assert "stagger-short" not in found_codes(found)


def test_bays_between_joints_start_with_a_whole_board_each() -> None:
    found = answer(wall(6000, 600, existing_joints_x_mm=[2705]), joints={"width_mm": 10, "max_spacing_mm": 6000})
    assert (0, 1200) in spans(row_of(found, 0))
    assert (2710, 3910) in spans(row_of(found, 0))


def test_no_piece_crosses_a_joint_and_the_joint_closes_the_area() -> None:
    found = answer(wall(6000, 600, existing_joints_x_mm=[2500]), joints={"width_mm": 10, "max_spacing_mm": 6000})
    assert all(right <= 2495 or left >= 2505 for left, right in spans(row_of(found, 0)))
    (row,) = found.result["elevations"]
    assert abs(row["joint_area_m2"] - 0.006) < 1e-12


def test_pieces_name_their_bay() -> None:
    found = answer(wall(6000, 600, existing_joints_x_mm=[2500]), joints={"width_mm": 10, "max_spacing_mm": 6000})
    assert {piece["bay"] for piece in row_of(found, 0) if piece["x_mm"] < 2500} == {0}
    assert {piece["bay"] for piece in row_of(found, 0) if piece["x_mm"] > 2500} == {1}
