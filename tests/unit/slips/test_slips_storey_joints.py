"""Slips beside level joints: courses keep their numbers and bond, areas close, and what stands across a joint is cut by it."""

from typing import Any

import pytest
from slip_walls import answer, opening, outline, rectangle

UNDER_36: dict[str, Any] = {"at_storeys": True, "max_spacing_mm": 50_000, "max_boards_count": 100, "width_mm": 10}
"""A joint from 2690 to 2700, as wide as a bed."""

WIDE = {**UNDER_36, "storey_width_mm": 25}
"""From 2690 to 2715: courses 36 and up stand 15 higher."""

PLAIN = {**UNDER_36, "at_storeys": False}


def wall(width: float = 1790, height: float = 4500, **members: Any) -> dict[str, Any]:
    return {**rectangle(width, height), "storey_levels_mm": [2700], **members}


def row_of(elevation: dict[str, Any], joint: dict[str, Any], **more: Any) -> dict[str, Any]:
    return answer(elevation, movement_joint=joint, **more).result["elevations"][0]


def closes(row: dict[str, Any]) -> bool:
    parts = row["slip_face_area_m2"] + row["joint_area_by_strips_m2"] + row["movement_joint_area_m2"]
    whole = row["net_area_m2"] - row["feature_area_m2"] - row["end_joint_area_m2"]
    return parts == pytest.approx(whole, abs=1e-9) and row["joint_area_m2"] == pytest.approx(
        row["joint_area_by_strips_m2"], abs=1e-9
    )


def test_p38_a_joint_as_wide_as_a_bed_takes_that_bed_and_nothing_else() -> None:
    with_joint, plain = row_of(wall(), UNDER_36), row_of(wall(), PLAIN)
    assert with_joint["courses"] == plain["courses"]
    assert with_joint["movement_joint_area_m2"] == pytest.approx(1.79 * 0.010)
    assert with_joint["joint_area_m2"] == pytest.approx(plain["joint_area_m2"] - 1.79 * 0.010)
    assert with_joint["bed_joint_length_m"] == pytest.approx(plain["bed_joint_length_m"] - 1.79)


def test_over_a_wider_joint_courses_keep_number_and_bond_and_stand_higher() -> None:
    moved, plain = ({row["course"]: row for row in row_of(wall(), one)["courses"]} for one in (WIDE, PLAIN))
    for number in (35, 36, 37, 58):
        assert moved[number]["y_mm"] - plain[number]["y_mm"] == (15 if number >= 36 else 0)
        assert moved[number]["runs"] == plain[number]["runs"]


def test_rows_of_equal_courses_never_reach_over_a_wider_joint() -> None:
    """Feet written out with the course pitch are those of the gauge: 75 each, and 15 more from course 36 up."""
    feet = {row["course"]: row["y_mm"] for row in row_of(wall(), WIDE)["courses"]}
    assert feet == {number: 75 * number + (15 if number >= 36 else 0) for number in range(60)}


@pytest.mark.parametrize("perps", ["nominal", "equalised"])
@pytest.mark.parametrize("joint", [UNDER_36, WIDE])
def test_areas_close_under_a_gable_beside_plumb_joints_features_and_openings(joint: dict[str, Any], perps: str) -> None:
    band = {"kind": "rectangle", "id": "band", "x_mm": 3500, "y_mm": 2600, "width_mm": 700, "height_mm": 200}
    gable = {
        **outline((0, 0), (6000, 0), (6000, 2400), (2500, 4300), (0, 2400)),
        "storey_levels_mm": [2700],
        "existing_joints_x_mm": [3010],
        "openings": [opening(1500, 1500, 900, 1800)],
        "features": [band],
    }
    assert closes(row_of(gable, joint, options={"perps": perps}))


def test_soldiers_whose_bed_is_the_joint_stay_whole() -> None:
    """A head at 2475: soldiers of 215 end at 2690, where the joint starts."""
    made = answer(wall(3000, openings=[opening(900, 1500, 1135, 975, head="soldier")]), movement_joint=WIDE)
    (soldiers,) = made.result["soldiers"]
    assert (soldiers["soldiers_count"], soldiers["cut_count"]) == (15, 0)
    assert [item for item in made.findings if item["code"] == "soldier-clipped"] == []
    assert closes(made.result["elevations"][0])


def test_soldiers_across_a_joint_are_cut_in_two_and_reported() -> None:
    """A head at 2550: the joint cuts each of 15 soldiers into 140 below and 2765 - 2715 = 50 above."""
    made = answer(wall(3000, openings=[opening(900, 1500, 1135, 1050, head="soldier")]), movement_joint=WIDE)
    row = made.result["elevations"][0]
    heights = sorted({cut["height_mm"] for over in row["soldier_courses"] for cut in over["cuts"]})
    assert (row["soldiers_count"], heights) == (30, [50, 140])
    assert [item["code"] for item in made.findings].count("soldier-clipped") == 1
    assert closes(row)


def test_a_ring_of_voussoirs_across_a_joint_is_clipped_by_it() -> None:
    arch = {
        "kind": "arch", "id": "a", "x_mm": 900, "width_mm": 1200, "sill_mm": 900, "springing_mm": 2300, "rise_mm": 500,
        "voussoirs": {},
    }  # fmt: skip
    made = answer(wall(3000, openings=[arch]), movement_joint=WIDE)
    assert [item["code"] for item in made.findings].count("voussoirs-clipped") == 1
    assert closes(made.result["elevations"][0])


def test_corner_slips_go_on_over_a_joint_in_turn() -> None:
    left = wall(2240, right_edge={"kind": "external_corner", "to": "face-1:left"})
    right = wall(2240, left_edge={"kind": "external_corner", "to": "face-0:right"}, bond_start="half")
    rows = [answer(left, right, movement_joint=one).result["corners"][0] for one in (PLAIN, UNDER_36, WIDE)]
    assert [row["corner_slips_count"] for row in rows] == [60, 60, 60]
    assert rows[0]["left_handed_count"] == rows[1]["left_handed_count"] == rows[2]["left_handed_count"] == 30


def test_returns_of_a_stair_window_leave_the_joint_in_its_reveals() -> None:
    """Reveals 102.5 deep from 1500 to 3750; the joint of 25 goes on into both of them."""
    reveal = {"left": {"depth_mm": 102.5}, "right": {"depth_mm": 102.5}}
    stair = wall(3000, openings=[opening(900, 1500, 1135, 2250, reveal=reveal)])
    plain, made = (answer(stair, movement_joint=one).result for one in (PLAIN, WIDE))
    assert plain["return_slips_count"] == 60
    assert plain["reveal_area_m2"] - made["reveal_area_m2"] == pytest.approx(2 * 0.1025 * 0.025)
    assert [row["area_m2"] for row in made["returns"]] == pytest.approx([0.1025 * 2.225] * 2)


def test_a_stair_window_across_a_joint_is_reported() -> None:
    made = answer(wall(3000, openings=[opening(900, 1500, 1135, 2250)]), movement_joint=UNDER_36)
    (found,) = [item for item in made.findings if item["code"] == "opening-crosses-storey-joint"]
    assert found["where"]["y_mm"] == 2690
    assert row_of(wall(3000, openings=[opening(900, 1500, 1135, 2250)]), UNDER_36)[
        "movement_joint_area_m2"
    ] == pytest.approx((3 - 1.135) * 0.01)
