"""Factory edges: where boards meet, on the base trim, and where none can be had."""

from board_requests import answer, found_codes, only, wall, window


def line(found, width: float) -> dict:
    (row,) = [row for row in found.result["cut_list"] if row["width_mm"] == width]
    return row


def test_a_closing_row_needs_its_lower_edge() -> None:
    found = answer(wall(500, 825))
    (closing,) = [row for row in found.result["cut_list"] if row["height_mm"] == 225]
    assert closing["factory_edges"] == ["bottom"]


def test_square_edges_ask_for_nothing() -> None:
    found = answer(wall(500, 825), bottom_edge="square", top_edge="square")
    assert all(row["factory_edges"] == [] for row in found.result["cut_list"])


def test_the_base_trim_takes_a_factory_edge_unless_cut_ones_are_declared() -> None:
    assert line(answer(wall(500, 600)), 500)["factory_edges"] == ["bottom"]
    assert line(answer(wall(500, 600), base_row_cut=True), 500)["factory_edges"] == []


def test_two_rows_of_one_course_come_from_one_strip_where_the_base_may_be_cut() -> None:
    """Two walls of 1200 by 300: with a cut lower edge allowed they lie over one another in one board."""
    walls = [{**wall(1200, 300), "id": f"w{index}"} for index in range(2)]
    assert answer(*walls, kerf_mm=0).result["boards_needed_count"] == 2
    assert answer(*walls, kerf_mm=0, base_row_cut=True).result["boards_needed_count"] == 1


def test_a_piece_over_an_opening_needs_no_lower_edge() -> None:
    found = answer(wall(1200, 1200, openings=[window("a", 0, 0, 1200, 900)]))
    (piece,) = found.result["cut_list"]
    assert piece["factory_edges"] == []


def test_at_a_step_of_the_base_a_foot_is_cut_and_said_so() -> None:
    """The step is 150 high, the piece on it 450 with its tongue in the row above: no board gives both edges 450 apart."""
    points = [(0, 0), (1200, 0), (1200, 150), (2400, 150), (2400, 1200), (0, 1200)]
    found = answer({"id": "wall", "outline": [{"x_mm": x, "y_mm": y} for x, y in points]}, stagger_mm=0)
    assert "factory-edge-missing" in found_codes(found)
    assert only(found, "factory-edge-missing")["where"]["elevation"] == "wall"


def test_a_declared_base_trim_takes_the_cut_foot_at_a_step() -> None:
    points = [(0, 0), (1200, 0), (1200, 150), (2400, 150), (2400, 1200), (0, 1200)]
    outline = [{"x_mm": x, "y_mm": y} for x, y in points]
    found = answer({"id": "wall", "outline": outline}, base_row_cut=True, stagger_mm=0)
    assert "factory-edge-missing" not in found_codes(found)


def test_level_cuts_lie_on_the_ribs() -> None:
    """Under a sill at 1050 the row from 600 is cut 450 high, over a head at 2100 from 300: whole courses of 75 in the board."""
    found = answer(wall(2400, 2400, openings=[window("a", 600, 1050, 1200, 1050)]))
    for piece in found.result["pieces"]:
        assert piece.get("board_y_mm", 0) % 75 == 0
