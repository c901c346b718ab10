"""Distances from edges of the substrate by hand: heads keep 50 mm from the board's edge, masonry is to have 100 mm (ETAG 014, from memory).

Rows of the pattern stand at 182.5 and 482.5, columns at 150, 450, 750 and 1050 of a whole board; courses are 75 high.
"""

import math

import pytest
from fastener_requests import answer, places, wall, window
from loaded_walls import FRONT, body, declared, peak

from storeyrod.fasteners.calculation import calculate
from storeyrod.fasteners.models import FastenerScheduleRequest

ABUTTED = {f"{side}_edge": {"kind": "abutment"} for side in ("left", "right")}
ONE = "wall-00-01"


def close(*elevations, **fastener):
    asked = FastenerScheduleRequest.model_validate(body(*elevations, wind=peak(), pull_out=declared(5), **fastener))
    return [item for item in calculate(asked).findings if item["code"] == "substrate-edge-close"]


def xs(found, piece: str = ONE) -> list[float]:
    return sorted({x for x, _ in places(found, piece)})


def ys(found, piece: str = ONE) -> list[float]:
    return sorted({y for _, y in places(found, piece)})


def test_a_column_moves_off_a_free_end() -> None:
    """A board of 160 mm: its middle is 80 from the end, and 100 is 60 from its other edge."""
    assert xs(answer(wall(160, 600, left_edge={"kind": "free_end"}, right_edge={"kind": "abutment"}))) == [100]


def test_an_abutment_is_no_edge_of_the_substrate() -> None:
    assert xs(answer(wall(160, 600, **ABUTTED))) == [80]


def test_columns_of_a_pier_move_off_a_jamb_together() -> None:
    """250 beside a door: columns at its quarters are 62.5 from both ends; between 100 from the jamb and 50 from the seam two fit."""
    assert xs(answer(wall(1450, 600, openings=[window("d", 0, 0, 1200, 600)], **ABUTTED))) == [1300, 1400]


def test_a_lined_jamb_stands_where_the_substrate_opens() -> None:
    """20 of lining: the opening ends at 1220, the board of 270 has its columns at 1287.5 and 1422.5, and 1320 keeps the distance."""
    lined = {**window("d", 0, 0, 1200, 600), "reveal": {"right": {"lining_mm": 20, "depth_mm": 100}}}
    assert xs(answer(wall(1490, 600, openings=[lined], **ABUTTED))) == [1320, 1422.5]


def test_heads_under_a_sill_move_a_course_down_and_those_beside_it_stay() -> None:
    """The sill at 560 is 77.5 over the upper row; course 5 has its middle at 407.5."""
    found = answer(wall(1200, 600, openings=[window("w", 300, 560, 600, 40)], **ABUTTED))
    upper = [place for place in places(found, ONE) if place[1] > 300]
    assert sorted(upper) == [(150, 482.5), (450, 407.5), (750, 407.5), (1050, 482.5)]


def test_heads_over_a_head_of_an_opening_move_a_course_up() -> None:
    """The head at 100 is 82.5 under the lower row; course 3 has its middle at 257.5."""
    found = answer(wall(1200, 600, openings=[window("w", 300, 0, 600, 100)], **ABUTTED))
    lower = [place for place in places(found, ONE) if place[1] < 300]
    assert sorted(lower) == [(150, 182.5), (450, 257.5), (750, 257.5), (1050, 182.5)]


def test_the_upper_row_moves_off_the_top_of_the_wall() -> None:
    """560 high: the row at 482.5 is 77.5 under it."""
    assert ys(answer(wall(1200, 560, **ABUTTED))) == [182.5, 407.5]


def test_heads_move_off_a_joint_of_the_structure() -> None:
    """The joint stands at 1350 behind one of 10 mm: a strip from 1200 to 1345 has its middle 77.5 from it, and 1250 is 50 inside."""
    found = answer(wall(2700, 600, existing_joints_x_mm=[1350], **ABUTTED), board={"minimum_piece_mm": 100})
    assert all(abs(row["x_mm"] - 1350) >= 100 for row in found.result["positions"])


