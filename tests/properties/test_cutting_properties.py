"""What must hold for every cutting plan, on small random lists with ribs, factory edges and offcuts at hand."""

from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from properties.cutting_replay import check
from properties.guillotine_oracle import least_boards
from properties.sawn_lists import BOARD, edges, sawn_jobs, saws
from storeyrod.cutting.cut import can_be_cut, cut
from storeyrod.cutting.stock import NO_EDGE, Blank, Item, Saw


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


@st.composite
def plain_lists(draw, most=6):
    """A few pieces without edges or ribs, many of the board's height."""
    kerf = draw(st.sampled_from([0.0, 3.0]))
    heights = st.one_of(st.just(60.0), lengths(60))
    items = st.builds(Item, st.integers(20, 120).map(float), heights, st.just(NO_EDGE), st.just(0.0), st.just(1))
    return draw(st.lists(items, min_size=1, max_size=most)), Saw(kerf, None)


@given(jobs())
@settings(max_examples=60, deadline=None)
@pytest.mark.parametrize("effort", ["quick", "standard"])
def test_every_piece_is_cut_once_as_needed_and_nothing_is_lost(effort, job):
    items, stock, saw = job
    check(cut(items, BOARD, stock, saw, effort), items, BOARD, stock, saw)


@given(sawn_jobs())
@settings(max_examples=80, deadline=None)
def test_no_bound_lies_above_boards_that_were_enough(job):
    items, stock, saw, boards = job
    assume(all(can_be_cut(item, BOARD, saw) for item in items))
    for effort in ("quick", "standard"):
        plan = cut(items, BOARD, stock, saw, effort)
        check(plan, items, BOARD, stock, saw)
        assert plan.lower_bound <= boards


LARGE = replace(BOARD, width=12_000_000.0, height=6_000_000.0)


@given(
    sawn_jobs(
        LARGE,
        st.builds(Saw, st.sampled_from([0.0, 30_011.0]), st.sampled_from([None, 750_000.0, 430_003.0])),
        most_boards=4,
    )
)
@settings(max_examples=60, deadline=None)
def test_no_bound_lies_above_boards_that_were_enough_where_lengths_have_no_common_step(job):
    items, stock, saw, boards = job
    assume(all(can_be_cut(item, LARGE, saw) for item in items))
    plan = cut(items, LARGE, stock, saw, "standard")
    check(plan, items, LARGE, stock, saw)
    assert plan.lower_bound <= boards


@given(plain_lists())
@settings(max_examples=40, deadline=None)
def test_a_handful_of_pieces_takes_the_boards_that_trying_every_way_takes(job):
    items, saw = job
    plan, least = cut(items, BOARD, (), saw, "standard"), least_boards(items, BOARD, saw.kerf)
    assert plan.bought == least
    assert plan.lower_bound <= least


@given(jobs(), st.randoms(use_true_random=False))
@settings(max_examples=30, deadline=None)
def test_the_order_of_the_list_does_not_matter_and_two_runs_are_equal(job, chance):
    items, stock, saw = job
    plan = cut(items, BOARD, stock, saw, "standard")
    assert repr(cut(items, BOARD, stock, saw, "standard")) == repr(plan)
    other = cut(chance.sample(items, len(items)), BOARD, stock, saw, "standard")
    assert replace(other, sheets=()) == replace(plan, sheets=())


@given(plain_lists(8), st.lists(st.tuples(lengths(120), lengths(60)), min_size=1, max_size=2))
@settings(max_examples=30, deadline=None)
def test_offcuts_at_hand_never_cost_a_board(job, sizes):
    items, saw = job
    stock = [Blank(width, height, NO_EDGE, 0.0, 1) for width, height in sizes]
    without, plan = cut(items, BOARD, (), saw, "standard"), cut(items, BOARD, stock, saw, "standard")
    check(plan, items, BOARD, stock, saw)
    assert plan.bought <= without.bought


@given(plain_lists(8))
@settings(max_examples=30, deadline=None)
def test_a_wider_kerf_never_saves_a_board(job):
    items, saw = job
    thin, thick = cut(items, BOARD, (), saw, "standard"), cut(items, BOARD, (), Saw(saw.kerf + 2.0, None), "standard")
    assert thin.lower_bound <= thick.lower_bound
    assert thin.bought <= thick.bought


@given(plain_lists(8))
@settings(max_examples=20, deadline=None)
def test_a_board_for_every_piece_is_never_fewer_boards(job):
    items, saw = job
    assert cut(items, BOARD, (), saw, "quick").bought <= len(items)
