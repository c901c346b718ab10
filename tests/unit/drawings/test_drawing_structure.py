"""Elevation sheets against the layouts that they show."""

import math
import re
from collections import Counter

import pytest
import shapely
from sheet_geometry import SVG, box_of_text, parsed, points_of

from drawing_walls import (
    HOSTILE,
    WALLS,
    gable,
    groups_of,
    long_wall,
    pieces_of,
    sheet_of,
    small_wall,
    subject_of,
    texts_of,
)
from storeyrod.drawings.display_list import Line, Marker

every_wall = pytest.mark.parametrize("wall", WALLS.values(), ids=WALLS)


@every_wall
def test_every_piece_stands_once_in_the_document_by_its_id(wall):
    subject = subject_of(wall)
    ids = Counter(element.get("id") for element in parsed(sheet_of(wall)).iter() if element.get("id"))
    assert {piece.id: ids[piece.id] for piece in subject.boards.pieces} == {
        piece.id: 1 for piece in subject.boards.pieces
    }


@every_wall
def test_areas_of_the_polygons_add_up_to_the_boards_of_the_layout(wall):
    boards = subject_of(wall).boards
    drawn_mm2 = sum(polygon.area for polygon in pieces_of(sheet_of(wall)))
    assert drawn_mm2 == pytest.approx((boards.net_area - boards.joint_area) / 10_000**2, abs=1.0)


@every_wall
def test_as_many_symbols_of_each_stage_as_fasteners_in_the_schedule(wall):
    root, fasteners = parsed(sheet_of(wall)), subject_of(wall).fasteners
    for stage in ("first", "rest", "after_trim"):
        found = root.findall(f".//{SVG}g[@class='fastener-{stage.replace('_', '-')}']/{SVG}path")
        assert len(found) == fasteners.count_of(stage)


@every_wall
def test_ids_of_pieces_stay_inside_their_pieces(wall):
    sheet = sheet_of(wall)
    boxes = {polygon.id.split("-", 1)[1]: polygon.box for polygon in pieces_of(sheet)}
    for view, text in texts_of(sheet, "piece-ids"):
        if text.words in boxes:
            left, bottom, right, top = boxes[text.words]
            (x0, y0), (x1, y1) = view.on_paper((left, bottom)), view.on_paper((right, top))
            box = box_of_text(view, text)
            assert x0 <= box[0] < box[2] <= x1
            assert y0 <= box[1] < box[3] <= y1


@every_wall
def test_ids_of_pieces_stay_clear_of_fasteners(wall):
    sheet = sheet_of(wall)
    boxes = [box_of_text(view, text) for view, text in texts_of(sheet, "piece-ids")]
    stages = ("first", "rest", "after-trim")
    markers = [
        view.on_paper(item.at)
        for stage in stages
        for view, group in groups_of(sheet, f"fastener-{stage}")
        for item in group.items
        if isinstance(item, Marker)
    ]
    assert [(box, at) for box in boxes for at in markers if box[0] < at[0] < box[2] and box[1] < at[1] < box[3]] == []


def test_a_wall_at_1_to_20_is_a_twentieth_of_its_size_on_the_paper():
    root = parsed(sheet_of(small_wall(), scale=20))
    assert root.get("width", "").removesuffix("mm") == root.get("viewBox", "").split()[2] == "420"
    view = root.find(f".//{SVG}g[@class='view']")
    matrix = [float(number) for number in re.findall(r"-?[\d.]+", view.get("transform"))]
    assert (matrix[0], matrix[3]) == (1 / 20, -1 / 20)
    face = view.find(f"./{SVG}g[@class='face']/{SVG}rect")
    assert (face.get("width"), face.get("height")) == ("2692.5", "1350")


def test_a_course_tick_for_every_course_on_both_sides():
    sheet = sheet_of({"id": "c", "width_mm": 1350, "height_mm": 1350})
    ((_, group),) = groups_of(sheet, "courses")
    levels = Counter(line.start[1] for line in group.items if isinstance(line, Line) and line.start[1] == line.end[1])
    assert levels == {course * 75.0: 2 for course in range(19)}


def test_every_fourth_course_is_numbered_where_there_is_room():
    sheet = sheet_of({"id": "c", "width_mm": 1350, "height_mm": 1350})
    numbers = Counter(text.words for _, text in texts_of(sheet, "course-numbers"))
    assert numbers == {str(course): 2 for course in (0, 4, 8, 12, 16)}


def test_courses_count_downwards_below_the_datum():
    outline = [{"x_mm": x, "y_mm": y} for x, y in ((0, -300), (1350, -300), (1350, 300), (0, 300))]
    sheet = sheet_of({"id": "c", "outline": outline})
    assert {text.words for _, text in texts_of(sheet, "course-numbers")} == {"-4", "0", "4"}


