"""Fasteners that stand too close to an edge of the substrate go to the nearest place that keeps the distance.

The number stays. Those of a stretch move along it together, or each goes by itself, on another course if need be, whichever is the
shorter way. Where there is neither, the distance gives way step by step.
"""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from operator import sub
from typing import Final, NamedTuple

from storeyrod.fasteners.evening import evened
from storeyrod.fasteners.gaps import gaps_in, number_of, staggered_rows, taken_on
from storeyrod.fasteners.reinforcing import are_clear, held_in, split
from storeyrod.fasteners.room import STEPS, Room, Stretch
from storeyrod.fasteners.spread import spread

_Rows = dict[int, list[float]]

_GUARD: Final = 1.0
"""A tick, by which places may be out from rounding."""


_TIMES: Final = 4
"""What the first fasteners leave may be room for others."""


class _Group(NamedTuple):
    """Fasteners on a stretch of a course, some of them too close to an edge."""

    course: int
    stretch: Stretch
    close: list[float]


class _Move(NamedTuple):
    """Where a group goes: those that are left too close, the longest way of the others, and all rows afterwards."""

    left: list[float]
    way: float
    rows: _Rows


def moved_off(rows: _Rows, room: Room) -> _Rows:
    """Rows of a piece with its fasteners moved off edges of the substrate; the same rows where none is too close."""
    for _ in range(_TIMES if room.beside and any_close(rows, room) else 0):
        before, groups = rows, list(_too_close(rows, room))
        for step in range(STEPS):
            left = []
            for group in groups:
                move = _move(rows, group, room, step)
                rows = move.rows
                if move.left:
                    left.append(group._replace(close=move.left))
            if not left and step == 0:
                return rows
            groups = left
        if rows is before:
            break
    return rows


def kept_off(rows: _Rows, room: Room) -> _Rows:
    """Rows of a piece moved off edges of the substrate or, on a rectangle where some find no place, as many laid anew in staggered
    rows that keep the distance; the same rows where none is too close.
    """
    moved = moved_off(rows, room)
    if room.piece.part.shape or not room.beside or not any_close(moved, room):
        return moved
    farthest, total = next(room.distances()), number_of(rows)
    anew = next(staggered_rows(farthest, total - 1), None) if farthest is not room else None
    return moved if anew is None or any_close(anew, room) else evened(_less_full(anew, total), farthest)


def _less_full(rows: _Rows, total: int) -> _Rows:
    """So many of the fasteners of rows: one after the other is left out in the middle of the fullest row."""
    made = dict(rows)
    for _ in range(number_of(rows) - total):
        course = max(made, key=lambda number: (len(made[number]), -number))
        middle = len(made[course]) // 2
        made[course] = [*made[course][:middle], *made[course][middle + 1 :]]
    return {course: xs for course, xs in made.items() if xs}


def any_close(rows: _Rows, room: Room) -> bool:
    """Whether any fastener is closer to an edge than the distance."""
    distance, heights = room.pattern.from_end - _GUARD, room.heights
    for course, xs in rows.items():
        for edge in room.beside:
            span = edge.reached(heights[course], distance)
            if span is not None and any(span[0] < x < span[1] for x in xs):
                return True
    return False


def _too_close(rows: Mapping[int, Sequence[float]], room: Room) -> Iterator[_Group]:
    """Groups with those of their fasteners that are too close."""
    for course, xs in rows.items():
        near = room.near(course)
        close = [x for x in xs if any(start + _GUARD < x < stop - _GUARD for start, stop in near)] if near else []
        for stretch in room.stretches[course] if close else ():
            held = held_in(close, stretch)
            if held:
                yield _Group(course, stretch, held)


def _farthest(room: Room) -> float:
    """How far a fastener goes: half the length of board that a column holds. A part that is passed by would hang loose."""
    return room.pattern.board / room.pattern.columns / 2.0


def _within_reach(x: float, course: int, room: Room, step: int) -> Iterator[tuple[float, int, float, float]]:
    """Courses from the nearest, how far up or down they are, and where on them a fastener may go to."""
    farthest, heights = _farthest(room), room.heights
    height = heights[course]
    for rise, other in sorted([(abs(heights[other] - height), other) for other in room.courses]):
        if rise > farthest:
            return
        reach = math.sqrt(farthest * farthest - rise * rise)
        start, stop = x - reach, x + reach
        for _, (low, high) in room.kept(other, step):
            if low <= stop and high >= start:
                yield rise, other, low if low > start else start, high if high < stop else stop


def _move(rows: _Rows, group: _Group, room: Room, step: int) -> _Move:
    """The shorter way in which a group comes to keep a distance; a short one along its course keeps the row straight."""
    along = _along(rows, group, room, step)
    if along is not None and along.way <= room.pattern.from_end - room.pattern.edge:
        return along
    away = _away(rows, group, room, step)
    return away if along is None or (not away.left and away.way < along.way) else along


def _along(rows: _Rows, group: _Group, room: Room, step: int) -> _Move | None:
    """All of a stretch spread anew over what keeps the distance, where that is in one piece; one that keeps more does not give way."""
    (low, high), course = group.stretch.room, group.course
    kept = [one for one in room.kept(course, step) if low <= one.room[0] and one.room[1] <= high]
    if len(kept) != 1:
        return None
    held, others = split(rows[course], group.stretch)
    if step and any(x not in group.close for x in held):
        return None
    places = spread(kept[0], room.pattern, len(held), ())
    if len(places) < len(held):
        return None
    way = max(map(abs, map(sub, held, places)))
    if way > _farthest(room) or not are_clear(places, course, rows, others, room.pattern):
        return None
    return _Move([], way, {**rows, course: sorted([*others, *places])})


def _away(rows: _Rows, group: _Group, room: Room, step: int) -> _Move:
    """Each that is too close to the nearest gap that keeps the distance, on any course; those without one are left.

    One that has no place even where the distance gives way is no longer looked at.
    """
    made, longest, left = rows, 0.0, []
    for x in group.close:
        row = made.get(group.course, ())
        if x not in row or (step == 0 and not any(_within_reach(x, group.course, room, STEPS - 1))):
            continue
        without = {**made, group.course: [other for other in row if other != x]}
        places = _within_reach(x, group.course, room, step)
        way, course, place = _nearest(x, places, without, room)
        if way == math.inf:
            left.append(x)
            continue
        made = {**without, course: sorted([*without.get(course, ()), place])}
        longest = max(longest, way)
    return _Move(left, longest, {course: xs for course, xs in made.items() if xs} if made is not rows else rows)


def _nearest(
    x: float, places: Iterable[tuple[float, int, float, float]], rows: _Rows, room: Room
) -> tuple[float, int, float]:
    """The nearest place in a gap: how far away, endlessly where there is none, on which course, of equal ones the lowest, and where."""
    best = math.inf, 0, 0.0
    for rise, other, low, high in places:
        if rise > best[0]:
            break
        for start, stop in gaps_in((low, high), taken_on(rows, other, room.pattern)):
            place = min(max(x, start), stop)
            best = min(best, (math.hypot(place - x, rise), other, place))
    return best
