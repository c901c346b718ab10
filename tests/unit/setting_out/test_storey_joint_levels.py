"""The storey rod past level joints: gauge table, storeys, datum, set-out courses. Courses of 75, joints of 15 in beds of 10."""

from typing import Any

import pytest

from storeyrod.setting_out.calculation import calculate
from storeyrod.setting_out.models import SettingOutRequest
from unit.wall.survey import PLAIN, rectangle, window

PLAIN_BOARDS = {**PLAIN["board"], "rib_pitch_mm": None}


def answer(*levels: float, datum: dict[str, Any] | None = None, width: float = 15, **members: Any) -> Any:
    face = rectangle(height_mm=6000, storey_levels_mm=list(levels), **members)
    system = {**PLAIN, "board": PLAIN_BOARDS, "movement_joint": {"at_storeys": True, "storey_width_mm": width}}
    body = {"elevations": [face], "system": system, **({} if datum is None else {"datum": datum})}
    return calculate(SettingOutRequest.model_validate(body))


def gauge(made: Any) -> dict[int, dict[str, Any]]:
    return {row["course"]: row for row in made.result["datum"]["gauge"]}


def test_the_gauge_table_marks_joints_and_counts_on_from_them() -> None:
    rows = gauge(answer(2700, 5400))
    assert [rows[number]["foot_mm"] for number in (35, 36, 71, 72)] == [2625, 2705, 5330, 5410]
    assert (rows[36]["joint_below_mm"], rows[36]["shift_mm"]) == (15, 5)
    assert "joint_below_mm" not in rows[35]
    assert rows[35]["head_mm"] == 2690


def test_a_joint_as_wide_as_a_bed_is_marked_and_moves_nothing() -> None:
    rows = gauge(answer(2700, width=10))
    assert (rows[36]["foot_mm"], rows[36]["joint_below_mm"], rows[36]["shift_mm"]) == (2700, 10, 0)


def test_sills_and_heads_over_a_joint_are_offset_from_the_moved_courses() -> None:
    """Course 48 stands at 3605, course 64 at 4805."""
    made = answer(2700, openings=[window(y_mm=3605, height_mm=1200)])
    used = made.result["datum"]["candidates"][0]
    offsets = {row["what"]: row["offset_mm"] for row in used["levels"] if "opening" in row}
    assert offsets == {"sill": 0, "head": 0}
    assert used["why"] == "as_given"


def test_a_datum_that_matches_a_bed_over_a_joint_is_gauged_through_it() -> None:
    """Courses over the joint stand at 5 + 75 n: a bed at 3617 asks for a datum 12 higher."""
    made = answer(2700, datum={"kind": "match_bed", "match_bed_at_mm": 3617})
    assert made.result["datum"]["level_mm"] == 12
    assert gauge(made)[48]["foot_mm"] == 3617


def test_a_joint_of_the_structure_may_ask_for_the_datum() -> None:
    """A bed 10 high under course 20 holds 1550 when the datum is lifted by 55."""
    made = answer(datum={"kind": "fixed", "level_mm": 55}, existing_joints_y_mm=[1550], width=10)
    assert gauge(made)[20]["joint_below_mm"] == 10


def test_the_bed_that_brings_a_level_onto_its_course_leaves_the_joint_as_it_is() -> None:
    """Course 48 at 3605 asked to stand at 3629: beds of (3629 - 5) / 48 - 65."""
    made = answer(2700, openings=[window(y_mm=3629, height_mm=1176)])
    used = next(row for row in made.result["datum"]["candidates"] if row["why"] == "as_given")
    (sill,) = [row for row in used["levels"] if row["what"] == "sill"]
    assert sill["bed_mm"] == pytest.approx((3629 - 5) / 48 - 65)


def test_a_storey_over_a_wider_joint_has_less_height_for_courses() -> None:
    rows = answer(0, 2700, 5400).result["elevations"][0]["storeys"]
    assert [row["courses"] for row in rows] == [36, pytest.approx((2700 - 5) / 75)]
    assert [row["whole_courses"] for row in rows] == [True, False]


def test_storeys_as_high_as_their_courses_and_the_shift_are_whole() -> None:
    rows = answer(0, 2700, 5405).result["elevations"][0]["storeys"]
    assert [(row["whole_courses"], row["repeats"]) for row in rows] == [(True, True), (True, True)]


def test_set_out_courses_never_straddle_a_joint() -> None:
    """Rows of boards of 600 end at the joint of 1200 wall and start anew: the middle of the second row lies over it."""
    door = {"kind": "rectangle", "id": "d", "x_mm": 0.5, "y_mm": 0, "width_mm": 4799, "height_mm": 1050}
    made = answer(1275, openings=[door])
    (bay,) = made.result["elevations"][0]["bays"]
    numbers = [row["course"] for row in bay["set_out_courses"]]
    assert numbers == [20, 21]
    assert [row["y_mm"] for row in bay["set_out_courses"]] == [20 * 75 + 5 + 32.5, 21 * 75 + 5 + 32.5]
