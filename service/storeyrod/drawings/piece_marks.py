"""Pieces of board on an elevation: outlines, cut marks, and ids where there is room for them."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.boards.pieces import Piece
from storeyrod.drawings.display_list import Group, Item, Line, Point, Polygon, box_polygon
from storeyrod.drawings.fastener_marks import marker_size
from storeyrod.drawings.lettering import number
from storeyrod.drawings.line_styles import CUT_MARK, CUT_PIECE, FULL_PIECE, LETTERING, finer
from storeyrod.drawings.piece_labels import Lines, PieceLabels
from storeyrod.fasteners.face_fasteners import PieceFasteners
from storeyrod.geometry.ticks import millimetres

_MARK: Final = 4.0
"""Leg of a cut mark on paper, mm; at most a third of the edges that it stands on."""

_LEAST_EDGE: Final = 3.0
"""Edges that a cut mark would like to stand on, on paper, mm."""

_WORDS: Final = {"full": "full board", "cut": "cut board", "shaped": "shaped board", "raked": "raked board"}


@dataclass(frozen=True, slots=True)
class PieceMarks:
    """Groups that show pieces, and how many ids found no room."""

    groups: tuple[Group, ...]
    unnamed: int


def piece_marks(fastened: Sequence[PieceFasteners], scale: float) -> PieceMarks:
    """Outlines and cut marks of pieces, and their ids clear of fasteners."""
    labels = PieceLabels(scale, marker_size(scale) * scale / 2.0)
    full: list[Item] = []
    cut: list[Item] = []
    marks: list[Item] = []
    texts: list[Item] = []
    unnamed = 0
    for one in fastened:
        polygon = polygon_of(one.piece)
        places = [(millimetres(x), millimetres(y)) for x, y in one.places]
        label = labels.of(polygon, _ways(one.piece), places)
        texts += label.texts if label is not None else ()
        unnamed += label is None
        if one.piece.kind == "full":
            full.append(polygon)
        else:
            cut.append(polygon)
            marks.append(cut_mark(polygon, scale))
    groups = (
        Group("board-full", finer(FULL_PIECE, scale), tuple(full)),
        Group("board-cut", finer(CUT_PIECE, scale), tuple(cut)),
        Group("cut-mark", finer(CUT_MARK, scale), tuple(marks)),
        Group("piece-ids", LETTERING, tuple(texts)),
    )
    return PieceMarks(groups, unnamed)


def _ways(piece: Piece) -> tuple[Lines, ...]:
    """A full board by its id; a cut piece with its size, or without where there is no room for it."""
    short = short_id(piece)
    return ((short,),) if piece.kind == "full" else ((short, size_of(piece)), (short,))


def short_id(piece: Piece) -> str:
    """Row and position: the id without its elevation."""
    return piece.id.removeprefix(f"{piece.elevation}-")


def size_of(piece: Piece) -> str:
    """Width and height of its box in mm."""
    return f"{number(millimetres(piece.width))} × {number(millimetres(piece.height))}"


def polygon_of(piece: Piece) -> Polygon:
    """The piece as a polygon in mm, with its id."""
    part = piece.part
    if part.is_rectangle:
        box = (millimetres(part.left), millimetres(part.bottom), millimetres(part.right), millimetres(part.top))
        return box_polygon(box, piece.id, _title(piece))
    rings = tuple(_distinct(points_of(ring)) for ring in part.rings)
    return Polygon(rings, piece.id, _title(piece))


def _title(piece: Piece) -> str:
    return f"{piece.id}: {_WORDS[piece.kind]} {size_of(piece)} mm"


def points_of(ring: Sequence[Point]) -> tuple[Point, ...]:
    """Points of ticks in mm; what clipping leaves between ticks is rounded to the millionth."""
    return tuple((round(millimetres(x), 6) + 0.0, round(millimetres(y), 6) + 0.0) for x, y in ring)


def _distinct(ring: tuple[Point, ...]) -> tuple[Point, ...]:
    """The ring without the points that rounding put on the one before."""
    return tuple(here for before, here in zip((ring[-1], *ring[:-1]), ring, strict=True) if here != before)


def cut_mark(polygon: Polygon, scale: float) -> Item:
    """A stroke across the upper right corner of a piece, or across the corner next to it whose edges are long enough."""
    ring = polygon.rings[0]
    _, _, right, top = polygon.box
    corners = list(zip(ring, (ring[-1], *ring[:-1]), (*ring[1:], ring[0]), strict=True))
    long = [corner for corner in corners if _shorter(*corner) >= _LEAST_EDGE * scale] or [max(corners, key=_leg)]
    corner, before, after = min(long, key=lambda at: (round(math.dist(at[0], (right, top)), 6), -at[0][1]))
    leg = min(_MARK * scale, _shorter(corner, before, after) / 3.0)
    return Line(_towards(corner, before, leg), _towards(corner, after, leg))


def _shorter(corner: Point, before: Point, after: Point) -> float:
    return min(math.dist(corner, before), math.dist(corner, after))


def _leg(corner: tuple[Point, Point, Point]) -> float:
    return _shorter(*corner)


def _towards(start: Point, end: Point, distance: float) -> Point:
    share = distance / math.dist(start, end)
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share
