"""Which heads on a piece stand near an edge, where the board holds less of them."""

from collections.abc import Iterable

from storeyrod.fasteners.room import Room

Row = tuple[float, tuple[float, ...]]
"""Height with places, in ticks."""


def heads_near_edge(room: Room, rows: Iterable[Row], within: float) -> int:
    """Heads closer than ``within`` ticks to an edge of their piece, measured square to it."""
    if not room.piece.part.shape:
        return _near_box(room, rows, within)
    return sum([_near_shape(room, row, within) for row in rows]) if within else 0


def _near_shape(room: Room, row: Row, within: float) -> int:
    height, xs = row
    clear = room.clear_runs(height, within)
    near = len(xs)
    for left, right in clear:
        near -= sum([left + within <= x <= right - within for x in xs])
    return near


def _near_box(room: Room, rows: Iterable[Row], within: float) -> int:
    piece = room.piece
    low, high = piece.bottom + within, piece.top - within
    left, right = piece.left + within, piece.right - within
    return sum(len(xs) if not low <= height <= high else sum(not left <= x <= right for x in xs) for height, xs in rows)
