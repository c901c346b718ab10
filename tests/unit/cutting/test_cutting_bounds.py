"""Bounds by hand, and what each of them is called."""

import subprocess
import sys
from dataclasses import replace

import pytest

from load.bench_cutting import BOARD as BENCH_BOARD
from load.bench_cutting import CEILING, GRID, random_list
from storeyrod.cutting.cut import cut
from storeyrod.cutting.plan import Work
from storeyrod.cutting.stock import FACTORY, NO_EDGE, Blank, Item, Saw

BOARD = Blank(1200.0, 600.0, FACTORY, 0.0, None)
SAW = Saw(3.0, None)


def item(width, height, count):
    return Item(float(width), float(height), NO_EDGE, 0.0, count)


def test_area_bounds_small_pieces():
    """40 pieces of 297.75 x 297.75 and a kerf: 40 x 300.75 x 300.75 / (1 203 x 603) = 4.99."""
    plan = cut([Item(297.75, 297.75, NO_EDGE, 0.0, 40)], BOARD, (), SAW, "quick")
    assert (plan.lower_bound, plan.bound) == (5, "area")


def test_pieces_over_half_a_board_each_way_take_a_board_each():
    plan = cut([item(610, 310, 7)], BOARD, (), SAW, "quick")
    assert (plan.lower_bound, plan.bound, plan.status) == (7, "large_pieces", "proved")


def test_offcuts_at_hand_lower_the_bound():
    stock = [Blank(700.0, 400.0, NO_EDGE, 0.0, 3)]
    plan = cut([item(610, 310, 7)], BOARD, stock, SAW, "quick")
    assert (plan.bought, plan.lower_bound) == (4, 4)


def test_fractions_of_patterns_bound_what_area_and_large_pieces_do_not():
    """Two pieces of 450 fill 903 of 1 203 and leave room for none: 10 boards for 20, where area gives 8."""
    plan = cut([item(450, 600, 20)], BOARD, (), SAW, "standard")
    assert (plan.bought, plan.lower_bound, plan.bound) == (10, 10, "any_stage_lp")


def test_quick_answers_without_a_solver():
    assert cut([item(450, 600, 20)], BOARD, (), SAW, "quick").work == Work(0, 0, 0)


def test_the_solver_is_loaded_by_those_alone_who_need_it():
    code = "import sys, storeyrod.cutting.cut; sys.exit('highspy' in sys.modules)"
    assert (
        subprocess.run([sys.executable, "-c", code], env={"PYTHONPATH": ":".join(sys.path)}, check=False).returncode
        == 0
    )


def test_the_solver_writes_nothing(capfd):
    cut([item(450, 600, 20), item(333, 200, 9)], BOARD, (), SAW, "standard")
    assert capfd.readouterr() == ("", "")


def test_thorough_is_no_worse_than_standard_and_its_bound_no_lower():
    items = random_list("B", 4, 100, 30)
    standard, thorough = (cut(items, BENCH_BOARD, (), Saw(GRID, None), effort) for effort in ("standard", "thorough"))
    assert thorough.bought <= standard.bought
    assert thorough.lower_bound >= standard.lower_bound


@pytest.mark.parametrize(("kind", "seed"), CEILING)
def test_random_lists_of_600_come_within_one_board_or_half_a_percent_of_the_best_bound_known(kind, seed):
    """Bounds found before by another column generation with exact any-stage pricing, on the same lists."""
    ceiling = CEILING[kind, seed]
    plan = cut(random_list(kind, seed), BENCH_BOARD, (), Saw(GRID, None), "standard")
    assert plan.lower_bound == ceiling
    assert ceiling <= plan.bought <= ceiling + max(1, int(0.005 * ceiling))


def test_the_same_list_in_another_order_is_the_same_answer():
    items = random_list("A", 3)
    plans = [cut(some, BENCH_BOARD, (), Saw(GRID, None), "standard") for some in (items, items[::-1])]
    assert replace(plans[0], sheets=()) == replace(plans[1], sheets=())
    assert [(sheet.count, len(sheet.places)) for sheet in plans[0].sheets] == [
        (sheet.count, len(sheet.places)) for sheet in plans[1].sheets
    ]
