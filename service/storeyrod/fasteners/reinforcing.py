"""More fasteners than the pattern has, where wind asks for them: rows between its rows first, then closer columns in all rows."""

import math
from collections.abc import Mapping, Sequence

from storeyrod.fasteners.pattern import Pattern
from storeyrod.fasteners.room import Room, Stretch
from storeyrod.fasteners.rows import another_row
from storeyrod.fasteners.spread import spread
from storeyrod.geometry.ticks import ROUNDING_GUARD


def one_more(rows: dict[int, list[float]], room: Room) -> bool:
    """Add a whole row on a course or, where none has room, one fastener to the emptiest stretch: false where there is no room."""
    course = another_row(room.level.rule, room.courses, tuple(rows))
    if course is None:
        return closer_columns(rows, room)
    rows[course] = _row(rows, room, course)
    return True


def _row(rows: dict[int, list[float]], room: Room, course: int) -> list[float]:
    """A row as full as the fullest one."""
    pattern, columns = room.pattern, max(map(len, rows.values()))
    places: list[float] = []
    for stretch in room.at(course):
        share = (stretch.wall[1] - stretch.wall[0]) / room.piece.width
        wanted = max(pattern.columns_for(stretch.wall[1] - stretch.wall[0]), round(columns * share))
        places += spread(stretch, pattern, wanted, places)
    return places


def closer_columns(rows: dict[int, list[float]], room: Room) -> bool:
    """One fastener more where a row has space, in the emptiest row and of that in its emptiest stretch: false where none has any."""
    for course in sorted(rows, key=lambda number: (len(rows[number]), number)):
        for stretch in sorted(room.at(course), key=lambda one: -_share(rows[course], one)):
            held, others = split(rows[course], stretch)
            wider = spread(stretch, room.pattern, len(held) + 1, [x for x in others if x < stretch.room[0]][-1:])
            if len(wider) > len(held) and are_clear(wider, course, rows, others, room.pattern):
                rows[course] = sorted([*others, *wider])
                return True
    return False


def held_in(places: Sequence[float], stretch: Stretch) -> list[float]:
    """Places of a row in one of its stretches; a tick more or less is rounding."""
    return [x for x in places if stretch.room[0] - 1.0 <= x <= stretch.room[1] + 1.0]


def split(places: Sequence[float], stretch: Stretch) -> tuple[Sequence[float], Sequence[float]]:
    """Places of a row in one of its stretches, and the others."""
    held = held_in(places, stretch)
    return held, [x for x in places if x not in held] if len(held) < len(places) else ()


def _share(places: Sequence[float], stretch: Stretch) -> float:
    """Length of board for each fastener of a stretch, with one more."""
    return (stretch.wall[1] - stretch.wall[0]) / (len(held_in(places, stretch)) + 1)


def are_clear(
    places: Sequence[float],
    course: int,
    rows: Mapping[int, Sequence[float]],
    others: Sequence[float],
    pattern: Pattern,
) -> bool:
    """Whether places on a course keep the spacing from all others, on their own course these: arms may have theirs on the course
    next to it.
    """
    least = pattern.spacing * (1.0 - ROUNDING_GUARD)
    for number, xs in rows.items():
        rise = abs(number - course) * pattern.pitch
        beside = others if number == course else xs
        if rise < least and any(math.hypot(x - y, rise) < least for x in places for y in beside):
            return False
    return True
