"""Slip layouts as pictures: a reviewer sees the wall and the answer. The expected walls were drawn by hand on quarter modules."""

import pytest
from slip_pictures import drawn, lay, picture


def wall(width, height, *openings, **more):
    return {"width_mm": width, "height_mm": height, "openings": list(openings), **more}


def hole(x, y, width, height, **more):
    return {"id": "hole", "kind": "rectangle", "x_mm": x, "y_mm": y, "width_mm": width, "height_mm": height, **more}


def outline(*points):
    return {"outline": [{"x_mm": x, "y_mm": y} for x, y in points]}


BONDS = {
    "stretcher": """
        c|SSS|SSS|SSS|SSS|SSS|c|
        SSS|SSS|SSS|SSS|SSS|SSS|
    """,
    "quarter_lap": """
        cc|SSS|SSS|SSS|SSS|SSS|i
        SSS|SSS|SSS|SSS|SSS|SSS|
    """,
    "stack": """
        SSS|SSS|SSS|SSS|SSS|SSS|
        SSS|SSS|SSS|SSS|SSS|SSS|
    """,
    "header": """
        iH|H|H|H|H|H|H|H|H|H|H|i
        H|H|H|H|H|H|H|H|H|H|H|H|
    """,
    "english": """
        H|iH|H|H|H|H|H|H|H|H|iH|
        SSS|SSS|SSS|SSS|SSS|SSS|
    """,
    "flemish": """
        H|iSSS|H|SSS|H|SSS|H|cc|
        SSS|H|SSS|H|SSS|H|SSS|H|
    """,
}


@pytest.mark.parametrize("bond", BONDS)
def test_bonds_on_a_wall_of_six_modules(bond) -> None:
    assert drawn(wall(1340, 150), bond=bond) == picture(BONDS[bond])


def test_english_garden_wall_has_a_course_of_headers_over_three_of_stretchers() -> None:
    """Closers stand behind the headers at both quoins."""
    assert drawn(wall(1340, 600), bond="english_garden_wall") == picture("""
        H|iH|H|H|H|H|H|H|H|H|iH|
        SSS|SSS|SSS|SSS|SSS|SSS|
        c|SSS|SSS|SSS|SSS|SSS|c|
        SSS|SSS|SSS|SSS|SSS|SSS|
        H|iH|H|H|H|H|H|H|H|H|iH|
        SSS|SSS|SSS|SSS|SSS|SSS|
        c|SSS|SSS|SSS|SSS|SSS|c|
        SSS|SSS|SSS|SSS|SSS|SSS|
    """)


def test_flemish_garden_wall_has_headers_over_the_middle_of_every_third_stretcher() -> None:
    """Sets of three stretchers and a header, 787.5 mm; the upper course is shifted by one and three quarter modules."""
    assert drawn(wall(1565, 150), bond="flemish_garden_wall") == picture("""
        iSSS|H|SSS|SSS|SSS|H|SSS|cc|
        SSS|SSS|SSS|H|SSS|SSS|SSS|H|
    """)


def test_closers_stand_behind_the_headers_at_the_jambs_too() -> None:
    """English bond beside a window of three modules; its jambs cut stretchers and headers in their middle."""
    assert drawn(wall(2240, 300, hole(665, 75, 685, 150)), bond="english") == picture("""
        H|iH|H|H|H|H|H|H|H|H|H|H|H|H|H|H|H|H|iH|
        SSS|SSS|SSSS............SSS|SSS|SSS|SSS|
        H|iH|H|H|iHH............H|iH|H|H|H|H|iH|
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|
    """)


def test_g20_a_window_on_half_modules_leaves_halves_and_wholes_at_its_jambs() -> None:
    assert drawn(wall(1790, 600, hole(552.5, 150, 685, 300))) == picture("""
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|c|
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|
        c|SSS|SSSS............SSS|SSS|c|
        SSS|SSS|cc............c|SSS|SSS|
        c|SSS|SSSS............SSS|SSS|c|
        SSS|SSS|cc............c|SSS|SSS|
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|c|
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|
    """)


def test_g23_and_g25_a_door_with_soldiers_three_courses_high() -> None:
    assert drawn(wall(1790, 825, hole(552.5, 0, 685, 450, head="soldier"))) == picture("""
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|c|
        SSS|SSS|c|ddd|ddd|ddd|c|SSS|SSS|
        c|SSS|SSS|ddd|ddd|ddd|SSS|SSS|c|
        SSS|SSS|c|ddd|ddd|ddd|c|SSS|SSS|
        c|SSS|SSSS............SSS|SSS|c|
        SSS|SSS|cc............c|SSS|SSS|
        c|SSS|SSSS............SSS|SSS|c|
        SSS|SSS|cc............c|SSS|SSS|
        c|SSS|SSSS............SSS|SSS|c|
        SSS|SSS|cc............c|SSS|SSS|
    """)


def test_g06_a_stepped_base_starts_its_courses_on_the_global_grid() -> None:
    assert drawn(outline((0, 0), (890, 0), (890, 150), (1790, 150), (1790, 375), (0, 375))) == picture("""
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|
        c|SSS|SSS|SSS|SSS|SSS|SSS|SSS|c|
        SSS|SSS|SSS|SSS|SSS|SSS|SSS|SSS|
        c|SSS|SSS|SSS|c|
        SSS|SSS|SSS|SSS|
    """)


def test_g61_a_movement_joint_takes_a_perp_and_halves_the_stretchers_between() -> None:
    assert drawn(wall(1790, 300, existing_joints_x_mm=[895])) == picture("""
        c|SSS|SSS|SSS|c=c|SSS|SSS|SSS|c|
        SSS|SSS|SSS|SSS=SSS|SSS|SSS|SSS|
        c|SSS|SSS|SSS|c=c|SSS|SSS|SSS|c|
        SSS|SSS|SSS|SSS=SSS|SSS|SSS|SSS|
    """)


def test_g03_a_symmetrical_gable_has_as_many_cuts_left_as_right() -> None:
    gable = outline((0, 0), (1790, 0), (895, 600))
    cuts = [cut for course in lay(gable).result["elevations"][0]["courses"] for cut in course["cuts"]]
    left = [cut for cut in cuts if cut["x_mm"] + cut["width_mm"] < 895]
    right = [cut for cut in cuts if cut["x_mm"] > 895]
    assert len(left) == len(right) > 0


def test_g04_a_mono_pitch_cuts_one_end_of_each_course() -> None:
    assert drawn(outline((0, 0), (890, 0), (890, 450), (0, 150))) == picture("""
                    c|c|
                ccc|SSS|
            c|ccc|SSS|c|
        ccc|SSS|SSS|SSS|
        c|SSS|SSS|SSS|c|
        SSS|SSS|SSS|SSS|
    """)


def test_g28_a_vent_smaller_than_a_slip_is_cut_out_of_it() -> None:
    courses = lay(wall(665, 75, hole(270, 10, 80, 40))).result["elevations"][0]["courses"]
    assert len(courses[0]["cuts"]) == 1
    assert len(courses[0]["cuts"][0]["rings"]) == 2


def test_g29_a_pier_of_one_slip_between_two_openings_stays_in_bond() -> None:
    pier = wall(1790, 300, {**hole(327.5, 0, 347.5, 300), "id": "a"}, {**hole(890, 0, 347.5, 300), "id": "b"})
    assert drawn(pier) == picture("""
        c|SSSS......c|cc......SSS|SSS|c|
        SSS|cc......SSSS......c|SSS|SSS|
        c|SSSS......c|cc......SSS|SSS|c|
        SSS|cc......SSSS......c|SSS|SSS|
    """)
