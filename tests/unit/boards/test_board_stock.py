"""Offcuts at hand: used before boards are bought, named in the answer, refused when no board gives them."""

import pytest
from board_requests import answer, wall, window

from storeyrod.findings import Refusal

HALF = {"id": "half", "width_mm": 600, "height_mm": 600, "factory_edges": ["left", "bottom", "top"]}
BOARD = {"id": "whole", "width_mm": 1200, "height_mm": 600, "factory_edges": ["left", "right", "bottom", "top"]}


def test_an_offcut_at_hand_saves_a_board() -> None:
    found = answer(wall(600, 600), stock=[HALF]).result
    assert found["boards_needed_count"] == 0
    assert found["stock_offcuts"] == [{"id": "half", "used_count": 1, "left_count": 0}]


def test_a_piece_from_stock_names_its_offcut_and_place() -> None:
    (piece,) = answer(wall(500, 600), stock=[{**HALF, "count": 2}]).result["pieces"]
    assert "board" not in piece
    assert (piece["stock_offcut"], piece["stock_number"], piece["board_y_mm"]) == ("half", 1, 0)


def test_a_whole_board_at_hand_is_laid_as_one() -> None:
    found = answer(wall(2400, 600), stock=[BOARD]).result
    assert found["boards_needed_count"] == 1
    assert [piece.get("board") for piece in found["pieces"]] == [None, 1]


def test_what_is_not_used_stays_in_stock() -> None:
    found = answer(wall(1200, 600), stock=[{**HALF, "width_mm": 300, "count": 3}]).result
    assert found["boards_needed_count"] == 1
    assert found["stock_offcuts"] == [{"id": "half", "used_count": 0, "left_count": 3}]


def test_an_offcut_without_its_lower_edge_does_not_stand_on_the_base_trim() -> None:
    found = answer(wall(600, 600), stock=[{**HALF, "factory_edges": ["top"]}]).result
    assert found["boards_needed_count"] == 1


def test_a_base_trim_that_takes_cut_edges_takes_that_offcut_too() -> None:
    found = answer(wall(600, 600), stock=[{**HALF, "factory_edges": ["top"]}], base_row_cut=True).result
    assert found["boards_needed_count"] == 0


def test_what_is_left_of_an_offcut_is_an_offcut_of_it() -> None:
    found = answer(wall(300, 600), stock=[HALF], kerf_mm=3).result
    (rest,) = found["offcuts"]
    assert (rest["id"], rest["stock_offcut"], rest["stock_number"]) == ("half.1.1", "half", 1)
    assert (rest["board_x_mm"], rest["width_mm"], rest["destination"]) == (303, 297, "stock")


def test_waste_counts_stock_that_is_used() -> None:
    found = answer(wall(500, 600), stock=[HALF], kerf_mm=0).result
    assert found["waste_area_m2"] == pytest.approx(0.1 * 0.6)


def test_without_stock_nothing_is_said_of_it() -> None:
    assert "stock_offcuts" not in answer(wall(600, 600)).result


def test_faces_on_their_own_are_cut_from_new_boards() -> None:
    found = answer(wall(600, 600), stock=[HALF]).result
    assert found["elevations"][0]["boards_needed_count"] == 1


@pytest.mark.parametrize(("member", "size"), [("width_mm", 1200.5), ("height_mm", 600.5)])
def test_an_offcut_larger_than_a_board_is_refused(member: str, size: float) -> None:
    with pytest.raises(Refusal, match="stock-offcut-too-large") as caught:
        answer(wall(600, 600), stock=[HALF, {**HALF, "id": "big", member: size}])
    assert caught.value.faults[0].pointer == f"/stock_offcuts/1/{member}"


def test_two_offcuts_of_one_id_are_refused() -> None:
    with pytest.raises(Refusal, match="duplicate-id"):
        answer(wall(600, 600), stock=[HALF, HALF])


def test_an_offcut_fits_under_a_sill_only_with_its_foot() -> None:
    """Under the sill the piece stands on the row below: a strip of 300 with its lower edge does, one with its upper does not."""
    wide = window("a", 0, 900, 1200, 600)
    lower = {"id": "strip", "width_mm": 1200, "height_mm": 300, "factory_edges": ["bottom"]}
    upper = {**lower, "factory_edges": ["top"]}
    without = answer(wall(1200, 1800, openings=[wide])).result["boards_needed_count"]
    assert answer(wall(1200, 1800, openings=[wide]), stock=[lower]).result["boards_needed_count"] <= without
    pieces = answer(wall(1200, 1800, openings=[wide]), stock=[upper]).result["pieces"]
    assert all(piece["y_mm"] != 600 for piece in pieces if piece.get("stock_offcut"))
