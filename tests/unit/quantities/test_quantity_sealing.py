"""Sealant: where it goes, how wide and deep, and that each joint is sealed once."""

import math

import mpmath
import pytest

from storeyrod.quantities.frames import arc_length
from unit.quantities.quantity_requests import answer, line, quantities
from unit.wall.survey import points, rectangle, window

ARCH = {
    "kind": "arch", "id": "a", "x_mm": 1340, "width_mm": 685, "sill_mm": 900, "springing_mm": 1800, "rise_mm": 342.5,
}  # fmt: skip


def runs(*elevations, **system):
    return {row["place"]: row for row in quantities(*elevations, **system)["sealant"]["runs"]}


def test_a_plain_rectangle_has_nothing_to_seal():
    result = quantities(rectangle())
    assert result["sealant"] == {"runs": [], "length_m": 0.0, "volume_l": 0.0}
    assert line(result["lines"], "sealant")["order"] == 0.0


def test_an_abutment_is_sealed_over_its_height_at_its_own_width():
    row = runs(rectangle("abutment", left_edge={"kind": "abutment", "joint_mm": 16}))["edge"]
    assert (row["length_m"], row["width_mm"], row["depth_mm"]) == (2.475, 16.0, 8.0)
    assert row["volume_l"] == pytest.approx(2.475 * 16 * 8 / 1000)


def test_an_abutment_without_a_joint_is_not_sealed():
    assert runs(rectangle(left_edge={"kind": "abutment", "joint_mm": 0})) == {}


def test_an_opening_in_the_end_leaves_nothing_to_seal_beside_it():
    corner_window = window(x_mm=0, y_mm=900, width_mm=1000, height_mm=1200)
    assert runs(rectangle("abutment", openings=[corner_window]))["edge"]["length_m"] == pytest.approx(2.475 - 1.2)


def test_a_movement_joint_is_sealed_between_openings():
    wall = rectangle(width_mm=6000, openings=[window(x_mm=2500)], existing_joints_x_mm=[3000])
    row = runs(wall, movement_joint={"width_mm": 12})["movement_joint"]
    assert (row["length_m"], row["width_mm"], row["depth_mm"]) == (pytest.approx(2.475 - 1.05), 12.0, 6.0)


def test_level_joints_are_sealed_apart_from_plumb_ones():
    """4.8 m and 4.8 m less a window of 1.135, 15 wide and 7.5 deep."""
    stair = window(y_mm=1500, height_mm=2250)
    wall = rectangle(height_mm=6000, storey_levels_mm=[2700, 5400], openings=[stair], existing_joints_x_mm=[3000])
    made = runs(wall, movement_joint={"width_mm": 12, "at_storeys": True, "storey_width_mm": 15})
    row = made["storey_joint"]
    assert (row["length_m"], row["width_mm"], row["depth_mm"]) == (pytest.approx(9.6 - 1.135), 15.0, 7.5)
    assert row["volume_l"] == pytest.approx((9.6 - 1.135) * 15 * 7.5 / 1000)
    assert made["movement_joint"]["length_m"] == pytest.approx(6.0)


@pytest.mark.parametrize(("width", "depth"), [(6, 6.0), (19, 9.5), (32, 13.0)])
def test_depth_is_half_the_width_within_6_and_13(width, depth):
    # Textbook on architectural detailing: pairs 6 x 6, 19 x 9, 32 x 13.
    wall = rectangle(width_mm=6000, existing_joints_x_mm=[3000])
    assert runs(wall, movement_joint={"width_mm": width})["movement_joint"]["depth_mm"] == depth


def test_a_depth_that_is_given_is_kept():
    wall = rectangle(width_mm=6000, existing_joints_x_mm=[3000])
    row = runs(wall, movement_joint={"width_mm": 20, "sealant_depth_mm": 15})["movement_joint"]
    assert (row["depth_mm"], row["section_mm2"], row["volume_ml_per_m"]) == (15.0, 300.0, pytest.approx(300.0))


def test_a_window_is_sealed_all_round():
    row = runs(rectangle(openings=[window()]))["frame"]
    assert row["length_m"] == pytest.approx(2 * 1.135 + 2 * 1.05)
    assert (row["width_mm"], row["depth_mm"]) == (10.0, 6.0)


def test_a_door_at_the_foot_has_no_threshold_to_seal():
    door = window(y_mm=0, height_mm=2100)
    assert runs(rectangle(openings=[door]))["frame"]["length_m"] == pytest.approx(2 * 2.1 + 1.135)


def test_a_door_above_the_foot_is_sealed_all_round():
    door = window(y_mm=150, height_mm=2100)
    assert runs(rectangle(openings=[door]))["frame"]["length_m"] == pytest.approx(2 * 2.1 + 2 * 1.135)


