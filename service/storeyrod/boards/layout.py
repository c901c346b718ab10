"""Laying boards: row by row from the lowest, every face in the plane of its boards, never across a movement joint."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from storeyrod.boards.findings import board_findings
from storeyrod.boards.first_widths import Limits, Run
from storeyrod.boards.offcut_pool import Need, OffcutPool
from storeyrod.boards.pieces import Kind, Piece, kind_of
from storeyrod.boards.rows import Ground, Row, grounds_of, rows_of, runs_through
from storeyrod.boards.runs import Band, BayRun, band_of, opening_corners, plain_seams, runs_of, start_of
from storeyrod.boards.seams import seams_of
from storeyrod.boards.stacking import stacked_seams
from storeyrod.boards.stagger import SeamLine, seam_line
from storeyrod.findings import Finding
from storeyrod.geometry.intervals import Interval
from storeyrod.geometry.parts import Part, made
from storeyrod.geometry.ticks import ticks
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.wall.face import Face, Side
from storeyrod.wall.system import Board, System
from storeyrod.wall.wall import Wall


@dataclass(frozen=True, slots=True)
class FaceBoards:
    """Boards of one face: pieces by row and position, seams, and areas in the board plane in square ticks."""

    face: Face
    pieces: tuple[Piece, ...]
    seam_lines: tuple[SeamLine, ...]
    gross_area: float
    net_area: float
    joint_area: float


@dataclass(frozen=True, slots=True)
class BoardLayout:
    """Boards of a wall: faces in request order, and what was found."""

    faces: tuple[FaceBoards, ...]
    system: System
    findings: tuple[Finding, ...]

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """All pieces, in request order of their faces."""
        return tuple(piece for face in self.faces for piece in face.pieces)


def lay_boards(wall: Wall, plans: Sequence[JointPlan], pool: OffcutPool | None = None) -> BoardLayout:
    """Boards of every face, with the bays of its joint plan; what they are cut from is for ``cutting_plan``.

    With a ``pool`` of offcuts, first widths that keep every rule are chosen by what their end pieces cost; the pool is used up.
    """
    through = runs_through(wall)
    laid: dict[str, tuple[FaceBoards, list[Finding]]] = {}
    for face, plan in sorted(zip(wall.faces, plans, strict=True), key=lambda one: one[0].id):
        laid[face.id] = lay_face(wall, grounds_of(face, plan.slots, through), face, pool)
    faces = [laid[face.id] for face in wall.faces]
    return BoardLayout(
        tuple(boards for boards, _ in faces), wall.system, tuple(item for _, found in faces for item in found)
    )


def lay_face(
    wall: Wall, grounds: tuple[Ground, Ground], face: Face, pool: OffcutPool | None
) -> tuple[FaceBoards, list[Finding]]:
    """Boards of one face, and what was found on it; faces share nothing but the pool."""
    setting = _setting(wall, face, grounds, pool)
    boards = _face_boards(wall, face, grounds, setting)
    return boards, board_findings(face, boards.pieces, boards.seam_lines, setting.corners, wall)


def limits_of(board: Board, *, stacked: bool = False) -> Limits:
    """What seams must keep; stacked ones keep no stagger."""
    return Limits(
        ticks(board.cover_length_mm),
        ticks(board.minimum_piece_mm),
        ticks(board.minimum_arm_mm),
        0.0 if stacked else ticks(board.stagger_mm),
        ticks(board.seam_clear_of_corner_mm),
    )


class _Setting(NamedTuple):
    """What is the same for all rows of a face, in ticks; ``plain`` holds the plain seams of even and of odd rows."""

    elevation: str
    limits: Limits
    height: float
    start: Side
    corners: Sequence[tuple[float, float]]
    plain: tuple[Sequence[float], Sequence[float]]
    pool: OffcutPool | None


def _setting(wall: Wall, face: Face, grounds: tuple[Ground, Ground], pool: OffcutPool | None) -> _Setting:
    board = wall.system.board
    stacked = (face.elevation.board_seams or board.seams) == "stacked"
    limits = limits_of(board, stacked=stacked)
    start, corners = start_of(face), opening_corners(face)
    if stacked:
        seams = stacked_seams(face, grounds, limits, start, corners)
        return _Setting(face.id, limits, ticks(board.cover_height_mm), start, corners, (seams, seams), None)
    even, odd = grounds
    plain = (
        plain_seams(even, limits.board, start, half=False),
        plain_seams(odd, limits.board, start, half=True),
    )
    return _Setting(face.id, limits, ticks(board.cover_height_mm), start, corners, plain, pool)


def _face_boards(wall: Wall, face: Face, grounds: tuple[Ground, Ground], setting: _Setting) -> FaceBoards:
    bands = [band_of(grounds[row.number % 2], row) for row in rows_of(wall, grounds)]
    pieces: list[Piece] = []
    lines: list[SeamLine] = []
    areas, nothing = [0.0, 0.0, 0.0], ((),) * (len(grounds[0].slots) + 1)
    for below, band, above in zip((None, *bands), bands, (*bands[1:], None), strict=False):
        row = band.row
        beneath = below.at_head if below is not None and below.row.top == row.bottom else ()
        over = above.at_foot if above is not None and above.row.bottom == row.top else ()
        columns = _columns(setting, band, lines[-1].at_head if beneath else nothing)
        pieces += _pieces(setting, band, columns, beneath, over)
        lines.append(seam_line(band, _seams(columns, len(nothing))))
        _add_areas(areas, band.ground, below.row.top if below is not None else row.bottom, row)
    gross, net, clad = areas
    return FaceBoards(face, tuple(pieces), tuple(lines), gross, net, net - clad)


def _add_areas(areas: list[float], ground: Ground, reached: float, row: Row) -> None:
    """Add the areas of a row, and of the storey joint below it, which boards leave open."""
    for index, area in enumerate(ground.areas(row.bottom, row.top)):
        areas[index] += area
    if reached < row.bottom:
        gross, net, _ = ground.areas(reached, row.bottom)
        areas[0] += gross
        areas[1] += net


_Column = tuple[int, float, float, bool, bool]
"""Wall between two neighbouring seams, or a seam and an end of its run: bay, left, right, and whether each side is a seam."""


def _columns(setting: _Setting, band: Band, below: Sequence[Sequence[float]]) -> list[_Column]:
    """Columns of a row from left to right; runs are taken from the end where the gang starts, since they share a pool."""
    runs = runs_of(band, setting.plain[band.row.number % 2], setting.corners, below)
    order = 1 if setting.start == "left" else -1
    rows = [_run_columns(setting, one) for one in runs[::order]]
    return [column for columns in rows[::order] for column in columns]


def _run_columns(setting: _Setting, bay_run: BayRun) -> list[_Column]:
    bay, left, right, run = bay_run
    columns: list[_Column] = []
    start, is_seam = left, False
    for seam in _run_seams(run, setting) if right - left > setting.limits.board else ():
        columns.append((bay, start, seam, is_seam, True))
        start, is_seam = seam, True
    columns.append((bay, start, right, is_seam, False))
    if setting.pool is not None and run.height == setting.height:
        for _, start, end, is_seam, is_left_of_seam in columns[:: 1 if setting.start == "left" else -1]:
            if end - start < setting.limits.board:
                mirrored = setting.start == "right"
                sides = (is_left_of_seam, is_seam) if mirrored else (is_seam, is_left_of_seam)
                setting.pool.take(Need(end - start, *sides))
    return columns


def _run_seams(run: Run, setting: _Setting) -> list[float]:
    if setting.start == "left":
        return seams_of(run, setting.limits, setting.pool)
    return [-seam for seam in reversed(seams_of(run.mirrored(), setting.limits, setting.pool))]


def _seams(columns: Sequence[_Column], bays: int) -> list[list[float]]:
    seams: list[list[float]] = [[] for _ in range(bays)]
    for bay, _, right, _, is_seam in columns:
        if is_seam:
            seams[bay].append(right)
    return seams


def _pieces(
    setting: _Setting,
    band: Band,
    columns: Sequence[_Column],
    beneath: Sequence[Interval],
    over: Sequence[Interval],
) -> Iterator[Piece]:
    """The pieces of a row, column by column from the left."""
    row, name, clear, index, position = band.row, setting.elevation, band.clear, 0, 0
    _, bottom, top = row
    board, whole = setting.limits.board, top - bottom == setting.height
    for bay, left, right, seam_left, seam_right in columns:
        while index < len(clear) and clear[index][1] < right:
            index += 1
        if index < len(clear) and clear[index][0] <= left:
            position += 1
            part = made(Part, (left, bottom, right, top, (right - left) * (top - bottom), ()))
            kind: Kind = "full" if whole and right - left == board else "cut"
            yield made(Piece, (name, row, position, bay, part, kind, seam_left, seam_right, beneath, over))
            continue
        for part in band.parts(left, right):
            position += 1
            kind = "shaped" if part.shape and band.levels is not None else kind_of(part, board, setting.height)
            ends = seam_left and part.left == left, seam_right and part.right == right
            yield Piece(name, row, position, bay, part, kind, *ends, beneath, over)
