"""The cut list: pieces that are cut alike, with their number and ids."""

from collections.abc import Sequence

from storeyrod.boards.models import CutSize
from storeyrod.boards.pieces import Kind, Piece
from storeyrod.geometry.plane import Ring
from storeyrod.geometry.ticks import millimetres

_Alike = tuple[Kind, float, float, float, tuple[Ring, ...]]


def cut_list_of(pieces: Sequence[Piece]) -> list[CutSize]:
    """Cut pieces grouped by kind, size, height in the board and shape; largest first."""
    groups: dict[_Alike, list[str]] = {}
    for piece in pieces:
        if piece.kind != "full":
            groups.setdefault(_alike(piece), []).append(piece.id)
    ranked = sorted(groups.items(), key=lambda group: (-group[0][1] * group[0][2], group[0]))
    return [
        {
            "kind": alike[0],
            "width_mm": millimetres(alike[1]),
            "height_mm": millimetres(alike[2]),
            "board_y_mm": millimetres(alike[3]),
            "count": len(ids),
            "pieces": ids,
        }
        for alike, ids in ranked
    ]


def _alike(piece: Piece) -> _Alike:
    """Rounded to whole ticks: rakes are clipped to fractions of a tick."""
    shape = tuple(tuple((round(x), round(y)) for x, y in ring) for ring in piece.shape)
    return piece.kind, round(piece.width), round(piece.height), round(piece.lift), shape
