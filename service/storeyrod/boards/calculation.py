"""Boards of a request: lay them, list what is cut, and say how far the count lies above what no layout can do without."""

from collections.abc import Iterator, Sequence

from storeyrod.answer import Answer, assumptions_of, refuse_cautions, unique
from storeyrod.boards.bound import least_boards_of, waste_area_of
from storeyrod.boards.cut_list import cut_list_of
from storeyrod.boards.cutting import Place, useful
from storeyrod.boards.cutting_models import Offcut
from storeyrod.boards.layout import BoardLayout, FaceBoards, lay_boards
from storeyrod.boards.models import (
    BoardLayoutRequest,
    BoardLayoutResult,
    ElevationBoards,
    PlacedPiece,
    RingPoint,
)
from storeyrod.boards.pieces import Piece
from storeyrod.geometry.plane import Ring
from storeyrod.geometry.ticks import SQUARE_METRES_PER_SQUARE_TICK, TICKS_PER_MM, millimetres, square_metres, ticks
from storeyrod.movement_joints.assumed import joint_assumptions
from storeyrod.movement_joints.plans import joint_plans
from storeyrod.options import Options
from storeyrod.trace import SILENT, Trace
from storeyrod.wall.grid import course_pitch_of
from storeyrod.wall.system import System
from storeyrod.wall.wall import wall_of

NOT_CHECKED = (
    "The number of boards is what this layout and its cutting reach, not a proved least; compare it with "
    "boards_lower_bound_count.",
    "Boards were laid by cover size and straight cuts; what the supplier asks of seams, edges and cuts comes first.",
)


def calculate(request: BoardLayoutRequest, trace: Trace = SILENT) -> Answer[BoardLayoutResult]:
    """Boards of every elevation between its movement joints: pieces with their places, the cut list, and boards needed.

    Rules are in ``layout`` and ``cutting``.
    """
    wall = wall_of(request.elevations, request.system)
    plans = joint_plans(wall, trace)
    layout = lay_boards(wall, plans, trace)
    result = board_result(layout, request.options, trace)
    findings = unique([*wall.findings, *(item for plan in plans for item in plan.findings), *layout.findings])
    if request.options.strict:
        refuse_cautions(findings)
    assumptions = [*assumptions_of(request), *joint_assumptions(wall, plans)]
    return Answer(result, findings, assumptions, list(NOT_CHECKED))


def board_result(layout: BoardLayout, options: Options, trace: Trace = SILENT) -> BoardLayoutResult:
    """Counts, cut list and, unless a summary is asked for, every piece."""
    system = layout.system
    elevations = [_elevation(face, system, trace) for face in layout.faces]
    area = trace.sum("A", "m2", [row["piece_area_m2"] for row in elevations])
    boards = trace.count("n", [("boards cut together", layout.plan.boards_count, "/elevations")])
    result: BoardLayoutResult = {
        "boards_needed_count": int(boards),
        "boards_lower_bound_count": least_boards_of(system, area, trace),
        "full_count": sum(row["full_count"] for row in elevations),
        "cut_count": sum(row["cut_count"] for row in elevations),
        "piece_area_m2": area,
        "waste_area_m2": waste_area_of(system, boards, area, trace),
        "elevations": elevations,
        "cut_list": cut_list_of(layout.pieces),
        "offcuts": _offcuts(layout),
    }
    if options.detail == "pieces":
        result["pieces"] = _placed(layout.pieces, layout.plan.places)
    return result


def _elevation(boards: FaceBoards, system: System, trace: Trace) -> ElevationBoards:
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
        "boards_needed_count": int(trace.count("n", [("boards", boards.plan.boards_count, pointer)])),
        "boards_lower_bound_count": least_boards_of(system, area, trace),
    }


def _row_areas(boards: FaceBoards, pointer: str) -> Iterator[tuple[str, float, str]]:
    """Area of the pieces row by row: adding up rows keeps the rounding far below a square millimetre."""
    rows: dict[int, float] = {}
    for piece in boards.pieces:
        rows[piece.row.number] = rows.get(piece.row.number, 0.0) + piece.part.area
    return ((f"row {number}", square_metres(area), pointer) for number, area in rows.items())


def _offcuts(layout: BoardLayout) -> list[Offcut]:
    least_height = ticks(course_pitch_of(layout.system))
    kept = useful(layout.plan.leftovers, ticks(layout.system.board.minimum_piece_mm), least_height)
    return [
        {
            "board": rest.board,
            "board_x_mm": millimetres(rest.x),
            "board_y_mm": millimetres(rest.y),
            "width_mm": millimetres(rest.width),
            "height_mm": millimetres(rest.height),
        }
        for rest in kept
    ]


def _placed(pieces: Sequence[Piece], places: Sequence[Place]) -> list[PlacedPiece]:
    return [_piece(piece, place) for piece, place in zip(pieces, places, strict=True)]


def _piece(piece: Piece, place: Place) -> PlacedPiece:
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
        "board": place.board,
    }
    if piece.kind != "full":
        row["board_x_mm"], row["board_y_mm"] = place.x / TICKS_PER_MM, place.y / TICKS_PER_MM
    if part.rings:
        row["ring"] = _points(part.rings[0])
        if len(part.rings) > 1:
            row["holes"] = [_points(ring) for ring in part.rings[1:]]
    return row


def _points(ring: Ring) -> list[RingPoint]:
    return [{"x_mm": x / TICKS_PER_MM, "y_mm": y / TICKS_PER_MM} for x, y in ring]
