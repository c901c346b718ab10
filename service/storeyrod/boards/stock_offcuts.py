"""Offcuts at hand, as the request names them: checked against the board, in ticks."""

from collections.abc import Iterator, Sequence

from storeyrod.boards import models
from storeyrod.boards.board_cutting import StockOffcut
from storeyrod.cutting.stock import Edges
from storeyrod.findings import refuse
from storeyrod.geometry.ticks import ticks
from storeyrod.wall.system import Board


def stock_of(offcuts: Sequence[models.StockOffcut], board: Board) -> tuple[StockOffcut, ...]:
    """The offcuts; raises ``stock-offcut-too-large`` for one that no board gives, and ``duplicate-id``."""
    return tuple(_checked(offcuts, board))


def _checked(offcuts: Sequence[models.StockOffcut], board: Board) -> Iterator[StockOffcut]:
    seen: set[str] = set()
    for index, one in enumerate(offcuts):
        pointer = f"/stock_offcuts/{index}"
        if one.id in seen:
            raise refuse("duplicate-id", f"{pointer}/id", f"stock offcut {one.id!r} is already in the list")
        seen.add(one.id)
        for member, limit in (("width_mm", board.cover_length_mm), ("height_mm", board.cover_height_mm)):
            size = getattr(one, member)
            if size > limit:
                detail = f"{member} of {one.id!r} is {size:g} mm, the board is {limit:g} mm; give what it covers, without tongue or lap"
                raise refuse("stock-offcut-too-large", f"{pointer}/{member}", detail)
        edges = Edges(*(name in one.factory_edges for name in Edges._fields))
        yield StockOffcut(one.id, ticks(one.width_mm), ticks(one.height_mm), edges, one.count)
