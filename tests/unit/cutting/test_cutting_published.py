"""Instances of the literature that our model covers: lengths become pieces of a board's height, plates are boards, no kerf."""

from collections import Counter

import numpy as np
import pytest

from storeyrod.cutting.any_stage import AnyStage
from storeyrod.cutting.cut import cut
from storeyrod.cutting.effort import LIMITS
from storeyrod.cutting.generation import Generation
from storeyrod.cutting.greedy import Greedy
from storeyrod.cutting.job import Job
from storeyrod.cutting.master import Master
from storeyrod.cutting.search import stages_of
from storeyrod.cutting.sliding import Ends, Stretch, sliding_axis
from storeyrod.cutting.stock import FACTORY, NO_EDGE, Blank, Item, Saw
from unit.cutting.published_cutting import CGCUT1, GCUT1, N1C1W1_A, PAPER_ROLLS, T60_00, TRIM_LOSS

NO_KERF = Saw(0.0, None)


def lengths(counts):
    return [Item(float(length), 1.0, NO_EDGE, 0.0, count) for length, count in counts.items()]


def bar(length):
    return Blank(float(length), 1.0, FACTORY, 0.0, None)


# Rolls: optimum and 72.9167 of its relaxation as published; the 453 of the trim-loss model and the 25 bins from memory; t60_00: published.
@pytest.mark.parametrize(
    ("length", "counts", "optimum"),
    [
        pytest.param(5600, PAPER_ROLLS, 73, id="paper rolls"),
        pytest.param(100, TRIM_LOSS, 453, id="trim loss"),
        pytest.param(100, Counter(N1C1W1_A), 25, id="N1C1W1_A"),
        pytest.param(1000, Counter(T60_00), 20, id="t60_00"),
    ],
)
def test_stock_to_be_cut_to_length_is_proved_optimal(length, counts, optimum):
    plan = cut(lengths(counts), bar(length), (), NO_KERF, "standard")
    assert (plan.bought, plan.lower_bound, plan.status) == (optimum, optimum, "proved")


# Published for the rolls; worked out by two other solvers for the trim-loss model, 452.25.
@pytest.mark.parametrize(
    ("length", "counts", "relaxed"),
    [pytest.param(5600, PAPER_ROLLS, 72.9167, id="rolls"), pytest.param(100, TRIM_LOSS, 452.25, id="trim loss")],
)
def test_fractions_of_patterns_come_to_the_published_relaxation(length, counts, relaxed):
    job = Job(tuple(lengths(counts)), (bar(length),), NO_KERF)
    master, limits = Master(job), LIMITS["thorough"]
    master.add(pattern for cutting in Greedy(job).cuttings(job.all_wanted) for pattern, _ in cutting.used)
    generation = Generation(job, stages_of(job, limits), master, limits)
    while generation.add_columns(master.solve()):
        pass
    assert master.solve().boards == pytest.approx(relaxed, abs=5e-5)


def test_gcut1_one_piece_of_each_takes_five_plates():
    """5 is the least by an independent solver, even where cuts may end anywhere."""
    items = [Item(float(width), float(height), NO_EDGE, 0.0, 1) for width, height in GCUT1]
    plan = cut(items, Blank(250.0, 250.0, FACTORY, 0.0, None), (), NO_KERF, "standard")
    assert plan.bought == 5


@pytest.mark.parametrize(
    ("plate", "values", "most"),
    [
        pytest.param((250, 250), {size: size[0] * size[1] for size in GCUT1}, 56460, id="gcut1"),
        pytest.param((15, 10), CGCUT1, 249, id="cgcut1"),
    ],
)
def test_pricing_finds_the_published_value_of_a_plate_cut_without_limits_of_pieces(plate, values, most):
    """Unconstrained guillotine optima: gcut1 by Beasley (1985); cgcut1 as tables list it, 249 (with limits it is 244)."""
    no_ends = Ends(False, False)
    across, up = (
        sliding_axis(
            [Stretch(float(size[axis]), no_ends) for size in values], [Stretch(float(plate[axis]), no_ends)], 300
        )
        for axis in (0, 1)
    )
    priced = AnyStage(across, up).priced(np.array(list(values.values()), np.float32))
    assert priced.most(0) == most
