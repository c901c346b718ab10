"""Situations of openings as pictures: off the grid, one above another, arched, touching, tiny, on a joint, lined and not lined.

The expected walls were drawn by hand: stretcher bond, whole units at x = 225 n in even courses and 112.5 + 225 n in odd ones.
"""

import math

import pytest
from wall_pictures import (
    COURSE,
    PERP,
    QUARTER,
    drawn,
    drawn_of,
    findings,
    hole,
    picture,
    rectangle,
    refusal_of,
    request_for,
    row_of,
    set_out,
    slips,
    unrolled,
    wall_from,
    with_base,
)

from storeyrod.movement_joints.calculation import calculate as joints_of
from storeyrod.movement_joints.models import MovementJointsRequest

WINDOW = picture("""
    c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc
    SSS|SSS|cc............c|SSS|SSSS
    c|SSS|SSSS............SSS|SSS|cc
    SSS|SSS|cc............c|SSS|SSSS
    c|SSS|SSSS............SSS|SSS|cc
    SSS|SSS|cc............c|SSS|SSSS
    c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc
    SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS
""")
"""A window of three modules and a joint, five courses high, on half modules."""


def window(**more):
    """The wall of that picture, with more said of its window."""
    wall = wall_from(WINDOW)
    return {**wall, "openings": [{**wall["openings"][0], **more}]}


def test_g20_a_head_off_its_course_rips_the_course_above_and_has_three_cures() -> None:
    """The head is 30 over the foot of course 6 at 450, so 65 - 30 = 35 of each slip stay over it. Six courses that are to end
    there need beds of 480/6 - 65 = 15. A datum 30 higher brings the head onto a course line, and takes the sill off its own.
    """
    wall = rectangle(1790, 600, openings=[hole(552.5, 150, 685, 330)])
    assert drawn(wall) == picture("""
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc
        SSS|SSS|ccc|ccc|ccc|ccc|SSS|SSSS
        c|SSS|SSSS............SSS|SSS|cc
        SSS|SSS|cc............c|SSS|SSSS
        c|SSS|SSSS............SSS|SSS|cc
        SSS|SSS|cc............c|SSS|SSSS
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS
    """)
    answer = set_out(wall)
    (off,) = findings(answer, "head-off-course")
    assert (off["value"], off["limit"], off["where"]["opening"], off["where"]["y_mm"]) == (30, 0.5, "o", 480)
    (bed,) = findings(answer, "bed-out-of-range")
    assert (bed["value"], bed["limit"]) == (15, 12)
    rivals = {row["why"]: row for row in answer.result["datum"]["candidates"]}
    (head,) = [row for row in rivals["as_given"]["levels"] if row["what"] == "head"]
    assert (head["course"], head["offset_mm"], head["rip_mm"], head["bed_mm"]) == (6, 30, 35, 15)
    assert rivals["head"]["level_mm"] == 30
    moved = set_out(wall, datum={"kind": "fixed", "level_mm": 30})
    assert [item["code"] for item in moved.findings if item["code"].endswith("off-course")] == [
        "sill-off-course",
        "top-off-course",
    ]


def test_g21_jambs_off_the_half_module_leave_like_slivers_on_both_sides() -> None:
    """Jambs at 490 and 1300 leave 490 - 450 = 40 and 1340 - 1300 = 40 in even courses."""
    wall = rectangle(1790, 600, openings=[hole(490, 150, 810, 300)])
    assert drawn(wall) == picture("""
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS
        c|SSS|ccc..............cc|SSS|cc
        SSS|SSS|c..............iSSS|SSSS
        c|SSS|ccc..............cc|SSS|cc
        SSS|SSS|c..............iSSS|SSSS
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS
    """)
    found = findings(set_out(wall), "jamb-off-module")
    assert [(item["where"]["x_mm"], item["value"], item["limit"]) for item in found] == [(490, 40, 50), (1300, 40, 50)]
    assert [(item["value"], item["where"]["y_mm"]) for item in findings(slips(wall), "sliver")] == [(40, 150)]


