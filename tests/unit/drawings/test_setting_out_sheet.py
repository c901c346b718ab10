"""Setting-out sheets: figures by hand from the bond's origin, courses, levels, bays and the base over sloping ground.

The small wall is 2692.5 long under a stretcher bond of 215 with perps of 10. From x = 0 course 0 has its perps from 215 to 225
and every 225 on, course 1 half a module before. Boards are 600 high, so the two courses at their middle are 3 and 4.
"""

import pytest

from drawing_walls import (
    gable,
    groups_of,
    lined_wall,
    long_wall,
    set_out_of,
    sheet_of,
    small_wall,
    words_of,
)
from storeyrod.drawings.bay_words import bay_notes, bond_words
from storeyrod.drawings.display_list import Line, Polyline, Shapes, Strokes

SMALL = {"kind": "setting_out"}


def plumb_figures(wall, **more):
    return words_of(sheet_of(wall, **SMALL, **more), "plumb-figures")


def test_running_distances_of_ends_jambs_and_every_fourth_perp_from_where_the_bond_starts():
    # Middles of the perps of course 4: 220 + 225 k; the fourth is 895, the eighth 1795.
    assert plumb_figures(small_wall()) == ["0 E", "787.5 J", "895", "1697.5 J", "1795", "2692.5 E"]


def test_distances_run_from_the_right_where_the_bond_starts_there():
    wall = small_wall() | {"bond_from": "right"}
    assert plumb_figures(wall) == ["2692.5 E", "1905 J", "1795", "995 J", "895", "0 E"]


def test_plumb_lines_stand_where_the_set_out_has_its_marks():
    subject = set_out_of(gable())
    sheet = sheet_of(gable(), **SMALL)
    marks = {what: {mark["x_mm"] for bay in subject.bays for mark in bay["marks"] if mark["what"] == what}
             for what in ("perp", "jamb")}  # fmt: skip
    for what, places in marks.items():
        ((_, group),) = groups_of(sheet, f"plumb-{what}")
        assert {line.start[0] for line in group.items if isinstance(line, Line)} == places


def test_plumb_lines_are_left_out_in_openings():
    ((_, group),) = groups_of(sheet_of(small_wall(), **SMALL), "plumb-perp")
    assert [(line.start, line.end) for line in group.items] == [
        ((895.0, 0.0), (895.0, 750.0)),
        ((895.0, 1200.0), (895.0, 1350.0)),
        ((1795.0, 0.0), (1795.0, 1350.0)),
    ]


def test_perps_are_drawn_in_the_two_courses_at_the_middle_of_a_board():
    ((_, group),) = groups_of(sheet_of(small_wall(), **SMALL), "set-out-perps")
    (strokes,) = group.items
    assert isinstance(strokes, Strokes)
    drawn = {(start[0], start[1], end[1]) for start, end in strokes.lines}
    course_3 = {(107.5 + 225 * k, 225.0, 290.0) for k in range(12)}
    course_4 = {(220.0 + 225 * k, 300.0, 365.0) for k in range(11)}
    assert drawn == course_3 | course_4


def test_set_out_courses_are_bands_over_the_wall_alone():
    wall = small_wall() | {"openings": [small_wall()["openings"][0] | {"y_mm": 0, "height_mm": 1200}]}
    ((_, group),) = groups_of(sheet_of(wall, **SMALL), "set-out-course")
    (bands,) = group.items
    assert isinstance(bands, Shapes)
    assert bands.boxes == (
        (0.0, 225.0, 787.5, 290.0),
        (1697.5, 225.0, 2692.5, 290.0),
        (0.0, 300.0, 787.5, 365.0),
        (1697.5, 300.0, 2692.5, 365.0),
    )


def test_lines_are_carried_the_ways_in_which_wall_stands():
    # Down from course 3 and up from course 4 at ends and perps and jambs alike: wall stands below the sill and beside it.
    ((_, group),) = groups_of(sheet_of(small_wall(), **SMALL), "carry-marks")
    assert len(group.items) == 2 * 6
    assert {max(y for _, y in arrow.rings[0]) > 300.0 for arrow in group.items} == {True, False}


def test_courses_of_heads_and_sills_are_numbered_on_both_sides():
    # Sill at 750: course 10; head at 1200: course 16; top at 1350: course 18. 12 and 8 keep their place between them.
    numbers = words_of(sheet_of(small_wall(), scale=20, **SMALL), "course-numbers")
    assert sorted(numbers, key=int) == [str(n) for n in (0, 4, 8, 10, 12, 16, 18) for _ in range(2)]


