"""Slips sheets against the layouts that they show: every piece once, by what it is."""

from collections import Counter
from itertools import pairwise

import pytest
from sheet_geometry import SVG, parsed

from drawing_walls import (
    ALL_WALLS,
    block_gable,
    gable,
    groups_of,
    lined_wall,
    long_wall,
    shapes_of,
    sheet_of,
    slips_of,
    small_wall,
    texts_of,
    words_of,
)
from storeyrod.answer import Answer
from storeyrod.drawings.display_list import Marker, Shapes, Sheet
from storeyrod.drawings.slip_pieces import MARKS, drawn_courses
from storeyrod.drawings.svg import write
from storeyrod.slips.face_slips import FaceSlips

SLIPS = {"kind": "slips"}

VOUSSOIRS = gable("arched") | {"openings": [gable()["openings"][0] | {"voussoirs": {"rings_count": 2}}]}
WALLS = {name: wall for name, wall in ALL_WALLS.items() if name != "long"} | {"arched": VOUSSOIRS}

every_wall = pytest.mark.parametrize("wall", WALLS.values(), ids=WALLS)


def drawn(sheet: Sheet) -> list[Shapes]:
    return [shapes for mark in MARKS for shapes in shapes_of(sheet, f"slip-{mark.replace('_', '-')}")]


def count_of(sheet: Sheet, *marks: str) -> int:
    return sum(shapes.count for mark in marks for shapes in shapes_of(sheet, f"slip-{mark}"))


def laid_count(slips: FaceSlips) -> int:
    return slips.full_count + slips.cut_count + slips.soldiers_count + sum(ring.count for ring in slips.voussoirs)


@every_wall
def test_every_piece_of_the_layout_is_drawn_once(wall):
    assert sum(shapes.count for shapes in drawn(sheet_of(wall, **SLIPS))) == laid_count(slips_of(wall).slips)


@pytest.mark.parametrize("perps", ["nominal", "equalised"])
@pytest.mark.parametrize("bond", ["flemish", "english", "third_lap", "stack", "flemish_garden_wall"])
def test_every_piece_of_other_bonds_is_drawn_once(bond, perps):
    more = {"system": {"bond": bond}, "perps": perps}
    sheet = sheet_of(lined_wall(), **SLIPS, **more)
    assert sum(shapes.count for shapes in drawn(sheet)) == laid_count(slips_of(lined_wall(), **more).slips)


@every_wall
def test_areas_of_the_pieces_add_up_to_the_slips_of_the_layout(wall):
    slips = slips_of(wall).slips
    drawn_mm2 = sum(shapes.area for shapes in drawn(sheet_of(wall, **SLIPS)))
    assert drawn_mm2 == pytest.approx(slips.slip_area / 10_000**2, abs=1.0)


def test_no_two_pieces_of_a_course_share_a_place():
    (course,) = [
        one for one in drawn_courses(slips_of(lined_wall()).slips, slips_of(lined_wall()).layout) if one.name == "9"
    ]
    boxes = sorted(box for mark in MARKS for box in course.boxes.get(mark, ()))
    assert all(one[2] <= other[0] for one, other in pairwise(boxes))


def test_corner_slips_are_drawn_by_their_hand():
    # 1500 is 20 courses, at two corners.
    sheet = sheet_of(lined_wall(), **SLIPS)
    corners = slips_of(lined_wall()).layout.corners
    assert count_of(sheet, "corner-left") == sum(corner.handed("left") for corner in corners)
    assert count_of(sheet, "corner-right") == sum(corner.handed("right") for corner in corners)
    assert count_of(sheet, "corner-left", "corner-right") == 2 * 20


def test_a_corner_slip_stands_at_its_arris():
    left = [box for shapes in shapes_of(sheet_of(lined_wall(), **SLIPS), "slip-corner-right") for box in shapes.boxes]
    assert {box[0] for box in left if box[0] < 1000.0} == {0.0}


def test_hands_are_written_into_corner_slips_where_there_is_room():
    words = Counter(words_of(sheet_of(lined_wall(), 10, **SLIPS), "slip-words"))
    assert (words["L"], words["R"]) == (20, 20)


def test_return_slips_stand_beside_lined_jambs():
    # The window is 450 high: six courses at each jamb. Left of it odd courses end with a slip at 777.5 and a perp of 10.
    boxes = [box for shapes in shapes_of(sheet_of(lined_wall(), **SLIPS), "slip-return") for box in shapes.boxes]
    assert len(boxes) == 2 * 6
    assert {box[2] for box in boxes if box[2] < 1000.0} == {777.5, 787.5}
    assert {box[0] for box in boxes if box[0] > 1000.0} == {1697.5}


