"""Width that rows take for boxes of pieces, whatever their seams: by hand, and by trying every first width."""

from itertools import pairwise

import pytest
from board_requests import BOARD, LONG_BAYS, SLIP, answer, wall, window
from hypothesis import given, settings
from hypothesis import strategies as st

from storeyrod.boards.cutting_items import board_size
from storeyrod.boards.cutting_plan import cut_boards, cut_pieces
from storeyrod.boards.layout import lay_boards, limits_of
from storeyrod.boards.models import BoardLayoutRequest
from storeyrod.boards.offcut_pool import OffcutPool
from storeyrod.boards.row_boxes import LINES, BoxedFace, boxes_of
from storeyrod.boards.runs import opening_corners
from storeyrod.geometry.ticks import TICKS_PER_MM, ticks
from storeyrod.movement_joints.plans import joint_plans
from storeyrod.wall.wall import wall_of

SQUARE = {"bottom_edge": "square", "top_edge": "square"}
LENGTH = BOARD["cover_length_mm"]


def walls_of(*elevations: dict, **board: object):
    system = {"board": {**BOARD, **board}, "slip": SLIP, "movement_joint": LONG_BAYS}
    request = BoardLayoutRequest.model_validate({"elevations": list(elevations), "system": system})
    made = wall_of(request.elevations, request.system)
    return made, joint_plans(made)


def width(elevation: dict, line: str = "middle", clearance: float = 0.0, **board: object) -> float:
    made, plans = walls_of(elevation, **(SQUARE | board))
    layout = lay_boards(made, plans)
    faces = [
        BoxedFace(one.face, cut_pieces(one, made.system), opening_corners(one.face), ticks(clearance), ())
        for one in layout.faces
    ]
    return boxes_of(faces, board_size(made.system.board), line).width / TICKS_PER_MM


def parapet(*sills: tuple[float, float], length: float = 6000) -> dict:
    """One row of boards with openings in its upper half."""
    openings = [window(f"w{left:g}", left, 300, right - left, 300) for left, right in sills]
    return wall(length, 600, openings=openings)


def test_openings_shorter_than_a_board_save_none_of_its_length() -> None:
    """Five boards of 1200 for 6000, though three openings leave no more than 2.7 square metres, 3.75 boards."""
    found = answer(parapet((600, 1600), (2500, 3500), (4400, 5400)), kerf_mm=0, **SQUARE).result
    assert (found["boards_lower_bound_count"], found["boards_lower_bound"]) == (5, "row_boxes")


def test_every_board_of_a_row_but_the_last_loses_a_kerf() -> None:
    """12 rows of two pieces: 12 x (1797 + 2 x 3) over 1203 is 17.98 with a kerf of 3, and one more from 1800 on."""
    rows = [{**wall(1797, 600), "id": f"w{index}"} for index in range(12)]
    longer = [{**row, "width_mm": 1800} for row in rows]
    least = [answer(*walls, kerf_mm=3, **SQUARE).result["boards_lower_bound_count"] for walls in (rows, longer)]
    assert least == [18, 19]


def test_a_whole_board_fits_under_one_long_opening() -> None:
    assert width(parapet((1800, 3300))) == 6000 - LENGTH


def test_between_corners_that_seams_keep_clear_of_it_has_to_fit_as_well() -> None:
    assert width(parapet((1800, 3300)), clearance=150) == 6000 - LENGTH
    assert width(parapet((1800, 3300)), clearance=151) == 6000


def test_under_two_openings_both_fit_if_one_choice_of_seams_allows_it() -> None:
    assert width(parapet((600, 1850), (3000, 4250))) == 6000 - 2 * LENGTH
    assert width(parapet((600, 1850), (3100, 4350))) == 6000 - LENGTH


def test_with_a_lap_the_boards_under_an_opening_need_the_lower_edge_too() -> None:
    """A whole board 300 high is too long for any notch: on the base trim it takes a place on a lower edge."""
    assert width(parapet((1800, 3300)), "bottom", bottom_edge="lap") == 6000


def test_an_end_piece_under_an_opening_may_come_out_of_a_notch() -> None:
    assert width(parapet((0, 800), (2000, 2900))) == 6000 - 800


@given(
    st.lists(st.integers(1, 40), min_size=5, max_size=5),
    st.sampled_from([4800, 6000, 5350]),
)
@settings(max_examples=25, deadline=None)
def test_no_first_width_takes_less(steps, length) -> None:
    """All first widths in steps of 50: boxes of parts that reach the head of the row, which no notch gives."""
    places = [50 * sum(steps[: index + 1]) for index in range(5)]
    sills = [(left, right) for left, right in (places[:2], places[2:4]) if right < length]
    least = width(parapet(*sills, length=length))
    assert all(least <= _taken(first, sills, length) for first in range(50, int(LENGTH) + 1, 50))


def _taken(first: float, sills: list[tuple[float, float]], length: float) -> float:
    seams = [0, *range(int(first), int(length), int(LENGTH)), length]
    pieces = list(pairwise(seams))
    low = [(a, b) for a, b in pieces if any(left <= a and b <= right for left, right in sills)]
    return sum(b - a for a, b in pieces) - sum(b - a for a, b in low)


@pytest.mark.parametrize("stir", range(4))
def test_no_layout_is_cut_from_fewer_boards_than_its_bound(stir: int) -> None:
    openings = [window(f"w{n}", 700 + 1900 * n, 450 + 75 * n, 1000 + 150 * n, 1275) for n in range(4)]
    made, plans = walls_of(wall(8400, 2700, openings=openings), kerf_mm=3)
    board = made.system.board
    layout = lay_boards(made, plans, OffcutPool(limits_of(board), ticks(board.kerf_mm), False, 0.8, stir))
    found = cut_boards(layout, (), "thorough")
    assert found.layout_bound.count <= found.boards_count


def test_there_are_three_lines_to_lie_on() -> None:
    assert {width(wall(6000, 600), line) for line in LINES} == {6000}