def test_the_datum_is_left_out_where_the_wall_does_not_reach_it():
    outline = [{"x_mm": x, "y_mm": y} for x, y in ((0, 3000), (1350, 3000), (1350, 3600), (0, 3600))]
    assert groups_of(sheet_of({"id": "c", "outline": outline}), "datum") == []


def test_a_chain_of_dimensions_adds_up_to_the_length():
    figures = [text for _, text in texts_of(sheet_of(small_wall()), "dimension-figures") if not text.turned]
    lowest = min(text.at[1] for text in figures)
    chained = [float(text.words) for text in figures if text.at[1] > lowest]
    assert math.fsum(chained) == 2692.5
    assert [text.words for text in figures if text.at[1] == lowest] == ["2692.5"]


def test_openings_carry_name_and_clear_size():
    words = [text.words for _, text in texts_of(sheet_of(small_wall()), "opening-names")]
    assert words == ["w1", "910 × 450"]


SHAPED = {
    "circle": {"id": "round", "kind": "circle", "x_mm": 1300, "y_mm": 700, "diameter_mm": 900},
    "triangle": {
        "id": "peak",
        "kind": "polygon",
        "points": [{"x_mm": x, "y_mm": y} for x, y in ((500, 300), (2300, 300), (500, 1200))],
    },
}


@pytest.mark.parametrize("shape", SHAPED.values(), ids=SHAPED)
def test_what_is_drawn_in_a_shaped_opening_stays_inside_it(shape):
    sheet = sheet_of({"id": "garden", "width_mm": 2692.5, "height_mm": 1350, "openings": [shape]}, 10)
    ((view, outline),) = groups_of(sheet, "opening")
    inside = shapely.Polygon([view.on_paper(point) for point in outline.items[0].rings[0]])
    (_, blank), (_, cross) = groups_of(sheet, "opening-blank")[0], groups_of(sheet, "opening-cross")[0]
    assert blank.items
    drawn = [view.on_paper(point) for item in (*blank.items, *cross.items) for point in points_of(item)]
    assert all(inside.buffer(0.01).covers(shapely.Point(point)) for point in drawn)


def test_features_are_outlined_with_their_names_inside_them():
    band = {
        "id": "band",
        "kind": "rectangle",
        "facing": "render",
        "x_mm": 0,
        "y_mm": 0,
        "width_mm": 2692.5,
        "height_mm": 300,
    }
    key = {
        "id": "key",
        "kind": "polygon",
        "points": [{"x_mm": x, "y_mm": y} for x, y in ((2000, 600), (2500, 600), (2250, 1300))],
    }
    sheet = sheet_of({**small_wall(), "features": [band, key]}, 10)
    ((view, outlines),) = groups_of(sheet, "feature")[:1]
    assert [item.id for item in outlines.items] == ["garden:feature:band", "garden:feature:key"]
    rings = [shapely.Polygon([view.on_paper(point) for point in item.rings[0]]) for item in outlines.items]
    names = texts_of(sheet, "feature-names")
    assert [text.words for _, text in names] == ["band: render", "key"]
    for ring, (place, text) in zip(rings, names, strict=True):
        assert ring.covers(shapely.box(*box_of_text(place, text)))


def test_a_face_without_features_says_nothing_of_them():
    assert not [group.role for view in sheet_of(small_wall()).views for group in view.groups if "feature" in group.role]


def test_ground_is_drawn_only_where_it_is_given():
    assert groups_of(sheet_of(small_wall()), "ground") == []
    assert len(groups_of(sheet_of(gable()), "ground")) == 1


def test_each_movement_joint_is_a_group_with_its_id():
    root, plan = parsed(sheet_of(long_wall())), subject_of(long_wall()).plan
    joints = [group.get("id") for group in root.iter(f"{SVG}g") if group.get("class") == "movement-joint"]
    assert joints == [f"street:joint-{number}" for number in range(1, len(plan.slots) + 1)]


def test_hostile_names_leave_the_document_well_formed_and_without_scripts():
    wall = small_wall(HOSTILE) | {"openings": [small_wall()["openings"][0] | {"id": HOSTILE}]}
    root = parsed(sheet_of(wall))
    assert {element.tag.removeprefix(SVG) for element in root.iter()} <= {
        "svg",
        "g",
        "title",
        "desc",
        "rect",
        "path",
        "text",
    }
    titles = [element.text or "" for element in root.iter(f"{SVG}title")]
    assert any(title.startswith(f"{HOSTILE}-00-01: ") for title in titles)


def test_sheets_stand_one_below_another():
    root = parsed(sheet_of(small_wall()), sheet_of(gable(), scale=20))
    tops = [group.get("transform") for group in root.iter(f"{SVG}g") if group.get("class") == "sheet"]
    assert tops == ["translate(0 0)", "translate(0 302)"]
    assert root.get("viewBox") == "0 0 841 896"
