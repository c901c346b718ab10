"""Return slips at lined jambs, by hand."""

import pytest
from slip_walls import codes, opening, rectangle, result

PERP = 10.0


def wall(depth, x=562.5 - 10, width=1135, sill=900, height=1050, **more):
    reveal = {"left": {"depth_mm": depth}, "right": {"depth_mm": depth}}
    return rectangle(4490, 3000, opening(x, sill, width, height, reveal=reveal, **more))


def left(depth, **more):
    return result(wall(depth, **more))["returns"][0]


def test_one_for_each_course_and_jamb() -> None:
    rows = result(wall(102.5))["returns"]
    assert [(row["side"], row["return_slips_count"]) for row in rows] == [("left", 14), ("right", 14)]


def test_every_second_longer_leg_is_cut_in_a_reveal_of_102_5() -> None:
    assert left(102.5)["cut_in_reveal_count"] == 7


def test_a_reveal_as_deep_as_the_longer_leg_cuts_none() -> None:
    assert left(215)["cut_in_reveal_count"] == 0


def test_a_deeper_reveal_gets_straight_slips_behind_the_legs() -> None:
    """328 = 102.5 + 10 + 215 + 0.5, where the shorter leg turns in; behind the longer one 328 - 215 - 10 = 103."""
    row = left(328)
    assert (row["straight_full_count"], row["straight_cut_count"]) == (7, 7)


def test_reveal_areas_by_hand() -> None:
    """14 courses in 102.5: slips 102.5 x 65 each, the rest joints; the reveal is no part of the net area."""
    row = left(102.5)
    assert row["area_m2"] == pytest.approx(0.1025 * 1.05, abs=1e-12)
    assert row["slip_face_area_m2"] == pytest.approx(14 * 0.1025 * 0.065, abs=1e-12)
    assert row["joint_area_m2"] == pytest.approx(0.1025 * 0.14, abs=1e-12)


def lined(name, x, y, width, height):
    reveal = {"left": {"depth_mm": 102.5}, "right": {"depth_mm": 102.5}}
    return opening(x, y, width, height, name=name, reveal=reveal)


def test_a_jamb_that_another_opening_touches_is_lined_only_where_wall_stands() -> None:
    """A door 2100 high beside a window from 750 to 1800: 750 + 300 are left of its jamb, in 10 + 4 courses."""
    rows = result(rectangle(4490, 3000, lined("door", 890, 0, 910, 2100), lined("window", 1800, 750, 690, 1050)))
    (row,) = [row for row in rows["returns"] if (row["opening"], row["side"]) == ("door", "right")]
    assert row["return_slips_count"] == 14
    assert row["area_m2"] == pytest.approx(0.1025 * 1.05, abs=1e-12)
    assert row["joint_area_m2"] == pytest.approx(0.1025 * (1.05 - 14 * 0.065), abs=1e-12)


def test_a_course_that_half_meets_a_touching_opening_is_lined_by_half() -> None:
    """The window's sill at 785 leaves 35 of the course from 750 to 815."""
    rows = result(rectangle(4490, 3000, lined("door", 890, 0, 910, 1800), lined("window", 1800, 785, 690, 1015)))
    (row,) = [row for row in rows["returns"] if (row["opening"], row["side"]) == ("door", "right")]
    assert row["area_m2"] == pytest.approx(0.1025 * 0.785, abs=1e-12)
    assert row["slip_face_area_m2"] == pytest.approx(0.1025 * (10 * 0.065 + 0.035), abs=1e-12)


def test_a_jamb_on_a_step_of_the_wall_is_lined_only_below_the_step() -> None:
    """The wall is 2400 high beside the opening, 1500 high left of it; the jamb stands from 900 to 2100."""
    step = [(0, 0), (4490, 0), (4490, 2400), (900, 2400), (900, 1500), (0, 1500)]
    outline = [{"x_mm": x, "y_mm": y} for x, y in step]
    rows = result({"outline": outline, "openings": [lined("window", 900, 900, 900, 1200)]})["returns"]
    assert [row["area_m2"] for row in rows] == pytest.approx([0.1025 * 0.6, 0.1025 * 1.2], abs=1e-12)


def test_reveals_change_no_area_of_the_face() -> None:
    lined, plain = result(wall(102.5)), result(wall(0))
    assert lined["elevations"] == plain["elevations"]


def test_an_unlined_reveal_has_no_return_slips() -> None:
    assert result(wall(0))["returns"] == []


def test_each_return_replaces_one_piece_of_the_face() -> None:
    balance = result(wall(102.5))["pieces"]
    assert balance["return_ends_count"] == 28
    assert balance["straight_pieces_count"] + 28 == balance["face_pieces_count"]


def test_a_pier_of_one_slip_between_two_lined_jambs_is_replaced_from_both_sides() -> None:
    reveal = {"left": {"depth_mm": 102.5}, "right": {"depth_mm": 102.5}}
    first = opening(890, 750, 675 - 0, 750, name="one", reveal=reveal)
    second = opening(890 + 675 + 215, 750, 675, 750, name="two", reveal=reveal)
    balance = result(rectangle(4490, 3000, first, second))["pieces"]
    replaced = balance["return_ends_count"] - balance["twice_replaced_count"]
    assert balance["twice_replaced_count"] > 0
    assert balance["straight_pieces_count"] + replaced == balance["face_pieces_count"]


def test_arch_jambs_end_at_the_springing() -> None:
    arch = {
        "id": "arch", "kind": "arch", "x_mm": 1340, "width_mm": 685, "sill_mm": 900, "springing_mm": 1800, "rise_mm": 342.5,
        "reveal": {"left": {"depth_mm": 102.5}, "right": {"depth_mm": 102.5}},
    }  # fmt: skip
    rows = result(rectangle(3723, 3000, arch))["returns"]
    assert [row["return_slips_count"] for row in rows] == [12, 12]


@pytest.mark.parametrize(("depth", "found"), [(0, False), (50, True)])
def test_slips_on_a_soffit_are_left_out_and_said_so(depth, found) -> None:
    elevation = wall(102.5)
    elevation["openings"][0]["reveal"]["head"] = {"depth_mm": depth}
    assert ("overhead-slips" in codes(elevation)) is found


def test_a_short_leg_stands_in_for_a_piece_that_its_perp_can_take_up() -> None:
    """Jamb at 553.5: pieces of 103.5 beside a perp of 10 that may be 12 wide; the longer leg still turns in."""
    assert left(102.5, x=553.5)["cut_on_face_count"] == 0
    assert left(102.5, x=553.5)["cut_in_reveal_count"] == 7
