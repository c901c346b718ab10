"""Features in a face: slips stop at them, and so do corner slips, return slips and soldiers. Numbers by hand."""

import pytest
from slip_walls import codes, face, opening, rectangle, result

AREAS = ("slip_face_area_m2", "joint_area_m2", "movement_joint_area_m2", "end_joint_area_m2", "feature_area_m2")


def feature(x_mm, y_mm, width_mm, height_mm, name="stone", **more):
    made = {"id": name, "kind": "rectangle", "x_mm": x_mm, "y_mm": y_mm, "width_mm": width_mm, "height_mm": height_mm}
    return {**made, **more}


def test_a_render_band_takes_its_courses_and_the_rest_of_the_wall_stays() -> None:
    """2240 x 300 is ten whole or nine whole and two half slips in each of four courses."""
    band = face(rectangle(2240, 300, features=[feature(0, 75, 2240, 75, facing="render")]))
    plain = face(rectangle(2240, 300))
    assert (band["courses_count"], plain["courses_count"]) == (3, 4)
    assert band["feature_area_m2"] == pytest.approx(2.24 * 0.075, abs=1e-12)
    assert plain["net_area_m2"] == band["net_area_m2"]
    assert plain["feature_area_m2"] == 0.0
    # Course 1 has nine whole slips and two halves of 102.5: as much slip as ten less a perp.
    assert band["slip_face_area_m2"] == pytest.approx(plain["slip_face_area_m2"] - (9 * 0.215 + 2 * 0.1025) * 0.065)


def test_areas_close_with_features_joints_and_movement_joints() -> None:
    """The movement joint at 1500 runs through the stone: there it counts as stone."""
    stone = [feature(1400, 150, 200, 300), feature(0, 0, 300, 225, "quoin")]
    made = face(
        rectangle(3000, 1500, opening(600, 600, 400, 450), features=stone, existing_joints_x_mm=[1500],
                  left_edge={"kind": "abutment"}), options={"perps": "equalised"},
    )  # fmt: skip
    assert sum(made[name] for name in AREAS) == pytest.approx(made["net_area_m2"], abs=1e-9)
    assert made["joint_area_m2"] == pytest.approx(made["joint_area_by_strips_m2"], abs=1e-9)
    assert made["movement_joint_area_m2"] == pytest.approx(0.010 * (1.5 - 0.3), abs=1e-12)
    assert made["end_joint_area_m2"] == pytest.approx(0.010 * (1.5 - 0.225), abs=1e-12)


def test_all_faces_together_have_the_features_of_each() -> None:
    made = result(rectangle(2240, 300, features=[feature(0, 0, 450, 75)]), rectangle(2240, 300))
    assert made["feature_area_m2"] == pytest.approx(0.45 * 0.075)


def lined(**more):
    reveal = {"left": {"depth_mm": 102.5}, "right": {"depth_mm": 102.5}}
    return opening(900, 900, 1125, 1050, name="window", reveal=reveal, **more)


def returns(*features):
    rows = result(rectangle(4490, 3000, lined(), features=list(features)))["returns"]
    return {row["side"]: row for row in rows}


def test_a_jamb_of_stone_has_no_return_slips() -> None:
    """14 courses of 75 stand at each jamb; stone beside the left one takes four of them, and its reveal."""
    made = returns(feature(600, 900, 300, 300))
    assert (made["left"]["return_slips_count"], made["right"]["return_slips_count"]) == (10, 14)
    assert made["left"]["area_m2"] == pytest.approx(0.1025 * 0.75, abs=1e-12)


def test_an_opening_framed_in_stone_has_no_slips_in_its_reveals() -> None:
    assert returns(feature(675, 900, 225, 1050, "left"), feature(2025, 900, 225, 1050, "right")) == {}


def test_a_stone_head_leaves_the_jambs_to_the_slips() -> None:
    made = returns(feature(900, 1950, 1125, 225))
    assert [row["return_slips_count"] for row in made.values()] == [14, 14]


def corners(*features, kind="external_corner", **more):
    ends = {"right_edge": {"kind": kind, "to": "face-1:left", **more}}, {"left_edge": {"kind": kind, **more}}
    first = rectangle(2240, 2475, **ends[0], features=list(features))
    return result(first, rectangle(2240, 2475, **ends[1], bond_start="half"))["corners"]


def test_quoins_of_stone_take_the_corner_slips_of_their_courses() -> None:
    """Stones of three courses every six, from the foot: 33 courses less 18."""
    stones = [feature(1940, 450 * at, 300, 225, f"stone {at}") for at in range(6)]
    (row,) = corners(*stones)
    assert row["corner_slips_count"] == 33 - 18
    assert row["replaced_pieces_count"] == 2 * (33 - 18)


def test_stone_that_keeps_off_the_arris_leaves_the_corner_to_the_slips() -> None:
    (row,) = corners(feature(1500, 0, 400, 300))
    assert row["corner_slips_count"] == 33
    assert "mitred_courses_count" not in row


def test_no_l_slip_turns_a_corner_that_is_not_square() -> None:
    (row,) = corners(angle_deg=135)
    assert (row["corner_slips_count"], row["replaced_pieces_count"], row["mitred_courses_count"]) == (0, 0, 33)


def test_soldiers_that_run_into_stone_are_clipped() -> None:
    """Soldiers over 1125 stand from 1950 to 2165, and their bed ends at 2175."""
    window = opening(900, 900, 1125, 1050, name="window", head="soldier")
    clear, into = feature(900, 2175, 1125, 75), feature(900, 2174, 1125, 75)
    assert "soldier-clipped" not in codes(rectangle(4490, 3000, window, features=[clear]))
    assert "soldier-clipped" in codes(rectangle(4490, 3000, window, features=[into]))
