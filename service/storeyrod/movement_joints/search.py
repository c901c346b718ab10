"""Which of the permitted positions between two fixed joints are taken: the fewest, on the places liked best, then the most even.

A bay has a size, in ticks of length: its length, or what counts as more where area, ratio or a corner ask for less. It grows with the
bay, so that what a position needs at least grows from one to the next, and positions that need equally many are neighbours.

Where two neighbouring positions are too far apart, a bay stays too long. Then such bays are kept few and short: each spans one of
these gaps only, a joint beside it is left out where it would shorten the bay by less than a quarter of the limit, and everywhere
else the limit is kept; where area alone makes the gap, the bay over it keeps its length. What is least is the length over the limit, with a quarter of the limit for each joint.
"""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from itertools import pairwise
from typing import Final, Protocol

from storeyrod.geometry.ticks import TICKS_PER_MM

WORTH_A_JOINT: Final = 0.25
"""House: the share of the longest bay by which a joint must shorten one that stays too long."""

_SLACK: Final = 1.0
"""Ticks for snapping to the grid."""


class Stretch(Protocol):
    """Positions between two fixed joints, these included, in order; what each costs in liking, and the sizes of bays."""

    @property
    def stops(self) -> Sequence[float]:
        """Centres of joints."""

    @property
    def ranks(self) -> Sequence[int]:
        """The less, the better a place for a joint."""

    @property
    def limit(self) -> float:
        """Greatest size of a bay."""

    def size(self, before: int, after: int) -> float:
        """Size of the bay between two positions."""

    def length(self, before: int, after: int) -> float:
        """Size of the bay between two positions by its length alone."""

    def spacing(self, before: int, after: int) -> float:
        """Distance of two positions as it is balanced."""


def taken_positions(stretch: Stretch) -> list[int]:
    """Indices of the positions to take, in order.

    Of equally good ways the one that lies nearer to the first stop is taken.
    """
    last = len(stretch.stops) - 1
    if stretch.size(0, last) <= stretch.limit + _SLACK:
        return []
    earliest = _earliest(stretch)
    gaps = [index for index in range(1, last + 1) if earliest[index] == index]
    if gaps:
        return _least_overrun(stretch, earliest, gaps)
    return _most_even(stretch, earliest, _useful(_fewest_hops(earliest), earliest))


def _earliest(stretch: Stretch) -> list[int]:
    """For each stop the farthest one back from which a bay may reach it; itself where none may."""
    limit, before = stretch.limit + _SLACK, 0
    found = [0]
    for index in range(1, len(stretch.stops)):
        while before < index and stretch.size(before, index) > limit:
            before += 1
        found.append(before)
    return found


def _fewest_hops(earliest: Sequence[int]) -> list[int]:
    """Fewest bays from the first stop to each: the farther back, the fewer."""
    hops = [0]
    for before in earliest[1:]:
        hops.append(hops[before] + 1)
    return hops


def _useful(hops: Sequence[int], earliest: Sequence[int]) -> list[range]:
    """Stops of the shortest ways to the last one, by the number of bays before them."""
    layers = [range(len(hops) - 1, len(hops))]
    for bays in range(hops[-1] - 1, -1, -1):
        first = bisect_left(hops, bays)
        layers.append(
            range(max(first, earliest[layers[-1].start]), bisect_left(hops, bays + 1, hi=layers[-1].stop - 1))
        )
    return layers[::-1]


def _most_even(stretch: Stretch, earliest: Sequence[int], layers: Sequence[range]) -> list[int]:
    """Of the shortest ways the one on the places liked best, and of these the one with the least sum of squared bays in mm."""
    ranks, best = stretch.ranks, {0: (0, 0.0, 0)}
    for before, layer in pairwise(layers):
        for index in layer:
            best[index] = min(
                (best[at][0] + ranks[index], best[at][1] + _square(stretch, at, index), at)
                for at in range(max(before.start, earliest[index]), min(before.stop, index))
            )
    return _way_back([best[index][2] if index in best else 0 for index in range(len(stretch.stops))])


def _square(stretch: Stretch, before: int, after: int) -> float:
    return (stretch.spacing(before, after) / TICKS_PER_MM) ** 2


def _way_back(previous: Sequence[int]) -> list[int]:
    taken, index = [], previous[-1]
    while index > 0:
        taken.append(index)
        index = previous[index]
    return taken[::-1]


def _least_overrun(stretch: Stretch, earliest: Sequence[int], gaps: Sequence[int]) -> list[int]:
    """The way with the least length over the limit, joints counted in; then on the places liked best, then the most even."""
    price, ranks = stretch.limit * WORTH_A_JOINT, stretch.ranks
    spans = _long_bays(stretch, gaps, price)
    best: list[tuple[float, int, float, int]] = [(0.0, 0, 0.0, 0)]
    for index in range(1, len(stretch.stops)):
        best.append(
            min(
                (
                    best[at][0] + price + max(0.0, stretch.size(at, index) - stretch.limit - _SLACK),
                    best[at][1] + ranks[index],
                    best[at][2] + _square(stretch, at, index),
                    at,
                )
                for at in (*spans.get(index, ()), *range(earliest[index], index))
            )
        )
    return _way_back([row[3] for row in best])


def _long_bays(stretch: Stretch, gaps: Sequence[int], price: float) -> dict[int, list[int]]:
    """By the stop at which a bay over a gap ends, the stops from which it may start: each end so near to the gap that a joint at
    the gap itself would not be worth its price.
    """
    stops, starts = stretch.stops, dict[int, list[int]]()
    longest = stretch.limit + _SLACK
    for gap in gaps:
        most = longest if stretch.length(gap - 1, gap) <= longest else math.inf
        first = bisect_left(stops, stops[gap - 1] - price)
        for index in range(gap, bisect_right(stops, stops[gap] + price)):
            at = (before for before in range(first, gap) if stretch.length(before, index) <= most)
            starts.setdefault(index, []).extend(at)
    return starts
