"""What the saw, factory edges and ribs allow, on boards small enough to work out by hand (lengths in mm for once)."""

import pytest

from storeyrod.cutting.cut import can_be_cut, cut
from storeyrod.cutting.plan import Cut, Place, Rest
from storeyrod.cutting.stock import FACTORY, NO_EDGE, Blank, Edges, Item, Saw

BOARD = Blank(1200.0, 600.0, FACTORY, 0.0, None)
SAW = Saw(3.0, None)
RIBS = Saw(3.0, 75.0)
LEFT, RIGHT = Edges(True, False, False, False), Edges(False, True, False, False)
BOTTOM, TOP = Edges(False, False, True, False), Edges(False, False, False, True)


def item(width, height, needs=NO_EDGE, phase=0.0, count=1):
    return Item(float(width), float(height), needs, float(phase), count)


def offcut(width, height, edges=NO_EDGE, phase=0.0, count=1):
    return Blank(float(width), float(height), edges, float(phase), count)


def planned(items, stock=(), saw=SAW, effort="standard"):
    return cut(items, BOARD, stock, saw, effort)


def test_pieces_and_the_kerf_between_them_may_fill_a_board():
    assert planned([item(600, 600), item(597, 600)]).bought == 1


def test_pieces_that_fill_a_board_without_the_kerf_take_two():
    assert planned([item(600, 600, count=2)]).bought == 2


def test_a_knife_without_kerf_parts_a_board_in_halves():
    assert planned([item(600, 600, count=2)], saw=Saw(0.0, None)).bought == 1


def test_a_piece_of_the_size_of_a_board_needs_no_cut():
    (sheet,) = planned([item(1200, 600)]).sheets
    assert (sheet.cuts, sheet.rests) == ((), ())


def test_the_last_cut_is_flush_with_the_edge_and_costs_nothing():
    (sheet,) = planned([item(600, 600), item(597, 600)]).sheets
    assert sheet.cuts == (Cut(True, 600.0, 0.0, 600.0),)
    assert sheet.rests == ()


def test_what_is_left_is_named_with_the_factory_edges_it_keeps():
    (sheet,) = planned([item(500, 600)]).sheets
    assert sheet.rests == (Rest(503.0, 0.0, 697.0, 600.0, Edges(False, True, True, True)),)


def test_a_rest_thinner_than_the_kerf_is_lost_in_it():
    (sheet,) = planned([item(1198, 600)]).sheets
    assert sheet.cuts == (Cut(True, 1198.0, 0.0, 600.0),)
    assert sheet.rests == ()


def test_less_than_a_kerf_is_trimmed_off_before_a_right_edge_with_the_blade_reaching_over():
    (sheet,) = planned([item(1198, 600, RIGHT)]).sheets
    assert sheet.places == (Place(0, 2.0, 0.0),)
    assert sheet.cuts == (Cut(True, -1.0, 0.0, 600.0),)


def test_what_is_left_over_pieces_side_by_side_stays_in_one():
    (sheet,) = planned([item(300, 200, count=3)]).sheets
    assert max(rest.width * rest.height for rest in sheet.rests) == 1200.0 * 397.0


@pytest.mark.parametrize("needs", [LEFT, RIGHT])
def test_a_board_has_one_factory_edge_on_each_side_however_many_pieces_want_it(needs):
    plan = planned([item(400, 600, needs, count=2)])
    assert (plan.bought, plan.lower_bound) == (2, 2)


def test_a_left_and_a_right_end_come_out_of_one_board():
    plan = planned([item(400, 600, LEFT), item(400, 600, RIGHT)])
    assert plan.bought == 1
    assert {place.x for place in plan.sheets[0].places} == {0.0, 800.0}


def test_two_low_pieces_share_the_left_edge_one_over_the_other():
    assert planned([item(400, 290, LEFT, count=2)]).bought == 1


