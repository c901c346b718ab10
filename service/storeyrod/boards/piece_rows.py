"""Placed pieces as rows of the answer."""

from storeyrod.boards.board_cutting import BoardCutting, CutBlank, PiecePlace
from storeyrod.boards.models import PlacedPiece, RingPoint
from storeyrod.boards.pieces import Piece
from storeyrod.geometry.plane import Ring
from storeyrod.geometry.ticks import SQUARE_METRES_PER_SQUARE_TICK, TICKS_PER_MM


def piece_rows(cutting: BoardCutting) -> list[PlacedPiece]:
    """Every piece with its place on the wall and in the board or stock offcut that it is cut from."""
    return [
        _piece(piece, place, cutting.blanks[place.blank])
        for piece, place in zip(cutting.pieces, cutting.places, strict=True)
    ]


def _piece(piece: Piece, place: PiecePlace, blank: CutBlank) -> PlacedPiece:
    part = piece.part
    row: PlacedPiece = {
        "id": piece.id,
        "x_mm": part.left / TICKS_PER_MM,
        "y_mm": part.bottom / TICKS_PER_MM,
        "width_mm": (part.right - part.left) / TICKS_PER_MM,
        "height_mm": (part.top - part.bottom) / TICKS_PER_MM,
        "row": piece.row.number,
        "bay": piece.bay,
        "kind": piece.kind,
        "area_m2": part.area * SQUARE_METRES_PER_SQUARE_TICK,
    }
    if blank.stock is None:
        row["board"] = blank.number
    else:
        row["stock_offcut"], row["stock_number"] = blank.stock, blank.number
    if piece.kind != "full":
        row["board_x_mm"], row["board_y_mm"] = place.x / TICKS_PER_MM, place.y / TICKS_PER_MM
    if part.rings:
        row["ring"] = _points(part.rings[0])
        if len(part.rings) > 1:
            row["holes"] = [_points(ring) for ring in part.rings[1:]]
    return row


def _points(ring: Ring) -> list[RingPoint]:
    return [{"x_mm": x / TICKS_PER_MM, "y_mm": y / TICKS_PER_MM} for x, y in ring]
