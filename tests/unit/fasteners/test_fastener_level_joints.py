"""Fasteners beside level joints: the pattern starts anew over each, in the middle of the slips that the joint has moved."""

from typing import Any

import pytest

from storeyrod.fasteners.calculation import calculate
from storeyrod.fasteners.models import FastenerScheduleRequest
from unit.wall.survey import PLAIN, rectangle

WALL = rectangle(height_mm=6000, storey_levels_mm=[2700])
"""4800 long: four boards of 1200 in a whole row; rows of 600 start at 0 and over the joint."""


def positions(width: float) -> list[dict[str, Any]]:
    system = {**PLAIN, "movement_joint": {"at_storeys": True, "storey_width_mm": width}}
    asked = FastenerScheduleRequest.model_validate({"elevations": [WALL], "system": system})
    return calculate(asked).result["positions"]


@pytest.mark.parametrize(("width", "head"), [(10, 2700), (25, 2715)])
def test_rows_over_a_joint_fall_on_boards_as_those_at_the_foot_do(width: float, head: float) -> None:
    """Two rows on a board of eight courses: in the middles of the slips of its courses 2 and 6."""
    heights = {row["y_mm"] for row in positions(width)}
    for foot in (0.0, head):
        assert {foot + 2 * 75 + 32.5, foot + 6 * 75 + 32.5} == {y for y in heights if foot <= y < foot + 600}


@pytest.mark.parametrize(("width", "head"), [(10, 2700), (25, 2715)])
def test_no_fastener_is_nearer_to_a_joint_than_the_edge_distance(width: float, head: float) -> None:
    assert all(row["y_mm"] <= 2690 - 50 or row["y_mm"] >= head + 50 for row in positions(width))


def test_a_wider_joint_changes_no_count_on_whole_boards() -> None:
    """Five rows of boards below, 2690 high, and five over the joint up to 5700: the top row alone loses its last courses."""
    below = [sum(row["y_mm"] < 2690 for row in positions(width)) for width in (10, 25)]
    over = [sum(2700 < row["y_mm"] < 5700 for row in positions(width)) for width in (10, 25)]
    assert (below[0], over[0]) == (below[1], over[1])
