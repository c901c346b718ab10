"""Parts of a wall: what lies between two places, broken off where the wall goes on, named, counted and measured from its ends."""

from collections import Counter
from itertools import pairwise

import pytest
from sheet_geometry import box_of_text, points_of

from drawing_walls import ALL_WALLS, gable, groups_of, long_wall, sheet_of, texts_of, words_of
from storeyrod.drawings.calculation import calculate
from storeyrod.drawings.display_list import Marker, Polyline, Sheet
from storeyrod.drawings.models import DrawingRequest
from storeyrod.findings import Refusal

STAGES = ("fastener-first", "fastener-rest", "fastener-after-trim")

LENGTH = {"id": "plain", "width_mm": 9000, "height_mm": 600}
"""Boards of 1200 from the left, seven and a half of them; joints of 10 stand somewhere between."""

DOOR = {"id": "d1", "kind": "rectangle", "x_mm": 4012.5, "y_mm": 0, "width_mm": 1135, "height_mm": 450}


def part_of_wall(x_from: float | None, x_to: float | None, wall=LENGTH, scale: int | None = None) -> Sheet:
    return sheet_of(wall, scale, kind="fasteners", part=(x_from, x_to))


def fasteners_of(sheet: Sheet) -> Counter[str]:
    return Counter(
        mark.id
        for role in STAGES
        for _, group in groups_of(sheet, role)
        for mark in group.items
        if isinstance(mark, Marker)
    )


def refused(x_from: float | None, x_to: float | None) -> Refusal:
    with pytest.raises(Refusal) as caught:
        part_of_wall(x_from, x_to)
    return caught.value


def test_the_range_stands_in_the_title_the_table_and_the_dimensions():
    sheet = part_of_wall(1500, 4000)
    assert "Elevation plain, x 1500 to 4000" in sheet.title
    assert "Elevation plain, x 1500 to 4000" in words_of(sheet, "heading")
    assert "Fasteners by zone and stage, x 1500 to 4000" in words_of(sheet, "table-words")
    assert "2500, x 1500 to 4000" in words_of(sheet, "dimension-figures")


def test_only_fasteners_of_the_part_are_drawn():
    whole, part = (sheet_of(LENGTH, kind="fasteners"), part_of_wall(1500, 4000))
    expected = {
        mark.id
        for role in STAGES
        for _, group in groups_of(whole, role)
        for mark in group.items
        if 1500 <= mark.at[0] < 4000
    }
    assert set(fasteners_of(part)) == expected != set()


@pytest.mark.parametrize("wall", [LENGTH, gable(), long_wall()], ids=lambda wall: wall["id"])
def test_parts_that_follow_one_another_hold_every_fastener_once(wall):
    whole = fasteners_of(sheet_of(wall, kind="fasteners"))
    cuts = (None, 1500, 2700, 5000.5, None)
    together = sum((fasteners_of(part_of_wall(*ends, wall)) for ends in pairwise(cuts)), Counter())
    assert together == whole


def test_the_table_counts_what_is_drawn():
    sheet = part_of_wall(1500, 4000)
    assert words_of(sheet, "table-words")[-1] == str(fasteners_of(sheet).total())


def test_a_break_line_stands_where_the_wall_goes_on_and_nowhere_else():
    def places(*ends: float | None) -> set[float]:
        lines = [line for _, group in groups_of(part_of_wall(*ends), "break") for line in group.items]
        assert all(isinstance(line, Polyline) for line in lines)
        return {line.points[0][0] for line in lines}

    assert places(1500, 4000) == {1500, 4000}
    assert places(None, 4000) == {4000}
    assert places(1500, None) == {1500}
    assert places(-500, 9500) == places(None, None) == set()


def test_breaks_are_explained():
    assert "break: the wall goes on" in words_of(part_of_wall(1500, 4000), "legend-words")
    assert "break: the wall goes on" not in words_of(part_of_wall(None, None), "legend-words")


def test_a_break_line_runs_over_the_height_that_the_wall_has_there():
    """A gable with eaves at 5025 and its ridge at 7800 over 3600: at 1800 it is half-way up the rake, 6412.5 high."""
    ((_, group),) = groups_of(part_of_wall(1800, None, gable()), "break-blank")
    (line,) = group.items
    assert (line.start, line.end) == ((1800, 0), (1800, pytest.approx(6412.5)))


def test_a_range_that_reaches_past_the_wall_ends_with_it():
    sheet = part_of_wall(8000, 12_000)
    assert "Elevation plain, x 8000 to 9000" in sheet.title


def test_the_whole_wall_is_drawn_where_the_range_holds_it():
    assert part_of_wall(0, 9000) == part_of_wall(None, None) == sheet_of(LENGTH, kind="fasteners")


def test_a_piece_at_a_break_says_its_whole_number_and_the_sheet_says_so():
    """The second board of eight fasteners lies from 1200 to 2400; a break at 2000 leaves 800 of it."""
    sheet = part_of_wall(None, 2000, LENGTH | {"width_mm": 3600}, 10)
    assert "00-02: 8 in A" in words_of(sheet, "piece-ids")
    told = " ".join(words_of(sheet, "legend-words"))
    assert "Counts are of this part; a piece at a break says its whole number." in told


