"""The fasteners sheet: marks and counts as in the schedule, stages and zones to be told apart, zone ends dimensioned."""

from collections import Counter

import pytest
from sheet_geometry import box_of_text

from drawing_walls import WIND, gable, groups_of, in_the_wind, request_of, sheet_of, shown_of, texts_of, words_of
from storeyrod.drawings.display_list import Box, Marker, Polygon, Sheet
from storeyrod.drawings.zoned_pieces import zone_counts
from storeyrod.fasteners.calculation import calculate
from storeyrod.fasteners.models import FastenerScheduleRequest

TWO_BOARDS = {"id": "low", "width_mm": 2400, "height_mm": 600}
"""Two whole boards of 1200 x 600 on the base. Each has two rows of four (every fourth course of eight): the lower row waits for the
trim, two of the upper one go first, two are the rest.
"""

THREE_METRES = {"id": "pier", "width_mm": 3600, "height_mm": 600}
"""Three boards; with zone A to 2400 the first two lie in A, the third in B."""

STAGES = ("fastener-first", "fastener-rest", "fastener-after-trim")


def marks_of(sheet: Sheet, role: str) -> list[Marker]:
    """Marks on the wall; those of the legend have another role."""
    return [item for _, group in groups_of(sheet, role) for item in group.items if isinstance(item, Marker)]


def table_of(sheet: Sheet) -> list[str]:
    return words_of(sheet, "table-words")


def test_the_marks_of_two_boards_are_those_set_by_hand():
    sheet = sheet_of(TWO_BOARDS, kind="fasteners")
    assert [len(marks_of(sheet, role)) for role in STAGES] == [4, 4, 8]


def test_the_table_counts_them_by_stage_and_adds_up():
    assert table_of(sheet_of(TWO_BOARDS, kind="fasteners"))[-6:] == ["", "2", "4", "4", "8", "16"]


def test_stages_have_marks_of_different_shape():
    sheet = sheet_of(TWO_BOARDS, kind="fasteners")
    shapes = [{mark.symbol for mark in marks_of(sheet, role)} for role in STAGES]
    assert [len(shape) for shape in shapes] == [1, 1, 1]
    assert len(set.union(*shapes)) == 3


def test_every_mark_has_the_id_that_the_schedule_gives_its_fastener():
    request = request_of(in_the_wind(THREE_METRES), wind=WIND)
    members = request.model_dump(include={"elevations", "system", "wind", "options"})
    positions = calculate(FastenerScheduleRequest.model_validate(members)).result["positions"]
    sheet = sheet_of(THREE_METRES, kind="fasteners")
    assert Counter(mark.id for role in STAGES for mark in marks_of(sheet, role)) == Counter(
        row["id"] for row in positions
    )


def test_a_board_that_a_zone_touches_counts_there_as_a_whole():
    """Zone A ends at 2400, on the seam: two boards of eight in A, one in B."""
    rows = zone_counts(shown_of("fasteners", in_the_wind(THREE_METRES), wind=WIND)["pier"].fasteners)
    assert [(row.zone, row.pieces, row.total) for row in rows] == [("A", 2, 16), ("B", 1, 8)]


def test_zone_rows_are_those_of_the_schedule():
    gable = {"id": "gable", "width_mm": 9000, "height_mm": 2700}
    request = request_of(in_the_wind(gable), wind=WIND)
    members = request.model_dump(include={"elevations", "system", "wind", "options"})
    answered = calculate(FastenerScheduleRequest.model_validate(members)).result["zones"]
    rows = zone_counts(shown_of("fasteners", in_the_wind(gable), wind=WIND)["gable"].fasteners)
    assert [(row.zone, row.pieces, row.total) for row in rows] == [
        (row["zone"], row["pieces_count"], row["fasteners_count"]) for row in answered
    ]


def test_suction_of_a_zone_is_in_the_table():
    """Zone A: 1.4 for 1 m2 (EN 1991-1-4, table 7.1, from memory) on 1 kPa."""
    assert "up to 1.40" in table_of(sheet_of(TWO_BOARDS, kind="fasteners"))


def test_zones_are_hatched_each_in_its_way_and_named_in_the_table():
    sheet = sheet_of(THREE_METRES, kind="fasteners")
    ((_, dense),) = groups_of(sheet, "zone-a")
    ((_, wide),) = groups_of(sheet, "zone-b")
    (first, second) = ({_rises(line) for line in group.items[0].lines} for group in (dense, wide))
    assert (first, second) == ({True}, {False})
    assert {"A", "B"} <= set(table_of(sheet))


def _rises(line) -> bool:
    """Whether a stroke rises to the right."""
    (x0, y0), (x1, y1) = line
    return (x1 - x0) * (y1 - y0) > 0


def test_ends_of_zones_are_measured_from_the_nearer_end_of_the_wall():
    words = words_of(sheet_of(THREE_METRES | {"width_mm": 9000}, kind="fasteners"), "dimension-figures")
    assert "A: 2400, 0 to 2400 from left end" in words
    assert "B: 6600, 0 to 6600 from right end" in words


def test_boards_are_named_with_their_fasteners_and_zone():
    assert "00-01: 8 in A" in words_of(sheet_of(THREE_METRES, kind="fasteners"), "piece-ids")


