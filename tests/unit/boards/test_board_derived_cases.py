"""Derived cases whose least number of boards two solvers have proved: ends of rows, cut from boards 1200 by 600.

A bay of 7000 by 2400 with an opening from 2000 to 3200 and 600 to 1800: 22 boards, 15 of them whole. With profiled sides the piece
at the left end of a run keeps the right edge of its board, the one at its right end the left edge.
"""

from itertools import product

import pytest
from board_requests import answer, wall, window

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
    ("kerf_mm", "side_edges", "least"), [(0, "square", 44), (4, "square", 45), (0, "lap", 44), (4, "lap", 45)]
)
def test_eight_piers_of_four_rows_take_forty_five_boards(kerf_mm, side_edges, least) -> None:
    """Piers of 1650 with boards of 1200, pieces of 200 and more, stagger 200: with seams every 50 two solvers have proved 45 (46 for
    profiled sides with a kerf; seams anywhere do without that one). By area 44; with kerfs 32 x 1658 over 1204, 44.07. Laid plain
    they take 48.
    """
    piers = [{"id": f"pier-{index}", "width_mm": 1650, "height_mm": 2400} for index in range(8)]
    edges = {"side_edges": side_edges, "bottom_edge": "square", "top_edge": "square"}
    rules = {"kerf_mm": kerf_mm, "minimum_piece_mm": 200, "stagger_mm": 200, **edges}
    effort = "thorough" if kerf_mm and side_edges == "lap" else "standard"
    found = answer(*piers, options={"effort": effort}, **rules).result
    assert (found["boards_lower_bound_count"], found["boards_needed_count"]) == (least, 45)
    assert answer(*piers, options={"effort": "quick"}, **rules).result["boards_needed_count"] == 48


@pytest.mark.parametrize(("kerf_mm", "side_edges"), list(product((0, 4), ("square", "lap"))))
def test_the_bay_with_an_opening_is_laid_with_the_boards_of_its_area(kerf_mm, side_edges) -> None:
    """16.8 less 1.44 square metres are 21.33 boards of 0.72, so 22; with a kerf the plain layout takes 23."""
    edges = {"side_edges": side_edges, "bottom_edge": "square", "top_edge": "square"}
    rules = {"kerf_mm": kerf_mm, "minimum_piece_mm": 200, "stagger_mm": 200, **edges}
    bay = wall(7000, 2400, openings=[window("opening", 2000, 600, 1200, 1200)])
    found = answer(bay, **rules).result
    assert (found["boards_needed_count"], found["bound_status"]) == (22, "proved")
    assert answer(bay, options={"effort": "quick"}, **rules).result["boards_needed_count"] == (23 if kerf_mm else 22)
