"""Derived cases whose least number of boards two solvers have proved: ends of rows, cut from boards 1200 by 600.

A bay of 7000 by 2400 with an opening from 2000 to 3200 and 600 to 1800: 22 boards, 15 of them whole. With profiled sides the piece
at the left end of a run keeps the right edge of its board, the one at its right end the left edge.
"""

from itertools import product

import pytest
from board_requests import answer

from storeyrod.cutting.cut import cut
from storeyrod.cutting.stock import FACTORY, Blank, Edges, Item, Saw
from storeyrod.geometry.ticks import ticks

BOARD = Blank(ticks(1200), ticks(600), FACTORY, 0.0, None)

LEFT_ENDS = (450, 1150, 300, 300, 600)
RIGHT_ENDS = (550, 850, 1100, 500, 800, 1000)
"""Rows from the lowest: 450 + 5 x 1200 + 550; 1150 + 850 and 300 + 2 x 1200 + 1100; 300 + 1200 + 500 and 600 + 2 x 1200 + 800;
5 x 1200 + 1000.
"""

WHOLE = 15


def ends(*, handed: bool) -> list[Item]:
    rows = [(width, Edges(False, handed, True, True)) for width in LEFT_ENDS]
    rows += [(width, Edges(handed, False, True, True)) for width in RIGHT_ENDS]
    return [Item(ticks(width), ticks(600), needs, 0.0, 1) for width, needs in rows]


@pytest.mark.parametrize(("kerf", "handed"), list(product((0, 4), (False, True))))
def test_the_bay_with_an_opening_takes_twenty_two_boards(kerf: float, handed: bool) -> None:
    plan = cut(ends(handed=handed), BOARD, [], Saw(ticks(kerf), ticks(75)), "standard")
    assert WHOLE + plan.bought == 22
    assert plan.status == "proved"


def test_eight_piers_with_one_choice_of_seams_take_forty_eight_boards_as_by_first_fit() -> None:
    """32 ends of 450: two from a board, with or without a kerf; other seams reach 45, so the gap lies in the layout."""
    rest = [Item(ticks(450), ticks(600), Edges(False, False, True, True), 0.0, 32)]
    plan = cut(rest, BOARD, [], Saw(ticks(4), ticks(75)), "standard")
    assert (32 + plan.bought, plan.lower_bound) == (48, 16)


@pytest.mark.parametrize(
    ("kerf_mm", "side_edges", "proved"), [(0, "square", 45), (4, "square", 45), (0, "lap", 45), (4, "lap", 46)]
)
def test_eight_piers_of_four_rows_take_at_most_a_board_over_what_is_proved_for_seams_on_a_grid(
    kerf_mm, side_edges, proved
) -> None:
    """Piers of 1650 with boards of 1200, seams every 50, pieces of 200 and more, stagger 200: proved by two solvers (independent
    calculation); by area 44. Laid plain they take 48.
    """
    piers = [{"id": f"pier-{index}", "width_mm": 1650, "height_mm": 2400} for index in range(8)]
    edges = {"side_edges": side_edges, "bottom_edge": "square", "top_edge": "square"}
    rules = {"kerf_mm": kerf_mm, "minimum_piece_mm": 200, "stagger_mm": 200, **edges}
    found = answer(*piers, **rules).result
    assert 44 == found["boards_lower_bound_count"] <= found["boards_needed_count"] <= proved + 1
    assert answer(*piers, options={"effort": "quick"}, **rules).result["boards_needed_count"] == 48
