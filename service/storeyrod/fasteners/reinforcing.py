"""More fasteners than the pattern has, where wind asks for them: rows between its rows first, then closer columns in all rows."""

import math
from collections.abc import Mapping, Sequence

from storeyrod.fasteners.pattern import Pattern
from storeyrod.fasteners.room import Room
from storeyrod.fasteners.rows import another_row
from storeyrod.fasteners.spread import spread
from storeyrod.geometry.ticks import ROUNDING_GUARD


def reinforce(rows: dict[int, list[float]], room: Room, needed: int) -> None:
    """Add whole rows on courses, then one fastener at a time to the emptiest stretch, up to the number that is needed.

    A larger number goes on from where a smaller one ends, so it never comes to fewer.
    """
    while _total(rows) < needed:
        course = another_row(room.pattern, room.courses, rows)
        if course is None:
            break
        rows[course] = _row(rows, room, course)
    while _total(rows) < needed and _closer(rows, room):
        pass


def _total(rows: dict[int, list[float]]) -> int:
    return sum(map(len, rows.values()))


def _row(rows: dict[int, list[float]], room: Room, course: int) -> list[float]:
    """A row as full as the fullest one."""
    pattern, columns = room.pattern, max(map(len, rows.values()))
    places: list[float] = []
    for stretch in room.at(course):
        share = (stretch.wall[1] - stretch.wall[0]) / room.piece.width
        wanted = max(pattern.columns_for(stretch.wall[1] - stretch.wall[0]), round(columns * share))
        places += spread(stretch, pattern, wanted, places)
    return places


def _closer(rows: dict[int, list[float]], room: Room) -> bool:
    """One fastener more in a row that has space, the emptiest first: false where none has any."""
    for course in sorted(rows, key=lambda number: (len(rows[number]), number)):
        for stretch in room.at(course):
            low, high = stretch.room
            held = [x for x in rows[course] if low <= x <= high]
            others = [x for x in rows[course] if not low <= x <= high]
            wider = spread(stretch, room.pattern, len(held) + 1, [x for x in others if x < low][-1:])
            if len(wider) > len(held) and _are_clear(wider, course, {**rows, course: others}, room.pattern):
                rows[course] = sorted([*others, *wider])
                return True
    return False


def _are_clear(places: Sequence[float], course: int, rows: Mapping[int, Sequence[float]], pattern: Pattern) -> bool:
    """Whether places on a course keep the spacing from all others: arms may have theirs on the course next to it."""
    least = pattern.spacing * (1.0 - ROUNDING_GUARD)
    rises = ((abs(number - course) * pattern.pitch, xs) for number, xs in rows.items())
    return all(math.hypot(x - y, rise) >= least for rise, xs in rises if rise < least for x in places for y in xs)
