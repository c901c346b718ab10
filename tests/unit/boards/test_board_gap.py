"""Boards bought of whole jobs: within one board, or one in a hundred, of what any layout needs."""

import json
from pathlib import Path

import pytest

from storeyrod.boards.calculation import calculate
from storeyrod.boards.models import BoardLayoutRequest

HOUSE = Path(__file__).parents[3] / "openapi" / "examples" / "computeTakeOff" / "full.json"


def bought(elevations: list[dict], system: dict, effort: str = "standard") -> tuple[int, int]:
    request = {"elevations": elevations, "system": system, "options": {"effort": effort, "detail": "summary"}}
    found = calculate(BoardLayoutRequest.model_validate(request)).result
    return found["boards_needed_count"], found["boards_lower_bound_count"]


def house(effort: str) -> tuple[int, int]:
    job = json.loads(HOUSE.read_text())
    return bought(job["elevations"], job["system"], effort)


def test_the_worked_house_takes_a_board_more_than_any_layout_needs() -> None:
    count, least = house("standard")
    assert count <= least + 1


def test_a_layout_that_follows_its_offcuts_saves_a_board_on_the_house() -> None:
    assert house("standard")[0] < house("quick")[0]


def terrace() -> list[dict]:
    """Four faces of four storeys with twelve windows each, between external corners."""
    windows = [
        {
            "id": f"w{column}-{storey}", "kind": "rectangle",
            "x_mm": 900 + 2700 * column, "y_mm": 900 + 2700 * storey, "width_mm": 1135, "height_mm": 1200,
        }
        for column in range(3)
        for storey in range(4)
    ]  # fmt: skip
    return [
        {
            "id": f"face-{index}",
            "width_mm": 9000,
            "height_mm": 11_250,
            "openings": windows,
            "left_edge": {"kind": "external_corner", "to": f"face-{(index - 1) % 4}:right"},
            "right_edge": {"kind": "external_corner", "to": f"face-{(index + 1) % 4}:left"},
        }
        for index in range(4)
    ]


@pytest.mark.parametrize("kerf_mm", [0, 3])
def test_a_block_with_windows_takes_one_in_a_hundred_more_than_any_layout_needs(kerf_mm: float) -> None:
    system = {
        "board": {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100, "kerf_mm": kerf_mm},
        "slip": {"length_mm": 215, "height_mm": 65, "thickness_mm": 20},
    }
    count, least = bought(terrace(), system)
    assert count <= 1.01 * least