def test_a_door_on_a_stepped_foot_is_sealed_where_the_step_leaves_a_riser():
    # The foot steps from 0 to 150 in the middle of the door, whose threshold is on the upper level.
    outline = points((0, 0), (1500, 0), (1500, 150), (3000, 150), (3000, 2400), (0, 2400))
    door = window(x_mm=1000, y_mm=150, width_mm=1000, height_mm=2100)
    assert runs(rectangle(outline=outline, openings=[door]))["frame"]["length_m"] == pytest.approx(2 * 2.1 + 1 + 0.5)


def test_an_arch_is_sealed_along_its_curve():
    row = runs(rectangle(openings=[ARCH]))["frame"]
    assert row["length_m"] == pytest.approx(2 * 0.9 + 0.685 + math.pi * 0.3425)


def test_a_segmental_arch_is_as_long_as_its_arc():
    # A chord of 800 and a rise of 200: radius 500, half angle asin(0.8).
    arch = {**ARCH, "width_mm": 800, "rise_mm": 200}
    row = runs(rectangle(openings=[arch]))["frame"]
    assert row["length_m"] == pytest.approx(2 * 0.9 + 0.8 + 0.5 * 2 * math.asin(0.8))


def test_a_circle_is_sealed_along_its_circumference():
    row = runs(rectangle(openings=[{"kind": "circle", "id": "c", "x_mm": 1500, "y_mm": 1200, "diameter_mm": 600}]))[
        "frame"
    ]
    assert row["length_m"] == pytest.approx(math.pi * 0.6)


def test_a_polygon_is_sealed_along_its_edges_but_not_on_its_threshold():
    # A flared door: two sides of 400 by 2100, a head of 1800, its threshold of 1000 on the foot of the wall.
    flared = {"kind": "polygon", "id": "p", "points": points((1000, 0), (2000, 0), (2400, 2100), (600, 2100))}
    row = runs(rectangle(openings=[flared]))["frame"]
    assert row["length_m"] == pytest.approx(2 * math.hypot(0.4, 2.1) + 1.8)


def test_a_raked_opening_in_the_end_is_open_only_along_its_plumb_edge():
    raked = {"kind": "polygon", "id": "p", "points": points((0, 900), (1000, 900), (1000, 1500), (0, 2100))}
    found = runs(rectangle("abutment", openings=[raked]))
    assert found["edge"]["length_m"] == pytest.approx(2.475 - 1.2)
    assert found["frame"]["length_m"] == pytest.approx(1 + 0.6 + math.hypot(1, 0.6))


def test_frames_take_the_width_of_movement_joints_when_it_is_given():
    made = answer(rectangle(openings=[window()]), movement_joint={"width_mm": 14})
    (row,) = made.result["sealant"]["runs"]
    assert (row["width_mm"], row["depth_mm"]) == (14.0, 7.0)


def test_the_width_round_frames_is_stated_once_as_an_assumption():
    stated = [one for one in answer(rectangle(openings=[window()])).assumptions if "round frames" in one["source"]]
    assert [(one["field"], one["value"], one["status"]) for one in stated] == [
        ("/system/movement_joint", 10.0, "house")
    ]
    assert not [one for one in answer(rectangle()).assumptions if "round frames" in one["source"]]


def test_the_arc_of_a_flat_arch_keeps_its_digits():
    """mpmath with 50 digits: 1 mm of rise over 50 m, where an arc cosine of nearly 1 would lose eight digits."""
    with mpmath.workdps(50):
        width, rise = mpmath.mpf(50), mpmath.mpf("0.001")
        radius = (width**2 / 4 + rise**2) / (2 * rise)
        exact = 2 * radius * mpmath.acos((radius - rise) / radius)
    assert arc_length(R=float(radius), h=float(rise)) == pytest.approx(float(exact), rel=1e-15)


def test_an_internal_corner_is_sealed_once():
    left = rectangle(right_edge={"kind": "internal_corner", "to": "b:left"})
    right = {**rectangle(left_edge={"kind": "internal_corner", "to": "rear:right"}), "id": "b"}
    row = runs(left, right)["edge"]
    assert (row["length_m"], row["width_mm"]) == (2.475, 10.0)


def test_a_movement_joint_between_two_elevations_is_sealed_once():
    left = rectangle(right_edge={"kind": "movement_joint", "to": "b:left"})
    right = {**rectangle(left_edge={"kind": "movement_joint", "to": "rear:right"}), "id": "b"}
    assert runs(left, right)["edge"]["length_m"] == pytest.approx(2.475)
    one_sided = {**rectangle(left_edge={"kind": "movement_joint"}), "id": "b"}
    assert runs(left, one_sided)["edge"]["length_m"] == pytest.approx(2.475)


