"""Spans of an axis: what is told apart, what is merged, and that rounding only ever lets more in."""

import random

import numpy as np
import pytest

from storeyrod.cutting import sliding
from storeyrod.cutting.any_stage import AnyStage
from storeyrod.cutting.levels import level_axis
from storeyrod.cutting.sliding import Ends, Stretch, sliding_axis
from storeyrod.cutting.spans import Even, Listed
from storeyrod.cutting.stock import FACTORY, NO_EDGE, Blank, Edges, Item, Saw

PLAIN, LOW, HIGH = Ends(False, False), Ends(True, False), Ends(False, True)
BOARD = Blank(1200.0, 600.0, FACTORY, 0.0, None)


def most_in_a_row(shapes, blank, values, most):
    """Best value of pieces beside one another, all of one height."""
    across = sliding_axis(shapes, [blank], most)
    up = sliding_axis([Stretch(1.0, PLAIN) for _ in shapes], [Stretch(1.0, PLAIN)], most)
    return AnyStage(across, up).priced(np.array(values, np.float32)).most(0), across


def test_only_sums_of_lengths_are_positions():
    """403 and 503 in 1 203: 0, 403, 503, 806, 906, 1 006."""
    axis = sliding_axis([Stretch(403.0, PLAIN), Stretch(503.0, PLAIN)], [Stretch(1203.0, PLAIN)], 300)
    assert (axis.size, axis.exact) == (6, True)


def test_two_ends_and_a_middle_share_a_board():
    shapes = [Stretch(400.0, LOW), Stretch(400.0, HIGH), Stretch(400.0, PLAIN)]
    most, _ = most_in_a_row(shapes, Stretch(1200.0, Ends(True, True)), [10, 10, 1], 300)
    assert most == 21


def test_an_offcut_without_its_left_edge_gives_no_left_end():
    shapes = [Stretch(400.0, LOW), Stretch(400.0, HIGH), Stretch(400.0, PLAIN)]
    most, _ = most_in_a_row(shapes, Stretch(1200.0, HIGH), [10, 10, 1], 300)
    assert most == 12


@pytest.mark.parametrize("seed", range(5))
def test_positions_written_down_and_an_even_grid_give_the_same_values(seed, monkeypatch):
    chance = random.Random(seed)
    ends = [PLAIN, PLAIN, LOW, HIGH]
    shapes = [Stretch(float(chance.randrange(120, 400)), chance.choice(ends)) for _ in range(8)]
    values = [int(length) + chance.randrange(30) for length, _ in shapes]
    whole = Stretch(700.0, Ends(True, True))
    few, written = most_in_a_row(shapes, whole, values, 700)
    monkeypatch.setattr(sliding, "FEW_SUMS", 0)
    many, even = most_in_a_row(shapes, whole, values, 700)
    assert isinstance(written.batches[0], Listed)
    assert isinstance(even.batches[0], Even)
    assert (written.exact, even.exact) == (True, True)
    assert few == many


def test_pieces_a_fiftieth_of_a_board_long_are_left_out_of_pricing():
    shapes = [Stretch(20.0, PLAIN), Stretch(500.0, PLAIN)]
    most, axis = most_in_a_row(shapes, Stretch(1203.0, PLAIN), [1, 10], 300)
    assert (most, axis.exact) == (20, False)


@pytest.mark.parametrize("seed", range(5))
def test_a_coarse_grid_never_values_a_board_less(seed):
    chance = random.Random(seed)
    shapes = [Stretch(float(chance.randrange(150_000, 900_000)), PLAIN) for _ in range(40)]
    values = [int(length // 1000) for length, _ in shapes]
    fine, exact = most_in_a_row(shapes, Stretch(1_200_003.0, PLAIN), values, 2_000_000)
    coarse, rounded = most_in_a_row(shapes, Stretch(1_200_003.0, PLAIN), values, 200)
    assert not rounded.exact
    assert coarse >= fine
    assert exact.size > rounded.size


def test_stretches_between_ribs_that_hold_the_same_are_one_span():
    """Pieces of one course on a board of eight: 8, 7 .. 1 courses below the top, and as many with a kerf above them that hold one less."""
    axis = level_axis([Item(300.0, 75.0, NO_EDGE, 0.0, 1)], [BOARD], Saw(0.0, 75.0), 30)
    assert axis is not None
    assert axis.size == 1 + 8


def test_foot_and_head_tell_stretches_apart():
    feet = Item(300.0, 150.0, Edges(False, False, True, False), 0.0, 1)
    plain = level_axis([Item(300.0, 150.0, NO_EDGE, 0.0, 1)], [BOARD], Saw(0.0, 75.0), 30)
    both = level_axis([Item(300.0, 150.0, NO_EDGE, 0.0, 1), feet], [BOARD], Saw(0.0, 75.0), 30)
    assert plain is not None
    assert both is not None
    assert both.size > plain.size


def test_levels_beyond_the_limit_are_left_out_and_said_to_be():
    shapes = [Item(300.0, 90.0, NO_EDGE, float(phase), 1) for phase in range(0, 75, 5)]
    axis = level_axis(shapes, [BOARD], Saw(3.0, 75.0), 30)
    assert axis is not None
    assert not axis.exact
