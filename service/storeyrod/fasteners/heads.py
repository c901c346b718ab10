"""Which heads on a piece stand near an edge, where the board holds less of them."""

from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import Final

from storeyrod.fasteners.room import Room
from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.plane import distance_to_edge

_ROUNDING: Final = 1.0e-3
"""Ticks by which a head at that distance may be out on a rake."""

Row = tuple[float, tuple[float, ...]]
"""Height with places, in ticks."""


def heads_near_edge(room: Room, rows: Iterable[Row], within: float) -> int:
    """Heads closer than ``within`` ticks to an edge of their piece."""
    if not room.piece.part.shape:
        return _near_box(room, rows, within)
    return sum([_near_shape(room, row, within) for row in rows]) if within else 0


def _near_shape(room: Room, row: Row, within: float) -> int:
    """Heads in what is clear all round are none; of the others the distance decides, since corners and rakes reach less far."""
    height, xs = row
    clear, doubtful = room.clear_runs(height, within), xs
    for left, right in clear:
        low, high = left + within, right - within
        if low <= xs[0] and xs[-1] <= high:
            return 0
        doubtful = tuple([x for x in doubtful if not low <= x <= high])
    return sum([_is_near(room, x, height, within, clear) for x in doubtful]) if doubtful else 0


def _is_near(room: Room, x: float, height: float, within: float, clear: Sequence[Interval]) -> bool:
    if room.piece.kind == "shaped":
        if not any(left < x < right for left, right in clear):
            return True  # a level edge stands over or under it
        if not any(left + within <= x <= right - within for left, right in room.clear_runs(height, 0.0)):
            return True  # a plumb edge stands beside it
    edges = [edge for ring in room.piece.part.outline for edge in pairwise((*ring, ring[0]))]
    return any(distance_to_edge((x, height), *edge) < within - _ROUNDING for edge in edges)


def _near_box(room: Room, rows: Iterable[Row], within: float) -> int:
    piece = room.piece
    low, high = piece.bottom + within, piece.top - within
    left, right = piece.left + within, piece.right - within
    return sum(len(xs) if not low <= height <= high else sum(not left <= x <= right for x in xs) for height, xs in rows)