def test_heads_move_off_a_level_joint_of_the_structure() -> None:
    """Behind the bed under course 12, at 895: the row over it at 982.5 stays, the one under it at 782.5 stays."""
    found = answer(wall(1200, 1800, existing_joints_y_mm=[895], **ABUTTED))
    assert all(abs(row["y_mm"] - 895) >= 100 for row in found.result["positions"])


def test_on_a_gable_the_distance_is_measured_square_to_the_rake() -> None:
    """The rake goes through (2400, 600) and (0, 1800): x + 2y = 3600."""
    outline = [{"x_mm": x, "y_mm": y} for x, y in [(0, 0), (2400, 0), (2400, 600), (0, 1800)]]
    (item, *_) = close({"id": "wall", "face": FRONT, "outline": outline, **ABUTTED}) or [{"where": {"pieces": []}}]
    found = answer({"id": "wall", "outline": outline, **ABUTTED}).result["positions"]
    kept = [row for row in found if row["piece"] not in item["where"]["pieces"]]
    assert len(kept) > len(found) / 2
    assert all((3600 - row["x_mm"] - 2 * row["y_mm"]) / math.sqrt(5) >= 100 - 1e-3 for row in kept)


@pytest.mark.parametrize("distance", [50, 100, 150])
def test_the_number_of_fasteners_does_not_depend_on_the_distance(distance: float) -> None:
    openings = [window("w", 1250, 600, 1000, 600), window("x", 2400, 700, 600, 900)]
    found = answer(wall(3600, 1800, openings=openings, **ABUTTED), substrate_edge_distance_mm=distance)
    assert (
        found.result["fasteners_count"]
        == answer(wall(3600, 1800, openings=openings, **ABUTTED), substrate_edge_distance_mm=0).result[
            "fasteners_count"
        ]
    )


def test_what_has_room_is_not_named() -> None:
    assert close(wall(3600, 1800, face=FRONT, openings=[window("w", 1250, 600, 1000, 600)], **ABUTTED)) == []


def test_a_pier_without_room_keeps_what_it_can_and_is_named() -> None:
    """150 between two doors: its middle is 75 from both."""
    doors = [window("d", 0, 0, 1000, 600), window("e", 1150, 0, 1000, 600)]
    (item,) = close(wall(2150, 600, face=FRONT, openings=doors, **ABUTTED))
    assert (item["value"], item["limit"]) == (75, 100)


def test_columns_that_have_no_room_at_the_distance_keep_as_much_of_it_as_they_can() -> None:
    """250 between two doors: two columns at 100 have 75 left on either side; columns at the quarters would have 62.5."""
    doors = [window("d", 0, 0, 1000, 600), window("e", 1250, 0, 1000, 600)]
    (item,) = close(wall(2250, 600, face=FRONT, openings=doors, **ABUTTED))
    assert item["value"] >= 75


def test_an_arm_keeps_its_fasteners_though_no_course_of_it_has_the_distance() -> None:
    """Under a sill at 200 course 1 at 107.5 is 92.5 from it; beside the window there would be room, but the arm would hang loose."""
    found = answer(wall(1200, 600, openings=[window("w", 600, 200, 600, 400)], **ABUTTED))
    assert [x for x, y in places(found, ONE) if y == 107.5] == [750, 1050]


def test_a_round_opening_is_measured_to_its_curve() -> None:
    """The box round a circle of 600 has its corners 124 outside it: heads there keep their distance."""
    hole = {"id": "o", "kind": "circle", "x_mm": 600, "y_mm": 300, "diameter_mm": 300}
    for x, y in places(answer(wall(1200, 600, openings=[hole], **ABUTTED)), ONE):
        assert math.dist((x, y), (600, 300)) >= 150 + 100 - 0.02


def test_without_wind_or_resistance_edges_are_kept_and_not_named() -> None:
    doors = [window("d", 0, 0, 1000, 600), window("e", 1150, 0, 1000, 600)]
    found = calculate(FastenerScheduleRequest.model_validate(body(wall(2150, 600, openings=doors), wind=None)))
    assert "substrate-edge-close" not in [item["code"] for item in found.findings]
