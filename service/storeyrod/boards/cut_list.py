"""The cut list: pieces that are cut alike, with their number and ids."""

from collections.abc import Sequence

from storeyrod.boards.cutting_rows import edge_names
from storeyrod.boards.models import CutSize
from storeyrod.boards.pieces import Kind, Piece
from storeyrod.cutting.stock import Edges, Item
from storeyrod.geometry.plane import Ring
from storeyrod.geometry.ticks import millimetres

_Alike = tuple[Kind, float, float, float, Edges, tuple[Ring, ...]]


def cut_list_of(pieces: Sequence[Piece], items: Sequence[Item]) -> list[CutSize]:
    """Cut pieces grouped by kind, size, height over a rib, factory edges and shape; largest first.

    ``items`` runs parallel to the pieces: what each asks of a board.
    """
    groups: dict[_Alike, list[str]] = {}
    for piece, item in zip(pieces, items, strict=True):
        if piece.kind != "full":
            groups.setdefault(_alike(piece, item), []).append(piece.id)
    ranked = sorted(groups.items(), key=lambda group: (-group[0][1] * group[0][2], group[0]))
    return [
        {
            "kind": alike[0],
            "width_mm": millimetres(alike[1]),
            "height_mm": millimetres(alike[2]),
            "above_rib_mm": millimetres(alike[3]),
            "factory_edges": edge_names(alike[4]),
            "count": len(ids),
            "pieces": ids,
        }
        for alike, ids in ranked
    ]


def _alike(piece: Piece, item: Item) -> _Alike:
    """Rounded to whole ticks: rakes are clipped to fractions of a tick."""
    shape = tuple(tuple((round(x), round(y)) for x, y in ring) for ring in piece.shape)
    return piece.kind, round(piece.width), round(piece.height), item.phase, item.needs, shape
