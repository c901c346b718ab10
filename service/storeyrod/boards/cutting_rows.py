"""Cutting as rows of the answer: bounds, offcuts with where they go, stock, and cut sheets."""

from collections.abc import Iterable, Sequence

from storeyrod.boards.board_cutting import BoardCutting, CutBlank, Offcut, Pattern, StockOffcut
from storeyrod.boards.bound import gap
from storeyrod.boards.cutting_models import (
    BoardBounds,
    CutSheet,
    EdgeName,
    SheetCut,
    SheetRest,
    UsedStock,
)
from storeyrod.boards.cutting_models import Offcut as OffcutRow
from storeyrod.cutting.plan import Cut, Rest
from storeyrod.cutting.stock import Edges
from storeyrod.geometry.ticks import millimetres
from storeyrod.trace import Trace


def bound_rows(cutting: BoardCutting, trace: Trace) -> BoardBounds:
    """What is proved about the count, and how far the count lies above it."""
    least, own = cutting.layout_bound, cutting.cutting_bound
    needed = trace.count("n", [("new boards", cutting.boards_count, "/elevations")])
    bound = trace.count("n_least", [(least.kind, least.count, "/elevations")])
    rows: BoardBounds = {
        "boards_lower_bound": least.kind,
        "gap_count": cutting.boards_count - least.count,
        "gap_fraction": trace.call(gap, n=needed, n_least=bound),
        "cutting_lower_bound_count": own.count,
        "cutting_lower_bound": own.kind,
        "cutting_gap_count": cutting.boards_count - own.count,
        "bound_status": own.status,
        "work": {"columns": own.work.columns, "pricings": own.work.pricings, "nodes": own.work.nodes},
    }
    if own.two_stage is not None:
        rows["two_stage_bound_count"] = own.two_stage
    return rows


def edge_names(edges: Edges) -> list[EdgeName]:
    """Names of factory edges."""
    names: tuple[EdgeName, ...] = ("left", "right", "bottom", "top")
    return [name for name, is_factory in zip(names, edges, strict=True) if is_factory]


def offcut_rows(cutting: BoardCutting, *, kept_only: bool) -> list[OffcutRow]:
    """Offcuts board by board; ``kept_only`` those that are left for stock."""
    return [
        _offcut(cutting, blank, offcut)
        for blank in cutting.blanks
        for offcut in blank.offcuts
        if offcut.kept or not kept_only
    ]


def _offcut(cutting: BoardCutting, blank: CutBlank, offcut: Offcut) -> OffcutRow:
    row: OffcutRow = {
        "id": offcut.id,
        "board_x_mm": millimetres(offcut.x),
        "board_y_mm": millimetres(offcut.y),
        "width_mm": millimetres(offcut.width),
        "height_mm": millimetres(offcut.height),
        "factory_edges": edge_names(offcut.edges),
        "destination": "pieces" if offcut.pieces else "stock" if offcut.kept else "waste",
    }
    if blank.stock is None:
        row["board"] = blank.number
    else:
        row["stock_offcut"], row["stock_number"] = blank.stock, blank.number
    if offcut.parent is not None:
        row["parent"] = offcut.parent
    if offcut.released_by is not None:
        row["released_by"] = cutting.pieces[offcut.released_by].id
    if offcut.pieces:
        row["pieces"] = [cutting.pieces[piece].id for piece in offcut.pieces]
    return row


def stock_rows(cutting: BoardCutting, stock: Sequence[StockOffcut]) -> list[UsedStock]:
    """Use of the stock offcuts, in the order of the request."""
    left = {one.id: one.count for one in cutting.stock_left}
    return [
        {"id": one.id, "used_count": one.count - left.get(one.id, 0), "left_count": left.get(one.id, 0)}
        for one in stock
    ]


def sheet_rows(cutting: BoardCutting) -> list[CutSheet]:
    """One sheet for all boards that are cut alike."""
    return [_sheet(cutting, pattern) for pattern in cutting.patterns]


def _sheet(cutting: BoardCutting, pattern: Pattern) -> CutSheet:
    blanks = [cutting.blanks[index] for index in pattern.blanks]
    sheet: CutSheet = {
        "number": pattern.number,
        "width_mm": millimetres(pattern.width),
        "height_mm": millimetres(pattern.height),
        "count": len(blanks),
        "boards": [blank.number for blank in blanks],
        "cuts": [_cut(cut) for cut in pattern.cuts],
        "places": [
            {
                "board_x_mm": millimetres(place.x),
                "board_y_mm": millimetres(place.y),
                "width_mm": millimetres(place.width),
                "height_mm": millimetres(place.height),
                "pieces": [cutting.pieces[blank.pieces[index]].id for blank in blanks],
            }
            for index, place in enumerate(pattern.places)
        ],
        "rests": _rests(pattern.rests),
    }
    if pattern.stock is not None:
        sheet["stock_offcut"] = pattern.stock
    return sheet


def _cut(cut: Cut) -> SheetCut:
    return {
        "direction": "upright" if cut.upright else "level",
        "at_mm": millimetres(cut.at),
        "from_mm": millimetres(cut.start),
        "to_mm": millimetres(cut.end),
    }


def _rests(rests: Iterable[Rest]) -> list[SheetRest]:
    return [
        {
            "board_x_mm": millimetres(rest.x),
            "board_y_mm": millimetres(rest.y),
            "width_mm": millimetres(rest.width),
            "height_mm": millimetres(rest.height),
            "factory_edges": edge_names(rest.edges),
        }
        for rest in rests
    ]