def test_numbered_courses_carry_their_levels():
    levels = words_of(sheet_of(small_wall(), scale=20, **SMALL), "course-levels")
    assert levels == ["0", "300", "600", "750", "900", "1200", "1350"]


def test_levels_are_named():
    names = words_of(sheet_of(small_wall(), **SMALL), "level-names")
    assert names == ["base", "set-out courses 3, 4", "sill w1", "head w1", "top"]


def test_a_head_off_course_says_how_far():
    # 1212.5 lies 12.5 above the foot of course 16.
    wall = small_wall() | {"openings": [small_wall()["openings"][0] | {"height_mm": 462.5}]}
    assert "head w1 1212.5, c 16 +12.5" in words_of(sheet_of(wall, **SMALL), "level-names")
    assert "c 10 to c 16 +12.5" in words_of(sheet_of(wall, **SMALL), "opening-names")


def test_openings_carry_their_courses():
    assert words_of(sheet_of(small_wall(), **SMALL), "opening-names") == ["w1", "910 × 450", "c 10 to c 16"]


def test_many_openings_at_a_level_are_counted():
    assert words_of(sheet_of(long_wall(), **SMALL), "level-names").count("head of 20 openings") == 4


def test_courses_count_from_the_datum_of_the_system():
    sheet = sheet_of(small_wall(), system={"course_datum_mm": 25}, **SMALL)
    assert words_of(sheet, "datum-name") == ["datum +25"]
    assert "base 0, c 0 -25" in words_of(sheet, "level-names")


def test_a_bay_says_its_perps_and_how_it_comes_out():
    subject = set_out_of(small_wall())
    assert list(bay_notes(subject.out, subject.module)) == [
        "Bay 1: 2692.5 as drawn; course 0: 215 … 215, 11 perps of 10.00; course 1: 102.5 … 105, 12 perps of 10.00."
    ]
    assert "bay 1: 2692.5, 11 and 12 perps of 10.00" in words_of(sheet_of(small_wall(), **SMALL), "dimension-figures")


def test_equalised_perps_are_written_out():
    # 22 slips and a half bat of 102.5 fill 5046 with perps of (5046 - 22 x 215 - 102.5) / 22 = 9.704...
    wall = {"id": "rear", "width_mm": 5046, "height_mm": 2475}
    sheet = sheet_of(wall, perps="equalised", **SMALL)
    assert "bay 1: 5046, 22 perps of 9.70" in words_of(sheet, "dimension-figures")


def test_bays_that_come_out_alike_share_a_sentence():
    # Joints at 4060 and 8120 with 10 each leave three bays of 4055, 4050 and 4055 between ends and joints.
    wall = {"id": "front", "width_mm": 12_180, "height_mm": 600, "existing_joints_x_mm": [4060, 8120]}
    subject = set_out_of(wall, perps="equalised")
    notes = list(bay_notes(subject.out, subject.module))
    assert [note.split(":")[0] for note in notes] == ["Bays 1, 3", "Bay 2"]


def test_the_bond_says_where_it_starts_and_with_what():
    left = {
        "id": "left",
        "width_mm": 3700,
        "height_mm": 600,
        "right_edge": {"kind": "external_corner", "to": "rear:left"},
    }
    rear = {
        "id": "rear",
        "width_mm": 5046,
        "height_mm": 600,
        "left_edge": {"kind": "external_corner", "to": "left:right"},
    }
    subject = set_out_of(rear | {"bond_start": "carried"}, left)
    # 3700 is 16 modules and 100: course 0 of the left face ends with 100, so the rear begins with the long end.
    assert bond_words(subject.out, subject.bond, subject.module) == (
        "Stretcher bond from the left end, carried from left:right: course 0 begins with a full slip (215), course 1 with 102.5."
    )


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({"plane": "substrate", "left_edge": {"kind": "external_corner"}}, "the left end"),
        ({"left_edge": {"kind": "internal_corner"}}, "10 right of the left end"),
        ({"bond_origin_x_mm": -450}, "450 left of the left end"),
        ({"bond_from": "right"}, "the right end"),
    ],
)
def test_the_start_of_the_bond_is_told_from_the_end_of_the_finished_face(given, words):
    subject = set_out_of(small_wall() | given)
    assert bond_words(subject.out, subject.bond, subject.module).startswith(f"Stretcher bond from {words}: course 0 ")


