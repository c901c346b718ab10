"""Situations of corners and the way round a building as pictures: faces side by side as seen from outside, ``/`` an external and
``\\`` an internal corner between them. Buildings are given by their plans, a character for each module either way.

The expected courses were drawn by hand: at a corner one face shows the long side of a unit where the other shows the short one.
"""

import pytest
from wall_pictures import (
    building_from,
    drawn,
    drawn_of,
    findings,
    picture,
    pieces_of,
    rectangle,
    set_out,
    slips,
    unrolled,
    wall_from,
)

THIN = {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 20}
"""Build-up 43 mm, for parts of a building that are narrower than two build-ups of a usual board."""


def pair(kind="external_corner", first=None, second=None, **edge):
    """Two faces of four modules and four courses that meet at a corner; CO- at an external one, CO at an internal one."""
    length = 890 if kind == "external_corner" else 900
    left = {**rectangle(length, 300), "id": "left", "right_edge": {"kind": kind, "to": "right:left", **edge}}
    right = {**rectangle(length, 300), "id": "right", "left_edge": {"kind": kind, "to": "left:right", **edge}}
    return {**left, **(first or {})}, {**right, **(second or {})}


def test_g50_a_corner_has_one_slip_in_each_course_with_its_long_leg_on_either_face_in_turn() -> None:
    """From above:   course 0  SSS|SSSS         course 1  SSS|cc
    c                        S
    """
    faces = pair(second={"bond_start": "half"})
    answer = slips(*faces)
    assert unrolled(answer, faces) == picture("""
        c|SSS|SSS|SSS|cc/SSS|SSS|SSS|SSSS
        SSS|SSS|SSS|SSSS/c|SSS|SSS|SSS|cc
        c|SSS|SSS|SSS|cc/SSS|SSS|SSS|SSSS
        SSS|SSS|SSS|SSSS/c|SSS|SSS|SSS|cc
    """)
    (corner,) = answer.result["corners"]
    assert (corner["corner_slips_count"], corner["left_handed_count"], corner["right_handed_count"]) == (4, 2, 2)
    assert (corner["longer_leg_even"], corner["replaced_pieces_count"]) == ("left:right", 8)
    assert answer.findings == []


def test_g50_of_two_faces_of_unlike_height_the_lower_one_counts() -> None:
    faces = pair(second={"bond_start": "half", "height_mm": 225})
    answer = slips(*faces)
    assert unrolled(answer, faces) == picture("""
        c|SSS|SSS|SSS|cc/
        SSS|SSS|SSS|SSSS/c|SSS|SSS|SSS|cc
        c|SSS|SSS|SSS|cc/SSS|SSS|SSS|SSSS
        SSS|SSS|SSS|SSSS/c|SSS|SSS|SSS|cc
    """)
    (corner,) = answer.result["corners"]
    assert (corner["corner_slips_count"], corner["left_handed_count"], corner["right_handed_count"]) == (3, 2, 1)
    (unlike,) = findings(answer, "corner-height-mismatch")
    assert (unlike["value"], unlike["limit"]) == (75, 1)


def test_g51_at_an_internal_corner_either_face_stops_a_joint_short_and_the_bond_goes_on_behind_it() -> None:
    """The right face starts a joint in, at x = 10, with a half bat where the left one ends in a stretcher."""
    faces = pair("internal_corner")
    answer = slips(*faces, perps="equalised")
    assert unrolled(answer, faces) == picture("""
        c|SSS|SSS|SSS|c|\\|SSS|SSS|SSS|SSSS
        SSS|SSS|SSS|SSS|\\|c|SSS|SSS|SSS|cc
        c|SSS|SSS|SSS|c|\\|SSS|SSS|SSS|SSSS
        SSS|SSS|SSS|SSS|\\|c|SSS|SSS|SSS|cc
    """)
    assert min(shape.bounds[0] for shape, _, _ in pieces_of(answer, "right")) == 10
    assert max(shape.bounds[2] for shape, _, _ in pieces_of(answer, "left")) == 890
    assert (answer.result["corners"], answer.findings) == ([], [])


L_SHAPE = picture("""
    ####
    ####
    ########
    ########
""")


