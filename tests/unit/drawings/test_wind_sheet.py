"""The wind sheet: zones with letters, directions and pressures, their ends, what was not assessed, and a direction by itself.

The wind is 1 kPa all over with nothing inside, so suction in kN/m2 is the coefficient for 1 m2: A 1.4, B 1.1, C 0.5 and, pressed
on, D 1.0 (EN 1991-1-4, table 7.1, from memory). With the wind on the rear h/d = 14.5/12, and E lies between 0.5 at 1 and 0.7 at 5:
0.510, a little more than C.
"""

import pytest
from shapely import Polygon as Shape

from drawing_walls import WIND, gable, groups_of, in_the_wind, sheet_of, shown_of, small_wall, texts_of, words_of
from storeyrod.drawings.display_list import Polygon
from storeyrod.drawings.wind_sheet import MOST_ROWS, zones_table
from storeyrod.drawings.zone_edges import ZoneEdges
from storeyrod.wind.face_wind import WindPatch

STREET = {"id": "street", "width_mm": 60_000, "height_mm": 9000}
"""On a front of 60.5 m: from the left A to 2.4 m and B to 12 m; from the right 0.5 m less of each."""

WALL = {"id": "wall", "width_mm": 9000, "height_mm": 6000}


def rows_of(sheet) -> list[list[str]]:
    _, *words = words_of(sheet, "table-words")
    return [words[start : start + 5] for start in range(0, len(words), 5)]


def test_zones_have_the_suction_of_their_coefficients():
    heading, *rows = rows_of(sheet_of(STREET, kind="wind"))
    assert heading == ["zone", "wind on", "suction, kN/m²", "pressure, kN/m²", "wall, m²"]
    assert [row[0] for row in rows] == ["A", "B", "E"]
    assert [row[2] for row in rows] == ["1.40", "1.10", "0.51"]
    assert {row[3] for row in rows} == {"1.00"}


def test_zones_together_are_the_wall():
    """60 x 9 = 540 m2: A (2.4 + 1.9) x 9, B 2 x 9.6 x 9, E the rest."""
    assert [row[4] for row in rows_of(sheet_of(STREET, kind="wind"))[1:]] == ["38.70", "172.80", "328.50"]


def test_openings_are_left_out_of_zones():
    window = {"id": "w", "kind": "rectangle", "x_mm": 1000, "y_mm": 1000, "width_mm": 1000, "height_mm": 1000}
    rows = rows_of(sheet_of(WALL | {"openings": [window]}, kind="wind"))
    assert rows[1][4] == f"{2.4 * 6 - 1:.2f}"


def test_ends_of_zones_are_dimensioned_from_the_nearer_corner():
    words = words_of(sheet_of(STREET, kind="wind"), "dimension-figures")
    assert "B: 9600, 2400 to 12000 from left end" in words
    assert "B: 9600, 1900 to 11500 from right end" in words


def test_a_zone_names_its_letter_suction_pressure_and_direction():
    words = words_of(sheet_of(WALL, kind="wind"), "zone-words")
    assert words[:4] == ["A", "suction 1.40 kN/m²", "pressure 1.00 kN/m²", "wind on left side"]


def test_letters_of_zones_are_bold():
    bold = [text.words for _, text in texts_of(sheet_of(WALL, kind="wind"), "zone-words") if text.bold]
    assert bold == ["A", "B"]


def test_zones_that_differ_by_direction_alone_are_one():
    """From either end B reaches past the middle of a front of 20 m: suction is the same on both sides of it."""
    wind = WIND | {"building": WIND["building"] | {"breadth_m": 20}}
    wall = {"id": "wall", "width_mm": 20_000, "height_mm": 6000}
    rows = rows_of(sheet_of(wall, kind="wind", wind=wind))
    assert [(row[0], row[1]) for row in rows[1:]] == [("A", "left, right"), ("B", "left, right")]


def test_wind_on_an_end_gives_three_zones_along_it():
    rows = rows_of(sheet_of(STREET, kind="wind", direction="left"))[1:]
    assert [row[:4] for row in rows] == [
        ["A", "left", "1.40", "0.00"],
        ["B", "left", "1.10", "0.00"],
        ["C", "left", "0.50", "0.00"],
    ]
    assert [row[4] for row in rows] == ["21.60", "86.40", "432.00"]


def test_one_direction_shows_its_own_zones():
    """Wind on the front presses on all of it."""
    sheet = sheet_of(WALL, kind="wind", direction="front")
    assert rows_of(sheet)[1:] == [["D", "front", "0.00", "1.00", "54.00"]]
    assert sheet.title.endswith(": wind on front")


def test_the_envelope_says_what_it_is_of():
    assert sheet_of(WALL, kind="wind").title.endswith(": envelope of all directions")
    two = WIND | {"directions": ["front", "left"]}
    assert sheet_of(WALL, kind="wind", wind=two).title.endswith(": envelope of wind on front or left side")


def test_a_parapet_is_not_assessed_and_says_so():
    sheet = sheet_of(WALL | {"parapet_from_mm": 5000}, kind="wind")
    assert rows_of(sheet)[-1] == ["not assessed", "-", "-", "-", "9.00"]
    assert "wind not assessed" in words_of(sheet, "zone-words")
    assert "Parapet above 5000: wind was not assessed." in words_of(sheet, "legend-words")
    assert {"5000", "1000"} <= set(words_of(sheet, "dimension-figures"))


