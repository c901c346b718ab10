"""Small random lists against the CP-SAT solver of OR-Tools, which knows nothing of patterns."""

import random
from itertools import pairwise

import pytest
from ortools.sat.python import cp_model

from storeyrod.cutting.cut import cut
from storeyrod.cutting.stock import FACTORY, NO_EDGE, Blank, Edges, Item, Saw

BOARD = Blank(1200.0, 600.0, FACTORY, 0.0, None)
KERF = 4


def solved(model):
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    assert solver.solve(model) == cp_model.OPTIMAL
    return round(solver.objective_value)


def boards_in_a_row(items, most):
    """Least boards for pieces of a board's height: each goes into one board; at most one left and one right end in each."""
    model = cp_model.CpModel()
    used = [model.new_bool_var("") for _ in range(most)]
    inside = [[model.new_bool_var("") for _ in range(most)] for _ in items]
    for row in inside:
        model.add_exactly_one(row)
    for board in range(most):
        lengths = [(int(item.width) + KERF) * inside[index][board] for index, item in enumerate(items)]
        model.add(sum(lengths) <= (int(BOARD.width) + KERF) * used[board])
        for side in (0, 1):
            model.add_at_most_one(inside[index][board] for index, item in enumerate(items) if item.needs[side])
    for before, after in pairwise(used):
        model.add_implication(after, before)
    model.minimize(sum(used))
    return solved(model)


def boards_without_guillotine(items, most):
    """Least boards for rectangles that do not overlap, whether or not straight cuts part them: never more than with cuts."""
    model = cp_model.CpModel()
    across, up, boards = [], [], []
    width, height = int(BOARD.width) + KERF, int(BOARD.height) + KERF
    for item in items:
        wide, high = int(item.width) + KERF, int(item.height) + KERF
        board = model.new_int_var(0, most - 1, "")
        x, y, place = (
            model.new_int_var(0, width - wide, ""),
            model.new_int_var(0, height - high, ""),
            model.new_int_var(0, most * width, ""),
        )
        model.add(place == x + width * board)
        across.append(model.new_fixed_size_interval_var(place, wide, ""))
        up.append(model.new_fixed_size_interval_var(y, high, ""))
        boards.append(board)
    model.add_no_overlap_2d(across, up)
    last = model.new_int_var(0, most - 1, "")
    model.add_max_equality(last, boards)
    model.minimize(last + 1)
    return solved(model)


@pytest.mark.parametrize("seed", range(8))
def test_pieces_of_full_height_take_the_boards_that_the_oracle_takes(seed):
    chance = random.Random(seed)
    ends = [NO_EDGE, NO_EDGE, Edges(True, False, False, False), Edges(False, True, False, False)]
    items = [Item(float(chance.randrange(150, 900)), 600.0, chance.choice(ends), 0.0, 1) for _ in range(12)]
    plan = cut(items, BOARD, (), Saw(float(KERF), None), "standard")
    assert plan.bought == boards_in_a_row(items, plan.bought)


@pytest.mark.parametrize("seed", range(5))
def test_no_fewer_boards_than_the_oracle_needs_where_cuts_may_end_anywhere(seed):
    chance = random.Random(seed)
    items = [
        Item(float(chance.randrange(200, 900)), float(chance.randrange(150, 600)), NO_EDGE, 0.0, 1) for _ in range(7)
    ]
    plan = cut(items, BOARD, (), Saw(float(KERF), None), "standard")
    assert plan.bought >= boards_without_guillotine(items, plan.bought)