def test_g52_round_an_l_shaped_building_the_bond_comes_back_to_where_it_started() -> None:
    """Half modules 16 + 4 + 8 + 4 + 8 + 8 and six corners are even, so the last face meets the first with the other unit."""
    faces = building_from(L_SHAPE)
    assert unrolled(slips(*faces, perps="equalised"), faces) == picture("""
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc/SSS|SSSS/c|SSS|SSS|SSS|c|\\|SSS|SSSS/c|SSS|SSS|SSS|cc/SSS|SSS|SSS|SSSS/
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS/c|SSS|cc/SSS|SSS|SSS|SSS|\\|c|SSS|cc/SSS|SSS|SSS|SSSS/c|SSS|SSS|SSS|cc/
    """)
    answer = set_out(*faces)
    (loop,) = answer.result["loops"]
    assert [row["half_modules_count"] for row in loop["faces"]] == [16, 4, 8, 4, 8, 8]
    assert [row["edge_convention"] for row in loop["faces"]] == ["CO-", "CO-", "CO", "CO", "CO-", "CO-"]
    assert (loop["parity"], loop["closes"], findings(answer, "loop-not-closed")) == (0, True, [])


def test_g52_faces_12_mm_too_long_close_by_their_perps_and_are_laid_like_those_on_the_module() -> None:
    """12 mm over the seven perps of 16 half modules are perps of 11.714; the two faces together miss 24 mm."""
    faces = building_from(L_SHAPE.split("\n")[-1] + "\n" + L_SHAPE.split("\n")[-1])
    longer = [{**face, "width_mm": face["width_mm"] + (12 if face["id"] in "ac" else 0)} for face in faces]
    assert unrolled(slips(*longer, perps="equalised"), longer) == picture("""
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc/SSS|SSSS/c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|cc/SSS|SSSS/
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS/c|SSS|cc/SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSSS/c|SSS|cc/
    """)
    nominal, built = set_out(*longer), set_out(*longer, options={"perps": "equalised"})
    (open_loop,) = findings(nominal, "loop-not-closed")
    assert (open_loop["value"], open_loop["limit"]) == (pytest.approx(24), 0.05)
    (loop,) = built.result["loops"]
    assert (loop["closes"], loop["closes_with_perps"], loop["closes_as_laid"]) == (False, True, True)
    assert [row["perp_mm"] for row in loop["faces"]] == pytest.approx([10 + 12 / 7, 10, 10 + 12 / 7, 10])
    assert findings(built, "loop-not-closed") == []


def test_g52_a_loop_that_no_perp_closes_is_broken_where_it_is_seen_least() -> None:
    """50 mm over seven perps are perps of 17.1, and 62.5 under eight half bats more are 2.2: both leave 8 to 12."""
    faces = building_from(L_SHAPE)
    longer = [{**face, "width_mm": face["width_mm"] + (50 if face["id"] == "a" else 0)} for face in faces]
    answer = set_out(*longer, options={"perps": "equalised"})
    (loop,) = answer.result["loops"]
    assert (loop["closes_with_perps"], loop["hide_at"]) == (False, "d:left")


def test_g53_a_nib_one_module_wide_has_two_corner_slips_back_to_back_in_each_course() -> None:
    """The nib is 2 x 102.5 + 10 = 215 wide. In odd courses it shows the short legs of two corner slips with a perp between; in even
    ones a single stretcher, the long leg of both: a special, counted as replaced twice.
    """
    faces = building_from(
        picture("""
         #
        ###
        ###
    """)
    )
    answer = slips(*faces, perps="equalised", board=THIN)
    assert unrolled(answer, faces) == picture("""
        c|SSS|SSS|cc/SSS|SSSS/c|c|\\|SSSS/c|cc/SSS|\\|c|cc/SSS|SSSS/
        SSS|SSS|SSSS/c|SSS|cc/SSS|\\|c|cc/SSSS/c|c|\\|SSSS/c|SSS|cc/
    """)
    assert answer.result["pieces"]["twice_replaced_count"] == 1
    assert findings(answer, "corner-slips-meet") == []
    narrower = [{**face, "width_mm": 214.9} if face["id"] == "e" else face for face in faces]
    (short,) = findings(slips(*narrower, board=THIN), "corner-slips-meet")
    assert (short["value"], short["limit"], short["where"]["elevation"]) == (214.9, 215, "e")


