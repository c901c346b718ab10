"""Intervals on a line: membership is the independent judge."""

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from storeyrod.geometry.intervals import Interval, clip, difference, intersection, total, union

POSITIONS = st.integers(min_value=0, max_value=40)
PAIRS = st.lists(st.tuples(POSITIONS, POSITIONS).map(lambda pair: (float(min(pair)), float(max(pair)))), max_size=8)
PROBES = [half / 2 + 0.25 for half in range(82)]
"""Between all whole and half positions: never on an end."""


def inside(intervals: list[Interval], x: float) -> bool:
    return any(low < x < high for low, high in intervals)


def is_sorted_and_disjoint(intervals: list[Interval]) -> bool:
    ends = [end for interval in intervals for end in interval]
    return all(a < b for a, b in pairwise(ends))


def test_touching_intervals_are_joined_and_empty_ones_dropped() -> None:
    assert union([(5.0, 9.0), (1.0, 3.0), (3.0, 5.0), (12.0, 12.0)]) == [(1.0, 9.0)]


def test_a_cut_in_the_middle_leaves_two_parts() -> None:
    assert difference([(0.0, 10.0)], [(4.0, 6.0)]) == [(0.0, 4.0), (6.0, 10.0)]


def test_touching_intervals_have_nothing_in_common() -> None:
    assert intersection([(0.0, 4.0)], [(4.0, 9.0)]) == []


def test_clipping_keeps_the_part_between() -> None:
    assert clip([(0.0, 4.0), (6.0, 9.0)], 3.0, 7.0) == [(3.0, 4.0), (6.0, 7.0)]


def test_the_length_of_nothing_is_a_float_zero() -> None:
    assert isinstance(total([]), float)


@given(PAIRS)
def test_a_union_holds_what_any_holds(pairs: list[Interval]) -> None:
    joined = union(pairs)
    assert is_sorted_and_disjoint(joined)
    assert all(inside(joined, x) == inside(pairs, x) for x in PROBES)


@given(PAIRS, PAIRS)
def test_an_intersection_holds_what_both_hold(first: list[Interval], second: list[Interval]) -> None:
    a, b = union(first), union(second)
    common = intersection(a, b)
    assert common == intersection(b, a)
    assert all(inside(common, x) == (inside(a, x) and inside(b, x)) for x in PROBES)


@given(PAIRS, PAIRS)
def test_a_difference_holds_what_only_the_first_holds(first: list[Interval], second: list[Interval]) -> None:
    a, b = union(first), union(second)
    rest = difference(a, b)
    assert all(inside(rest, x) == (inside(a, x) and not inside(b, x)) for x in PROBES)
    assert total(rest) == total(a) - total(intersection(a, b))
