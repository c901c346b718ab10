"""The boards sheet: pieces with the boards they are cut from, sawn edges, sizes to saw by, rows and counts."""

from math import cos, pi, sin

import pytest

from drawing_walls import groups_of, pieces_of, sheet_of, small_wall, words_of
from storeyrod.cutting.stock import FACTORY, Edges
from storeyrod.drawings.cut_edges import saw_figures, sawn_edges, stroke
from storeyrod.drawings.display_list import Line, Polygon, Strokes, box_polygon

TWO_BOARDS = {"id": "low", "width_mm": 1800, "height_mm": 600}
"""A whole board of 1200 × 600, and half of another."""

NOTCHED = Polygon((((0, 0), (1000, 0), (1000, 300), (400, 300), (400, 600), (0, 600)),))
"""An L: 1000 long at its foot, 400 long at its head, 600 high at its left and 300 at its right."""


def test_labels_give_place_size_and_board_of_a_cut_piece_and_no_size_of_a_whole_board():
    words = words_of(sheet_of(TWO_BOARDS, kind="boards"), "piece-ids")
    assert words == ["00-01", "board 1", "00-02", "600 × 600", "board 2"]


def test_pieces_of_stock_say_so():
    stock = {"id": "yard", "width_mm": 700, "height_mm": 600, "factory_edges": ["left", "bottom", "top"], "count": 1}
    words = words_of(sheet_of(TWO_BOARDS, kind="boards", stock_offcuts=[stock]), "piece-ids")
    assert "stock yard.1" in words


def test_each_piece_is_one_element_with_its_id():
    assert {piece.id for piece in pieces_of(sheet_of(TWO_BOARDS, kind="boards"))} == {"low-00-01", "low-00-02"}


def test_the_sawn_edge_of_the_half_board_has_a_stroke_and_its_factory_edges_have_none():
    """It lies at the left of its board, 600 of 1200 long: only its right edge, at x = 1800, is sawn."""
    ((_, group),) = groups_of(sheet_of(TWO_BOARDS, kind="boards"), "cut-edge")
    (strokes,) = [item for item in group.items if isinstance(item, Strokes)]
    ((start, end),) = strokes.lines
    assert start[0] == end[0]
    assert 1790 < start[0] < 1800


def test_a_whole_board_has_no_sawn_edge():
    assert sawn_edges(box_polygon((0, 0, 1200, 600)), FACTORY) == []


def test_edges_of_a_notch_are_sawn_whatever_its_sides_are():
    edges = sawn_edges(NOTCHED, FACTORY)
    assert sorted(edges) == [((400, 300), (400, 600)), ((1000, 300), (400, 300))]


def test_an_edge_along_a_sawn_side_is_sawn():
    assert sawn_edges(box_polygon((0, 0, 500, 600)), Edges(True, False, True, True)) == [((500, 0), (500, 600))]


def test_edges_of_a_hole_are_sawn_and_their_strokes_stand_outside_the_hole():
    hole = ((400, 200), (600, 200), (600, 400), (400, 400))
    holed = Polygon((((0, 0), (1200, 0), (1200, 600), (0, 600)), hole))
    lines = [stroke(edge, 10.0) for edge in sawn_edges(holed, FACTORY)]
    assert len(lines) == 4
    assert all(not (400 < x < 600 and 200 < y < 400) for line in lines for x, y in line)


def test_a_notch_is_given_by_lengths_beside_its_edges():
    figures = saw_figures(NOTCHED, 10.0)
    assert sorted(text.words for text in figures.texts) == ["300", "300", "400", "600"]
    assert figures.left_out == 0


def test_of_lengths_that_add_up_to_the_box_one_may_be_missing():
    """300 and 300 make the height of 600: with no room for the lower one, the upper one gives both."""
    figures = saw_figures(NOTCHED, 10.0, [(900, 0, 1000, 300)])
    assert sorted(text.words for text in figures.texts) == ["300", "400", "600"]
    assert figures.left_out == 0


def test_lengths_without_room_are_counted():
    everywhere = [(0.0, 0.0, 1000.0, 600.0)]
    assert saw_figures(NOTCHED, 10.0, everywhere).texts == ()
    assert saw_figures(NOTCHED, 10.0, everywhere).left_out == 2


def test_a_peak_between_two_slopes_is_given_by_its_place():
    peak = Polygon((((0, 0), (1200, 0), (500, 400)),))
    assert [text.words for text in saw_figures(peak, 10.0).texts] == ["x 500, y 400"]


def test_a_hole_is_given_by_its_corner_and_its_sizes():
    hole = ((400, 200), (600, 200), (600, 350), (400, 350))
    holed = Polygon((((0, 0), (1200, 0), (1200, 600), (0, 600)), hole))
    assert sorted(text.words for text in saw_figures(holed, 10.0).texts) == ["150", "200", "corner x 400, y 200"]


def test_a_round_hole_is_given_by_its_centre_and_its_width():
    hole = tuple((600 + 150 * cos(pi * step / 18), 300 + 150 * sin(pi * step / 18)) for step in range(36))
    holed = Polygon((((0, 0), (1200, 0), (1200, 600), (0, 600)), hole))
    assert [text.words for text in saw_figures(holed, 10.0).texts] == ["centre x 600, y 300, 300 wide"]


def test_rows_are_numbered_beside_the_wall_and_end_at_its_top():
    sheet = sheet_of(small_wall(), kind="boards")
    assert words_of(sheet, "row-numbers") == ["row 0", "row 1", "row 2"]
    ((_, rows),) = groups_of(sheet, "rows")
    assert max(line.end[1] for line in rows.items if isinstance(line, Line)) == 1350


def test_counts_stand_beside_the_legend():
    words = words_of(sheet_of(TWO_BOARDS, kind="boards"), "legend-words")
    assert words[-4:] == [
        "Pieces on this elevation:",
        "full boards: 1",
        "cut to a rectangle: 1",
        "in all: 2, from 2 new boards",
    ]


def test_one_arrow_on_the_sheet_says_which_way_is_up():
    assert words_of(sheet_of(small_wall(), kind="boards"), "way-up-words") == ["THIS WAY UP"]


@pytest.mark.parametrize("kind", ["boards", "joints"])
def test_small_walls_stand_on_the_smallest_paper(kind):
    assert sheet_of(small_wall(), kind=kind).width == 420.0


def test_a_wall_whose_labels_would_find_no_room_stands_on_larger_paper():
    tall = {"id": "tall", "width_mm": 6000, "height_mm": 6000}
    sheet = sheet_of(tall, kind="boards")
    assert (sheet.views[0].scale, sheet.width) == (20.0, 594.0)
