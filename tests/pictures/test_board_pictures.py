"""Walls drawn in text: one character is 100 mm by 75 mm, a course.

In a drawn wall, B is wall and . an opening. In a drawn layout, pieces of a row are B and b in turn, so that seams show; . is
an opening, | a movement joint, x a fastener. Blank is no wall. Boards are 1200 by 600: twelve characters by eight.
"""

import shapely
from shapely.geometry import Point, Polygon, box

from storeyrod.boards.calculation import calculate as lay
from storeyrod.boards.models import BoardLayoutRequest
from storeyrod.fasteners.calculation import calculate as fasten
from storeyrod.fasteners.models import FastenerScheduleRequest

WIDE, HIGH = 100, 75

SYSTEM = {
    "board": {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100, "rib_pitch_mm": 75},
    "slip": {"length_mm": 215, "height_mm": 65, "thickness_mm": 20},
    "movement_joint": {"width_mm": 60, "max_spacing_mm": 50_000, "max_boards_count": 100},
}


def lines_of(picture: str) -> list[str]:
    return [line for line in picture.strip("\n").split("\n") if line.strip()]


def wall_from(picture: str, **more: object) -> dict:
    """The elevation of a drawn wall: its outline, and every connected patch of dots as an opening."""
    lines = lines_of(picture)
    solid, holes = [], []
    for index, line in enumerate(reversed(lines)):
        for place, mark in enumerate(line):
            cell = box(place * WIDE, index * HIGH, (place + 1) * WIDE, (index + 1) * HIGH)
            if mark != " ":
                solid.append(cell)
            if mark == ".":
                holes.append(cell)
    patches = shapely.get_parts(shapely.union_all(holes)) if holes else []
    openings = []
    for number, patch in enumerate(sorted(patches, key=lambda one: one.bounds)):
        left, bottom, right, top = patch.bounds
        openings.append(
            {
                "id": f"o{number}",
                "kind": "rectangle",
                "x_mm": left,
                "y_mm": bottom,
                "width_mm": right - left,
                "height_mm": top - bottom,
            }
        )
    corners = list(shapely.union_all(solid).exterior.coords)[:-1]
    outline = [{"x_mm": x, "y_mm": y} for x, y in corners]
    return {"id": "wall", "outline": outline, "openings": openings, **more}


