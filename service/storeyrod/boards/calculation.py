"""Boards of a request: lay them, list what is cut, and say how far the count lies above what no layout can do without."""

from collections.abc import Iterator, Sequence

from storeyrod.answer import Answer, assumptions_of, refuse_cautions, unique
from storeyrod.boards.board_cutting import BoardCutting, FaceCutting, StockOffcut
from storeyrod.boards.bound import waste_area_of
from storeyrod.boards.chosen_layout import chosen_boards
from storeyrod.boards.cut_list import cut_list_of
from storeyrod.boards.cutting_rows import bound_rows, offcut_rows, sheet_rows, stock_rows
from storeyrod.boards.layout import BoardLayout, FaceBoards
from storeyrod.boards.models import BoardLayoutRequest, BoardLayoutResult, ElevationBoards
from storeyrod.boards.piece_rows import piece_rows
from storeyrod.boards.stock_offcuts import stock_of
from storeyrod.geometry.ticks import square_metres
from storeyrod.movement_joints.assumed import joint_assumptions
from storeyrod.movement_joints.plans import joint_plans
from storeyrod.options import Options
from storeyrod.trace import SILENT, Trace
from storeyrod.wall.system import System
from storeyrod.wall.wall import wall_of

NOT_CHECKED = (
    "Boards were laid by cover size and straight cuts; what the supplier asks of seams, edges and cuts comes first.",
    "boards_lower_bound_count holds for the rows as they are set; other heights of rows were not tried.",
    "cutting_lower_bound_count holds for boxes that are sawn edge to edge and rectangles that notches, holes and rakes set free; "
    "pieces were not fitted into one another otherwise.",
)

NO_CORNER_STRIP = "Offcuts beside external corners: board.corner_strip_mm is not given."


def calculate(request: BoardLayoutRequest, trace: Trace = SILENT) -> Answer[BoardLayoutResult]:
    """Boards of every elevation between its movement joints: pieces with their places, how boards are cut, and their number.

    Rules are in ``layout`` and ``cutting_plan``.
    """
    wall = wall_of(request.elevations, request.system)
    stock = stock_of(request.stock_offcuts, request.system.board)
    plans = joint_plans(wall, trace)
    layout, cutting = chosen_boards(wall, plans, stock, request.options.effort, trace)
    result = board_result(layout, cutting, stock, request.options, trace)
    joints = [item for plan in plans for item in plan.findings]
    findings = unique([*wall.findings, *joints, *layout.findings, *cutting.findings])
    if request.options.strict:
        refuse_cautions(findings)
    assumptions = [*assumptions_of(request), *joint_assumptions(wall, plans)]
    return Answer(result, findings, assumptions, not_checked(request.system))


def not_checked(system: System) -> list[str]:
    """What was not looked at for boards of a system."""
    return [*NOT_CHECKED, *([NO_CORNER_STRIP] if system.board.corner_strip_mm is None else [])]


def board_result(
    layout: BoardLayout, cutting: BoardCutting, stock: Sequence[StockOffcut], options: Options, trace: Trace = SILENT
) -> BoardLayoutResult:
    """Counts, bounds, cut list and, unless a summary is asked for, every piece, every offcut and the cut sheets."""
    system, is_summary = layout.system, options.detail == "summary"
    rows = zip(layout.faces, cutting.faces, strict=True)
    elevations = [_elevation(face, alone, trace) for face, alone in rows]
    area = trace.sum("A", "m2", [row["piece_area_m2"] for row in elevations])
    boards = trace.count("n", [("boards cut together", cutting.boards_count, "/elevations")])
    bounds = bound_rows(cutting, trace)
    result: BoardLayoutResult = {
        "boards_needed_count": int(boards),
        "boards_lower_bound_count": cutting.layout_bound.count,
        "boards_lower_bound": bounds["boards_lower_bound"],
        "gap_count": bounds["gap_count"],
        "gap_fraction": bounds["gap_fraction"],
        "cutting_lower_bound_count": bounds["cutting_lower_bound_count"],
        "cutting_lower_bound": bounds["cutting_lower_bound"],
        "cutting_gap_count": bounds["cutting_gap_count"],
        "bound_status": bounds["bound_status"],
        "work": bounds["work"],
        "full_count": sum(row["full_count"] for row in elevations),
        "cut_count": sum(row["cut_count"] for row in elevations),
        "piece_area_m2": area,
        "waste_area_m2": waste_area_of(system, boards, _stock_area(cutting, stock, trace), area, trace),
        "kept_area_m2": _kept_area(cutting, trace),
        "elevations": elevations,
        "cut_list": cut_list_of(layout.pieces, cutting.items),
        "offcuts": offcut_rows(cutting, kept_only=is_summary),
    }
    if "two_stage_bound_count" in bounds:
        result["two_stage_bound_count"] = bounds["two_stage_bound_count"]
    if stock:
        result["stock_offcuts"] = stock_rows(cutting, stock)
    if not is_summary:
        result["cut_sheets"] = sheet_rows(cutting)
        result["pieces"] = piece_rows(cutting)
    return result


def _stock_area(cutting: BoardCutting, stock: Sequence[StockOffcut], trace: Trace) -> float:
    left = {one.id: one.count for one in cutting.stock_left}
    used = [(one, one.count - left.get(one.id, 0)) for one in stock]
    rows = [(one.id, square_metres(one.width * one.height * count), "/stock_offcuts") for one, count in used if count]
    return trace.measure("A_stock", "m2", rows)


def _kept_area(cutting: BoardCutting, trace: Trace) -> float:
    rows = [(one.id, square_metres(one.width * one.height), "/elevations") for one in cutting.offcuts if one.kept]
    return trace.measure("A_kept", "m2", rows)


def _elevation(boards: FaceBoards, cutting: FaceCutting, trace: Trace) -> ElevationBoards:
    full = sum(piece.kind == "full" for piece in boards.pieces)
    pointer = boards.face.pointer
    area = trace.measure("A", "m2", _row_areas(boards, pointer))
    return {
        "elevation": boards.face.id,
        "board_gross_area_m2": square_metres(boards.gross_area),
        "board_net_area_m2": square_metres(boards.net_area),
        "joint_area_m2": square_metres(boards.joint_area),
        "piece_area_m2": area,
        "rows_count": len({piece.row.number for piece in boards.pieces}),
        "pieces_count": len(boards.pieces),
        "full_count": full,
        "cut_count": len(boards.pieces) - full,
        "boards_needed_count": int(trace.count("n", [("boards", cutting.boards_count, pointer)])),
        "boards_lower_bound_count": cutting.bound.count,
    }


def _row_areas(boards: FaceBoards, pointer: str) -> Iterator[tuple[str, float, str]]:
    """Area of the pieces row by row: adding up rows keeps the rounding far below a square millimetre."""
    rows: dict[int, float] = {}
    for piece in boards.pieces:
        rows[piece.row.number] = rows.get(piece.row.number, 0.0) + piece.part.area
    return ((f"row {number}", square_metres(area), pointer) for number, area in rows.items())
