"""Width and sealant depth of movement joints against printed examples."""

import pytest

from storeyrod.movement_joints.calculation import calculate
from storeyrod.movement_joints.models import MovementJointsRequest
from storeyrod.movement_joints.sealant import sealant_depth
from storeyrod.movement_joints.width import width_for_spacing


@pytest.mark.parametrize(("bay_m", "width_mm"), [(12, 16), (9, 12)])
def test_width_by_spacing_agrees_with_the_printed_example(bay_m: float, width_mm: float) -> None:
    """District movement note: clay at 12 m has 16 mm joints; 9 m gives 11.7, so 12 mm (BDA movement guide, 1.3 mm per m)."""
    assert width_for_spacing(k=1.3, s=bay_m, w_least=6.0, one=1.0, tolerance=1e-9) == width_mm


def test_a_short_bay_still_gets_a_joint_that_can_be_sealed() -> None:
    """Detailing textbook: sealed joints are 6 to 25 mm wide; 1.3 mm for each of 3 m would be 4 mm."""
    assert width_for_spacing(k=1.3, s=3.0, w_least=6.0, one=1.0, tolerance=1e-9) == 6.0


@pytest.mark.parametrize(("width_mm", "depth_mm"), [(6, 6), (19, 9.5), (32, 13)])
def test_sealant_depth_agrees_with_the_printed_pairs(width_mm: float, depth_mm: float) -> None:
    """Detailing textbook, pairs 6 x 6, 19 x 9 (printed rounded down) and 32 x 13."""
    assert sealant_depth(w=width_mm, k=0.5, d_min=6.0, d_max=13.0) == depth_mm


def test_an_absent_width_follows_the_longest_bay() -> None:
    system = {
        "board": {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100},
        "slip": {"length_mm": 215, "height_mm": 65, "thickness_mm": 20},
        "movement_joint": {"max_spacing_mm": 12000, "max_boards_count": 10},
    }
    wall = {"id": "wall", "width_mm": 24016, "height_mm": 3000, "existing_joints_x_mm": [12008]}
    made = calculate(MovementJointsRequest.model_validate({"elevations": [wall], "system": system}))
    assert made.result["elevations"][0]["joints"][0]["width_mm"] == 16


def assumed(length_mm: float, /, **joint: float) -> dict[str, str]:
    """Status of what a wall of that length assumed, by the last word of its field."""
    system = {
        "board": {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100},
        "slip": {"length_mm": 215, "height_mm": 65, "thickness_mm": 20},
        "movement_joint": joint,
    }
    wall = {"id": "wall", "width_mm": length_mm, "height_mm": 3000}
    made = calculate(MovementJointsRequest.model_validate({"elevations": [wall], "system": system}))
    return {row["field"].rpartition("/")[2]: row["status"] for row in made.assumptions}


def test_rules_of_width_and_depth_are_stated_with_their_source_where_nothing_was_given() -> None:
    rows = assumed(9000)
    assert (rows["width_mm"], rows["sealant_depth_mm"]) == ("published", "published")


def test_what_was_given_is_not_assumed() -> None:
    rows = assumed(9000, width_mm=10, sealant_depth_mm=8, snap_mm=225)
    assert {"width_mm", "sealant_depth_mm", "snap_mm"} & set(rows) == set()


def test_a_wall_without_joints_assumes_no_width() -> None:
    assert "width_mm" not in assumed(3000)
