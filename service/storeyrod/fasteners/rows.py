"""Which courses of a piece carry fasteners.

Rows count courses from the lowest of the whole building, so that they line up across seams; a piece that they miss, or in which
they are too few, gets more, each where it stands farthest from the others.
"""

from collections.abc import Collection, Sequence

from storeyrod.fasteners.pattern import Pattern
from storeyrod.fasteners.room import Room


def rows_for(pattern: Pattern, room: Room, wanted: int) -> list[int]:
    """Courses with fasteners, from the lowest; at least the wanted number wherever the spacing allows."""
    counted = [course for course in room.courses if course % pattern.every == pattern.phase]
    rows = _spaced(pattern, counted)
    while len(rows) < wanted:
        further = another_row(pattern, room.courses, rows)
        if further is None:
            return max(rows, _even(pattern, room.courses, wanted), key=len)
        rows = sorted([*rows, further])
    return rows


def _spaced(pattern: Pattern, courses: Sequence[int]) -> list[int]:
    """The courses from the lowest, without those that stand closer than the least spacing."""
    kept: list[int] = []
    for course in courses:
        if not kept or (course - kept[-1]) * pattern.pitch >= pattern.spacing:
            kept.append(course)
    return kept


def _even(pattern: Pattern, courses: Sequence[int], wanted: int) -> list[int]:
    """The wanted number of rows from the lowest to the highest course with room: a counted row between them may block them."""
    if len(courses) < wanted or wanted < 2:
        return []
    step = (len(courses) - 1) / (wanted - 1)
    return _spaced(pattern, [courses[round(index * step)] for index in range(wanted)])


def another_row(pattern: Pattern, courses: Sequence[int], rows: Collection[int]) -> int | None:
    """The course farthest from all rows, among equals the nearest to the middle, then the lower; none without spacing."""
    if not courses:
        return None
    middle = (courses[0] + courses[-1]) / 2.0

    def merit(course: int) -> tuple[float, float, int]:
        apart = min((abs(course - row) for row in rows), default=0)
        return -apart, abs(course - middle), course

    free = [course for course in courses if course not in rows]
    best = min(free, key=merit, default=None)
    if best is None or any(abs(best - row) * pattern.pitch < pattern.spacing for row in rows):
        return None
    return best
