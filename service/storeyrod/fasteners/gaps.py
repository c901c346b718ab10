"""Gaps between fasteners: places where one more keeps the least spacing from all others, in rows closer than it too."""

import math
from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from storeyrod.fasteners.evening import evened
from storeyrod.fasteners.pattern import Pattern
from storeyrod.fasteners.room import Room
from storeyrod.geometry.intervals import Interval

_ROUNDING: Final = 1.0e-3
"""Ticks by which a gap may be too short from rounding."""

_WIDER: Final = (1.5, 1.25)
"""Distances of columns in staggered rows by the least one that lets them stagger: the widest first."""


def into_a_gap(rows: dict[int, list[float]], room: Room) -> bool:
    """One fastener more in the middle of the widest gap of all courses, of equal ones the lowest: false where there is none."""
    best: tuple[float, int, float] | None = None
    for course, stretches in room.stretches.items():
        taken = taken_on(rows, course, room.pattern)
        for stretch in stretches:
            for low, high in gaps_in(stretch.room, taken):
                if best is None or high - low > best[0] + _ROUNDING:
                    best = high - low, course, (low + high) / 2.0
    if best is None:
        return False
    _, course, place = best
    rows[course] = sorted([*rows.get(course, ()), place])
    return True


def taken_on(rows: Mapping[int, Sequence[float]], course: int, pattern: Pattern) -> list[Interval]:
    """What of a course is closer to a fastener than the spacing, from left to right."""
    taken = []
    for other, xs in rows.items():
        rise = abs(other - course) * pattern.pitch
        if rise < pattern.spacing:
            reach = math.sqrt(pattern.spacing**2 - rise**2)
            taken += [(x - reach, x + reach) for x in xs]
    return sorted(taken)


def gaps_in(room: Interval, taken: Sequence[Interval]) -> Iterator[Interval]:
    """What of a room is free, ends included."""
    low, end = room
    for start, stop in taken:
        if stop <= low:
            continue
        if start >= low - _ROUNDING:
            yield low, max(low, min(start, end))
        low = max(low, stop)
        if low > end + _ROUNDING:
            return
    yield min(low, end), end


def staggered_rows(room: Room, more_than: int) -> Iterator[dict[int, list[float]]]:
    """Rows in the gaps of those below, with ever more columns, from the first that hold more than a number.

    On every course, or on every second and so on, as long as rows so far apart need the gaps. None where they never hold more.
    """
    closest = [
        rows
        for courses, least in _courses_to_stagger(room)
        for apart in sorted({least, room.pattern.spacing})
        for rows in _from_both_ends(room, courses, apart, half=False)
    ]
    found = {number_of(rows): rows for rows in closest}
    most = max(found, default=0)
    for times in _WIDER if most > more_than else ():
        for courses, least in _courses_to_stagger(room):
            found |= {number_of(rows): rows for rows in _from_both_ends(room, courses, least * times, half=True)}
    yield from (evened(found[number], room) for number in sorted(found) if number > more_than)


def _courses_to_stagger(room: Room) -> Iterator[tuple[list[int], float]]:
    """Every course, every second from the lowest or the next one, and so on, with the least distance of columns that lets their rows
    stand in each other's gaps; at last courses that are the spacing apart.
    """
    pattern = room.pattern
    for step in range(1, math.ceil(pattern.spacing / pattern.pitch) + 1):
        rise = min(step * pattern.pitch, pattern.spacing)
        least = max(pattern.spacing, 2.0 * math.sqrt(pattern.spacing**2 - rise**2))
        for first in range(step):
            courses = [course for course in room.courses if (course - room.courses[0]) % step == first]
            if courses:
                yield courses, least


def _from_both_ends(room: Room, courses: Sequence[int], apart: float, *, half: bool) -> list[dict[int, list[float]]]:
    """Rows filled from the left and from the right; ``half`` sets those that stand back by half the distance where they keep it."""
    rooms = {course: [stretch.room for stretch in room.stretches[course]] for course in courses}
    turned = {course: [(-high, -low) for low, high in reversed(row)] for course, row in rooms.items()}
    from_left, mirrored = (_staggered(some, apart, room.pattern, half=half) for some in (rooms, turned))
    from_right = {course: [-x for x in reversed(xs)] for course, xs in mirrored.items()}
    return [from_right, from_left]


def number_of(rows: Mapping[int, Sequence[float]]) -> int:
    """Fasteners in rows."""
    return sum(map(len, rows.values()))


def _staggered(
    rooms: Mapping[int, Sequence[Interval]], apart: float, pattern: Pattern, *, half: bool
) -> dict[int, list[float]]:
    """Every course filled from the left, each place as soon as it keeps the spacing from all others."""
    rows: dict[int, list[float]] = {}
    for course, row in rooms.items():
        taken = taken_on(rows, course, pattern)
        found = [place for room in row for place in _filled(room, taken, apart)]
        rows[course] = _set_back(found, row[0], taken, apart) if half and found and len(row) == 1 else found
    return {course: xs for course, xs in rows.items() if xs}


def _filled(room: Interval, taken: Sequence[Interval], apart: float) -> Iterator[float]:
    place, high = room
    for start, stop in (*taken, (math.inf, math.inf)):
        while place <= high and place <= start + _ROUNDING:
            yield place
            place += apart
        place = max(place, stop)


def _set_back(row: list[float], room: Interval, taken: Sequence[Interval], apart: float) -> list[float]:
    """A row that starts behind the end of its room, moved on to half the distance where it keeps clear of what is taken."""
    low, high = room
    on = min(low + apart / 2.0 - row[0], high - row[-1])
    if row[0] <= low + _ROUNDING or on <= 0.0:
        return row
    moved = [x + on for x in row]
    return row if any(start < x < stop for x in moved for start, stop in taken) else moved