def test_soldiers_stand_over_their_opening():
    # (910 - 10) / 75 = 12 soldiers, 215 high, on the head at 1050.
    (soldiers,) = shapes_of(sheet_of(lined_wall(), **SLIPS), "slip-soldier")
    assert soldiers.count == 12
    assert {(box[1], box[3]) for box in soldiers.boxes} == {(1050.0, 1265.0)}


def test_voussoirs_are_drawn_ring_by_ring():
    rings = slips_of(VOUSSOIRS).slips.voussoirs
    assert [shapes.count for shapes in shapes_of(sheet_of(VOUSSOIRS, **SLIPS), "slip-voussoir")] == [
        len(ring.whole) for ring in rings
    ]


def test_headers_are_drawn_apart():
    # Course 0 in Flemish bond: stretcher and header by turns, 337.5 together; the eighth header ends at 2690.
    sheet = sheet_of(small_wall(), system={"bond": "flemish"}, **SLIPS)
    lowest = [shapes for shapes in shapes_of(sheet, "slip-header") if shapes.id == "garden:course-0:header"]
    assert [shapes.count for shapes in lowest] == [8]


def test_lengths_are_written_into_cut_slips_where_there_is_room():
    # At 1:10 a half bat has 10 mm for its figure. Odd courses begin with 102.5 and end with 105: twelve perps in 2692.5.
    words = Counter(words_of(sheet_of(small_wall() | {"openings": []}, 10, **SLIPS), "slip-words"))
    assert words == {"102.5": 9, "105": 9}


def test_narrow_pieces_are_ringed():
    # Twelve modules are 2700: even courses end with a sliver of 30, odd ones with 142.5.
    wall = {"id": "w", "width_mm": 2730, "height_mm": 1350}
    rings = [item for _, group in groups_of(sheet_of(wall, **SLIPS), "slip-flags") for item in group.items]
    assert all(isinstance(ring, Marker) for ring in rings)
    assert [ring.at for ring in rings] == [(2715.0, 150.0 * k + 32.5) for k in range(9)]


def test_the_legend_names_what_the_face_has_and_how_many():
    words = " ".join(words_of(sheet_of(lined_wall(), **SLIPS), "legend-words"))
    assert "12 × soldier" in words
    assert "12 × return slip at a jamb" in words
    assert "header" not in words


def test_slips_under_three_millimetres_are_drawn_as_courses_and_said_to_be():
    # 215 mm at 1:100 is 2.15 mm; the wall fills 18 courses, each with one band where it is not cut by the window.
    sheet = sheet_of(small_wall(), 100, **SLIPS)
    courses = {shapes.id: shapes.count for shapes in shapes_of(sheet, "slip-whole")}
    assert len(courses) == 18
    assert {courses[f"garden:course-{n}:whole"] for n in range(10)} == {1}
    assert {courses[f"garden:course-{n}:whole"] for n in range(10, 16)} == {2}
    notes = " ".join(words_of(sheet, "legend-words"))
    assert "under 3 mm long and are drawn as courses" in notes


def test_ends_jambs_and_cuts_are_drawn_one_by_one_at_any_scale():
    small, large = (sheet_of(lined_wall(), scale, **SLIPS) for scale in (100, 20))
    for mark in ("cut", "corner-left", "corner-right", "return", "soldier"):
        assert count_of(small, mark) == count_of(large, mark)


def test_a_larger_sheet_is_taken_where_slips_would_be_too_short_on_a3():
    # On A3 the gable of 9890 x 14 250 needs 1:100; on A2 it fits at 1:50, and a slip is 4.3 mm long.
    sheet = sheet_of(block_gable(), **SLIPS)
    assert (sheet.width, sheet.views[0].scale) == (594.0, 50.0)


def test_the_smallest_sheet_at_the_best_scale_is_taken_where_slips_are_too_short_on_all():
    sheet = sheet_of(long_wall(), **SLIPS)
    assert (sheet.width, sheet.views[0].scale) == (841.0, 100.0)


def test_a_gable_of_almost_seven_thousand_slips_takes_less_than_400_kilobytes():
    sheet = sheet_of(block_gable(), **SLIPS)
    assert sum(shapes.count for shapes in drawn(sheet)) > 6_500
    assert len(write(Answer((sheet,)))) < 400_000


def test_each_course_of_a_kind_has_an_id_and_says_what_it_holds():
    root = parsed(sheet_of(small_wall(), **SLIPS))
    path = next(one for one in root.iter(f"{SVG}path") if one.get("id") == "garden:course-0:whole")
    # Twelve modules of 225 less the last joint are 2690.
    assert path.find(f"{SVG}title").text == "course 0: 12 × whole slip"


def test_heads_and_sills_are_numbered():
    numbers = {text.words for _, text in texts_of(sheet_of(small_wall(), 20, **SLIPS), "course-numbers")}
    assert {"10", "16"} <= numbers
