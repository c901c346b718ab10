"""Staggered rows drawn out over their board, so that no end of it hangs free while fasteners stand close at the other."""

from collections.abc import Mapping, Sequence
from typing import Final

from storeyrod.fasteners.room import Room

_ALIKE: Final = 1.0
"""Ticks by which places of one plumb column may differ from rounding."""


def evened(rows: Mapping[int, Sequence[float]], room: Room) -> dict[int, list[float]]:
    """Rows on courses with one stretch each, stretched sideways towards equal shares of the board; distances only grow.

    Rows of other pieces stay as they are.
    """
    stretches = [one for course in rows for one in room.at(course)]
    low, high = max(one.room[0] for one in stretches), min(one.room[1] for one in stretches)
    columns = _columns(rows)
    first, last = columns[0], columns[-1]
    if len(stretches) != len(rows) or first < low - _ALIKE or last > high + _ALIKE:
        return {course: list(xs) for course, xs in rows.items()}
    left, right = max(one.wall[0] for one in stretches), min(one.wall[1] for one in stretches)
    share = (right - left) / len(columns)
    start, end = _at_least(last - first, max(low, left + share / 2.0), min(high, right - share / 2.0), (low, high))
    times = (end - start) / (last - first) if len(columns) > 1 else 0.0
    return {course: [min(start + (x - first) * times, end) for x in xs] for course, xs in rows.items()}


def _columns(rows: Mapping[int, Sequence[float]]) -> list[float]:
    """Plumb columns of the rows, from the left."""
    found: list[float] = []
    for x in sorted({x for xs in rows.values() for x in xs}):
        if not found or x - found[-1] > _ALIKE:
            found.append(x)
    return found


def _at_least(length: float, start: float, end: float, room: tuple[float, float]) -> tuple[float, float]:
    """An interval drawn out on both sides to a length, and pushed into a room that holds it; one of no length has its middle."""
    if end < start:
        start = end = min(max((start + end) / 2.0, room[0]), room[1])
    missing = max(0.0, length - (end - start))
    start, end = start - missing / 2.0, end + missing / 2.0
    if start < room[0]:
        start, end = room[0], end + room[0] - start
    if end > room[1]:
        start, end = max(room[0], start - (end - room[1])), room[1]
    return start, end
