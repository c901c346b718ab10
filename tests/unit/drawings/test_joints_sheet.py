"""The joints sheet: places from the left end, widths, reasons, bays against their limits, corners and level joints."""

import pytest

from drawing_walls import groups_of, sheet_of, words_of
from storeyrod.drawings.display_list import Polygon, Strokes

WALL = {"id": "w", "width_mm": 9000, "height_mm": 2700}
"""Longer than one bay of 6000."""


def designed(*joints_mm: float, **more) -> dict:
    return WALL | {"joints_x_mm": list(joints_mm)} | more


def test_joints_are_placed_by_their_distances_from_the_left_end():
    sheet = sheet_of(designed(4000), kind="joints")
    assert words_of(sheet, "plumb-figures") == ["0", "4000", "9000"]


def test_a_wall_whose_left_end_is_not_at_nought_is_measured_from_its_end():
    outline = [{"x_mm": x, "y_mm": y} for x, y in ((500, 0), (9500, 0), (9500, 2700), (500, 2700))]
    wall = {"id": "w", "outline": outline, "joints_x_mm": [4500]}
    assert words_of(sheet_of(wall, kind="joints"), "plumb-figures") == ["0", "4000", "9000"]


def test_each_joint_has_its_number_reason_and_width():
    sheet = sheet_of(designed(3000, 6000, existing_joints_x_mm=[6000]), kind="joints")
    assert words_of(sheet, "joint-names") == ["D 10", "MJ 1", "E 10", "MJ 2"]


def test_only_letters_that_occur_are_explained():
    words = words_of(sheet_of(designed(4000), kind="joints"), "legend-words")
    assert "given by the designer" in words
    assert "on a declared jamb line" not in words


def test_an_existing_joint_is_drawn_in_another_line():
    joints = groups_of(sheet_of(designed(3000, 6000, existing_joints_x_mm=[6000]), kind="joints"), "movement-joint")
    new, old = (group.style for _, group in joints)
    assert new.dashes != old.dashes


def test_bays_have_length_and_area():
    """A joint of 10 at 4000: bays of 3995 and 4995, times 2.7."""
    words = words_of(sheet_of(designed(4000), kind="joints"), "dimension-figures")
    assert "bay 1: 3995, 10.79 m²" in words
    assert "bay 2: 4995, 13.49 m²" in words


def test_a_bar_shows_what_a_bay_takes_of_its_limit():
    """3995 of 6000 are 66.6 %."""
    sheet = sheet_of(designed(4000), kind="joints")
    assert words_of(sheet, "bay-words")[0] == "66.6 % of the limit of length"
    ((_, shares),) = groups_of(sheet, "bay-share")
    first = shares.items[0]
    assert isinstance(first, Polygon)
    left, _, right, _ = first.box
    assert right - left == pytest.approx(3995 * 3995 / 6000)


def test_a_bay_over_its_limit_is_hatched_and_says_so():
    """8495 of 6000 are 141.6 %."""
    sheet = sheet_of(designed(500), kind="joints")
    assert "141.6 % of the limit of length" in words_of(sheet, "bay-words")
    ((_, over),) = groups_of(sheet, "bay-over")
    assert any(isinstance(item, Strokes) for item in over.items)
    assert "bay over its limit" in words_of(sheet, "legend-words")


def test_a_wall_within_its_limits_has_no_hatched_bay():
    assert "bay over its limit" not in words_of(sheet_of(designed(4000), kind="joints"), "legend-words")


def test_distances_from_corners_to_the_first_joints_are_given():
    corner = {"left_edge": {"kind": "external_corner"}}
    words = words_of(sheet_of(designed(4000) | corner, kind="joints"), "dimension-figures")
    assert "from corner: 3995, at most 6000" in words
    assert not any("4995, at most" in word for word in words)


def test_level_joints_have_their_width_and_level():
    """At a storey of 2700 with beds of 10: from 2690 to 2710."""
    tower = {"id": "t", "width_mm": 4000, "height_mm": 6000, "storey_levels_mm": [2700]}
    system = {"movement_joint": {"at_storeys": True, "storey_width_mm": 20}}
    sheet = sheet_of(tower, kind="joints", system=system)
    assert words_of(sheet, "joint-names") == ["LJ 1: 20 below 2710"]
    assert {"2700", "3300"} <= set(words_of(sheet, "dimension-figures"))


def test_joints_too_near_for_their_names_have_them_one_above_another():
    names = words_of(sheet_of(designed(3000, 3100, 3200), kind="joints"), "joint-names")
    assert [name for name in names if name.startswith("MJ")] == ["MJ 1", "MJ 2", "MJ 3"]


def test_names_without_room_are_counted():
    crowd = designed(3000, 3040, 3080, 3120)
    words = words_of(sheet_of(crowd, kind="joints"), "legend-words")
    assert "No room for names or distances: 1." in words


def test_a_wall_without_joints_has_one_bay_and_no_distances():
    sheet = sheet_of({"id": "w", "width_mm": 3000, "height_mm": 2700}, kind="joints")
    assert words_of(sheet, "plumb-figures") == []
    assert words_of(sheet, "bay-words") == ["50 % of the limit of length"]
