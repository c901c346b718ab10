"""Which pieces stand on boards of the row below, and which carry boards of the row above."""

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import replace

from storeyrod.boards.pieces import Piece
from storeyrod.boards.runs import HAIRLINE
from storeyrod.geometry.intervals import Interval, union


def with_neighbours(pieces: Sequence[Piece]) -> tuple[Piece, ...]:
    """The pieces of a face with what meets them at foot and head, more than a hairline wide."""
    heads, feet = _ends(pieces, at_head=True), _ends(pieces, at_head=False)
    return tuple(
        replace(
            piece,
            meets_below=_meets(_end(piece, at_head=False), heads.get(piece.bottom, ())),
            meets_above=_meets(_end(piece, at_head=True), feet.get(piece.top, ())),
        )
        for piece in pieces
    )


def _ends(pieces: Sequence[Piece], *, at_head: bool) -> Mapping[float, Sequence[Interval]]:
    """Where pieces end at their heads, or begin at their feet, by level."""
    found: dict[float, list[Interval]] = {}
    for piece in pieces:
        found.setdefault(piece.top if at_head else piece.bottom, []).extend(_end(piece, at_head=at_head))
    return {level: union(runs) for level, runs in found.items()}


def _end(piece: Piece, *, at_head: bool) -> Sequence[Interval]:
    if not piece.part.rings:
        return [(piece.left, piece.right)]
    return piece.region.level_runs(piece.top - HAIRLINE if at_head else piece.bottom)


def _meets(own: Sequence[Interval], others: Sequence[Interval]) -> bool:
    for left, right in own:
        index = max(0, bisect_right(others, (left,)) - 1)
        while index < len(others) and others[index][0] < right - HAIRLINE:
            if min(right, others[index][1]) - max(left, others[index][0]) > HAIRLINE:
                return True
            index += 1
    return False
