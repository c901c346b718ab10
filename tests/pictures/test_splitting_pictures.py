"""Walls in parts as pictures: drawn on several sheets, mirrored, repeated storey by storey, and faced with other things than slips.

The expected walls were drawn by hand: stretcher bond, whole units at x = 225 n in even courses and 112.5 + 225 n in odd ones.
"""

import pytest
from wall_pictures import drawn_of, findings, outline, picture, row_of, set_out, slips, unrolled, wall_from

AREAS = ("net_area_m2", "slip_face_area_m2", "joint_area_m2")


def test_g80_a_wall_drawn_in_two_parts_with_one_origin_of_the_bond_has_the_totals_of_the_single_drawing() -> None:
    """Cut at x = 1012.5, where even courses have the middle of a slip: two pieces more, and the bond goes on."""
    whole = wall_from(
        picture("""
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc
        SSS|SSS|SSS|SSS|SSSS......c|SSSS
        c|SSS|SSS|SSS|SSS|cc......SSS|cc
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS
    """)
    )
    left = {"id": "left", **outline((0, 0), (1012.5, 0), (1012.5, 300), (0, 300)), "bond_origin_x_mm": 0}
    right = {
        **whole,
        "id": "right",
        **outline((1012.5, 0), (1790, 0), (1790, 300), (1012.5, 300)),
        "bond_origin_x_mm": 0,
    }
    parts, single = slips(left, right), slips(whole)
    assert unrolled(parts, [{**left, "right_edge": {"kind": "sheet"}}, right]) == picture("""
        c|SSS|SSS|SSS|SSS|:SSS|SSS|SSS|cc
        SSS|SSS|SSS|SSS|cc:cc......c|SSSS
        c|SSS|SSS|SSS|SSS|:cc......SSS|cc
        SSS|SSS|SSS|SSS|cc:c|SSS|SSS|SSSS
    """)
    for name in AREAS:
        assert parts.result[name] == pytest.approx(single.result[name], abs=1e-9)
    pieces = [answer.result["pieces"]["face_pieces_count"] for answer in (parts, single)]
    assert pieces[0] == pieces[1] + 2
    restarted = slips(left, {**right, "bond_origin_x_mm": None})
    assert drawn_of(restarted, right).split("\n")[-1] == "SSS|SSS|SSS|cc"


def test_g81_a_handed_house_has_its_walls_in_the_mirror_with_corner_slips_of_the_other_hand() -> None:
    drawn_house = picture("""
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSSS
        SSS|cc......SSS|SSS|SSS|SSS|cc
        c|SSSS......c|SSS|SSS|SSS|SSSS
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc
    """)
    handed_house = picture("""
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc
        c|SSS|SSS|SSS|SSSS......c|SSSS
        SSS|SSS|SSS|SSS|cc......SSS|cc
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSSS
    """)
    house = wall_from(drawn_house, left_edge={"kind": "external_corner"})
    answer = slips(house, {"id": "handed", "mirror_of": "wall"})
    assert drawn_of(answer, house) == drawn_house
    assert drawn_of(answer, wall_from(handed_house, id="handed")) == handed_house
    by_edge = {row["edges"][0]: row for row in answer.result["corners"]}
    one, other = by_edge["wall:left"], by_edge["handed:right"]
    assert one["corner_slips_count"] == other["corner_slips_count"] == 4
    assert (one["left_handed_count"], one["right_handed_count"]) == (2, 2)
    assert (one["longer_leg_even"], other["longer_leg_even"]) == ("wall:left", "handed:right")
    rows = [row_of(answer, name) for name in ("wall", "handed")]
    assert (rows[0]["full_count"], rows[0]["cut_count"]) == (rows[1]["full_count"], rows[1]["cut_count"])


def test_g81_three_corner_slips_show_the_hand_that_a_mirror_swaps() -> None:
    house = {"id": "wall", "width_mm": 890, "height_mm": 225, "left_edge": {"kind": "external_corner"}}
    answer = slips(house, {"id": "handed", "mirror_of": "wall"})
    hands = {row["edges"][0]: (row["left_handed_count"], row["right_handed_count"]) for row in answer.result["corners"]}
    assert hands == {"wall:left": (1, 2), "handed:right": (2, 1)}


def test_g82_storeys_of_an_even_number_of_courses_repeat_to_the_slip() -> None:
    tower = wall_from(
        picture("""
        c|SSS|SSS|SSS|cc
        SSS|cc....c|SSSS
        c|SSSS....SSS|cc
        SSS|SSS|SSS|SSSS
        c|SSS|SSS|SSS|cc
        SSS|cc....c|SSSS
        c|SSSS....SSS|cc
        SSS|SSS|SSS|SSSS
    """),
        storey_levels_mm=[0, 300, 600],
    )
    lines = drawn_of(slips(tower), tower).split("\n")
    assert lines[:4] == lines[4:]
    answer = set_out(tower)
    storeys = answer.result["elevations"][0]["storeys"]
    assert [(row["courses"], row["whole_courses"], row["repeats"]) for row in storeys] == [(4, True, True)] * 2
    assert findings(answer, "storey-shifts-bond") == []


def test_g82_storeys_of_an_odd_number_of_courses_change_the_jambs_over() -> None:
    drawn_tower = picture("""
        c|SSS|SSS|SSS|cc
        SSS|SSS|SSS|SSSS
        c|SSSS....SSS|cc
        SSS|cc....c|SSSS
        c|SSS|SSS|SSS|cc
        SSS|SSS|SSS|SSSS
        c|SSS|SSS|SSS|cc
        SSS|cc....c|SSSS
        c|SSSS....SSS|cc
        SSS|SSS|SSS|SSSS
    """)
    tower = wall_from(drawn_tower, storey_levels_mm=[0, 375, 750])
    assert drawn_of(slips(tower), tower) == drawn_tower
    answer = set_out(tower)
    assert [row["repeats"] for row in answer.result["elevations"][0]["storeys"]] == [False, False]
    (shifts,) = findings(answer, "storey-shifts-bond")
    assert (shifts["level"], shifts["value"], shifts["limit"], shifts["where"]["y_mm"]) == ("info", 5, 2, 0)


def test_g84_a_render_band_and_a_stone_head_take_their_place_from_the_slips_and_the_areas_close() -> None:
    """The band is 1790 by 150, the head 16 quarters and a joint by 75: 0.2685 + 0.06825 m2. Courses go on behind them."""
    drawn_wall = picture("""
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc
        ################################
        ################################
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS
        c|SSS|cc################c|SSS|cc
        SSS|SSS|cc............c|SSS|SSSS
        c|SSS|SSSS............SSS|SSS|cc
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS
    """)
    wall = wall_from(drawn_wall)
    answer = slips(wall)
    assert drawn_of(answer, wall) == drawn_wall
    row = row_of(answer, "wall")
    assert row["feature_area_m2"] == pytest.approx(0.2685 + 0.06825, abs=1e-12)
    assert row["net_area_m2"] == pytest.approx(1.79 * 0.6 - 0.685 * 0.15, abs=1e-12)
    parts = row["feature_area_m2"] + row["slip_face_area_m2"] + row["joint_area_by_strips_m2"]
    assert parts == pytest.approx(row["net_area_m2"], abs=1e-6)
