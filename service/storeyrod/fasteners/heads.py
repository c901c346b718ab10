"""Which heads on a piece stand near an edge, where the board holds less of them."""

from collections.abc import Iterable
from itertools import pairwise

from storeyrod.boards.pieces import Piece
from storeyrod.geometry.plane import distance_to_edge


def heads_near_edge(piece: Piece, rows: Iterable[tuple[float, tuple[float, ...]]], within: float) -> int:
    """Heads closer than ``within`` to an edge of their piece; rows are heights with places, in ticks."""
    if piece.part.is_rectangle:
        return _near_box(piece, rows, within)
    edges = [edge for ring in piece.part.outline for edge in pairwise((*ring, ring[0]))]
    return sum(min(distance_to_edge((x, height), *edge) for edge in edges) < within for height, xs in rows for x in xs)


def _near_box(piece: Piece, rows: Iterable[tuple[float, tuple[float, ...]]], within: float) -> int:
    low, high = piece.bottom + within, piece.top - within
    left, right = piece.left + within, piece.right - within
    return sum(len(xs) if not low <= height <= high else sum(not left <= x <= right for x in xs) for height, xs in rows)
