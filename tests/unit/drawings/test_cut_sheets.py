"""Cut sheets: patterns with their boards, cuts in order, pieces, rests and pages."""

import pytest

from drawing_walls import cut_sheets_of, groups_of, long_wall, pieces_of, sheet_of, small_wall, texts_of, words_of
from storeyrod.boards.board_cutting import CutBlank
from storeyrod.cutting.plan import Cut
from storeyrod.drawings.cut_list_words import board_numbers, letter_of
from storeyrod.drawings.cut_numbers import cut_line, disc_places
from storeyrod.drawings.display_list import Strokes
from storeyrod.drawings.hatching import hatched
from storeyrod.findings import Refusal
from storeyrod.geometry.ticks import ticks

HALF = {"id": "low", "width_mm": 1800, "height_mm": 600}
"""A whole board of 1200 × 600, and half of another: 597 are left beside a saw cut of 3."""


def numbered(*numbers: int) -> list[CutBlank]:
    return [CutBlank(number, None, (), ()) for number in numbers]


def test_each_pattern_names_its_boards():
    words = words_of(sheet_of(HALF, kind="cut_sheets"), "pattern-words")
    assert words[:2] == ["Pattern 1: 1 board", "no. 1"]
    assert "Pattern 2: 1 board" in words


def test_boards_cut_alike_share_a_pattern_that_lists_their_pieces():
    wall = {"id": "low", "width_mm": 3600, "height_mm": 600}
    words = words_of(sheet_of(wall, kind="cut_sheets"), "pattern-words")
    assert words == ["Pattern 1: 3 boards", "nos. 1-3", "a 1200 × 600: low-00-01, low-00-02, low-00-03"]


def test_a_rest_that_is_kept_has_its_size_and_where_it_goes():
    sheet = sheet_of(HALF, kind="cut_sheets")
    assert words_of(sheet, "rest-words") == ["to stock", "597 × 600"]
    assert "to stock 597 × 600: 2.1" in words_of(sheet, "pattern-words")


def test_the_cut_stands_behind_the_piece_in_the_middle_of_the_saw_cut():
    ((_, group),) = groups_of(sheet_of(HALF, kind="cut_sheets"), "saw-cut")
    (strokes,) = [item for item in group.items if isinstance(item, Strokes)]
    assert strokes.lines == (((601.5, 0.0), (601.5, 600.0)),)


def test_pieces_are_elements_with_the_ids_that_they_have_on_the_wall():
    sheets = cut_sheets_of(small_wall("a"), small_wall("b"))
    drawn = {piece.id for sheet in sheets for piece in pieces_of(sheet)}
    titles = " ".join(piece.title for sheet in sheets for piece in pieces_of(sheet))
    assert {"a-00-01", "a-01-01"} <= drawn
    assert "b-02-01" in titles


def test_every_board_says_which_way_is_up():
    assert words_of(sheet_of(HALF, kind="cut_sheets"), "way-up-words") == ["THIS WAY UP", "THIS WAY UP"]


def test_ribs_are_counted_from_the_foot_of_the_board():
    """Eight ribs of 75 in 600."""
    words = words_of(sheet_of(HALF, kind="cut_sheets"), "rib-numbers")
    assert words == [str(number) for number in range(9)] * 2


def test_stock_offcuts_have_patterns_of_their_own_with_their_sawn_edges_dashed():
    stock = {"id": "yard", "width_mm": 700, "height_mm": 600, "factory_edges": ["left", "bottom", "top"], "count": 1}
    sheet = sheet_of(HALF, kind="cut_sheets", stock_offcuts=[stock])
    assert "Pattern 2: 1 of stock yard" in words_of(sheet, "pattern-words")
    ((_, sawn),) = [(view, group) for view, group in groups_of(sheet, "sawn-edge")]
    assert [(line.start, line.end) for line in sawn.items] == [((700.0, 0.0), (700.0, 600.0))]


def test_patterns_stand_in_the_order_of_their_numbers_on_as_many_sheets_as_they_take():
    sheets = cut_sheets_of(long_wall())
    heads = [words for sheet in sheets for words in words_of(sheet, "pattern-words") if words.startswith("Pattern ")]
    numbers = [int(words.split(":")[0].removeprefix("Pattern ")) for words in heads]
    assert len(sheets) > 1
    assert numbers == list(range(1, len(numbers) + 1))
    assert sheets[1].title.startswith("Test wall: Cut sheets, patterns ")


def test_at_a_larger_scale_fewer_boards_stand_on_a_sheet():
    assert len(cut_sheets_of(small_wall(), scale=10)) > len(cut_sheets_of(small_wall()))
    assert {view.scale for view, _ in groups_of(cut_sheets_of(small_wall(), scale=10)[0], "saw-cut")} == {10.0}


def test_a_scale_at_which_no_paper_takes_a_board_is_refused():
    with pytest.raises(Refusal) as caught:
        cut_sheets_of(small_wall(), scale=1)
    assert (caught.value.slug, caught.value.faults[0].pointer) == ("sheet-too-small", "/sheets/0/scale")


def test_cuts_are_numbered_in_the_order_of_sawing():
    ((_, first), *_) = texts_of(sheet_of(HALF, kind="cut_sheets"), "cut-numbers")
    assert first.words == "1"


def test_a_cut_at_the_edge_of_the_board_stays_on_it():
    assert cut_line(Cut(True, ticks(1199), 0.0, ticks(600)), 1200.0, 600.0, 3.0) == ((1200.0, 0.0), (1200.0, 600.0))


def test_discs_of_cuts_from_edge_to_edge_stand_outside_the_board():
    lines = [((600.0, 0.0), (600.0, 600.0)), ((0.0, 300.0), (600.0, 300.0)), ((603.0, 150.0), (1200.0, 150.0))]
    upright, inside, level = disc_places(lines, [], 1200.0, 600.0, 10.0)
    assert upright == (600.0, 618.0)
    assert inside[1] == 300.0
    assert level == (1218.0, 150.0)


def test_the_disc_of_a_cut_between_small_pieces_stands_in_the_rest_beside_it():
    (disc,) = disc_places([((0.0, 75.0), (75.0, 75.0))], [(75.0, 0.0, 600.0, 600.0)], 600.0, 600.0, 10.0)
    assert disc[0] > 75.0


def test_boards_that_follow_one_another_are_named_by_the_first_and_the_last():
    assert board_numbers(numbered(7, 1, 2, 3, 9)) == "nos. 1-3, 7, 9"
    assert board_numbers(numbered(4)) == "no. 4"
    assert board_numbers(numbered(4, 5)) == "nos. 4, 5"


@pytest.mark.parametrize(("index", "letter"), [(0, "a"), (25, "z"), (26, "aa"), (51, "az"), (52, "ba")])
def test_pieces_of_a_board_have_letters(index, letter):
    assert letter_of(index) == letter


def test_hatching_stays_in_its_box():
    """Strokes 10 apart along the foot of a box of 40 by 20: at 10 to 50 less the height, five of them."""
    lines = list(hatched((100.0, 200.0, 140.0, 220.0), 10.0))
    assert lines[0] == ((100.0, 210.0), (110.0, 220.0))
    assert len(lines) == 5
    assert all(100 <= x <= 140 and 200 <= y <= 220 for line in lines for x, y in line)
