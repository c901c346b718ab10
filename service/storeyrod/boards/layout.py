"""Laying boards: row by row from the lowest, every face in the plane of its boards, never across a movement joint."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from storeyrod.boards.findings import board_findings
from storeyrod.boards.meeting import with_neighbours
from storeyrod.boards.pieces import Piece, kind_of
from storeyrod.boards.rows import Ground, grounds_of, rows_of, runs_through
from storeyrod.boards.runs import Band, band_of, opening_corners, runs_of, start_of
from storeyrod.boards.seams import Limits, Run, seams_of
from storeyrod.boards.stagger import SeamLine, seam_line
from storeyrod.findings import Finding
from storeyrod.geometry.ticks import ticks
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.trace import SILENT, Trace
from storeyrod.wall.face import Face, Side
from storeyrod.wall.system import System
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


def lay_boards(wall: Wall, plans: Sequence[JointPlan], trace: Trace = SILENT) -> BoardLayout:
    """Boards of every face, with the bays of its joint plan; what they are cut from is for ``cutting_plan``."""
    through = runs_through(wall)
    faces = [
        _face_boards(wall, face, grounds_of(face, plan.slots, through))
        for face, plan in zip(wall.faces, plans, strict=True)
    ]
    findings = [item for face in faces for item in board_findings(face.face, face.pieces, face.seam_lines, wall)]
    return BoardLayout(tuple(faces), wall.system, tuple(findings))


def _face_boards(wall: Wall, face: Face, grounds: tuple[Ground, Ground]) -> FaceBoards:
    setting = _setting(wall.system, face)
    rows = rows_of(wall, grounds)
    pieces: list[Piece] = []
    lines: list[SeamLine] = []
    for row in rows:
        band = band_of(grounds[row.number % 2], row)
        below = lines[-1].at_head if lines else ((),) * (len(band.ground.slots) + 1)
        columns = _columns(setting, band, below)
        pieces += _pieces(setting, band, columns)
        lines.append(seam_line(band, _seams(columns, len(below))))
    areas = [(grounds[row.number % 2], row) for row in rows]
    return FaceBoards(
        face,
        with_neighbours(pieces),
        tuple(lines),
        sum(ground.gross_area(row) for ground, row in areas),
        sum(ground.net_area(row) for ground, row in areas),
        sum(ground.joint_area(row) for ground, row in areas),
    )


@dataclass(frozen=True, slots=True)
class _Setting:
    """What is the same for all rows of a face, in ticks."""

    elevation: str
    limits: Limits
    height: float
    start: Side
    corners: Sequence[tuple[float, float]]


def _setting(system: System, face: Face) -> _Setting:
    board = system.board
    limits = Limits(ticks(board.cover_length_mm), ticks(board.minimum_piece_mm), ticks(board.stagger_mm))
    return _Setting(face.id, limits, ticks(board.cover_height_mm), start_of(face), opening_corners(face))


@dataclass(frozen=True, slots=True)
class _Column:
    """The wall between two neighbouring seams, or a seam and an end of its run."""

    bay: int
    left: float
    right: float
    seam_left: bool
    seam_right: bool


def _columns(setting: _Setting, band: Band, below: Sequence[Sequence[float]]) -> list[_Column]:
    shift = round(setting.limits.board / 2.0) if band.row.number % 2 else 0.0
    columns = []
    for bay_run in runs_of(band, shift, setting.start, setting.corners, below):
        start, end = bay_run.left, bay_run.right
        for left, right in pairwise([start, *_run_seams(bay_run.run, setting), end]):
            columns.append(_Column(bay_run.bay, left, right, left > start, right < end))
    return columns


def _run_seams(run: Run, setting: _Setting) -> list[float]:
    if setting.start == "left":
        return seams_of(run, setting.limits)
    return [-seam for seam in reversed(seams_of(run.mirrored(), setting.limits))]


def _seams(columns: Sequence[_Column], bays: int) -> list[list[float]]:
    seams: list[list[float]] = [[] for _ in range(bays)]
    for column in columns:
        if column.seam_right:
            seams[column.bay].append(column.right)
    return seams


def _pieces(setting: _Setting, band: Band, columns: Sequence[_Column]) -> Iterator[Piece]:
    row, position = band.row, 0
    cells = band.ground.clad.cells(row.bottom, row.top, [(column.left, column.right) for column in columns])
    for column, parts in zip(columns, cells, strict=True):
        for part in parts:
            position += 1
            yield Piece(
                setting.elevation,
                row,
                position,
                column.bay,
                part,
                kind_of(part, setting.limits.board, setting.height),
                column.seam_left and part.left == column.left,
                column.seam_right and part.right == column.right,
            )
