"""Needs of what is bought by the piece: boards, slips, corner slips and fasteners, from their layouts."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from storeyrod.boards.board_cutting import BoardCutting
from storeyrod.boards.layout import BoardLayout, FaceBoards
from storeyrod.fasteners.face_fasteners import FaceFasteners
from storeyrod.geometry.ticks import TICKS_PER_MM, square_metres
from storeyrod.quantities.lines import Need, uncut
from storeyrod.reference.documents import GEOMETRY
from storeyrod.slips.corner_slips import CornerSlips
from storeyrod.slips.layout import SlipLayout
from storeyrod.slips.returns import JambReturns
from storeyrod.slips.tally import UnitCount
from storeyrod.trace import Trace, formula, origin_of
from storeyrod.units import METRES_PER_MILLIMETRE
from storeyrod.wall.grid import header_of
from storeyrod.wall.system import System


@formula(symbol="q_net", expression="A/(l*h)", unit="count", inputs={"A": "m2", "l": "m", "h": "m"}, clause=GEOMETRY)
def pieces_by_area(*, A: float, l: float, h: float) -> float:  # noqa: E741, N803  symbols of the formula
    """Pieces of l by h that have the area A: without cut waste."""
    return A / (l * h)


def board_need(faces: Sequence[FaceBoards], boards_count: int, stock_m2: float, system: System, trace: Trace) -> Need:
    """Boards of some faces: ``boards_count`` new ones beside ``stock_m2`` of pieces from stock, which need not be bought."""
    rows = [row for face in faces for row in _row_areas(face)]
    area = trace.measure(
        "A_boards", "m2", [*rows, ("pieces from stock", -stock_m2, "/stock_offcuts")] if stock_m2 else rows
    )
    board = system.board
    net = trace.call(
        pieces_by_area,
        A=area,
        l=trace.given(board.cover_length_mm * METRES_PER_MILLIMETRE, "/system/board/cover_length_mm"),
        h=trace.given(board.cover_height_mm * METRES_PER_MILLIMETRE, "/system/board/cover_height_mm"),
    )
    pointer = faces[0].face.pointer if len(faces) == 1 else "/elevations"
    return Need("board", net, trace.count("boards", [("boards cut together", float(boards_count), pointer)]))


def _row_areas(boards: FaceBoards) -> Iterator[tuple[str, float, str]]:
    rows: dict[int, float] = {}
    for piece in boards.pieces:
        rows[piece.row.number] = rows.get(piece.row.number, 0.0) + piece.part.area
    name, pointer = boards.face.id, boards.face.pointer
    return ((f"pieces of {name}, row {number}", square_metres(area), pointer) for number, area in rows.items())


def boards_of(layout: BoardLayout, cutting: BoardCutting, trace: Trace) -> Need:
    """Boards of all faces, cut together; pieces from stock offcuts are not bought."""
    stock = sum(
        piece.part.area
        for piece, place in zip(cutting.pieces, cutting.places, strict=True)
        if cutting.blanks[place.blank].stock is not None
    )
    return board_need(layout.faces, cutting.boards_count, square_metres(stock), layout.system, trace)


@dataclass(frozen=True, slots=True)
class SlipScope:
    """Slips that are counted together: all faces, or one of them cut on its own."""

    pointer: str
    straight: UnitCount
    headers: UnitCount
    soldiers_count: int
    soldier_area: float


def all_slips(layout: SlipLayout) -> SlipScope:
    """Slips of all faces, cut together."""
    area = sum(face.soldier_area for face in layout.faces)
    return SlipScope("/elevations", layout.straight, layout.headers, layout.soldiers_count, area)


def slips_of(layout: SlipLayout, index: int) -> SlipScope:
    """Slips of one face."""
    face = layout.faces[index]
    straight, headers = layout.units_by_face[index]
    return SlipScope(face.face.pointer, straight, headers, face.soldiers_count, face.soldier_area)


def straight_need(scope: SlipScope, system: System, trace: Trace) -> Need:
    """Straight slips: whole ones, those that cuts are made from, and soldiers."""
    slip, pointer = system.slip, scope.pointer
    unit = slip.length_mm * slip.height_mm * TICKS_PER_MM**2
    area = trace.measure(
        "A_slips",
        "m2",
        [
            ("courses, reveals and voussoirs", square_metres(scope.straight.net * unit), pointer),
            ("soldiers", square_metres(scope.soldier_area), pointer),
        ],
    )
    length = trace.given(slip.length_mm * METRES_PER_MILLIMETRE, "/system/slip/length_mm")
    used = [
        ("whole slips", float(scope.straight.full), pointer),
        ("slips that cuts are made from", float(scope.straight.cutting.slips), pointer),
        ("soldiers", float(scope.soldiers_count), pointer),
    ]
    return Need("slip", _by_area(area, length, system, trace), trace.count("slips", used))


def header_need(scope: SlipScope, system: System, trace: Trace) -> Need | None:
    """Header slips, of a bond that has them."""
    if not scope.headers.consumed:
        return None
    length_mm = header_of(system, trace)
    unit = length_mm * system.slip.height_mm * TICKS_PER_MM**2
    whole = square_metres(scope.headers.net * unit)
    area = trace.measure("A_headers", "m2", [("headers", whole, scope.pointer)])
    length = trace.given(length_mm * METRES_PER_MILLIMETRE, origin_of(length_mm))
    used = [
        ("whole headers", float(scope.headers.full), scope.pointer),
        ("headers that cuts are made from", float(scope.headers.cutting.slips), scope.pointer),
    ]
    return Need("header_slip", _by_area(area, length, system, trace), trace.count("headers", used))


def _by_area(area: float, length: float, system: System, trace: Trace) -> float:
    height = trace.given(system.slip.height_mm * METRES_PER_MILLIMETRE, "/system/slip/height_mm")
    return trace.call(pieces_by_area, A=area, l=length, h=height)


def corner_need(corners: Sequence[CornerSlips], jambs: Sequence[JambReturns], trace: Trace) -> Need:
    """L slips of corners and of lined jambs: one for each course, cut or not."""
    terms = [
        (f"corner at {end.name}", float(corner.count), end.face.edge_pointer(end.side))
        for corner in corners
        for end in [corner.corner.first]
    ]
    terms += [(f"{jamb.side} jamb of {jamb.opening.id}", float(jamb.count), jamb.opening.pointer) for jamb in jambs]
    return uncut("corner_slip", trace.count("corner_slips", terms))


def fastener_need(faces: Sequence[FaceFasteners], trace: Trace) -> Need:
    """Fasteners of some faces."""
    terms = [(f"fasteners of {face.face.id}", float(face.total), face.face.pointer) for face in faces]
    return uncut("fastener", trace.count("fasteners", terms))