def test_feet_and_heads_come_out_of_the_bottom_and_the_top_of_a_board():
    plan = planned([item(1200, 290, BOTTOM), item(1200, 290, TOP)])
    assert plan.bought == 1
    assert {place.y for place in plan.sheets[0].places} == {0.0, 310.0}


def test_two_feet_of_half_width_lie_side_by_side():
    assert planned([item(590, 300, BOTTOM, count=2)]).bought == 1


def test_two_feet_wider_than_half_a_board_take_two():
    plan = planned([item(610, 100, BOTTOM, count=2)])
    assert (plan.bought, plan.lower_bound) == (2, 2)


def test_with_ribs_the_kerf_costs_a_whole_course():
    """300 and a kerf of 3 end at 303: the next rib line is at 375, and 225 are left above it."""
    assert planned([item(1200, 300), item(1200, 225)], saw=RIBS).bought == 1
    assert planned([item(1200, 300, count=2)], saw=RIBS).lower_bound == 2


def test_pieces_stand_on_rib_lines():
    (sheet,) = planned([item(1200, 300), item(1200, 225)], saw=RIBS).sheets
    assert {place.y for place in sheet.places} <= {0.0, 75.0, 225.0, 300.0, 375.0}
    assert {place.y % 75.0 for place in sheet.places} == {0.0}


def test_a_piece_whose_foot_is_30_over_a_rib_line_is_cut_30_over_one():
    (sheet,) = planned([item(1200, 300, phase=30)], saw=RIBS).sheets
    assert sheet.places[0].y % 75.0 == 30.0


def test_an_offcut_whose_foot_is_30_over_a_rib_line_gives_such_a_piece_from_its_foot():
    plan = planned([item(500, 300, phase=30)], [offcut(500, 300, phase=30)], RIBS)
    assert (plan.bought, plan.sheets[0].blank, plan.sheets[0].places[0].y) == (0, 1, 0.0)


def test_an_offcut_without_the_edge_a_piece_needs_is_left():
    plan = planned([item(500, 600, LEFT)], [offcut(500, 600, RIGHT)])
    assert (plan.bought, plan.sheets[0].blank) == (1, 0)


def test_offcuts_are_used_no_more_often_than_there_are():
    plan = planned([item(500, 600, count=6)], [offcut(500, 600, count=2)])
    assert plan.bought == 2
    assert sum(sheet.count for sheet in plan.sheets if sheet.blank == 1) == 2


def test_an_offcut_is_left_whole_where_a_board_that_is_bought_anyway_has_room():
    plan = planned([item(1000, 600), item(190, 600)], [offcut(400, 600)])
    assert [sheet.blank for sheet in plan.sheets] == [0]


def test_boards_cut_alike_are_one_sheet():
    (sheet,) = planned([item(700, 600, count=40)]).sheets
    assert sheet.count == 40


def test_equal_pieces_listed_apart_are_given_out_in_turn():
    plan = planned([item(700, 600, count=2), item(700, 600, count=3)])
    assert sorted((sheet.places[0].item, sheet.count) for sheet in plan.sheets) == [(0, 2), (1, 3)]


def test_nothing_wanted_takes_nothing():
    plan = planned([item(700, 600, count=0)])
    assert (plan.sheets, plan.bought, plan.lower_bound, plan.status) == ((), 0, 0, "proved")


@pytest.mark.parametrize(
    ("piece", "saw"),
    [
        pytest.param(item(1201, 600), SAW, id="wider than a board"),
        pytest.param(item(600, 600, Edges(True, True, False, False)), SAW, id="both sides of a narrower piece"),
        pytest.param(item(600, 590, phase=30), RIBS, id="no room above its rib line"),
    ],
)
def test_a_piece_that_no_board_gives_is_refused(piece, saw):
    assert not can_be_cut(piece, BOARD, saw)
    with pytest.raises(ValueError, match="no board gives"):
        planned([piece], saw=saw)
