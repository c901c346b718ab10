"""Which positions are taken, against a search over every set of them."""

from dataclasses import dataclass
from itertools import chain, combinations, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from storeyrod.movement_joints.search import taken_positions

MM = 10_000
"""Ticks of a millimetre."""


@dataclass(frozen=True)
class Line:
    """Positions on a line, whose bays are as long as they are apart."""

    stops: tuple[float, ...]
    ranks: tuple[int, ...]
    limit: float

    def size(self, before: int, after: int) -> float:
        return self.stops[after] - self.stops[before]

    length = spacing = size


def line(limit_mm: float, *stops_mm: float, ranks: tuple[int, ...] = ()) -> Line:
    return Line(tuple(x * MM for x in stops_mm), ranks or (0,) * len(stops_mm), limit_mm * MM)


def every_choice(count: int) -> chain[tuple[int, ...]]:
    inner = range(1, count - 1)
    return chain.from_iterable(combinations(inner, size) for size in range(count - 1))


def bays(on: Line, taken: tuple[int, ...]) -> list[tuple[int, int]]:
    return list(pairwise([0, *taken, len(on.stops) - 1]))


def squares(on: Line, taken: tuple[int, ...]) -> float:
    return sum((on.spacing(a, b) / MM) ** 2 for a, b in bays(on, taken))


def least(on: Line) -> tuple[float, int, float] | None:
    """Of all sets that keep the limit: joints, liking and squares of the best; none where no set keeps it."""
    keys = [
        (len(taken), sum(on.ranks[index] for index in taken), squares(on, taken))
        for taken in every_choice(len(on.stops))
        if all(on.size(a, b) <= on.limit for a, b in bays(on, taken))
    ]
    return min(keys, default=None)


@st.composite
def lines(draw: st.DrawFn) -> Line:
    gaps = draw(st.lists(st.integers(1, 9), min_size=1, max_size=9))
    stops = [sum(gaps[:index]) * 100 for index in range(len(gaps) + 1)]
    ranks = (0, *draw(st.lists(st.integers(0, 2), min_size=len(gaps) - 1, max_size=len(gaps) - 1)), 0)
    return line(draw(st.integers(4, 20)) * 100, *stops, ranks=ranks)


@given(lines())
@settings(max_examples=300, deadline=None)
def test_as_few_joints_as_any_set_has_then_the_places_liked_best_then_the_most_even(on: Line) -> None:
    best = least(on)
    taken = tuple(taken_positions(on))
    if best is not None:
        assert (len(taken), sum(on.ranks[index] for index in taken), squares(on, taken)) == pytest.approx(best)


def cost(on: Line, taken: tuple[int, ...]) -> float:
    """Length over the limit, and a quarter of the limit for each bay."""
    return sum(on.limit / 4 + max(0.0, on.size(a, b) - on.limit) for a, b in bays(on, taken))


def is_sound(on: Line, taken: tuple[int, ...]) -> bool:
    """Whether every bay over the limit spans a gap that no joint can bridge."""
    return all(
        on.size(a, b) <= on.limit or any(on.size(at, at + 1) > on.limit for at in range(a, b))
        for a, b in bays(on, taken)
    )


@given(lines())
@settings(max_examples=300, deadline=None)
def test_where_a_gap_cannot_be_bridged_the_least_length_stays_over_the_limit(on: Line) -> None:
    """Equal to the least over all sets whose long bays each span such a gap."""
    taken = tuple(taken_positions(on))
    assert is_sound(on, taken)
    if least(on) is None:
        sound = [choice for choice in every_choice(len(on.stops)) if is_sound(on, choice)]
        assert cost(on, taken) == pytest.approx(min(cost(on, choice) for choice in sound), abs=len(on.stops) * 2)


def test_a_joint_beside_a_gap_is_placed_where_it_takes_a_quarter_of_the_limit_from_the_long_bay() -> None:
    """The gap of 8 m cannot be bridged by bays of 6 m; 1.6 m beside it are over a quarter of 6 m, 1.4 m are not."""
    assert taken_positions(line(6000, 0, 1600, 9600)) == [1]
    assert taken_positions(line(6000, 0, 1400, 9400)) == []


def test_one_joint_stands_between_two_gaps_that_cannot_be_bridged() -> None:
    """On a pier with three positions 300 mm apart the middle one makes the bays most even."""
    assert taken_positions(line(6000, 0, 8000, 8300, 8600, 16_600)) == [2]


def test_joints_beyond_a_gap_that_cannot_be_bridged_keep_the_limit() -> None:
    on = line(6000, 0, *range(8000, 30_001, 500))
    reached = [0.0, *(on.stops[index] / MM for index in taken_positions(on)), 30_000.0]
    assert max(after - before for before, after in pairwise(reached[1:])) <= 6000
    assert reached[1] <= 8000 + 1500


def test_of_two_equally_even_ways_the_one_nearer_to_the_first_stop_is_taken() -> None:
    assert taken_positions(line(600, 0, 450, 550, 1000)) == [1]


def test_a_place_liked_better_is_taken_though_bays_are_less_even() -> None:
    assert taken_positions(line(900, 0, 200, 500, 1000, ranks=(0, 0, 1, 0))) == [1]
