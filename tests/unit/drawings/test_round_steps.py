"""Round steps and their multiples, by hand."""

import pytest

from storeyrod.drawings.round_steps import decimals_of, multiples_between, multiples_covering, round_step


@pytest.mark.parametrize(
    ("span", "at_most", "step"), [(20.0, 12, 2.0), (20.0, 10, 2.0), (20.1, 10, 5.0), (1.0, 12, 0.1), (0.013, 4, 0.005)]
)
def test_the_smallest_of_one_two_five_that_is_not_too_many(span, at_most, step):
    assert round_step(span, at_most) == pytest.approx(step)


def test_multiples_between_leave_out_the_ends():
    assert multiples_between(0.0, 8.0, 2.0) == [2.0, 4.0, 6.0]
    assert multiples_between(-3.0, 3.5, 2.0) == [-2.0, 0.0, 2.0]


def test_multiples_between_values_closer_than_a_step_are_none():
    assert multiples_between(2.1, 3.9, 2.0) == []


def test_multiples_covering_reach_over_both_ends():
    assert multiples_covering(610.0, 2337.0, 500.0) == [500.0, 1000.0, 1500.0, 2000.0, 2500.0]


def test_multiples_are_written_as_they_are_meant():
    assert multiples_between(0.0, 0.35, 0.1) == [0.1, 0.2, 0.3]


@pytest.mark.parametrize(("step", "decimals"), [(5.0, 0), (1.0, 0), (0.5, 1), (0.1, 1), (0.02, 2)])
def test_decimals_follow_the_step(step, decimals):
    assert decimals_of(step) == decimals