def test_g54_a_splayed_corner_is_mitred_in_every_course_and_has_no_l_slip() -> None:
    """From above, with 135 degrees inside the building:
                 /
                /
    -----------'
    """
    faces = pair(angle_deg=135, second={"bond_start": "half"})
    answer = slips(*faces)
    assert unrolled(answer, faces) == picture("""
        c|SSS|SSS|SSS|cc/SSS|SSS|SSS|SSSS
        SSS|SSS|SSS|SSSS/c|SSS|SSS|SSS|cc
        c|SSS|SSS|SSS|cc/SSS|SSS|SSS|SSSS
        SSS|SSS|SSS|SSSS/c|SSS|SSS|SSS|cc
    """)
    (corner,) = answer.result["corners"]
    assert (corner["corner_slips_count"], corner["mitred_courses_count"], answer.result["corner_slips_count"]) == (
        0,
        4,
        0,
    )
    (skew,) = findings(answer, "corner-not-square")
    assert (skew["value"], skew["limit"]) == (135, 90)


def test_g55_over_a_stepped_base_the_corner_is_turned_where_both_faces_stand() -> None:
    left = wall_from(
        picture("""
        SSS|SSS|SSS|SSSS
        c|SSS|SSS|SSS|cc
        SSS|SSS|SSS|SSSS
        c|SSS|cc
        SSS|SSSS
    """),
        id="left",
        right_edge={"kind": "external_corner", "to": "right:left"},
    )
    right = {**rectangle(890, 375, bond_start="half"), "id": "right", "left_edge": {"kind": "external_corner"}}
    answer = slips(left, right)
    assert unrolled(answer, [left, right]) == picture("""
        SSS|SSS|SSS|SSSS/c|SSS|SSS|SSS|cc
        c|SSS|SSS|SSS|cc/SSS|SSS|SSS|SSSS
        SSS|SSS|SSS|SSSS/c|SSS|SSS|SSS|cc
        c|SSS|cc        /SSS|SSS|SSS|SSSS
        SSS|SSSS        /c|SSS|SSS|SSS|cc
    """)
    (corner,) = answer.result["corners"]
    assert (corner["corner_slips_count"], corner["left_handed_count"], corner["right_handed_count"]) == (3, 2, 1)
    (unlike,) = findings(answer, "corner-height-mismatch")
    assert unlike["value"] == 150


def test_g56_courses_go_on_from_the_bed_joints_of_an_adjoining_building() -> None:
    """Its bed joint ends at 1035. The nearest course line is at 14 x 75 = 1050, so the datum comes down by 15. Every 15 mm:"""
    wall = rectangle(1790, 2475, right_edge={"kind": "abutment"})
    given, matched = set_out(wall), set_out(wall, datum={"kind": "match_bed", "match_bed_at_mm": 1035})

    def rod(answer, level):
        return "--" if any(row["foot_mm"] == level for row in answer.result["datum"]["gauge"]) else "  "

    theirs = {1035 + 75 * course for course in range(-2, 2)}
    lines = [
        f"{level} {'--' if level in theirs else '  '} {rod(matched, level)} {rod(given, level)}".rstrip()
        for level in range(1125, 945, -15)
    ]
    assert "\n".join(lines) == picture("""
        1125       --
        1110 -- --
        1095
        1080
        1065
        1050       --
        1035 -- --
        1020
        1005
        990
        975       --
        960 -- --
    """)
    assert (matched.result["datum"]["level_mm"], matched.result["datum"]["kind"]) == (-15, "match_bed")


def test_g57_a_movement_joint_stands_at_the_perp_behind_the_corner_slips() -> None:
    """The longer leg ends at 215, so the first legal joint takes the perp from 215 to 225 and halves the stretchers between."""
    wall = rectangle(890, 300, left_edge={"kind": "external_corner"}, existing_joints_x_mm=[220])
    assert drawn(wall) == picture("""
        c|c=c|SSS|SSS|cc
        SSS=SSS|SSS|SSSS
        c|c=c|SSS|SSS|cc
        SSS=SSS|SSS|SSSS
    """)
    assert findings(slips(wall), "joint-at-corner") == []


def test_g57_a_movement_joint_within_the_corner_slips_is_reported_with_its_distance_from_the_arris() -> None:
    wall = rectangle(890, 300, left_edge={"kind": "external_corner"}, existing_joints_x_mm=[107.5])
    answer = slips(wall)
    assert drawn_of(answer, wall) == picture("""
        c=SSS|SSS|SSS|cc
        c=c|SSS|SSS|SSSS
        c=SSS|SSS|SSS|cc
        c=c|SSS|SSS|SSSS
    """)
    (near,) = findings(answer, "joint-at-corner")
    assert (near["value"], near["limit"], near["where"]["x_mm"]) == (102.5, 215, 107.5)
