"""Boards stand on the same movement joints in every room, also where a corner shares its bay between two faces."""

import pytest

from storeyrod.boards import calculation as boards
from storeyrod.boards.models import BoardLayoutRequest
from storeyrod.fasteners import calculation as fasteners
from storeyrod.fasteners.models import FastenerScheduleRequest

CORNERED = {
    "elevations": [
        {"id": "a", "width_mm": 9000, "height_mm": 2400, "right_edge": {"kind": "external_corner", "to": "b:left"}},
        {"id": "b", "width_mm": 9000, "height_mm": 2400, "left_edge": {"kind": "external_corner", "to": "a:right"}},
    ],
    "options": {"effort": "quick"},
}


@pytest.mark.parametrize("profile", ["common_practice", "full_thickness_uk", "en_1996_2", "clay_brick_us"])
def test_fasteners_are_set_on_the_pieces_of_the_board_layout(profile: str) -> None:
    system = {
        "board": {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100},
        "slip": {"length_mm": 215, "height_mm": 65, "thickness_mm": 20},
        "movement_joint": {"profile": profile},
    }
    asked = {**CORNERED, "system": system}
    laid = boards.calculate(BoardLayoutRequest.model_validate(asked)).result["pieces"]
    fastened = fasteners.calculate(FastenerScheduleRequest.model_validate(asked)).result["pieces"]
    assert [row["id"] for row in laid] == [row["piece"] for row in fastened]
