"""Pieces of an elevation with what they are cut from: outlines, sawn edges, labels, sizes beside edges, and which way is up."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.boards.board_cutting import BoardCutting, Pattern
from storeyrod.boards.pieces import Piece
from storeyrod.cutting.stock import Edges, Item
from storeyrod.drawings.display_list import Group, Point, Strokes
from storeyrod.drawings.line_styles import CUT_EDGE, CUT_PIECE, FULL_PIECE, LETTERING, finer
from storeyrod.drawings.marked_piece import MarkedPiece, Ways, marked_piece
from storeyrod.drawings.piece_labels import PieceLabels
from storeyrod.drawings.piece_marks import polygon_of, short_id, size_of
from storeyrod.drawings.up_arrow import REACH, arrow_groups

_INSET: Final = 0.4
"""Labels keep that far from the sides of a piece on paper, where strokes may stand, mm."""


@dataclass(frozen=True, slots=True)
class SawnPiece:
    """A piece, what it is cut from in words, whether that is a stock offcut, and which sides of its box are factory edges."""

    piece: Piece
    source: str
    is_stock: bool
    factory: Edges


def sawn_pieces(cutting: BoardCutting) -> list[SawnPiece]:
    """All pieces of a job, in their order."""
    patterns = {index: pattern for pattern in cutting.patterns for index in pattern.blanks}
    rows = zip(cutting.pieces, cutting.items, cutting.places, strict=True)
    return [
        SawnPiece(
            piece,
            source_of(cutting, place.blank),
            cutting.blanks[place.blank].stock is not None,
            factory_sides((place.x, place.y), item, patterns[place.blank]),
        )
        for piece, item, place in rows
    ]


def source_of(cutting: BoardCutting, blank: int) -> str:
    """A board, or a stock offcut, in words."""
    one = cutting.blanks[blank]
    return f"board {one.number}" if one.stock is None else f"stock {one.stock}.{one.number}"


def factory_sides(corner: Point, item: Item, pattern: Pattern) -> Edges:
    """Sides of a box in a pattern that are edges of the board as it left the factory; the corner is its lower left one."""
    (x, y), edges = corner, pattern.edges
    return Edges(
        edges.left and x <= 0.0,
        edges.right and x + item.width >= pattern.width,
        edges.bottom and y <= 0.0,
        edges.top and y + item.height >= pattern.height,
    )


@dataclass(frozen=True, slots=True)
class SawnPieceMarks:
    """Groups that show pieces, how many ids found no room, and how many pieces lack their size, their board or a length."""

    groups: tuple[Group, ...]
    unnamed: int
    shortened: int


def sawn_piece_marks(pieces: Sequence[SawnPiece], scale: float) -> SawnPieceMarks:
    """Pieces as they are built in."""
    labels = PieceLabels(scale, REACH * scale, _INSET * scale)
    marked = [marked_piece(polygon_of(one.piece), one.factory, _ways(one), labels) for one in pieces]
    full = tuple(mark.polygon for one, mark in zip(pieces, marked, strict=True) if one.piece.kind == "full")
    cut = tuple(mark.polygon for one, mark in zip(pieces, marked, strict=True) if one.piece.kind != "full")
    groups = (
        Group("board-full", finer(FULL_PIECE, scale), full),
        Group("board-cut", finer(CUT_PIECE, scale), cut),
        *mark_groups(marked, scale),
    )
    unnamed = sum(mark.label is None for mark in marked)
    return SawnPieceMarks(groups, unnamed, sum(mark.is_short for mark in marked))


def mark_groups(marked: Sequence[MarkedPiece], scale: float) -> tuple[Group, ...]:
    """Sawn edges, arrows and lettering of pieces."""
    strokes = tuple(line for mark in marked for line in mark.strokes)
    return (
        Group("cut-edge", finer(CUT_EDGE, scale), (Strokes(strokes),) if strokes else ()),
        *arrow_groups([mark.arrow for mark in marked if mark.arrow is not None], scale),
        Group("piece-ids", LETTERING, tuple(text for mark in marked for text in mark.texts)),
        Group("saw-figures", LETTERING, tuple(text for mark in marked for text in mark.figures.texts)),
    )


def _ways(one: SawnPiece) -> Ways:
    """Id and board, with the size of a cut piece between them; less where there is no room for it."""
    short = short_id(one.piece)
    said = (short, one.source) if one.piece.kind == "full" else (short, size_of(one.piece), one.source)
    return Ways((said, ("  ".join(said),)), ((short, one.source), (short,)))