def test_an_opening_at_a_break_is_named_where_it_is_seen():
    """Of a door from 4012.5 to 5147.5 mm, 3000 to 4500 shows less than half."""
    sheet = part_of_wall(3000, 4500, LENGTH | {"openings": [DOOR]})
    ((_, name), *_) = texts_of(sheet, "opening-names")
    assert name.words == "d1"
    assert 4012.5 < name.at[0] < 4500


def test_openings_beyond_the_part_have_no_place_and_no_level():
    words = words_of(part_of_wall(0, 3000, LENGTH | {"openings": [DOOR]}), "dimension-figures")
    assert not {"1135", "450"} & set(words)
    assert {"1135", "450"} <= set(
        words_of(part_of_wall(3000, 6000, LENGTH | {"openings": [DOOR]}), "dimension-figures")
    )


def test_jambs_are_measured_from_the_break():
    assert "1012.5" in words_of(part_of_wall(3000, 6000, LENGTH | {"openings": [DOOR]}), "dimension-figures")


def test_zones_keep_their_distances_from_the_ends_of_the_wall():
    """Zone A reaches to 2400 from the left end, B beyond."""
    words = words_of(part_of_wall(3000, 6000), "dimension-figures")
    assert "B: 3000, 3000 to 6000 from left end" in words


@pytest.mark.parametrize("wall", ALL_WALLS.values(), ids=ALL_WALLS)
def test_nothing_on_the_wall_stands_beyond_the_breaks(wall):
    width = wall.get("width_mm") or max(point["x_mm"] for point in wall["outline"])
    low, high = width * 0.3, width * 0.7
    if high - low < 100:
        low, high = 0.0, width
    sheet = part_of_wall(low, high, wall)
    roles = (
        "board",
        "board-short",
        "opening",
        "opening-cross",
        "face",
        "feature",
        "movement-joint",
        "zone-edge",
        "zone-a",
        "zone-b",
    )
    xs = [
        x for role in roles for _, group in groups_of(sheet, role) for item in group.items for x, _ in points_of(item)
    ]
    assert xs
    assert min(xs) >= low - 0.01
    assert max(xs) <= high + 0.01


def test_names_of_boards_stand_between_the_breaks():
    sheet = part_of_wall(1500, 4000, long_wall())
    boxes = [(view, box_of_text(view, text)) for view, text in texts_of(sheet, "piece-ids")]
    assert boxes
    for view, (left, _, right, _) in boxes:
        assert view.on_paper((1500, 0))[0] <= left
        assert right <= view.on_paper((4000, 0))[0]


def test_a_part_of_a_long_wall_is_drawn_larger_and_names_what_the_whole_leaves_out():
    whole, part = sheet_of(long_wall(), kind="fasteners"), part_of_wall(0, 6000, long_wall())
    assert (whole.views[0].scale, part.views[0].scale) == (100, 50)
    assert len([words for words in words_of(part, "piece-ids") if " in " in words]) > 50
    assert [words for words in words_of(whole, "piece-ids") if " in " in words] == []


@pytest.mark.parametrize(
    ("ends", "member"),
    [
        ((4000, 4000), "x_to_mm"),
        ((4000, 3000), "x_to_mm"),
        ((9000, 12_000), "x_to_mm"),
        ((-3000, -1000), "x_to_mm"),
        ((8950, None), "x_from_mm"),
        ((None, 99.9), "x_to_mm"),
    ],
)
def test_a_range_that_holds_no_wall_is_refused(ends, member):
    refusal = refused(*ends)
    assert (refusal.slug, refusal.faults[0].pointer) == ("part-off-wall", f"/sheets/0/{member}")
    assert "from x 0 to 9000 mm" in refusal.detail
    assert "at least 100 mm greater" in refusal.detail


def test_a_range_of_100_mm_is_drawn():
    assert "x 4000 to 4100" in part_of_wall(4000, 4100).title


def test_two_parts_of_a_wall_in_one_drawing_have_ids_of_their_own():
    take_off = {"elevations": [LENGTH], "system": {
        "board": {"cover_length_mm": 1200, "cover_height_mm": 600, "thickness_mm": 100, "rib_pitch_mm": 75},
        "slip": {"length_mm": 215, "height_mm": 65, "thickness_mm": 20},
    }}  # fmt: skip
    sheets = [
        {"kind": "fasteners", "elevation": "plain", "x_to_mm": 4000},
        {"kind": "fasteners", "elevation": "plain", "x_from_mm": 4000},
    ]
    first, second = calculate(DrawingRequest.model_validate({"take_off": take_off, "sheets": sheets})).result
    assert (first.id_prefix, second.id_prefix) == ("", "sheet-2:")
    assert "x 0 to 4000" in first.title
    assert "x 4000 to 9000" in second.title
