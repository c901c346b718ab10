"""What a foreman has to know about how boards are cut: offcuts beside corners, and cut edges where factory edges should meet."""

from collections.abc import Iterator, Sequence

from storeyrod.boards.board_cutting import PiecePlace
from storeyrod.boards.corner_strip import two_columns_mm
from storeyrod.boards.cutting_items import BoardSize, wanted_edges
from storeyrod.boards.cutting_job import CutPiece
from storeyrod.boards.layout import FaceBoards
from storeyrod.boards.pieces import Piece
from storeyrod.findings import Finding, Where, finding
from storeyrod.geometry.ticks import millimetres, ticks
from storeyrod.wall.system import System


def cutting_findings(
    face: FaceBoards, pieces: Sequence[CutPiece], places: Sequence[PiecePlace], size: BoardSize, system: System
) -> Iterator[Finding]:
    """Findings of one face, each once with all the pieces it concerns; ``places`` runs parallel to its pieces."""
    missing = [one.piece for one in pieces if _lacks_edge(one, size, base_row_cut=system.board.base_row_cut)]
    if missing:
        yield finding("factory-edge-missing", _where(face, missing))
    beside = [(one.piece, place) for one, place in zip(pieces, places, strict=True) if one.at_corner]
    least = two_columns_mm(system.fastener)
    poor = [piece for piece, place in beside if not place.first or piece.narrowest < ticks(least)]
    if poor:
        narrowest = min(piece.narrowest for piece in poor)
        yield finding("offcut-at-corner", _where(face, poor), value=millimetres(narrowest), limit=least, unit="mm")


def _lacks_edge(one: CutPiece, size: BoardSize, *, base_row_cut: bool) -> bool:
    wanted = wanted_edges(one.piece, size, base=bool(one.base) and not base_row_cut)
    return wanted != one.item.needs


def _where(face: FaceBoards, pieces: Sequence[Piece]) -> Where:
    lowest = min(pieces, key=lambda piece: (piece.row.number, piece.position))
    return {
        "pointer": face.face.pointer,
        "elevation": face.face.id,
        "x_mm": millimetres(lowest.left),
        "y_mm": millimetres(lowest.bottom),
        "pieces": [piece.id for piece in pieces],
    }