def test_without_wind_there_are_no_zones_and_the_sheet_says_so():
    sheet = sheet_of(TWO_BOARDS, kind="fasteners", wind=None)
    assert groups_of(sheet, "zone-a") == []
    assert "wind not given" in table_of(sheet)
    assert any("Common pattern only" in line for line in words_of(sheet, "legend-words"))


def test_boards_that_reach_into_a_parapet_have_a_row_of_their_own():
    """One row of boards below 600, one above."""
    wall = TWO_BOARDS | {"height_mm": 1200, "parapet_from_mm": 600}
    words = table_of(sheet_of(wall, kind="fasteners"))
    row = words[words.index("not assessed") :]
    assert row[1] == "-"
    rows = zone_counts(shown_of("fasteners", in_the_wind(wall), wind=WIND)["low"].fasteners)
    assert [row.zone for row in rows] == ["A", ""]


def weak(characteristic_kn: float) -> dict:
    return {"fastener": {"pull_out": {"characteristic_kn": characteristic_kn, "gamma_m": 2}}}


def test_a_need_without_room_has_a_heavy_outline_and_is_counted():
    """1.5 x 1.4 x 0.72 = 1.512 kN on a board; at 0.005 kN each it would take 303."""
    sheet = sheet_of(TWO_BOARDS, kind="fasteners", system=weak(0.01), substrate={"category": "B"})
    ((_, short),) = groups_of(sheet, "board-short")
    assert len([item for item in short.items if isinstance(item, Polygon)]) == 2
    words = words_of(sheet, "legend-words")
    assert "need of wind not met" in words
    assert any(line.startswith("2 pieces: no room") for line in words)


def test_a_need_that_is_met_is_not_remarked_on():
    sheet = sheet_of(TWO_BOARDS, kind="fasteners", system=weak(2), substrate={"category": "B"})
    assert groups_of(sheet, "board-short") == []
    assert "need of wind not met" not in words_of(sheet, "legend-words")


def test_more_than_the_pattern_is_said_to_come_from_pull_out():
    """1.512 kN at 0.15 kN each: 11 on each board, where the pattern has 8."""
    sheet = sheet_of(TWO_BOARDS, kind="fasteners", system=weak(0.3), substrate={"category": "B"})
    assert sum(len(marks_of(sheet, role)) for role in STAGES) >= 22
    assert "pull-out 2" in " ".join(words_of(sheet, "legend-words"))


@pytest.mark.parametrize(("scale", "left_out"), [(20, False), (500, True)])
def test_ids_without_room_are_counted(scale, left_out):
    words = " ".join(words_of(sheet_of(TWO_BOARDS, scale, kind="fasteners"), "legend-words"))
    assert (
        "For lack of room, pieces without id: 2. Ask for a larger scale, or a part of the wall" in words
    ) is left_out


@pytest.mark.parametrize(("scale", "words"), [(20, "board: id, fasteners in zone"), (100, "board: id"), (500, "board")])
def test_the_legend_says_what_stands_in_boards_and_no_more(scale, words):
    said = words_of(sheet_of(TWO_BOARDS, scale, kind="fasteners"), "legend-words")
    assert [line for line in said if line.startswith("board")] == [words]


def test_the_legend_holds_marks_and_openings_of_what_is_drawn_alone():
    """Over a door from 4000 to 6260 no board stands on the base trim."""
    over_the_door = words_of(sheet_of(gable(), kind="fasteners", part=(4200, 6200)), "legend-words")
    assert "fastener, after base trim" not in over_the_door
    assert "opening: clear size" in over_the_door
    low = words_of(sheet_of(TWO_BOARDS, kind="fasteners"), "legend-words")
    assert "fastener, after base trim" in low
    assert "opening: clear size" not in low


def boxes_of_lettering(sheet: Sheet) -> list[Box]:
    """Lettering of boards on the paper, without the room around it."""
    return [box_of_text(view, text) for view, text in texts_of(sheet, "piece-ids")]


@pytest.mark.parametrize("scale", [50, 75, 100])
def test_lettering_of_boards_stands_clear_of_marks(scale):
    """A mark is about a millimetre wide: half of that and 0.1 mm beyond it is kept free."""
    sheet = sheet_of(TWO_BOARDS | {"width_mm": 6000, "height_mm": 2400}, scale, kind="fasteners")
    marks = [
        (*view.on_paper(mark.at), mark.size / 2.0 + 0.1)
        for role in STAGES
        for view, group in groups_of(sheet, role)
        for mark in group.items
    ]
    letters = boxes_of_lettering(sheet)
    assert letters
    near = [
        (box, mark)
        for box in letters
        for mark in marks
        if box[0] - mark[2] < mark[0] < box[2] + mark[2] and box[1] - mark[2] < mark[1] < box[3] + mark[2]
    ]
    assert near == []


def test_the_elevation_sheet_shows_the_same_fasteners():
    sheets = [
        sheet_of(in_the_wind(TWO_BOARDS), kind=kind, wind=WIND, system=weak(0.3), substrate={"category": "B"})
        for kind in ("elevation", "fasteners")
    ]
    first, second = ({mark.at for role in STAGES for mark in marks_of(sheet, role)} for sheet in sheets)
    assert first == second
    assert "Fasteners by pattern and wind" in " ".join(words_of(sheets[0], "legend-words"))