def test_g22_windows_a_quarter_out_of_line_break_the_perps_between_them() -> None:
    """The upper window stands 56.25 to the right: its jambs meet neither perps nor half bats, and leave quarters of 46.25."""
    wall = wall_from(
        picture("""
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS
        c|SSS|SSS|c............cc|SSS|cc
        SSS|SSS|ccc............iSSS|SSSS
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc
        SSS|SSS|cc............c|SSS|SSSS
        c|SSS|SSSS............SSS|SSS|cc
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS
    """)
    )
    assert drawn(wall) == picture("""
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS
        c|SSS|SSS|c............cc|SSS|cc
        SSS|SSS|ccc............iSSS|SSSS
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc
        SSS|SSS|cc............c|SSS|SSSS
        c|SSS|SSSS............SSS|SSS|cc
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS
    """)
    answer = set_out(wall)
    (stack,) = answer.result["elevations"][0]["stacks"]
    assert (stack["openings"], stack["perps_run_through"]) == (["o0", "o1"], False)
    assert (stack["left_drift_mm"], stack["right_drift_mm"]) == (56.25, 56.25)
    (broken,) = findings(answer, "perps-do-not-run-through")
    assert (broken["value"], broken["limit"], broken["where"]["opening"]) == (56.25, 0.5, "o1")


def test_g22_windows_half_a_module_out_of_line_let_the_perps_run_through() -> None:
    wall = wall_from(
        picture("""
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS
        c|SSS|SSS|cc............c|SSS|cc
        SSS|SSS|SSSS............SSS|SSSS
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc
        SSS|SSS|cc............c|SSS|SSSS
        c|SSS|SSSS............SSS|SSS|cc
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS
    """)
    )
    answer = set_out(wall)
    assert answer.result["elevations"][0]["stacks"][0]["perps_run_through"] is True
    assert findings(answer, "perps-do-not-run-through") == []


ARCH = {
    "kind": "arch",
    "id": "a",
    "x_mm": 552.5,
    "width_mm": 685,
    "sill_mm": 0,
    "springing_mm": 300,
    "rise_mm": 342.5,
}


def test_g24_square_slips_are_refused_where_their_joint_would_gape_at_the_extrados() -> None:
    """15 slips of 65: pi x 342.5 / 15 - 65 = 6.733 inside, pi x 445 / 15 - 65 = 28.201 outside."""
    wall = rectangle(1790, 825, openings=[{**ARCH, "voussoirs": {"cut": "square"}}])
    slug, pointer, detail = refusal_of(lambda: slips(wall))
    assert (slug, pointer.startswith("/elevations/0/openings/0")) == ("arch-joint-wide", True)
    assert all(part in detail for part in ("15 voussoirs", "6.733", "28.2", "taper"))


def test_g25_a_door_on_the_foot_breaks_the_base_trim_and_closes_it_at_both_jambs() -> None:
    wall = wall_from(
        picture("""
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc
        SSS|SSS|cc............c|SSS|SSSS
        c|SSS|SSSS............SSS|SSS|cc
        SSS|SSS|cc............c|SSS|SSSS
    """)
    )
    base = set_out(wall).result["bases"][0]
    assert with_base(drawn(wall), base["as_drawn"]) == picture("""
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc
        SSS|SSS|cc............c|SSS|SSSS
        c|SSS|SSSS............SSS|SSS|cc
        SSS|SSS|cc............c|SSS|SSSS
        ________________________________
    """)
    assert base["as_drawn_trim_mm"] == base["as_drawn"][0]["trim_mm"] == 1790 - 685
    assert (base["as_drawn_stop_ends_count"], base["as_drawn_other_ends_count"]) == (0, 4)


def test_g26_an_opening_at_a_corner_takes_the_corner_slips_of_its_courses() -> None:
    """Course 0 shows the long leg left of the arris, course 3 right of it; in courses 1 and 2 no slip turns it."""
    left = wall_from(
        picture("""
        c|SSS|SSS|SSS|cc
        SSS|SSS|SSSS....
        c|SSS|SSS|cc....
        SSS|SSS|SSS|SSSS
    """),
        id="left",
        right_edge={"kind": "external_corner", "to": "right:left"},
    )
    right = rectangle(890, 300, bond_start="half", left_edge={"kind": "external_corner", "to": "left:right"}) | {
        "id": "right"
    }
    answer = slips(left, right)
    assert unrolled(answer, [left, right]) == picture("""
        c|SSS|SSS|SSS|cc/SSS|SSS|SSS|SSSS
        SSS|SSS|SSSS..../c|SSS|SSS|SSS|cc
        c|SSS|SSS|cc..../SSS|SSS|SSS|SSSS
        SSS|SSS|SSS|SSSS/c|SSS|SSS|SSS|cc
    """)
    (corner,) = answer.result["corners"]
    assert (corner["corner_slips_count"], corner["left_handed_count"], corner["right_handed_count"]) == (2, 1, 1)