def test_each_zone_is_an_element_with_its_id_and_what_acts_there():
    ((_, group),) = groups_of(sheet_of(WALL, kind="wind"), "zone")
    first = group.items[0]
    assert isinstance(first, Polygon)
    assert first.id == "wall:wind:1-1"
    assert first.title == "zone A, suction 1.40 kN/m², pressure 1.00 kN/m², wind on left side"


@pytest.mark.parametrize("zone", ["A", "B", "E"])
def test_zones_of_the_wall_are_explained(zone):
    assert f"zone {zone}" in words_of(sheet_of(STREET, kind="wind"), "legend-words")


def test_a_wall_on_no_known_side_has_the_strongest_zone_all_over():
    sheet = sheet_of(WALL | {"face": None}, kind="wind")
    assert [row[0] for row in rows_of(sheet)[1:]] == ["A"]
    assert any("Side of the building not given" in line for line in words_of(sheet, "legend-words"))
    assert "end of a wind zone" not in words_of(sheet, "legend-words")


STEEP = {
    "id": "steep",
    "outline": [{"x_mm": x, "y_mm": y} for x, y in ((0, 0), (8000, 0), (8000, 2000), (4000, 12_000), (0, 2000))],
}
HIGH = {"id": "high", "width_mm": 20_000, "height_mm": 60_000}
OF_HIGH = WIND | {
    "building": {"breadth_m": 20, "depth_m": 20, "height_m": 60},
    "peak_pressures": [{"height_m": 60, "pressure_pa": 1000}],
}


@pytest.mark.parametrize(
    "sheet",
    [
        sheet_of(STEEP, kind="wind"),
        sheet_of(STEEP, 250, kind="wind"),
        sheet_of(gable(), kind="wind"),
        sheet_of(HIGH, kind="wind", direction="front", wind=OF_HIGH),
        sheet_of(HIGH, 700, kind="wind", direction="left", wind=OF_HIGH),
        sheet_of(small_wall() | {"parapet_from_mm": 900}, kind="wind"),
    ],
    ids=["steep", "steep-small", "gable", "high-front", "high-left", "parapet"],
)
def test_the_ground_of_words_leaves_the_outline_of_the_wall_whole(sheet):
    """The outline is up to 0.7 mm wide: half of that lies inside the wall."""
    ((view, outline),) = groups_of(sheet, "face")
    (wall,) = outline.items
    inner = Shape([view.on_paper(point) for point in wall.rings[0]]).buffer(-0.35)
    ((_, grounds),) = groups_of(sheet, "zone-blank")
    assert grounds.items
    for ground in grounds.items:
        assert inner.covers(Shape([view.on_paper(point) for point in ground.rings[0]]))


GABLE_END = {
    "id": "end",
    "outline": [{"x_mm": x, "y_mm": y} for x, y in ((0, 0), (7200, 0), (7200, 5000), (3600, 7800), (0, 5000))],
}
IN_TWO_STRIPS = WIND | {
    "building": {"breadth_m": 7.2, "depth_m": 12, "height_m": 7.8},
    "peak_pressures": [{"height_m": 7.2, "pressure_pa": 900}, {"height_m": 7.8, "pressure_pa": 1000}],
}


def test_a_zone_without_wall_has_no_row():
    """A gable of 7.8 m under wind in strips up to 7.2 and 7.8 m: beside the ridge, in the upper strip, zone A has no wall."""
    sheet = sheet_of(GABLE_END, kind="wind", wind=IN_TWO_STRIPS)
    areas = [row[-1] for row in rows_of(sheet)[1:]]
    assert "0.00" not in areas
    assert sum(map(float, areas)) == pytest.approx(7.2 * 5.0 + 7.2 * 2.8 / 2.0, abs=0.02)


def test_hardly_any_wall_is_not_printed_as_none():
    """Zone A of 2400 on a wall of 2402: 2 mm by 1 m of B are 0.002 m2."""
    assert "under 0.01" in table_words(sheet_of({"id": "w", "width_mm": 2402, "height_mm": 1000}, kind="wind"))


def table_words(sheet) -> list[str]:
    return words_of(sheet, "table-words")


def test_words_without_room_are_counted():
    sheet = sheet_of({"id": "t", "width_mm": 300, "height_mm": 150}, 500, kind="wind")
    assert words_of(sheet, "zone-words") == []
    assert "Zones without words, see the table: 1." in words_of(sheet, "legend-words")


def test_a_table_that_is_too_long_says_how_many_rows_it_lacks():
    face = shown_of("wind", in_the_wind(WALL), wind=WIND)["wall"].face
    strip = face.length / 40
    patches = [
        WindPatch(at * strip, (at + 1) * strip, face.foot, face.top, "A", "front", 100.0 + at, 0.0) for at in range(40)
    ]
    table = zones_table(ZoneEdges(face, patches))
    assert len(table.rows) == 1 + MOST_ROWS
    assert table.rows[-1][0].words == "and 13 more"
