"""Base trim: runs of the foot, steps, and stock lengths cut with a kerf."""

import pytest

from storeyrod.quantities.stock_cutting import cut_from_stock
from unit.quantities.quantity_requests import line, quantities
from unit.wall.survey import points, rectangle, window


def trim(*elevations, **system):
    return quantities(*elevations, **system)["base_trim"]


def pieces(plan):
    return [list(stock.pieces) for stock in plan.stocks]


def test_trim_stops_at_a_door():
    made = trim(rectangle(width_mm=5046, openings=[window(x_mm=552.5, y_mm=0, width_mm=2485, height_mm=2100)]))
    assert [row["length_mm"] for row in made["runs"]] == [552.5, 2008.5]
    assert made["length_m"] == pytest.approx(2.561)
    assert made["stop_ends_count"] == 0


def test_a_step_has_two_stop_ends():
    outline = points((0, 0), (1800, 0), (1800, 150), (3723, 150), (3723, 3375), (0, 2475))
    made = trim(rectangle(outline=outline))
    assert [(row["length_mm"], row["y_mm"]) for row in made["runs"]] == [(1800, 0), (1923, 150)]
    assert (made["length_m"], made["steps_count"], made["stop_ends_count"]) == (pytest.approx(3.723), 1, 2)


def test_levels_on_two_sides_of_a_door_are_no_step():
    outline = points((0, 0), (1500, 0), (1500, 150), (3000, 150), (3000, 2400), (0, 2400))
    door = window(x_mm=1000, y_mm=150, width_mm=1000, height_mm=2100)
    made = trim(rectangle(outline=outline, openings=[door]))
    assert [row["length_mm"] for row in made["runs"]] == [1500, 1000]
    assert made["steps_count"] == 0


def test_a_sloping_foot_has_no_trim():
    made = trim(rectangle(outline=points((0, 0), (3000, 150), (3000, 2400), (0, 2400))))
    assert (made["runs"], made["length_m"], made["lengths_count"]) == ([], 0.0, 0)


def test_trim_is_cut_over_all_elevations():
    walls = [{**rectangle(width_mm=width), "id": f"wall {width}"} for width in (1600, 800)]
    result = quantities(*walls, trims={"base_stock_mm": 2500})
    assert result["base_trim"]["cutting"] == [{"pieces_mm": [1600, 800], "rest_mm": 94, "count": 1}]
    assert [row["base_trim"]["lengths_count"] for row in result["elevations"]] == [1, 1]
    made = line(result["lines"], "base_trim")
    assert (made["net"], made["net"] + made["cut_waste"]) == (pytest.approx(0.96), 1.0)


def test_the_bound_is_the_length_in_whole_stock_lengths():
    made = trim(*[{**rectangle(width_mm=1600), "id": f"wall {at}"} for at in range(3)], trims={"base_stock_mm": 2500})
    assert (made["lengths_lower_bound_count"], made["lengths_count"]) == (2, 3)


def test_a_run_as_long_as_the_stock_has_no_splice():
    plan = cut_from_stock([2500.0], 2500.0, 3.0)
    assert (pieces(plan), plan.splices) == ([[2500.0]], 0)


def test_a_longer_run_is_spliced():
    plan = cut_from_stock([6000.0], 2500.0, 3.0)
    assert (pieces(plan), plan.splices) == ([[2500.0], [2500.0], [1000.0]], 2)


def test_the_kerf_decides_whether_two_pieces_share_a_length():
    assert pieces(cut_from_stock([1500.0, 997.0], 2500.0, 3.0)) == [[1500.0, 997.0]]
    assert pieces(cut_from_stock([1500.0, 997.1], 2500.0, 3.0)) == [[1500.0], [997.1]]


def test_a_piece_goes_into_the_shortest_rest_that_takes_it():
    assert pieces(cut_from_stock([1500.0, 1800.0, 600.0], 2500.0, 0.0)) == [[1800.0, 600.0], [1500.0]]


def test_nothing_to_cut_takes_no_stock():
    assert cut_from_stock([], 2500.0, 3.0).stocks == ()
