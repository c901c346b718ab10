"""Arithmetic of intervals on a line: sorted lists of disjoint (low, high) pairs."""

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from typing import Final

Interval = tuple[float, float]

_FEW: Final = 4
"""Intervals that are looked at one by one sooner than searched."""


def union(intervals: Iterable[Interval]) -> list[Interval]:
    """Disjoint cover of the intervals, touching ones joined, empty ones dropped."""
    joined: list[Interval] = []
    for low, high in sorted(interval for interval in intervals if interval[1] > interval[0]):
        if joined and low <= joined[-1][1]:
            joined[-1] = (joined[-1][0], max(joined[-1][1], high))
        else:
            joined.append((low, high))
    return joined


def intersection(first: Sequence[Interval], second: Sequence[Interval]) -> list[Interval]:
    """What lies in both lists."""
    common: list[Interval] = []
    i = j = 0
    while i < len(first) and j < len(second):
        low = max(first[i][0], second[j][0])
        high = min(first[i][1], second[j][1])
        if low < high:
            common.append((low, high))
        if first[i][1] < second[j][1]:
            i += 1
        else:
            j += 1
    return common


def difference(first: Sequence[Interval], second: Sequence[Interval]) -> list[Interval]:
    """What lies in the first list and not in the second."""
    rest: list[Interval] = []
    for low, high in first:
        start = low
        for cut_low, cut_high in second:
            if cut_high <= start or cut_low >= high:
                continue
            if cut_low > start:
                rest.append((start, cut_low))
            start = max(start, cut_high)
        if start < high:
            rest.append((start, high))
    return rest


def clip(intervals: Sequence[Interval], low: float, high: float) -> list[Interval]:
    """The part of the intervals between two positions."""
    kept: list[Interval] = []
    first = bisect_left(intervals, (low, low)) - 1 if len(intervals) > _FEW else 0
    for index in range(max(0, first), len(intervals)):
        a, b = intervals[index]
        if a >= high:
            break
        if b > low and b > a and high > low:
            kept.append((a if a > low else low, b if b < high else high))
    return kept


def total(intervals: Iterable[Interval]) -> float:
    """Length of all intervals together."""
    return sum((high - low for low, high in intervals), 0.0)