def test_g26_an_opening_up_to_the_top_leaves_two_piers() -> None:
    wall = wall_from(
        picture("""
        c|SSS|SSSS............SSS|SSS|cc
        SSS|SSS|cc............c|SSS|SSSS
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS
    """)
    )
    assert drawn(wall) == picture("""
        c|SSS|SSSS............SSS|SSS|cc
        SSS|SSS|cc............c|SSS|SSSS
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS
    """)
    runs = set_out(wall).result["elevations"][0]["bays"][0]["runs"]
    piers = [(run["kind"], run["x_from_mm"], run["x_to_mm"], run["course_from"], run["course_to"]) for run in runs[1:]]
    assert piers == [("end_pier", 0, 552.5, 2, 3), ("end_pier", 1237.5, 1790, 2, 3)]


def test_g26_two_openings_that_touch_are_one_gap_in_the_slips() -> None:
    whole = window()
    x, y, width, height = (whole["openings"][0][name] for name in ("x_mm", "y_mm", "width_mm", "height_mm"))
    halves = [hole(x, y, 300, height, "a"), hole(x + 300, y, width - 300, height, "b")]
    touching = {**whole, "openings": halves}
    assert drawn(touching) == WINDOW
    assert slips(touching).result["cut_list"] == slips(whole).result["cut_list"]


def named_openings(drawn_wall):
    """Openings a and b of a picture, X where both are, each a joint longer than its quarters (CO+)."""
    lines = drawn_wall.split("\n")[::-1]
    for name in "ab":
        cells = [
            (at, course) for course, line in enumerate(lines) for at, mark in enumerate(line) if mark in (name, "X")
        ]
        left, right = min(at for at, _ in cells) * QUARTER - PERP, (max(at for at, _ in cells) + 1) * QUARTER
        foot, head = min(course for _, course in cells) * COURSE, (max(course for _, course in cells) + 1) * COURSE
        yield hole(left, foot, right - left, head - foot, name)


def test_g27_openings_that_overlap_are_refused_with_the_pair_and_their_area() -> None:
    """Two quarters and a joint wide, one course high: (2 x 56.25 + 10) x 75 = 9187.5 mm2."""
    openings = named_openings(
        picture("""
        ################
        ########bbbbbb##
        ####aaaaXXbbbb##
        ####aaaaaa######
    """)
    )
    slug, pointer, detail = refusal_of(lambda: slips(rectangle(890, 300, openings=list(openings))))
    assert (slug, pointer) == ("opening-overlap", "/elevations/0/openings/1")
    assert "9187.5 mm2" in detail
    assert "/elevations/0/openings/0" in detail


def test_g27_an_opening_that_leaves_the_wall_is_refused_with_the_area_outside() -> None:
    """The wall ends at 16 x 56.25 - 10 = 890, the opening at 18 x 56.25 = 1012.5: 122.5 x 150 = 18375 mm2 lie outside."""
    openings = named_openings(
        picture("""
        ################
        ####aaaa####bbbbbb
        ####aaaa####bbbbbb
        ################
    """)
    )
    slug, pointer, detail = refusal_of(lambda: slips(rectangle(890, 300, openings=list(openings))))
    assert (slug, pointer) == ("opening-outside-outline", "/elevations/0/openings/1")
    assert "18375 mm2" in detail


def test_g28_a_flue_smaller_than_a_slip_is_cut_out_of_the_slips_that_it_meets() -> None:
    """A circle of 100 about x = 445, y = 70 meets two slips of course 0 and one of course 1, from 412 to 478 in their middles."""
    wall = rectangle(
        1115, 300, openings=[{"id": "flue", "kind": "circle", "x_mm": 445, "y_mm": 70, "diameter_mm": 100}]
    )
    answer = slips(wall)
    assert drawn_of(answer, wall) == picture("""
        c|SSS|SSS|SSS|SSS|cc
        SSS|SSS|SSS|SSS|SSSS
        c|SSS|c..|SSS|SSS|cc
        SSS|ccc..cc|SSS|SSSS
    """)
    assert sum(row["count"] for row in answer.result["cut_list"] if row.get("curved")) == 3
    row = row_of(answer, "wall")
    assert row["net_area_m2"] == pytest.approx(1.115 * 0.3 - math.pi * 0.05**2, abs=1e-9)


