"""Cutting pieces from boards: kerf, natural height, factory edges, bounds; with small cases counted by hand."""

import pytest
from board_requests import answer, wall, window


def needed(*walls: dict, **board: object) -> int:
    return answer(*walls, **board).result["boards_needed_count"]


def named(*widths: float, height: float = 600) -> list[dict]:
    return [{**wall(width, height), "id": f"w{index}"} for index, width in enumerate(widths)]


def test_two_halves_come_from_one_board_without_a_kerf() -> None:
    assert needed(*named(600, 600), kerf_mm=0) == 1


def test_two_halves_take_two_boards_with_a_kerf() -> None:
    assert needed(*named(600, 600), kerf_mm=3) == 2


def test_two_pieces_and_a_kerf_fill_a_board() -> None:
    assert needed(*named(600, 597), kerf_mm=3) == 1


def test_three_pieces_and_two_kerfs_fill_a_board() -> None:
    assert needed(*named(398, 398, 398), kerf_mm=3) == 1
    assert needed(*named(398, 398, 399), kerf_mm=3) == 2


def test_two_low_pieces_of_one_row_foot_cannot_lie_over_each_other() -> None:
    """Each keeps its own height in the board: two feet of a row both need the lower factory edge."""
    assert needed(*named(1200, 1200, height=300), kerf_mm=0) == 2


def test_a_foot_and_a_head_share_a_board() -> None:
    """Under a sill the foot of a board is wanted, over a head its head: both come from one board."""
    found = answer(wall(1200, 600, openings=[window("a", 0, 225, 1200, 150)]), kerf_mm=3)
    assert found.result["boards_needed_count"] == 1


def test_a_kerf_as_high_as_the_opening_still_fits() -> None:
    found = answer(wall(1200, 600, openings=[window("a", 0, 225, 1200, 150)]), kerf_mm=20)
    assert found.result["boards_needed_count"] == 1


def test_square_sides_let_two_end_pieces_come_from_any_part_of_a_board() -> None:
    walls = [{**wall(1700, 600), "id": f"w{index}"} for index in range(2)]
    assert needed(*walls, kerf_mm=0) == 3


def test_profiled_sides_give_one_left_and_one_right_end_from_a_board() -> None:
    """Both rests of 500 mm need the left factory edge, so each takes a board; laid plain, so that no row starts with an offcut."""
    walls = [{**wall(1700, 600), "id": f"w{index}"} for index in range(2)]
    plain = {"effort": "quick"}
    assert answer(*walls, options=plain, kerf_mm=0, side_edges="tongue").result["boards_needed_count"] == 4


def test_a_row_that_starts_with_an_offcut_of_another_saves_a_board() -> None:
    """500 at the left end of one run and 700 at the right end of the other make a board, each with its factory edge."""
    walls = [{**wall(1700, 600), "id": f"w{index}"} for index in range(2)]
    assert needed(*walls, kerf_mm=0, side_edges="tongue") == 3


def test_a_wall_of_whole_boards_meets_its_bound() -> None:
    found = answer(wall(4800, 600)).result
    assert found["boards_needed_count"] == found["boards_lower_bound_count"] == found["full_count"] == 4
    assert found["waste_area_m2"] == pytest.approx(0.0, abs=1e-9)


def test_equal_pieces_stand_in_one_line_of_the_cut_list() -> None:
    (line,) = answer(*named(500, 500, 500)).result["cut_list"]
    assert (line["count"], line["width_mm"], line["pieces"]) == (3, 500, ["w0-00-01", "w1-00-01", "w2-00-01"])


def test_left_and_right_notches_are_different_lines_of_the_cut_list() -> None:
    left = {**wall(1000, 600, openings=[window("a", 0, 300, 400, 300)]), "id": "l"}
    right = {**wall(1000, 600, openings=[window("a", 600, 300, 400, 300)]), "id": "r"}
    assert len(answer(left, right).result["cut_list"]) == 2


def test_a_useful_rest_is_listed_as_an_offcut() -> None:
    (rest,) = answer(wall(700, 600), kerf_mm=3).result["offcuts"]
    assert (rest["board"], rest["board_x_mm"], rest["width_mm"], rest["height_mm"]) == (1, 703, 497, 600)


def test_a_rest_narrower_than_the_least_piece_is_waste() -> None:
    found = answer(wall(1060, 600)).result
    assert [offcut["destination"] for offcut in found["offcuts"]] == ["waste"]
    assert found["kept_area_m2"] == 0.0


def test_boards_are_numbered_in_the_order_in_which_the_wall_asks_for_them() -> None:
    numbers = [piece["board"] for piece in answer(wall(5100, 1800)).result["pieces"]]
    firsts = list(dict.fromkeys(numbers))
    assert firsts == sorted(firsts)


def test_eight_piers_stay_between_the_proved_least_and_one_board_for_each_piece() -> None:
    """Derived case: 8 piers of 1650 in 4 rows; 44 by area, 45 proved with a stagger of 200, 64 without reuse."""
    piers = [{**wall(1650, 2400), "id": f"p{index}"} for index in range(8)]
    found = answer(*piers, kerf_mm=0, minimum_piece_mm=200).result
    assert found["boards_lower_bound_count"] == 44
    assert 45 <= found["boards_needed_count"] < 64


def test_pieces_of_a_gable_are_never_taken_from_above_a_rake() -> None:
    """A raked piece takes its whole bounding box from the board; what lies over the rake is no offcut."""
    outline = [{"x_mm": x, "y_mm": y} for x, y in [(0, 0), (1200, 0), (0, 600)]]
    found = answer({"id": "a", "outline": outline}, {"id": "b", "outline": outline}, kerf_mm=0).result
    assert found["boards_needed_count"] == 2
