"""From pieces on the wall to boards bought: what each is cut from, what becomes of the offcuts, and the bounds of the count.

All faces are cut together and each on its own; where the faces' own plans together need fewer boards, they are taken.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from storeyrod.boards.board_cutting import (
    BoardCutting,
    CuttingBound,
    FaceCutting,
    LayoutBound,
    PiecePlace,
    StockOffcut,
)
from storeyrod.boards.corner_strip import in_corner_strip
from storeyrod.boards.cutting_findings import cutting_findings
from storeyrod.boards.cutting_items import BoardSize, board_size, feet_on_base, item_of
from storeyrod.boards.cutting_job import CutJob, CutPiece, Hole, Sawn, cut_job, quick_count, stock_used
from storeyrod.boards.layout import BoardLayout, FaceBoards
from storeyrod.boards.layout_bounds import BoundedWall, layout_bound
from storeyrod.boards.pieces import Piece
from storeyrod.boards.released import Released, Worth, released_by
from storeyrod.boards.row_boxes import BoxedFace
from storeyrod.boards.runs import HAIRLINE, opening_corners
from storeyrod.boards.sawn_boards import sawn_boards
from storeyrod.cutting.plan import Status
from storeyrod.cutting.stock import Effort
from storeyrod.findings import Finding
from storeyrod.geometry.ticks import square_metres, ticks
from storeyrod.trace import SILENT, Trace
from storeyrod.wall.grid import course_pitch_of
from storeyrod.wall.system import System


def cut_boards(
    layout: BoardLayout, stock_offcuts: Sequence[StockOffcut], effort: Effort, trace: Trace = SILENT
) -> BoardCutting:
    """Boards of a layout: pooled over all faces, with stock offcuts used first, and each face on its own from new boards."""
    system = layout.system
    size, worth = board_size(system.board), _worth(system)
    faces = [cut_pieces(face, system) for face in layout.faces]
    pieces = [piece for face in faces for piece in face]
    boxed = [_boxed(layout, face, own) for face, own in zip(layout.faces, faces, strict=True)]
    bound = _bound(layout, boxed, stock_offcuts, trace)
    apart: list[tuple[CutJob, LayoutBound]] = []
    if len(faces) != 1 or stock_offcuts:
        apart = [_apart(face, one, size, system, trace) for face, one in zip(layout.faces, boxed, strict=True)]
    pooled = _pooled(pieces, stock_offcuts, effort, bound.count, size, [job for job, _ in apart])
    sawn = sawn_boards(size, pieces, stock_offcuts, pooled.sawn, worth)
    return BoardCutting(
        layout.pieces,
        tuple(one.item for one in pieces),
        sawn.places,
        sawn.blanks,
        sawn.patterns,
        pooled.bought,
        tuple(FaceCutting(job.bought, least) for job, least in apart or [(pooled, bound)]),
        bound,
        _cutting_bound(pooled, bound),
        _left(stock_offcuts, pooled.sawn),
        tuple(_findings(layout, faces, sawn.places, size)),
    )


def least_boards(layout: BoardLayout) -> int:
    """New boards that no layout can do without."""
    boxed = [_boxed(layout, face, cut_pieces(face, layout.system)) for face in layout.faces]
    return _bound(layout, boxed, (), SILENT).count


def _bound(
    layout: BoardLayout, boxed: Sequence[BoxedFace], stock_offcuts: Sequence[StockOffcut], trace: Trace
) -> LayoutBound:
    wall = BoundedWall(boxed, board_size(layout.system.board), stock_offcuts, "/elevations")
    return layout_bound(wall, _area(layout.faces, trace), layout.system, trace)


def quick_boards(layout: BoardLayout) -> int:
    """Boards of a layout in a quick search from new boards alone; to tell layouts apart."""
    size, cut_base = board_size(layout.system.board), layout.system.board.base_row_cut
    return quick_count(
        size,
        (
            item_of(piece, size, base=bool(base) and not cut_base)
            for face in layout.faces
            for piece, base in zip(face.pieces, feet_on_base(face.face, face.pieces), strict=True)
        ),
    )


def _findings(
    layout: BoardLayout, faces: Sequence[Sequence[CutPiece]], places: Sequence[PiecePlace], size: BoardSize
) -> Iterator[Finding]:
    start = 0
    for face, pieces in zip(layout.faces, faces, strict=True):
        own = places[start : start + len(pieces)]
        yield from cutting_findings(face, pieces, own, size, layout.system)
        start += len(pieces)


def _worth(system: System) -> Worth:
    board = system.board
    pitch = ticks(course_pitch_of(system))
    return Worth(ticks(board.minimum_piece_mm), pitch, ticks(board.kerf_mm), pitch)


Freed = dict[object, tuple[Released, ...]]
"""What pieces of each shape set free."""


def cut_pieces(face: FaceBoards, system: System, known: Freed | None = None) -> list[CutPiece]:
    """Pieces of a face with what they ask of a board and what they set free; pieces of one shape are looked at once, and those of
    ``known`` shapes, which grow, not again.
    """
    size, worth = board_size(system.board), _worth(system)
    free: Freed = known if known is not None else {}
    found = []
    for piece, base in zip(face.pieces, feet_on_base(face.face, face.pieces), strict=True):
        shape = (_rounded(piece), piece.lift) if piece.part.rings else ()
        if shape not in free:
            free[shape] = released_by(piece, worth)
        item = item_of(piece, size, base=bool(base) and not system.board.base_row_cut)
        found.append(CutPiece(piece, item, base, free[shape], in_corner_strip(piece, face.face, system.board)))
    return found


def _rounded(piece: Piece) -> tuple[tuple[tuple[int, int], ...], ...]:
    return tuple(tuple((round(x), round(y)) for x, y in ring) for ring in piece.shape)


def _apart(
    face: FaceBoards, boxed: BoxedFace, size: BoardSize, system: System, trace: Trace
) -> tuple[CutJob, LayoutBound]:
    """A face on its own, in a quick search: its plan, and the least that any layout of it needs."""
    bound = layout_bound(BoundedWall([boxed], size, (), face.face.pointer), _area([face], trace), system, trace)
    return cut_job(size, boxed.pieces, (), "quick", bound.count), bound


def _boxed(layout: BoardLayout, face: FaceBoards, pieces: Sequence[CutPiece]) -> BoxedFace:
    """A face for its bound: what its seams keep clear of opening corners counts in rows where they all do."""
    near = {
        name
        for item in layout.findings
        if item["code"] == _NEAR_A_CORNER and item["where"].get("elevation") == face.face.id
        for name in item["where"].get("pieces", [])
    }
    rows = {piece.row.number for piece in face.pieces if near and piece.id in near}
    clear = max(0.0, ticks(layout.system.board.seam_clear_of_corner_mm) - HAIRLINE)
    return BoxedFace(face.face, pieces, opening_corners(face.face), clear, rows)


_NEAR_A_CORNER: Final = "joint-at-opening-corner"


def _area(faces: Sequence[FaceBoards], trace: Trace) -> float:
    """Area of pieces, row by row: adding up rows keeps the rounding far below a square millimetre."""
    rows: dict[tuple[str, str, int], float] = {}
    for face in faces:
        for piece in face.pieces:
            key = (face.face.id, face.face.pointer, piece.row.number)
            rows[key] = rows.get(key, 0.0) + piece.part.area
    return trace.measure(
        "A", "m2", [(f"pieces of {name}, row {row}", square_metres(area), at) for (name, at, row), area in rows.items()]
    )


def _pooled(
    pieces: Sequence[CutPiece],
    stock: Sequence[StockOffcut],
    effort: Effort,
    floor: int,
    size: BoardSize,
    apart: Sequence[CutJob],
) -> CutJob:
    """All pieces together, or the faces' own plans one behind the other where they need fewer boards."""
    pooled = cut_job(size, pieces, stock, effort, floor)
    if not apart or sum(job.bought for job in apart) >= pooled.bought:
        return pooled
    sawn: list[Sawn] = []
    shift = 0
    for job in apart:
        sawn += [_shifted(one, shift) for one in job.sawn]
        shift += sum(len(one.pieces) for one in job.sawn)
    return replace(pooled, sawn=tuple(sawn), bought=sum(job.bought for job in apart))


def _shifted(sawn: Sawn, shift: int) -> Sawn:
    source = sawn.source
    if isinstance(source, Hole):
        source = Hole(source.piece + shift, source.rectangle)
    return Sawn(source, sawn.sheet, tuple(piece + shift for piece in sawn.pieces))


def _cutting_bound(job: CutJob, bound: LayoutBound) -> CuttingBound:
    """The bound for this list of pieces; what holds for any layout holds for it too."""
    plan, two_stage = job.plan, job.plan.two_stage_bound
    least = max(job.lower_bound, bound.count)
    status: Status = "proved" if job.bought == least else "work_limited"
    return CuttingBound(
        least,
        plan.bound if job.lower_bound >= bound.count else "any_layout",
        None if two_stage is None else two_stage + job.whole,
        status,
        plan.work,
    )


def _left(stock: Sequence[StockOffcut], sawn: Sequence[Sawn]) -> tuple[StockOffcut, ...]:
    """Stock offcuts that nothing is cut from."""
    used = stock_used(stock, sawn)
    return tuple(
        replace(one, count=one.count - used[index]) for index, one in enumerate(stock) if one.count > used[index]
    )
