"""Fasteners that stand too close to an edge of the substrate go to the nearest place that keeps the distance.

The number stays. Those of a stretch move along it together, or each goes by itself, on another course if need be, whichever is the
shorter way. Where there is neither, the distance gives way step by step.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from typing import Final, NamedTuple

from storeyrod.fasteners.gaps import gaps_in, taken_on
from storeyrod.fasteners.reinforcing import are_clear, held_in
from storeyrod.fasteners.room import Room, Stretch
from storeyrod.fasteners.spread import spread
from storeyrod.fasteners.substrate_outline import near_edges

_Rows = dict[int, list[float]]

_GUARD: Final = 1.0
"""A tick, by which places may be out from rounding."""


_TIMES: Final = 2
"""What the first fasteners leave may be room for others."""


class _Group(NamedTuple):
    """Fasteners on a stretch of a course, some of them too close to an edge."""

    course: int
    stretch: Stretch


class _Move(NamedTuple):
    """Where a group goes: the longest way of one of its fasteners, all rows afterwards, and how many are left where they are."""

    way: float
    rows: _Rows
    left: int


def moved_off(rows: _Rows, room: Room) -> _Rows:
    """Rows of a piece with its fasteners moved off edges of the substrate; the same rows where none is too close."""
    if not room.beside:
        return rows
    for _ in range(_TIMES):
        groups = list(_too_close(rows, room))
        if not groups:
            break
        rows = _settled(rows, groups, room)
    return rows


def _settled(rows: _Rows, groups: Sequence[_Group], room: Room) -> _Rows:
    """Rows with groups moved as far from edges as they go."""
    for farther in room.distances():
        if farther is room:
            break
        left = []
        for group in groups:
            move = min(_moves(rows, group, farther, room), key=_merit)
            rows = move.rows
            if move.left:
                left.append(group)
        groups = left
    return rows


def _merit(move: _Move) -> tuple[int, float]:
    return move.left, move.way


def _too_close(rows: Mapping[int, Sequence[float]], room: Room) -> Iterator[_Group]:
    for course, xs in rows.items():
        close = _close(xs, course, room)
        if close:
            for stretch in room.stretches[course]:
                if held_in(close, stretch):
                    yield _Group(course, stretch)


def _close(xs: Sequence[float], course: int, room: Room) -> list[float]:
    """Places of a course that are too close to an edge."""
    near = near_edges(room.beside, room.heights[course], room.pattern.from_end - _GUARD)
    return [x for x in xs if any(start < x < stop for start, stop in near)] if near else []


def _moves(rows: _Rows, group: _Group, farther: Room, room: Room) -> Iterator[_Move]:
    """Ways in which a group comes to keep a distance, no fastener farther than half the length of board that a column holds: a
    part of the piece that is passed by would hang loose.
    """
    farthest = room.pattern.board / room.pattern.columns / 2.0
    along = _along(rows, group, farther)
    if along is not None and along.way <= farthest:
        yield along
    yield _away(rows, group, farther, room, farthest)


def _along(rows: _Rows, group: _Group, farther: Room) -> _Move | None:
    """All of a stretch spread anew over what keeps the distance, where that is in one piece."""
    (low, high), pattern = group.stretch.room, farther.pattern
    rooms = [room for _, room in farther.at(group.course) if low <= room[0] and room[1] <= high]
    if len(rooms) != 1:
        return None
    held = held_in(rows[group.course], group.stretch)
    others = [x for x in rows[group.course] if x not in held]
    places = spread(Stretch(group.stretch.wall, rooms[0]), pattern, len(held), ())
    if len(places) < len(held) or not are_clear(places, group.course, {**rows, group.course: others}, pattern):
        return None
    way = max(abs(after - before) for before, after in zip(held, places, strict=True))
    return _Move(way, {**rows, group.course: sorted([*others, *places])}, 0)


def _away(rows: _Rows, group: _Group, farther: Room, room: Room, farthest: float) -> _Move:
    """Each that is too close to the nearest gap that keeps the distance, on any course; those without one stay."""
    made, longest, left = dict(rows), 0.0, 0
    height = room.heights[group.course]
    for x in _close(held_in(rows[group.course], group.stretch), group.course, room):
        without = {**made, group.course: [other for other in made[group.course] if other != x]}
        way, course, place = min(_gaps_by_way(without, farther, x, height), default=(math.inf, 0, 0.0))
        if way > farthest:
            left += 1
            continue
        made = {**without, course: sorted([*without.get(course, ()), place])}
        longest = max(longest, way)
    return _Move(longest, {course: xs for course, xs in made.items() if xs}, left)


def _gaps_by_way(rows: _Rows, farther: Room, x: float, height: float) -> Iterator[tuple[float, int, float]]:
    """Nearest places in all gaps: how far from a place, course, and where."""
    for course, stretches in farther.stretches.items():
        taken, rise = taken_on(rows, course, farther.pattern), farther.heights[course] - height
        for stretch in stretches:
            for low, high in gaps_in(stretch.room, taken):
                place = min(max(x, low), high)
                yield math.hypot(place - x, rise), course, place
