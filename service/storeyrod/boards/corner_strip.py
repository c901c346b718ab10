"""The strip beside external corners in which pieces should be first cuts of whole boards, and wide enough for two fasteners."""

from storeyrod.boards.pieces import Piece
from storeyrod.geometry.ticks import ticks
from storeyrod.wall.face import Face
from storeyrod.wall.fastener_models import Fastener
from storeyrod.wall.system import Board


def in_corner_strip(piece: Piece, face: Face, board: Board) -> bool:
    """Whether any of a piece lies within the strip beside an external corner, measured from the finished arris."""
    if board.corner_strip_mm is None:
        return False
    strip = ticks(board.corner_strip_mm)
    at_left = face.edge("left").kind == "external_corner" and piece.left < face.left + strip
    return at_left or (face.edge("right").kind == "external_corner" and piece.right > face.right - strip)


def two_columns_mm(fastener: Fastener) -> float:
    """Least width of a piece that takes two fasteners side by side."""
    return 2.0 * fastener.edge_distance_mm + fastener.min_spacing_mm
