"""Offcuts: parts of a board, their factory edges, what notches set free, and where each goes."""

import pytest
from board_requests import answer, wall, window


def offcuts(found) -> dict[str, dict]:
    return {row["id"]: row for row in found.result["offcuts"]}


def named(*widths: float, height: float = 600) -> list[dict]:
    return [{**wall(width, height), "id": f"w{index}"} for index, width in enumerate(widths)]


def test_the_first_cut_leaves_an_offcut_from_which_the_second_piece_comes() -> None:
    """700 and 300 from a board of 1200 with kerfs of 3: an offcut of 497, and of that 194 are left."""
    found = offcuts(answer(*named(700, 300), kerf_mm=3))
    assert (found["1.1"]["destination"], found["1.1"]["width_mm"], found["1.1"]["pieces"]) == (
        "pieces", 497, ["w1-00-01"],
    )  # fmt: skip
    assert (found["1.2"]["parent"], found["1.2"]["width_mm"], found["1.2"]["destination"]) == ("1.1", 194, "stock")


def test_the_right_end_of_a_board_keeps_its_factory_edge() -> None:
    (rest,) = answer(wall(700, 600)).result["offcuts"]
    assert rest["factory_edges"] == ["right", "bottom", "top"]


def test_a_strip_from_the_head_of_a_board_keeps_the_upper_edge() -> None:
    """A foot of 225 leaves 372 over a kerf of 3."""
    (rest,) = answer(wall(1200, 225), kerf_mm=3).result["offcuts"]
    assert (rest["board_y_mm"], rest["height_mm"], rest["factory_edges"]) == (228, 372, ["left", "right", "top"])


def test_a_notch_sets_a_rectangle_free_less_its_kerfs() -> None:
    """400 by 300 at the head of a whole board, sawn along its left and its lower side."""
    (rest,) = answer(wall(1200, 600, openings=[window("a", 800, 300, 400, 300)]), kerf_mm=3).result["offcuts"]
    assert rest["released_by"] == "wall-00-01"
    assert (rest["board_x_mm"], rest["board_y_mm"], rest["width_mm"], rest["height_mm"]) == (803, 303, 397, 297)
    assert (rest["destination"], rest["factory_edges"]) == ("stock", ["right", "top"])


def test_a_hole_sets_a_rectangle_free_without_factory_edges() -> None:
    (rest,) = answer(wall(1200, 600, openings=[window("a", 300, 150, 600, 300)]), kerf_mm=3).result["offcuts"]
    assert (rest["width_mm"], rest["height_mm"], rest["factory_edges"]) == (594, 294, [])


def test_over_a_rake_the_largest_rectangle_is_set_free() -> None:
    """Triangle of 1200 by 600: at half its height 600 by 300 lie over the rake, the most of any course line."""
    outline = [{"x_mm": x, "y_mm": y} for x, y in [(0, 0), (1200, 0), (0, 600)]]
    rests = answer({"id": "wall", "outline": outline}, kerf_mm=0).result["offcuts"]
    assert (rests[0]["width_mm"], rests[0]["height_mm"]) == (600, 300)
    assert rests[0]["factory_edges"] == ["right", "top"]


def test_a_piece_over_a_head_comes_out_of_a_notch() -> None:
    """One whole board with a notch of 600 by 300 at its head, and a wall that ends 240 over an opening's head: it needs no edges."""
    notched = {**wall(1200, 600, openings=[window("n", 600, 300, 600, 300)]), "id": "a"}
    lintel = {**wall(1200, 600, openings=[window("o", 0, 0, 1200, 375), window("p", 500, 375, 700, 225)]), "id": "b"}
    found = answer(notched, lintel, kerf_mm=3)
    assert found.result["boards_needed_count"] == 1
    piece = next(row for row in found.result["pieces"] if row["id"].startswith("b-"))
    source = next(row for row in found.result["offcuts"] if piece["id"] in row.get("pieces", []))
    assert source["released_by"] == "a-00-01"
    assert piece["board_x_mm"] >= source["board_x_mm"]
    assert piece["board_y_mm"] >= source["board_y_mm"]


def test_the_wall_over_one_rake_never_comes_from_over_another() -> None:
    """Two triangles of a board's size take two boards: what lies over a rake would have to be turned."""
    outline = [{"x_mm": x, "y_mm": y} for x, y in [(0, 0), (1200, 0), (0, 600)]]
    found = answer({"id": "a", "outline": outline}, {"id": "b", "outline": outline}, kerf_mm=0).result
    assert found["boards_needed_count"] == 2


def test_rakes_of_opposite_hand_lie_side_by_side_in_one_board() -> None:
    left = [{"x_mm": x, "y_mm": y} for x, y in [(0, 0), (600, 0), (600, 600)]]
    right = [{"x_mm": x, "y_mm": y} for x, y in [(0, 0), (600, 0), (0, 600)]]
    found = answer({"id": "a", "outline": left}, {"id": "b", "outline": right}, kerf_mm=0).result
    assert found["boards_needed_count"] == 1


def test_a_summary_lists_only_what_is_left_for_stock() -> None:
    found = answer(*named(700, 300), kerf_mm=3, options={"detail": "summary"}).result
    assert [row["destination"] for row in found["offcuts"]] == ["stock"]
    assert "cut_sheets" not in found


def test_what_is_kept_is_measured() -> None:
    assert answer(wall(700, 600), kerf_mm=3).result["kept_area_m2"] == pytest.approx(0.497 * 0.6)


def test_boards_that_are_cut_alike_share_a_sheet() -> None:
    """Two pairs of 700 and 300."""
    sheets = answer(*named(700, 700, 300, 300), kerf_mm=3).result["cut_sheets"]
    (sheet,) = sheets
    assert (sheet["count"], sheet["boards"]) == (2, [1, 2])
    assert [cut["at_mm"] for cut in sheet["cuts"]] == [700, 1003]
    assert [place["pieces"] for place in sheet["places"]] == [["w0-00-01", "w1-00-01"], ["w2-00-01", "w3-00-01"]]


def test_whole_boards_have_a_sheet_without_cuts() -> None:
    (sheet,) = answer(wall(3600, 600)).result["cut_sheets"]
    assert (sheet["count"], sheet["cuts"], sheet["rests"]) == (3, [], [])