def test_g32_a_movement_joint_stops_at_a_window_and_goes_on_above_it() -> None:
    """In odd courses the joint of 10 takes the middle out of a stretcher, in even ones it stands for a perp."""
    wall = {**wall_from(WINDOW), "existing_joints_x_mm": [895]}
    assert drawn(wall) == picture("""
        c|SSS|SSS|SSS|c=c|SSS|SSS|SSS|cc
        SSS|SSS|cc............c|SSS|SSSS
        c|SSS|SSSS............SSS|SSS|cc
        SSS|SSS|cc............c|SSS|SSSS
        c|SSS|SSSS............SSS|SSS|cc
        SSS|SSS|cc............c|SSS|SSSS
        c|SSS|SSS|SSS|c=c|SSS|SSS|SSS|cc
        SSS|SSS|SSS|SSS=SSS|SSS|SSS|SSSS
    """)
    answer = joints_of(MovementJointsRequest.model_validate(request_for([wall])))
    (joint,) = answer.result["elevations"][0]["joints"]
    assert [(part["y_from_mm"], part["y_to_mm"]) for part in joint["segments"]] == [(0, 150), (525, 600)]
    assert joint["sealed_length_m"] == pytest.approx(0.6 - 5 * 0.075)
    (crossing,) = findings(answer, "joint-crosses-opening")
    assert (crossing["level"], crossing["where"]["opening"]) == ("info", "o0")


def test_g34_in_a_reveal_as_deep_as_a_header_every_second_leg_is_cut() -> None:
    """Where the face shows a half bat at the jamb, the leg of 215 turns into the reveal and is cut to 102.5: three of five."""
    answer = slips(window(reveal={side: {"depth_mm": 102.5} for side in ("left", "right")}))
    lines = WINDOW.split("\n")[1:6]
    short = {"left": sum(line[8:10] == "cc" for line in lines), "right": sum(line[22:24] == "c|" for line in lines)}
    assert short == {"left": 3, "right": 3}
    for row in answer.result["returns"]:
        assert (row["return_slips_count"], row["cut_in_reveal_count"]) == (5, math.ceil(5 / 2))
        assert row["cut_in_reveal_count"] == short[row["side"]]
        assert row["area_m2"] == pytest.approx(0.1025 * 5 * 0.075)
    assert [row["side"] for row in answer.result["returns"]] == ["left", "right"]


def test_g35_a_window_flush_with_the_face_has_the_same_slips_and_no_returns() -> None:
    lined = window(reveal={side: {"depth_mm": 102.5} for side in ("left", "right")})
    assert drawn(window()) == drawn(lined) == WINDOW
    result = slips(window()).result
    assert (result["returns"], result["return_slips_count"], result["reveal_area_m2"]) == ([], 0, 0)


def test_g36_slips_asked_for_over_people_are_left_out_and_stop_a_strict_request() -> None:
    wall = window(reveal={"head": {"depth_mm": 102.5}})
    answer = slips(wall)
    (overhead,) = findings(answer, "overhead-slips")
    assert (overhead["level"], overhead["value"], overhead["limit"], overhead["where"]["y_mm"]) == (
        "stop",
        102.5,
        0,
        525,
    )
    assert answer.result == slips(window()).result
    slug, pointer, _ = refusal_of(lambda: slips(wall, strict=True))
    assert (slug, pointer) == ("strict-cautions", "/elevations/0/openings/0/reveal/head/depth_mm")


def test_g37_new_slips_bury_an_old_sill_that_does_not_throw_water_clear_of_them() -> None:
    """A section: the sill stands 50 out of the wall, the new face 123, and water is to drip 30 in front of that.

    wall |board    slip|
         |=====|              old sill, 50
         |-------------|      new face, 100 + 3 + 20
         |- - - - - - - - -|  sill that throws clear, 153
    """
    (buried,) = findings(slips(window(sill_projection_mm=50)), "sill-buried")
    assert (buried["value"], buried["limit"], buried["where"]["opening"]) == (50, 153, "o0")
    assert findings(slips(window(sill_projection_mm=153)), "sill-buried") == []