def test_an_arrow_stands_where_the_bond_starts_and_points_the_way_it_runs():
    ((_, left),) = groups_of(sheet_of(small_wall(), **SMALL), "bond-start")
    ((_, right),) = groups_of(sheet_of(small_wall() | {"bond_from": "right"}, **SMALL), "bond-start")
    assert left.items[0].start[0] == 0.0
    assert left.items[-1].rings[0][0][0] > 0.0
    assert right.items[0].start[0] == 2692.5
    assert right.items[-1].rings[0][0][0] < 2692.5


def test_no_arrow_stands_where_the_bond_starts_beyond_the_face():
    assert groups_of(sheet_of(small_wall() | {"bond_origin_x_mm": -450}, **SMALL), "bond-start") == []


@pytest.mark.parametrize(
    ("edge", "words"),
    [
        ({"kind": "free_end"}, "free end"),
        ({"kind": "abutment", "joint_mm": 12}, "abutment, joint 12"),
        ({"kind": "external_corner"}, "external corner"),
        ({"kind": "internal_corner", "to": "other:left"}, "internal corner, meets other:left"),
    ],
)
def test_edges_are_labelled_with_what_they_meet(edge, words):
    sheet = sheet_of(small_wall() | {"right_edge": edge}, scale=10, **SMALL)
    assert words_of(sheet, "edge-names") == ["free end", words]


def test_an_edge_knows_its_partner_also_where_only_that_one_names_it():
    other = {"id": "other", "width_mm": 1000, "height_mm": 1350}
    other |= {"left_edge": {"kind": "external_corner", "to": "garden:right"}}
    subject = set_out_of(small_wall() | {"right_edge": {"kind": "external_corner"}}, other)
    assert subject.meets["garden", "right"] == ("other", "left")


def test_the_base_steps_over_the_ground_at_perps():
    # Ground from -200 to -60 over 2692.5 with 150 clear: the foot at 0 may go on to where the ground is at -150, which is at
    # 50/140 of the length, 961.6, and the next course to -75 at 125/140, 2404. Before those, course 1 has the start of a slip at
    # 787.5 (102.5 + 10 + 3 x 225) and course 2 at 2250 (10 x 225).
    sheet = sheet_of(lined_wall(), **SMALL)
    ((_, group),) = groups_of(sheet, "base-stepped")
    (line,) = group.items
    assert isinstance(line, Polyline)
    assert line.points == ((0.0, 0.0), (787.5, 0.0), (787.5, 75.0), (2250.0, 75.0), (2250.0, 150.0), (2692.5, 150.0))
    assert words_of(sheet, "base-levels") == ["base c 0, 0", "base c 1, 75", "base c 2, 150"]
    assert "no farther than 961.6, 2404." in " ".join(words_of(sheet, "legend-words"))


def test_a_foot_that_keeps_its_clearance_gets_no_other_base():
    wall = small_wall() | {"base": {"ground": [{"x_mm": 0, "y_mm": -150}, {"x_mm": 2692.5, "y_mm": -150}]}}
    sheet = sheet_of(wall, **SMALL)
    assert groups_of(sheet, "base-stepped") == []
    assert len(groups_of(sheet, "ground")) == 1


def test_figures_left_out_for_lack_of_room_are_counted():
    # At 1:500 the street is 120 mm long; its figures at 2.5 mm take more than that.
    sheet = sheet_of(long_wall(), scale=500, **SMALL)
    shown = words_of(sheet, "plumb-figures")
    assert shown
    assert all(words.endswith((" J", " E")) for words in shown)
    assert "left out for lack of room" in " ".join(words_of(sheet, "legend-words"))


def test_more_than_two_kinds_of_bay_are_described_under_the_heading():
    wall = {"id": "front", "width_mm": 12_000, "height_mm": 600, "existing_joints_x_mm": [3000, 7100]}
    bays = [words.split(":")[0] for words in words_of(sheet_of(wall, **SMALL), "heading")[2:]]
    assert bays == ["Bay 1", "Bay 2", "Bay 3"]


def test_where_no_sheet_takes_1_to_50_it_is_the_smallest_at_the_best_scale():
    """60 m of wall are 600 mm at 1:100, which A1 takes; at 1:50 not even A0 does."""
    sheet = sheet_of(long_wall(), **SMALL)
    assert (sheet.width, sheet.views[0].scale) == (841.0, 100.0)
