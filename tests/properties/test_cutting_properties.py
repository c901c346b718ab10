"""What must hold for every cutting plan, on small random lists with ribs, factory edges and offcuts at hand."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from properties.cutting_replay import check
from storeyrod.cutting.cut import can_be_cut, cut
from storeyrod.cutting.stock import FACTORY, NO_EDGE, Blank, Edges, Item, Saw

BOARD = Blank(120.0, 60.0, FACTORY, 0.0, None)

edges = st.one_of(st.just(NO_EDGE), st.builds(Edges, st.booleans(), st.booleans(), st.booleans(), st.booleans()))
saws = st.builds(Saw, st.sampled_from([0.0, 3.0, 5.0]), st.sampled_from([None, 15.0, 7.0]))


def lengths(high):
    return st.integers(3, int(high)).map(float)


def phases(saw):
    return st.just(0.0) if saw.rib_pitch is None else st.integers(0, int(saw.rib_pitch) - 1).map(float)


@st.composite
def jobs(draw):
    saw = draw(saws)
    blanks = st.builds(Blank, lengths(120), lengths(60), edges, phases(saw), st.integers(1, 3))
    items = st.builds(Item, lengths(120), lengths(60), edges, phases(saw), st.integers(0, 4))
    wanted = draw(st.lists(items, max_size=8))
    return [item for item in wanted if can_be_cut(item, BOARD, saw)], draw(st.lists(blanks, max_size=2)), saw


@given(jobs())
@settings(max_examples=60, deadline=None)
@pytest.mark.parametrize("effort", ["quick", "standard"])
def test_every_piece_is_cut_once_as_needed_and_nothing_is_lost(effort, job):
    items, stock, saw = job
    check(cut(items, BOARD, stock, saw, effort), items, BOARD, stock, saw)


@given(jobs(), st.randoms(use_true_random=False))
@settings(max_examples=30, deadline=None)
def test_the_order_of_the_list_does_not_matter_and_two_runs_are_equal(job, chance):
    items, stock, saw = job
    plan = cut(items, BOARD, stock, saw, "standard")
    assert cut(items, BOARD, stock, saw, "standard") == plan
    other = cut(chance.sample(items, len(items)), BOARD, stock, saw, "standard")
    assert replace(other, sheets=()) == replace(plan, sheets=())
