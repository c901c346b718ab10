"""What is answered of level joints: where they are sealed, their area beside plumb joints, and their sealant."""

from typing import Any

import pytest

from storeyrod.movement_joints.calculation import NO_LEVEL_JOINTS, calculate
from storeyrod.movement_joints.models import MovementJointsRequest
from unit.wall.survey import PLAIN, points, rectangle, window

WIDE = {"at_storeys": True, "storey_width_mm": 15, "width_mm": 10}


def answer(*elevations: dict[str, Any], **joint: Any) -> Any:
    system = {**PLAIN, "movement_joint": {**WIDE, **joint}}
    return calculate(MovementJointsRequest.model_validate({"elevations": list(elevations), "system": system}))


def level_joints(elevation: dict[str, Any], **joint: Any) -> list[dict[str, Any]]:
    return answer(elevation, **joint).result["elevations"][0]["storey_joints"]


STAIR = window("stair", x_mm=3000, y_mm=1500, height_mm=2250)
"""1135 wide, from 1500 to 3750."""


def test_a_joint_says_its_course_its_level_its_width_and_its_shift() -> None:
    (joint,) = level_joints(rectangle(height_mm=6000, storey_levels_mm=[2710]))
    assert {name: joint[name] for name in ("id", "course", "level_mm", "moved_mm", "y_from_mm", "y_to_mm")} == {
        "id": "rear:storey-joint-1", "course": 36, "level_mm": 2710, "moved_mm": -5, "y_from_mm": 2690, "y_to_mm": 2705,
    }  # fmt: skip
    assert (joint["width_mm"], joint["shift_mm"], joint["existing"]) == (15, 5, False)


def test_p39a_a_stair_window_takes_its_width_out_of_the_sealed_length() -> None:
    wall = rectangle(width_mm=5000, height_mm=6000, storey_levels_mm=[2700], openings=[STAIR])
    (joint,) = level_joints(wall)
    assert joint["segments"] == [{"x_from_mm": 0, "x_to_mm": 3000}, {"x_from_mm": 4135, "x_to_mm": 5000}]
    assert joint["sealed_length_m"] == pytest.approx(5 - 1.135)
    assert joint["area_m2"] == pytest.approx((5 - 1.135) * 0.015)


def test_where_joints_cross_the_area_is_the_plumb_ones() -> None:
    wall = rectangle(height_mm=6000, storey_levels_mm=[2700], existing_joints_x_mm=[2000])
    row = answer(wall).result["elevations"][0]
    (joint,) = row["storey_joints"]
    assert joint["sealed_length_m"] == pytest.approx(4.8)
    assert joint["area_m2"] == pytest.approx((4.8 - 0.01) * 0.015)
    assert row["joint_area_m2"] == pytest.approx(6 * 0.01)


def test_on_a_gable_the_joint_ends_where_there_is_no_wall_over_it() -> None:
    """At 45 degrees from the eaves at 2000 the wall over a joint up to 2705 starts 705 in from either end."""
    gable = {"id": "gable", "outline": points((0, 0), (6000, 0), (6000, 2000), (3000, 5000), (0, 2000))}
    (joint,) = level_joints({**gable, "storey_levels_mm": [2700]})
    assert joint["segments"] == [{"x_from_mm": 705, "x_to_mm": 5295}]


def test_a_lower_wing_has_no_joint_at_its_top() -> None:
    tower = rectangle(height_mm=6000, storey_levels_mm=[2700])
    wing = {**rectangle(height_mm=2700), "id": "wing"}
    first, second = answer(tower, wing).result["elevations"]
    assert (len(first["storey_joints"]), second["storey_joints"]) == (1, [])
    assert second["storey_sealant_l"] == 0


def test_a_door_over_a_joint_and_a_window_under_it_end_it_too() -> None:
    """The window's head is at the joint's foot, the door stands on its head: no wall on one side."""
    under = window("under", x_mm=300, y_mm=1490, height_mm=1200)
    over = window("over", x_mm=2000, y_mm=2705, height_mm=2100)
    (joint,) = level_joints(rectangle(height_mm=6000, storey_levels_mm=[2700], openings=[under, over]))
    assert joint["sealed_length_m"] == pytest.approx(4.8 - 2 * 1.135)


def test_sealant_is_half_as_deep_as_a_level_joint_is_wide() -> None:
    """4.8 m by 15 mm by 7.5 mm on each of two faces."""
    wall = rectangle(height_mm=6000, storey_levels_mm=[2700])
    result = answer(wall, {**wall, "id": "front"}).result
    assert result["elevations"][0]["storey_sealant_l"] == pytest.approx(4.8 * 0.015 * 0.0075 * 1000)
    assert result["storey_sealed_length_m"] == pytest.approx(9.6)
    assert result["storey_sealant_l"] == pytest.approx(2 * 4.8 * 0.015 * 0.0075 * 1000)
    (whole,) = result["storey_joints"]
    assert (whole["course"], whole["sealed_length_m"]) == (36, pytest.approx(9.6))


def test_a_width_that_is_left_out_is_stated_as_that_of_a_bed() -> None:
    wall = rectangle(height_mm=6000, storey_levels_mm=[2700])
    made = answer(wall, storey_width_mm=None)
    (stated,) = [row for row in made.assumptions if row["field"] == "/system/movement_joint/storey_width_mm"]
    assert stated["value"] == 10
    assert made.result["elevations"][0]["storey_joints"][0]["width_mm"] == 10


def test_an_answer_without_level_joints_says_so() -> None:
    assert NO_LEVEL_JOINTS in answer(rectangle(), at_storeys=False).not_checked
    assert NO_LEVEL_JOINTS not in answer(rectangle(height_mm=6000, storey_levels_mm=[2700])).not_checked
