"""A small invented extension: three faces in the board plane, cut together.

Areas by hand, row by row: at an external corner a row that runs through ends 23 mm and one that butts 123 mm behind the arris.
"""

import math

import pytest
from board_requests import answer, window

CORNER = "external_corner"


def outline(*points: tuple[float, float]) -> list[dict]:
    return [{"x_mm": x, "y_mm": y} for x, y in points]


REAR = {
    "id": "rear",
    "outline": outline((0, 0), (5046, 0), (5046, 2475), (0, 2475)),
    "left_edge": {"kind": CORNER, "to": "left:left"},
    "right_edge": {"kind": CORNER, "to": "right:left"},
    "openings": [window("door", 552.5, 0, 2485, 2100), window("window", 3477.5, 1050, 1135, 1050)],
}
LEFT = {
    "id": "left",
    "outline": outline((0, 0), (1800, 0), (1800, 150), (3723, 150), (3723, 3375), (0, 2475)),
    "left_edge": {"kind": CORNER, "to": "rear:left"},
    "right_edge": {"kind": "abutment"},
    "openings": [
        {
            "id": "arch",
            "kind": "arch",
            "x_mm": 1340,
            "width_mm": 685,
            "sill_mm": 900,
            "springing_mm": 1800,
            "rise_mm": 342.5,
        }
    ],
}
RIGHT = {
    "id": "right",
    "outline": outline((0, 0), (3723, 0), (3723, 3375), (0, 2475)),
    "left_edge": {"kind": CORNER, "to": "rear:right"},
    "right_edge": {"kind": "abutment"},
    "openings": [window("door", 1115, 150, 910, 2100)],
}


@pytest.fixture(scope="module")
def house() -> dict:
    return answer(REAR, LEFT, RIGHT).result


def test_the_rear_face_is_measured_between_its_boards(house: dict) -> None:
    """Each row runs through at one end and butts at the other: 5046 less 23 and 123, less the openings."""
    row = house["elevations"][0]
    openings = 2.485 * 2.1 + 1.135 * 1.05
    assert row["board_net_area_m2"] == pytest.approx(4.9 * 2.475 - openings, abs=1e-9)


def test_all_faces_together_measure_about_twenty_four_square_metres(house: dict) -> None:
    assert house["piece_area_m2"] == pytest.approx(24.14, abs=0.01)


def test_the_bound_is_no_less_than_thirty_four_boards_by_area_and_eight_for_the_rear(house: dict) -> None:
    assert house["boards_lower_bound_count"] >= math.ceil(house["piece_area_m2"] / 0.72) == 34
    assert house["elevations"][0]["boards_lower_bound_count"] >= 8


def test_the_lower_edges_that_its_rows_stand_on_bound_the_house_by_hand(house: dict) -> None:
    """Feet of rows that stand on the base or on boards below, face by face; through-running rows start 23 behind the arris, butting
    ones 123, and what lies over heads or on the step of the base is cut.
    """
    on_the_slope = 3723 - (3000 - 2475) / 900 * 3723
    rear = (4900 - 2485) * 2 + (4900 - 2485 - 1135) * 2 + 4900
    left = (1800 - 23) + 3600 + (3700 - 685) + (3600 - 685) + 3700 + on_the_slope
    right = 3600 + (3700 - 910) + (3600 - 910) + (3700 - 910) + 3600 + on_the_slope
    assert house["boards_lower_bound_count"] == math.ceil((rear + left + right) / 1200) == 39
    each = [row["boards_lower_bound_count"] for row in house["elevations"]]
    assert each == [math.ceil(feet / 1200) for feet in (rear, left, right)] == [11, 14, 15]


def test_the_house_is_cut_within_two_boards_of_what_any_layout_needs(house: dict) -> None:
    assert house["gap_count"] <= 2


def test_the_boards_needed_lie_between_the_bound_and_the_grid_without_reuse(house: dict) -> None:
    """Guide from whole cells without reuse of offcuts: 21 + 22 + 22."""
    assert 34 <= house["boards_needed_count"] <= 65


def test_the_answer_repeats_itself(house: dict) -> None:
    assert answer(REAR, LEFT, RIGHT).result == house