def picture_of(elevation: dict, *, fasteners: bool = False) -> list[str]:
    """The layout of an elevation, line by line from the top."""
    request = {"elevations": [elevation], "system": SYSTEM, "options": {"effort": "quick"}}
    pieces = lay(BoardLayoutRequest.model_validate(request)).result["pieces"]
    points = set()
    if fasteners:
        positions = fasten(FastenerScheduleRequest.model_validate(request)).result["positions"]
        points = {(int(row["x_mm"] // WIDE), int(row["y_mm"] // HIGH)) for row in positions}
    shapes = [(polygon_of(piece), "bB"[int(piece["id"][-2:]) % 2]) for piece in pieces]
    outline = Polygon([(p["x_mm"], p["y_mm"]) for p in elevation["outline"]])
    _, _, right, top = outline.bounds
    lines = []
    for course in reversed(range(round(top / HIGH))):
        marks = [mark_at(place, course, shapes, points, elevation, outline) for place in range(round(right / WIDE))]
        lines.append("".join(marks).rstrip())
    return lines


def mark_at(place, course, shapes, points, elevation, outline) -> str:
    middle = Point((place + 0.5) * WIDE, (course + 0.5) * HIGH)
    for polygon, mark in shapes:
        if polygon.contains(middle):
            return "x" if (place, course) in points else mark
    for one in elevation["openings"]:
        x, y = one["x_mm"], one["y_mm"]
        if x < middle.x < x + one["width_mm"] and y < middle.y < y + one["height_mm"]:
            return "."
    joints = elevation.get("existing_joints_x_mm", [])
    return "|" if any(abs(middle.x - x) < 50 for x in joints) and outline.contains(middle) else " "


def polygon_of(piece: dict) -> Polygon:
    if "ring" in piece:
        return Polygon([(p["x_mm"], p["y_mm"]) for p in piece["ring"]])
    return box(piece["x_mm"], piece["y_mm"], piece["x_mm"] + piece["width_mm"], piece["y_mm"] + piece["height_mm"])


def drawn(picture: str) -> list[str]:
    return [line.rstrip() for line in picture.removeprefix("\n").removesuffix("\n").split("\n")]


def test_a_window_is_cut_from_four_boards_and_no_seam_meets_its_corners() -> None:
    wall = wall_from("""
BBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBB
BBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBB
BBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBB
BBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBB
BBBBBBBBBBBBBB............BBBBBBBBBBBBBB
BBBBBBBBBBBBBB............BBBBBBBBBBBBBB
BBBBBBBBBBBBBB............BBBBBBBBBBBBBB
BBBBBBBBBBBBBB............BBBBBBBBBBBBBB
BBBBBBBBBBBBBB............BBBBBBBBBBBBBB
BBBBBBBBBBBBBB............BBBBBBBBBBBBBB
BBBBBBBBBBBBBB............BBBBBBBBBBBBBB
BBBBBBBBBBBBBB............BBBBBBBBBBBBBB
BBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBB
BBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBB
BBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBB
BBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBBB
""")
    assert picture_of(wall) == drawn("""
BBBBBBbbbbbbbbbbbbBBBBBBBBBBBBbbbbbbbbbb
BBBBBBbbbbbbbbbbbbBBBBBBBBBBBBbbbbbbbbbb
BBBBBBbbbbbbbbbbbbBBBBBBBBBBBBbbbbbbbbbb
BBBBBBbbbbbbbbbbbbBBBBBBBBBBBBbbbbbbbbbb
BBBBBBbbbbbbbb............BBBBbbbbbbbbbb
BBBBBBbbbbbbbb............BBBBbbbbbbbbbb
BBBBBBbbbbbbbb............BBBBbbbbbbbbbb
BBBBBBbbbbbbbb............BBBBbbbbbbbbbb
BBBBBBBBBBBBbb............BBBBBBBBBBbbbb
BBBBBBBBBBBBbb............BBBBBBBBBBbbbb
BBBBBBBBBBBBbb............BBBBBBBBBBbbbb
BBBBBBBBBBBBbb............BBBBBBBBBBbbbb
BBBBBBBBBBBBbbbbbbbbbbbbBBBBBBBBBBBBbbbb
BBBBBBBBBBBBbbbbbbbbbbbbBBBBBBBBBBBBbbbb
BBBBBBBBBBBBbbbbbbbbbbbbBBBBBBBBBBBBbbbb
BBBBBBBBBBBBbbbbbbbbbbbbBBBBBBBBBBBBbbbb
""")


def test_on_a_step_of_the_base_the_row_of_fasteners_moves_up_to_keep_its_distance() -> None:
    wall = wall_from("""
BBBBBBBBBBBBBBBBBBBBBBBBBBBBBB
BBBBBBBBBBBBBBBBBBBBBBBBBBBBBB
BBBBBBBBBBBBBBBBBBBBBBBBBBBBBB
BBBBBBBBBBBBBBBBBBBBBBBBBBBBBB
BBBBBBBBBBBBBBBBBBBBBBBBBBBBBB
BBBBBBBBBBBBBBBBBBBBBBBBBBBBBB
BBBBBBBBBBBBBBBBBB
BBBBBBBBBBBBBBBBBB
""")
    assert picture_of(wall, fasteners=True) == drawn("""
BBBBBBBBBBBBbbbbbbbbbbbbBBBBBB
BxBBxBBxBBxBbxbbxbbxbbxbBxBBxB
BBBBBBBBBBBBbbbbbbbbbbbbBBBBBB
BBBBBBBBBBBBbbbbbbbbbbbbBBBBBB
BBBBBBBBBBBBbbbbbbbbbbbbBxBBxB
BxBBxBBxBBxBbxbbxbbbbbbbBBBBBB
BBBBBBBBBBBBbbbbbb
BBBBBBBBBBBBbbbbbb
""")


def test_a_pier_one_character_wide_has_no_seam_and_one_plumb_line_of_fasteners() -> None:
    wall = wall_from("""
BBBBBBBBBBBBBBBBBBBBBBBBBB
BBBBBBBBBBBBBBBBBBBBBBBBBB
BBBBBBBBBBBBBBBBBBBBBBBBBB
BBBBBBBBBBBBBBBBBBBBBBBBBB
BBBBBBBB......B......BBBBB
BBBBBBBB......B......BBBBB
BBBBBBBB......B......BBBBB
BBBBBBBB......B......BBBBB
BBBBBBBB......B......BBBBB
BBBBBBBB......B......BBBBB
BBBBBBBB......B......BBBBB
BBBBBBBB......B......BBBBB
""")
    lower = picture_of(wall, fasteners=True)[-8:]
    assert lower == drawn("""
BBBBBBBB......b......BBBBB
BxBBxBxB......x......BxBxB
BBBBBBBB......b......BBBBB
BBBBBBBB......b......BBBBB
BBBBBBBB......b......BBBBB
BxBBxBxB......x......BxBxB
BBBBBBBB......b......BBBBB
BBBBBBBB......b......BBBBB
""")


def test_beside_a_door_the_board_over_its_head_is_cut_in_an_l() -> None:
    wall = wall_from("""
BBBBBBBBBBBB
BBBBBBBBBBBB
BBBBBBB.....
BBBBBBB.....
BBBBBBB.....
BBBBBBB.....
BBBBBBB.....
BBBBBBB.....
""")
    assert picture_of(wall) == drawn("""
BBBBBBBBBBBB
BBBBBBBBBBBB
BBBBBBB.....
BBBBBBB.....
BBBBBBB.....
BBBBBBB.....
BBBBBBB.....
BBBBBBB.....
""")


def test_at_an_arris_rows_run_through_and_butt_in_turn() -> None:
    """The first character is the 100 mm of a board of the other face; the gap of 23 mm over it does not show."""
    wall = wall_from("\n".join(["B" * 20] * 24), left_edge={"kind": "external_corner"})
    assert [line[:14] for line in picture_of(wall)[::8]] == ["BBBBBBBBBBBBbb", " BBBBBBBbbbbbb", "BBBBBBBBBBBBbb"]


def test_both_bays_of_a_joint_start_with_a_board_and_none_crosses_it() -> None:
    wall = wall_from("\n".join(["B" * 40] * 16), existing_joints_x_mm=[1950])
    assert picture_of(wall)[::8] == [
        "BBBBBBBbbbbbbbbbbbb|BBBBBBBBbbbbbbbbbbbb",
        "BBBBBBBBBBBBbbbbbbb|BBBBBBBBBBBBbbbbbbbb",
    ]


def test_a_gable_is_cut_to_its_rakes_and_every_piece_is_held() -> None:
    points = [(0, 0), (3600, 0), (3600, 600), (1800, 1950), (0, 600)]
    gable = {"id": "wall", "outline": [{"x_mm": x, "y_mm": y} for x, y in points], "openings": []}
    assert picture_of(gable, fasteners=True) == drawn("""

                 xx
                bbbb
               Bbxbxb
              Bxbbbbbb
             BBBbbbbbbb
            BBBBbbbbbbbb
           BxBxBbxbxbxbxb
          BBBBBBbbbbbbbbbb
         BBBBBBBbbbbbbbbbbb
        bbbbbbbbbbBBBBBBBBBB
       bxbxbbxbbxbBxBBxBBxBxB
      bbbbbbbbbbbbBBBBBBBBBBBB
     xbbbbbbbbbbbbBBBBBBBBBBBBx
    BBbbbbbbbbbbbbBBBBBBBBBBBBbb
   BBxbxbbxbbxbbxbBxBBxBBxBBxBxbb
  BxBBbbbbbbbbbbbbBBBBBBBBBBBBbbxb
 BBBBBbbbbbbbbbbbbBBBBBBBBBBBBbbbbb
BBBBBBBBBBBBbbbbbbbbbbbbBBBBBBBBBBBB
BxBBxBBxBBxBbxbbxbbxbbxbBxBBxBBxBBxB
BBBBBBBBBBBBbbbbbbbbbbbbBBBBBBBBBBBB
BBBBBBBBBBBBbbbbbbbbbbbbBBBBBBBBBBBB
BBBBBBBBBBBBbbbbbbbbbbbbBBBBBBBBBBBB
BxBBxBBxBBxBbxbbxbbxbbxbBxBBxBBxBBxB
BBBBBBBBBBBBbbbbbbbbbbbbBBBBBBBBBBBB
BBBBBBBBBBBBbbbbbbbbbbbbBBBBBBBBBBBB
""")
