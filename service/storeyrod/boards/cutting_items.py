"""What the pieces of a wall ask of the boards they are cut from: boxes, factory edges, and their height over a rib line."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.boards.pieces import Piece
from storeyrod.boards.runs import HAIRLINE
from storeyrod.cutting.stock import Edges, Item
from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.ticks import ticks
from storeyrod.wall.checks import OFF_COURSE_MM
from storeyrod.wall.face import Face
from storeyrod.wall.system import Board

_NOISE: Final = 1.0e-3
"""Ticks that a corner on a rake may be out by calculation."""


@dataclass(frozen=True, slots=True)
class BoardSize:
    """A board and its saw in ticks: which edges are profiled, and the distance of its ribs, none where it has none."""

    width: float
    height: float
    kerf: float
    rib_pitch: float | None
    profiled: Edges

    @property
    def area(self) -> float:
        """Area in square ticks."""
        return self.width * self.height


def board_size(board: Board) -> BoardSize:
    """The board of a system."""
    sides = board.side_edges != "square"
    return BoardSize(
        ticks(board.cover_length_mm),
        ticks(board.cover_height_mm),
        ticks(board.kerf_mm),
        None if board.rib_pitch_mm is None else ticks(board.rib_pitch_mm),
        Edges(sides, sides, board.bottom_edge != "square", board.top_edge != "square"),
    )


def item_of(piece: Piece, size: BoardSize, *, base: bool) -> Item:
    """The box of a piece, up to a whole tick, as something to cut.

    ``base`` says that its foot stands on the base trim and shall be a factory edge.
    """
    width = min(size.width, math.ceil(piece.width - _NOISE))
    height = min(size.height, math.ceil(piece.lift + piece.height - _NOISE) - _foot(piece))
    needs = _needs(piece, size, width, height, base=base)
    return Item(width, height, needs, _phase(piece, size, height, needs), 1)


def wanted_edges(piece: Piece, size: BoardSize, *, base: bool) -> Edges:
    """Factory edges where a profiled edge meets its neighbour or the base trim."""
    return Edges(
        size.profiled.left and piece.meets_left,
        size.profiled.right and piece.meets_right,
        size.profiled.bottom and (piece.meets_below or base),
        size.profiled.top and piece.meets_above,
    )


def _needs(piece: Piece, size: BoardSize, width: float, height: float, *, base: bool) -> Edges:
    """The edges wanted that a board can give.

    Of two edges farther apart than the piece is wide or high only one can be a factory edge: the left one, and the upper one, since
    a foot is cut at a step of the base. A foot between two ribs has none either.
    """
    left, right, bottom, top = wanted_edges(piece, size, base=base)
    bottom = bottom and not (top and height < size.height) and (piece.meets_below or not _off_rib(piece, size))
    return Edges(left, right and not (left and width < size.width), bottom, top)


def _off_rib(piece: Piece, size: BoardSize) -> bool:
    return size.rib_pitch is not None and _over_rib(piece.lift, size.rib_pitch) != 0.0


def _phase(piece: Piece, size: BoardSize, height: float, needs: Edges) -> float:
    """Height of the foot over a rib line; at a factory edge it follows from that."""
    if size.rib_pitch is None or needs.bottom:
        return 0.0
    if needs.top:
        return (size.height - height) % size.rib_pitch
    return _over_rib(_foot(piece), size.rib_pitch)


def _foot(piece: Piece) -> int:
    """Height of a foot over that of its board, down to a whole tick, as its head is taken up to one."""
    return math.floor(piece.lift + _NOISE)


def _over_rib(height: float, pitch: float) -> float:
    """Height over the rib line below; 0 as near to a line as a course may be off its line without remark."""
    over = float(round(height % pitch))
    limit = ticks(OFF_COURSE_MM)
    return 0.0 if over <= limit or over >= pitch - limit else over


def feet_on_base(face: Face, pieces: Sequence[Piece]) -> list[tuple[Interval, ...]]:
    """For every piece of a face, where its foot stands on a level foot of the outline."""
    feet = list(_level_feet(face))
    return [
        tuple(
            (max(left, piece.left), min(right, piece.right))
            for y, left, right in feet
            if abs(y - piece.bottom) <= HAIRLINE and left < piece.right and piece.left < right
        )
        for piece in pieces
    ]


def _level_feet(face: Face) -> Iterator[tuple[float, float, float]]:
    """Level edges of an outline with the wall over them: it runs anticlockwise."""
    ring = face.outline
    for (x, y), (next_x, next_y) in zip(ring, (*ring[1:], ring[0]), strict=True):
        if y == next_y and next_x > x:
            yield y, x, next_x
