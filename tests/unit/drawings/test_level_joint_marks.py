"""Level joints on sheets: lines over their sealed lengths, rods that count on from them, names and levels. Joints of 20 in beds of 10."""

import pytest

from drawing_walls import groups_of, sheet_of, words_of
from storeyrod.drawings.display_list import Line

JOINTED = {"movement_joint": {"at_storeys": True, "storey_width_mm": 20}}
STAIR = {"id": "s", "kind": "rectangle", "x_mm": 1000, "y_mm": 1500, "width_mm": 1135, "height_mm": 2250}
TOWER = {"id": "t", "width_mm": 4000, "height_mm": 6000, "storey_levels_mm": [2700], "openings": [STAIR]}
"""The joint lies from 2690 to 2710, its middle at 2700; the window takes 1000 to 2135 out of it."""


def lines(sheet, role):
    return [item for _, group in groups_of(sheet, role) for item in group.items if isinstance(item, Line)]


@pytest.mark.parametrize("kind", ["setting_out", "slips"])
def test_a_level_joint_is_drawn_beside_the_window_that_ends_it(kind) -> None:
    sheet = sheet_of(TOWER, kind=kind, system=JOINTED)
    (joint,) = [group for _, group in groups_of(sheet, "movement-joint") if group.id == "t:storey-joint-1"]
    assert [(line.start, line.end) for line in joint.items] == [
        ((0.0, 2700.0), (1000.0, 2700.0)),
        ((2135.0, 2700.0), (4000.0, 2700.0)),
    ]


@pytest.mark.parametrize("kind", ["setting_out", "slips"])
def test_rods_number_the_course_on_the_joint_and_stand_higher_from_it(kind) -> None:
    """Course 36 stands at 2710, and every one over it 75 higher: course 40 at 3010."""
    sheet = sheet_of(TOWER, kind=kind, system=JOINTED)
    assert {"36", "40"} <= set(words_of(sheet, "course-numbers"))
    ticks = {line.start[1] for line in lines(sheet, "courses") if line.start[1] == line.end[1]}
    assert {2625.0, 2710.0, 3010.0} <= ticks
    assert not {2700.0, 3000.0} & ticks


def test_the_setting_out_sheet_gives_the_level_of_the_course_on_the_joint_and_says_what_is_below() -> None:
    sheet = sheet_of(TOWER, kind="setting_out", system=JOINTED)
    assert "2710" in words_of(sheet, "course-levels")
    assert "LJ 1 below, 20 wide" in words_of(sheet, "level-names")


def test_the_slips_sheet_names_the_joint_beside_the_wall() -> None:
    assert "LJ 1" in words_of(sheet_of(TOWER, kind="slips", system=JOINTED), "joint-names")


def test_sheets_without_level_joints_have_no_mark_of_them() -> None:
    for kind in ("setting_out", "slips"):
        assert not [group for _, group in groups_of(sheet_of(TOWER, kind=kind), "movement-joint")]