def test_a_movement_joint_whose_other_side_is_not_here_is_sealed():
    assert runs(rectangle(right_edge={"kind": "movement_joint", "to": "b:left"}))["edge"]["length_m"] == 2.475


def test_runs_alike_are_added_up_and_others_kept_apart():
    walls = [
        {**rectangle("abutment", right_edge={"kind": "abutment", "joint_mm": width}), "id": f"wall {width}"}
        for width in (10, 16)
    ]
    rows = quantities(*walls)["sealant"]["runs"]
    assert [(row["place"], row["width_mm"], row["length_m"]) for row in rows] == [
        ("edge", 10.0, pytest.approx(3 * 2.475)),
        ("edge", 16.0, pytest.approx(2.475)),
    ]


def test_a_pack_seals_its_contents_over_the_section():
    row = runs(rectangle("abutment"), packs={"sealant_ml": 600})["edge"]
    assert row["pack_run_length_m"] == pytest.approx(10.0)


def rods(result):
    return [(one["diameter_mm"], one["net"], one["unit"]) for one in result["lines"] if one["role"] == "backer_rod"]


def test_backer_rod_is_as_long_as_what_is_sealed_a_line_for_each_diameter():
    # A joint of 12 takes a rod of 15 (a quarter more), frames of 10 one of 13: 12.5 up to whole millimetres.
    wall = rectangle("abutment", left_edge={"kind": "abutment", "joint_mm": 12}, openings=[window()])
    assert rods(quantities(wall)) == [(13.0, pytest.approx(2 * 1.135 + 2 * 1.05), "m"), (15.0, 2.475, "m")]


def test_runs_with_the_same_rod_share_a_line():
    wall = rectangle("abutment", left_edge={"kind": "abutment", "joint_mm": 10}, openings=[window()])
    assert rods(quantities(wall)) == [(13.0, pytest.approx(2 * 1.135 + 2 * 1.05 + 2.475), "m")]


def test_a_wall_with_nothing_to_seal_needs_no_rod():
    assert rods(quantities(rectangle())) == []


def test_rod_is_bought_by_the_roll_of_each_diameter():
    # Two rolls of 50 m, though both runs would fit on one: 2.475 m of rod 15, 4.37 m of rod 13.
    wall = rectangle("abutment", left_edge={"kind": "abutment", "joint_mm": 12}, openings=[window()])
    lines = [one for one in quantities(wall, packs={"backer_rod_m": 50})["lines"] if one["role"] == "backer_rod"]
    assert [(one["packs_count"], one["pack_unit"]) for one in lines] == [(1, "roll"), (1, "roll")]
    assert lines[1]["explanation"] == "2.48 m of need, x 1.05 = 2.6 m -> 1 roll of 50 m"


def test_an_open_cell_rod_is_wider():
    # 40 % wider than 10 mm (from memory of ASTM C1193).
    row = runs(rectangle("abutment"), movement_joint={"backer_rod": {"kind": "open_cell"}})["edge"]
    assert (row["backer_rod"]["diameter_mm"], row["backer_rod"]["diameter_most_mm"]) == (14.0, 15.0)


def test_a_given_rod_is_for_movement_joints_and_not_for_abutments():
    wall = rectangle("abutment", width_mm=6000, existing_joints_x_mm=[3000])
    rod = {"kind": "closed_cell", "diameter_mm": 16}
    made = runs(wall, movement_joint={"width_mm": 12, "backer_rod": rod})
    assert [made[place]["backer_rod"]["diameter_mm"] for place in ("movement_joint", "edge")] == [16.0, 13.0]


def test_sealant_over_a_round_rod_fills_the_hollows_beside_it():
    # Joint 10, rod 13, 6 deep at the middle: integrated with mpmath over the width.
    with mpmath.workdps(30):
        area = mpmath.quad(lambda x: 6 + mpmath.mpf("6.5") - mpmath.sqrt(mpmath.mpf("6.5") ** 2 - x**2), [-5, 0, 5])
    row = runs(rectangle("abutment"), movement_joint={"sealant_section": "over_round_rod"})["edge"]
    assert row["section_mm2"] == pytest.approx(float(area), rel=1e-12)
    assert row["volume_l"] == pytest.approx(2.475 * float(area) / 1000)
    assert float(area) > 60


def test_a_rod_no_wider_than_its_joint_leaves_a_plain_section():
    wall = rectangle(width_mm=6000, existing_joints_x_mm=[3000])
    rod = {"kind": "closed_cell", "diameter_mm": 11.9}
    row = runs(wall, movement_joint={"width_mm": 12, "sealant_section": "over_round_rod", "backer_rod": rod})
    assert row["movement_joint"]["section_mm2"] == 72.0
