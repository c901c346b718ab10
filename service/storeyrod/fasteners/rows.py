"""Which courses of a piece carry fasteners.

Rows count courses from the lowest of the whole building, so that they line up across seams; a piece that they miss, or in which
they are too few, gets more, each where it stands farthest from the others.
"""

from collections.abc import Sequence
from functools import lru_cache
from typing import Final, NamedTuple

_MOST_KNOWN: Final = 1024
"""Choices of rows that are kept in mind: pieces of all walls of one system share a few dozen."""


class RowRule(NamedTuple):
    """What decides which courses carry rows: one in so many, the rise from course to course and the least spacing in ticks."""

    every: int
    pitch: float
    least: float

    @property
    def phase(self) -> int:
        """Courses whose number leaves this rest carry fasteners: the middle of every group, so that rows of a whole board
        keep about equal distances from its foot and its head.
        """
        return self.every // 2


@lru_cache(_MOST_KNOWN)
def rows_for(rule: RowRule, courses: tuple[int, ...], wanted: int) -> tuple[int, ...]:
    """Courses with fasteners, from the lowest, of those with room; at least the wanted number wherever the spacing allows."""
    rows = _spaced(rule, [course for course in courses if course % rule.every == rule.phase])
    while len(rows) < wanted:
        further = another_row(rule, courses, tuple(rows))
        if further is None:
            even = _even(rule, courses, wanted)
            return tuple(even if len(even) > len(rows) else rows)
        rows = sorted([*rows, further])
    return tuple(rows)


def _spaced(rule: RowRule, courses: Sequence[int]) -> list[int]:
    """The courses from the lowest, without those that stand closer than the least spacing."""
    kept: list[int] = []
    for course in courses:
        if not kept or (course - kept[-1]) * rule.pitch >= rule.least:
            kept.append(course)
    return kept


def _even(rule: RowRule, courses: Sequence[int], wanted: int) -> list[int]:
    """The wanted number of rows from the lowest to the highest course with room: a counted row between them may block them."""
    if len(courses) < wanted or wanted < 2:
        return []
    step = (len(courses) - 1) / (wanted - 1)
    return _spaced(rule, [courses[round(index * step)] for index in range(wanted)])


@lru_cache(_MOST_KNOWN)
def another_row(rule: RowRule, courses: tuple[int, ...], rows: tuple[int, ...]) -> int | None:
    """The course farthest from all rows, among equals the nearest to the middle, then the lower; none without spacing."""
    if not courses:
        return None
    middle = (courses[0] + courses[-1]) / 2.0

    def merit(course: int) -> tuple[float, float, int]:
        apart = min((abs(course - row) for row in rows), default=0)
        return -apart, abs(course - middle), course

    free = [course for course in courses if course not in rows]
    best = min(free, key=merit, default=None)
    if best is None or any(abs(best - row) * rule.pitch < rule.least for row in rows):
        return None
    return best
